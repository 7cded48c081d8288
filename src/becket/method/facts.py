"""The facts of one change, before any step is written.

In:    a crane book, settings, two states, a site, and what is known of the lifts around the change.
Out:   paths, position, rope to leave, the way down and up, minutes, and what is missing.
Never: steps, rules, a pattern that is not on file.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from becket.book.crane import Book
from becket.book.tackle import Keeper, Pattern, State
from becket.mechanics.reach import first_arc, rope_out, wraps_length
from becket.method.hanging import hanging_of
from becket.method.leave import RopeToLeave, Way, missing_for_leave, rope_to_leave, way_of
from becket.method.lowering import STEP, Lowering, lower_and_raise
from becket.method.minutes import (
    Minutes,
    PulledThrough,
    Tally,
    count_minutes,
    derricked,
    keepers_moved,
    rope_pulled,
    telescoped,
)
from becket.method.position import PositionAnswer, find_position
from becket.method.site import Site
from becket.method.stance import longest_lead
from becket.reeving.change import PathChange, path_change
from becket.reeving.pattern import find_pattern
from becket.reeving.seal import is_confirmed
from becket.settings.values import Settings
from becket.verdict import Verdict


@dataclass(frozen=True, kw_only=True)
class Around:
    """What is known of the lifts around a change and of the crew."""

    boom_before: float | None = None  # boom length of the lift before [m]
    boom_after: float | None = None  # of the lift after [m]
    carried: str | None = None  # where the other block is kept: "crane", "lorry", "yard"
    records: Sequence[float] = ()  # how long the crew took for this change before, each [s]


@dataclass(frozen=True, kw_only=True)
class Reason:
    """One thing that keeps a change from passing, with what is missing and where to find it."""

    name: str
    verdict: Verdict
    why: str


@dataclass(frozen=True, kw_only=True)
class Facts:
    """A change as far as it can be worked out. None: what stands in ``reasons`` keeps it from being known."""

    before: State
    after: State
    site: Site
    before_pattern: Pattern | None
    after_pattern: Pattern | None
    is_confirmed: bool  # both patterns, against the manual
    path: PathChange | None
    position: PositionAnswer
    way: Way | None
    leave: RopeToLeave | None
    lowering: Lowering | None
    pulled: tuple[PulledThrough, ...]  # metres at each pass, in the order of the work
    minutes: Minutes | None
    rope_needed: float | None  # on the drum when the winch is locked, least wraps counted; None: not known [m]
    reasons: tuple[Reason, ...]

    @property
    def rope_pulled(self) -> float | None:
        """Metres pulled through in all, pass by pass; None: not known [m]."""
        return sum(p.metres for p in self.pulled) if self.way is not None and self.path is not None else None


def gather_facts(
    book: Book,
    settings: Settings,
    states: tuple[State, State],
    site: Site,
    around: Around | None = None,
    *,
    step: float = STEP,
) -> Facts:
    """Return the facts of a change from one state to another [SI].

    Args:
        book: the crane book
        settings: values of the method
        states: what hangs now, what is to hang
        site: counterweight, outriggers, room, ground
        around: the lifts before and after, the crew's records
        step: of the boom's angle between samples of the way [rad]

    Raises:
        NotOnFileError: a block is not in the book.

    Source: docs/theory/method.md.
    """
    around = around or Around()
    before, after = states
    patterns = (find_pattern(book, before), find_pattern(book, after))
    path = _path(book, patterns)
    position = find_position(book, settings, before, after, site)
    way = _way(book, settings, states, site, position)
    leave = rope_to_leave(way) if way is not None else None
    pulled = _pulled(book, way, path)
    facts = Facts(
        before=before,
        after=after,
        site=site,
        before_pattern=patterns[0],
        after_pattern=patterns[1],
        is_confirmed=all(p is not None and is_confirmed(book, p) for p in patterns),
        path=path,
        position=position,
        way=way,
        leave=leave,
        lowering=_lowering(way, leave, step),
        pulled=pulled,
        minutes=_minutes(settings, way, path, pulled, around),
        rope_needed=_rope_needed(book, way, leave),
        reasons=(),
    )
    return with_reasons(book, facts)


def with_reasons(book: Book, facts: Facts) -> Facts:
    """Return the facts with everything that keeps the change from passing [-].

    Args:
        book: the crane book
        facts: as worked out

    Source: docs/theory/method.md, "What is needed".
    """
    reasons = [reason for ask in _QUESTIONS for reason in ask(book, facts)]
    return replace(facts, reasons=tuple(reasons))


def keepers_out(path: PathChange) -> tuple[Keeper, ...]:
    """Return the keepers that come out for a change, each once [-].

    Args:
        path: the change of path

    Source: docs/theory/method.md, "Minutes".
    """
    return tuple({k.name: k for k in path.keepers}.values())


def stops_between(book: Book, facts: Facts) -> tuple[State, ...]:
    """Return the confirmed states between the two from and to which the rope to leave exists, fewest falls first [-].

    Args:
        book: the crane book
        facts: with a way

    Source: docs/theory/method.md, "Rope to leave".
    """
    way = facts.way
    if way is None or facts.before.block != facts.after.block:
        return ()
    least, most = sorted((facts.before.falls, facts.after.falls))
    states = {
        p.state
        for p in book.patterns
        if p.block == facts.before.block and least < p.falls < most and is_confirmed(book, p)
    }
    legs = {state: hanging_of(book, state) for state in sorted(states)}
    return tuple(
        state
        for state, hanging in legs.items()
        if rope_to_leave(replace(way, after=hanging)).verdict is Verdict.PASS
        and rope_to_leave(replace(way, now=hanging)).verdict is Verdict.PASS
    )


def _way(
    book: Book, settings: Settings, states: tuple[State, State], site: Site, position: PositionAnswer
) -> Way | None:
    if position.position is None or missing_for_leave(book):
        return None
    return way_of(book, settings, position.position, (hanging_of(book, states[0]), hanging_of(book, states[1])), site)


def _path(book: Book, patterns: tuple[Pattern | None, Pattern | None]) -> PathChange | None:
    before, after = patterns
    return path_change(book, before, after) if before and after and before.state != after.state else None


def _lowering(way: Way | None, leave: RopeToLeave | None, step: float) -> Lowering | None:
    if way is None or leave is None or not leave.target:
        return None
    return lower_and_raise(way, leave.target, step)


def _rope_needed(book: Book, way: Way | None, leave: RopeToLeave | None) -> float | None:
    """Return the rope from the drum to its end when the winch is locked, and the least wraps [m]."""
    wraps, tail = book.winch.least_wraps, book.dead_end.tail
    if way is None or leave is None or leave.target is None or wraps is None or tail is None:
        return None
    lead = longest_lead(way.stance, way.start)
    if lead is None:
        return None
    first = first_arc(way.start, book.head.sheave_diameter)
    out = rope_out(lead, first, way.now.falls, leave.target, way.now.arcs, tail)
    return out + wraps_length(wraps, book.winch.drum.diameter, book.rope.diameter)


def _pulled(book: Book, way: Way | None, path: PathChange | None) -> tuple[PulledThrough, ...]:
    if way is None or path is None:
        return ()
    return rope_pulled(way, (path.before.path, path.after.path), len(path.keep), book.dead_end.tail or 0.0)


def _minutes(
    settings: Settings, way: Way | None, path: PathChange | None, pulled: tuple[PulledThrough, ...], around: Around
) -> Minutes | None:
    if way is None or path is None:
        return None
    metres, not_counted = telescoped(around.boom_before, way.stance.length, around.boom_after)
    if path.block_changes and around.carried is None:
        not_counted += ("fetching the block: where it is kept is not given",)
    tally = Tally(
        telescoped=metres,
        derricked=derricked(way),
        keepers=keepers_moved(path.keepers),
        passes_out=len(path.draw_out),
        passes_in=len(path.thread),
        metres=sum(p.metres for p in pulled),
        block_changes=path.block_changes,
        from_lorry=around.carried == "lorry",
    )
    return count_minutes(settings, tally, around.records, not_counted)


def _same_state(book: Book, facts: Facts) -> list[Reason]:
    if facts.before != facts.after:
        return []
    why = f"from {facts.before} to {facts.after}: the same state twice, there is nothing to change"
    return [Reason(name="same state", verdict=Verdict.FAIL, why=why)]


def _patterns_on_file(book: Book, facts: Facts) -> list[Reason]:
    manual = book.manual_title + (f", issue {book.manual_issue}" if book.manual_issue else "")
    reasons = []
    for state, pattern in ((facts.before, facts.before_pattern), (facts.after, facts.after_pattern)):
        if pattern is None:
            why = (
                f"patterns: {state} is not on file; look in {manual} for the page that shows block {state.block} on "
                f"{state.falls} fall{'s' if state.falls != 1 else ''}, type it into the book, and have it confirmed"
            )
            reasons.append(Reason(name="pattern", verdict=Verdict.UNKNOWN, why=why))
        elif not is_confirmed(book, pattern):
            why = (
                f"patterns: {state} is NOT CONFIRMED AGAINST THE MANUAL; a second person reads page "
                f"{pattern.page or 'of the pattern (not on file)'} of {manual} and confirms it"
            )
            reasons.append(Reason(name="pattern", verdict=Verdict.UNKNOWN, why=why))
    return reasons


def _second_line_on_file(book: Book, facts: Facts) -> list[Reason]:
    if book.second_line is not None:
        return []
    why = (
        "second_line: not on file; look what hangs on the other winch's rope: it counts against the rated load and "
        "hangs from the head; second_line: none says that there is none"
    )
    return [Reason(name="second line", verdict=Verdict.UNKNOWN, why=why)]


def _keepers_on_file(book: Book, facts: Facts) -> list[Reason]:
    if book.keepers_on_file:
        return []
    why = (
        "keepers: not on file; see the manual's drawings of head and block, and the crane itself; "
        "keepers: [] says that there are none"
    )
    return [Reason(name="keepers", verdict=Verdict.UNKNOWN, why=why)]


def _keepers_hold(book: Book, facts: Facts) -> list[Reason]:
    return [
        Reason(
            name="keepers",
            verdict=Verdict.UNKNOWN,
            why=f"keepers: {keeper.name} at the {keeper.at} holds nothing; name the sheaves it holds",
        )
        for keeper in book.keepers
        if keeper.at != "dead end" and not keeper.holds
    ]


def _position_found(book: Book, facts: Facts) -> list[Reason]:
    if facts.position.position is not None:
        return []
    why = facts.position.why_no_position or "no permitted position"
    return [Reason(name="position", verdict=facts.position.verdict, why=why)]


def _figures_for_leave(book: Book, facts: Facts) -> list[Reason]:
    return [
        Reason(name="rope to leave", verdict=Verdict.UNKNOWN, why=f"{field}: not on file; see the manual or measure")
        for field in missing_for_leave(book)
    ]


def _rope_is_left(book: Book, facts: Facts) -> list[Reason]:
    if facts.leave is None or facts.leave.verdict is Verdict.PASS:
        return []
    between = " or ".join(str(state) for state in stops_between(book, facts))
    why = facts.leave.why + (f"; a stop between that does, by its rope: {between}" if between else "")
    return [Reason(name="rope to leave", verdict=facts.leave.verdict, why=why)]


def _run_is_clear(book: Book, facts: Facts) -> list[Reason]:
    findings = facts.lowering.findings if facts.lowering is not None else ()
    return [Reason(name=f.name, verdict=f.verdict, why=f.why) for f in findings if f.verdict is not Verdict.PASS]


def _ends_are_on_file(book: Book, facts: Facts) -> list[Reason]:
    """Return what is not on file about the rope's end and the switch weight [-]."""
    if facts.path is None:
        return []
    parity = "odd" if facts.after.falls % 2 else "even"
    fields = {
        f"switch.weight_on.{parity}": (facts.path.switch_weight_after, "hoist limit switch"),
        "dead_end.goes_through_sheaves": (facts.path.fitting_comes_off, "dead end"),
        "dead_end.tail": (book.dead_end.tail, "dead end"),
    }
    return [
        Reason(
            name="dead end", verdict=Verdict.UNKNOWN, why=f"{field}: not on file; see the manual's page on the {page}"
        )
        for field, (value, page) in fields.items()
        if value is None
    ]


def _rope_is_long_enough(book: Book, facts: Facts) -> list[Reason]:
    """Return whether the rope runs out at the re-reeving position, least wraps kept [-]."""
    if facts.leave is None or facts.leave.target is None:
        return []
    if facts.rope_needed is None or book.rope.length is None:
        missing = "rope.length" if book.rope.length is None else "winch.at, winch.least_wraps or dead_end.tail"
        why = f"{missing}: not on file; whether the rope reaches the re-reeving position is not known"
        return [Reason(name="rope length", verdict=Verdict.UNKNOWN, why=why)]
    if facts.rope_needed <= book.rope.length:
        return []
    why = (
        f"rope.length: {book.rope.length:.1f} m; {facts.rope_needed:.1f} m are needed at the re-reeving position with "
        f"{book.winch.least_wraps} wraps kept on the drum"
    )
    return [Reason(name="rope length", verdict=Verdict.FAIL, why=why)]


_QUESTIONS = (
    _same_state,
    _patterns_on_file,
    _second_line_on_file,
    _keepers_on_file,
    _keepers_hold,
    _position_found,
    _figures_for_leave,
    _rope_is_left,
    _run_is_clear,
    _ends_are_on_file,
    _rope_is_long_enough,
)
