"""Blocks, keepers, switch, patterns: what the rope is reeved through, as the manual prints it.

In:    SI figures.
Out:   frozen records; a figure that is not on file is None.
Never: files, units, computing, proposing a pattern.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from becket.book.boom import Anchor


@dataclass(frozen=True, kw_only=True, order=True)
class State:
    """Which block hangs and on how many falls, written ``main:4``."""

    block: str
    falls: int

    def __str__(self) -> str:
        return f"{self.block}:{self.falls}"


@dataclass(frozen=True, kw_only=True)
class Block:
    """A hook block, or the ball of a single line (no sheaves)."""

    name: str
    rated: float | None  # [kg]
    mass: float | None  # with the ballast that is on it [kg]
    rope_diameter: float | None  # groove or socket made for [m]
    sheaves: Mapping[int, float]  # number -> sideways offset [m]
    sheave_diameter: float | None  # pitch diameter [m]
    becket: Anchor | None  # place of a dead end on the block
    hook: float | None  # sheave shaft to hook saddle [m]
    touches: float | None  # shaft above ground when the hook first touches [m]
    stands: float | None  # shaft above ground when set down, steadied [m]
    clear: float | None  # least shaft to shaft distance, head over the standing block [m]
    mass_centre: float | None  # of the empty block, below the shaft [m]
    swivel: bool | None


@dataclass(frozen=True, kw_only=True)
class Switch:
    """The hoist limit switch."""

    trips: float | None  # shaft to shaft distance at which it stops the crane [m]
    margin: float | None  # kept beyond it [m]
    stops: tuple[str, ...]  # motions
    weight_on_even: str | None  # line that its weight hangs on, even falls
    weight_on_odd: str | None
    weight_source: str | None


@dataclass(frozen=True, kw_only=True)
class Indicator:
    """What is set on the load indicator after a change."""

    asks: tuple[str, ...]
    page: str | None


@dataclass(frozen=True, kw_only=True)
class Override:
    """One motion that the manual lets an override key release while re-reeving."""

    stops: str  # the motion
    when: tuple[str, ...]  # states in which it is allowed
    page: str | None


@dataclass(frozen=True, kw_only=True)
class Keeper:
    """Any pin, bar or plate that holds rope in a groove, or the dead end in its anchor."""

    name: str
    at: str  # "head", "block" or "dead end"
    block: str | None  # which block, where ``at`` is "block"
    holds: tuple[int, ...]  # sheave numbers
    draw: str  # "tight" or "slack": the state of the rope in which it can be drawn
    lock: str | None  # how it locks: the clip


@dataclass(frozen=True, kw_only=True)
class Pass:
    """One sheave that the rope goes over."""

    place: str  # "head" or "block"
    sheave: int

    def __str__(self) -> str:
        return f"{self.place} {self.sheave}"


@dataclass(frozen=True, kw_only=True)
class Typed:
    """Who typed a pattern, and when."""

    by: str
    date: str


@dataclass(frozen=True, kw_only=True)
class Confirmed:
    """Who confirmed a pattern against the page, when, and the seal over what was confirmed."""

    by: str
    date: str
    seal: str | None


@dataclass(frozen=True, kw_only=True)
class Pattern:
    """One reeving pattern of the manual, rope from the drum outward."""

    block: str
    falls: int
    path: tuple[Pass, ...]
    dead_end: str  # "block", or "head NAME" with the anchor's name
    page: str | None
    typed: Typed | None
    confirmed: Confirmed | None
    picture: str | None

    @property
    def state(self) -> State:
        """The state that this pattern is for [-]."""
        return State(block=self.block, falls=self.falls)
