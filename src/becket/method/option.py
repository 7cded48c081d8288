"""Whether a change is possible on a site, and how long it takes there: for planning.

In:    a crane book, settings, two states, a site, the boom lengths around the change.
Out:   a verdict, seconds, and why.
Never: a pass for anything unknown; money; which place is best.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import inf, radians

from becket.book.crane import Book
from becket.book.tackle import State
from becket.method.facts import Facts, gather_facts
from becket.method.minutes import telescoped
from becket.method.site import Site
from becket.settings.values import Settings
from becket.verdict import Verdict, worst

_STEP = radians(2)  # the moments of the way are found inside the step; only the samples between them are fewer


@dataclass(frozen=True, kw_only=True)
class ChangeOption:
    """One possible change."""

    verdict: Verdict
    minutes: float  # infinite where it is not possible [s]
    why: str


@dataclass(frozen=True, kw_only=True)
class ChangeRoom:
    """Whether a change is possible on a site, whatever the lifts around it: worth keeping, it is what costs."""

    verdict: Verdict
    why: str
    length: float | None  # boom length of the position [m]
    minutes: float  # telescoping and a block from its lorry not counted; infinite where it is not possible [s]
    block_changes: bool


def change_option(
    book: Book,
    settings: Settings,
    before: State,
    after: State,
    site: Site,
    *,
    boom_before: float | None,
    boom_after: float | None,
    carried: str | None,
) -> ChangeOption:
    """Return whether a change passes on a site and how long it takes [s].

    Args:
        book: the crane book
        settings: values of the method
        before: what hangs now
        after: what is to hang
        site: counterweight, outriggers, room, ground
        boom_before: boom length of the lift before; None: no telescoping counted [m]
        boom_after: boom length of the lift after; None: no telescoping counted [m]
        carried: where the other block is kept: "crane", "lorry", "yard"; None: not given

    Raises:
        NotOnFileError: a block is not in the book.

    Source: docs/theory/method.md, "Minutes".
    """
    room = change_room(book, settings, before, after, site)
    return option_in(settings, room, boom_before=boom_before, boom_after=boom_after, carried=carried)


def change_room(book: Book, settings: Settings, before: State, after: State, site: Site) -> ChangeRoom:
    """Return whether a change passes on a site, whatever the lifts around it [s].

    Args:
        book: the crane book
        settings: values of the method
        before: what hangs now
        after: what is to hang
        site: counterweight, outriggers, room, ground

    Raises:
        NotOnFileError: a block is not in the book.

    Source: docs/theory/method.md, "Position" and "Rope to leave".
    """
    facts = gather_facts(book, settings, (before, after), site, step=_STEP)
    verdict = worst([*(r.verdict for r in facts.reasons), Verdict.PASS])
    possible = verdict is Verdict.PASS and facts.minutes is not None
    position = facts.position.position
    return ChangeRoom(
        verdict=verdict,
        why=_why(facts),
        length=position.length if position is not None else None,
        minutes=facts.minutes.by_settings if possible and facts.minutes is not None else inf,
        block_changes=before.block != after.block,
    )


def option_in(
    settings: Settings,
    room: ChangeRoom,
    *,
    boom_before: float | None,
    boom_after: float | None,
    carried: str | None,
) -> ChangeOption:
    """Return the option that a room gives between two lifts [s].

    Args:
        settings: time of telescoping and of a block from its lorry
        room: whether the change passes on the site
        boom_before: boom length of the lift before; None: no telescoping counted [m]
        boom_after: boom length of the lift after; None: no telescoping counted [m]
        carried: where the other block is kept: "crane", "lorry", "yard"; None: not given

    Source: docs/theory/method.md, eq. 14.
    """
    if room.verdict is not Verdict.PASS or room.length is None:
        return ChangeOption(verdict=room.verdict, minutes=inf, why=room.why)
    if room.block_changes and carried is None:
        why = "carried: where the other block is kept is not given; the job sheet says crane, lorry or yard"
        return ChangeOption(verdict=Verdict.UNKNOWN, minutes=inf, why=why)
    metres, _ = telescoped(boom_before, room.length, boom_after)
    from_lorry = settings.block_from_lorry if room.block_changes and carried == "lorry" else 0.0
    minutes = room.minutes + metres / settings.telescope_speed + from_lorry
    return ChangeOption(verdict=Verdict.PASS, minutes=minutes, why=room.why)


def _why(facts: Facts) -> str:
    if facts.reasons:
        return "; ".join(r.why for r in facts.reasons)
    position, leave = facts.position.position, facts.leave
    if position is None or leave is None or leave.target is None:
        return "not worked out"
    return (
        f"{position.length:.1f} m over the {position.sector}, page {position.page}; "
        f"needs {position.free_radius_needed:.1f} m of free radius; hook {leave.target:.2f} m under the head"
    )
