"""The state of the crane while it is re-reeved, and the deeds that change it.

In:    nothing.
Out:   frozen records: what stands how, what was done.
Never: whether a deed is allowed, words for people.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from becket.book.tackle import Pass

HEAD_ANCHORS = "head"


@dataclass(frozen=True, kw_only=True)
class Deed:
    """One elementary act. ``of`` names the keeper, pass or thing that it is done to."""

    kind: str
    of: str = ""

    def __str__(self) -> str:
        return f"{self.kind} {self.of}".strip()


@dataclass(frozen=True, kw_only=True)
class CraneState:
    """Everything that a rule of the method asks about. Nothing moves between two deeds."""

    boom: str = "work"  # work, set, touch, weight window, low, tight, up
    controls: str = "live"  # live, isolated
    winch: str = "free"  # free, locked
    block: str = "hangs"  # hangs, stands, steadied, away (taken away, the other not yet here)
    hanging: str  # name of the block under the head; "": none
    falls: str = "tight"  # tight, slack
    area: bool = False
    length_set: bool = False
    hook_set: bool = False  # void again on telescoping
    path: tuple[Pass, ...]  # passes that the rope runs over, from the drum
    dead_end: str | None  # place; None: free
    rope_end: str = "fixed"  # fixed, held
    keepers_out: frozenset[str] = frozenset()
    clips_out: frozenset[str] = frozenset()
    weight: str = "line"  # line, off
    weight_line: str | None
    switch: str = "unproved"  # unproved, proved, dead, tried by hand
    override: str = "off"  # off, on
    rigger: str = "clear"  # clear, in
    operator: str = "cab"  # cab, ground
    indicator: str = "old"  # old, set
    done: frozenset[Deed] = frozenset()

    def with_done(self, deed: Deed) -> CraneState:
        """Return the state with a deed on the record [-].

        Args:
            deed: that was done
        """
        return replace(self, done=self.done | {deed})

    def has_done(self, kind: str, of: str = "") -> bool:
        """Return whether a deed is on the record [-].

        Args:
            kind: of deed
            of: what it was done to
        """
        return Deed(kind=kind, of=of) in self.done
