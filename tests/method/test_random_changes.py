"""Invariants of position, rope to leave and the way, over random cranes."""

from __future__ import annotations

from dataclasses import replace
from math import hypot, isfinite, radians

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from becket.book.crane import Book
from becket.book.tackle import Pass, Pattern, State
from becket.mechanics.boom import head_place
from becket.method.facts import Facts, gather_facts
from becket.method.site import Site
from becket.verdict import Verdict
from tests.crane import invented_settings, sealed
from tests.method.golden_crane import golden_book

SETTINGS = invented_settings()
MOST_FALLS = 16
OFFSETS = {n: round(-0.44 + 0.11 * (n - 1), 2) for n in range(1, 10)}


def pattern(falls: int) -> Pattern:
    """Return a path that is only long enough: the random crane's manual, typed for the test [-]."""
    path = tuple(Pass(place="head" if i % 2 == 0 else "block", sheave=i // 2 + 1) for i in range(falls))
    known = golden_book().patterns[1]
    return replace(known, falls=falls, path=path, dead_end="block" if falls % 2 else "head b")


@st.composite
def books(draw: st.DrawFn, knows_drum: bool = False) -> Book:
    def between(low: float, high: float) -> float:
        return draw(st.floats(low, high, allow_nan=False))

    book = golden_book()
    stands, low = between(0.2, 0.6), radians(between(-4, -1))
    main = replace(
        book.blocks["main"],
        mass=between(100, 1100),
        stands=stands,
        touches=stands + between(0.1, 0.8),
        clear=between(0.3, 0.8),
        sheave_diameter=between(0.2, 0.7),
        sheaves=OFFSETS,
    )
    has_place = knows_drum or draw(st.booleans())
    winch = replace(
        book.winch,
        at_x=between(-5, -1) if has_place else None,
        at_z=between(1.5, 5) if has_place else None,
        lead_run=None if has_place else between(0.5, 4),
    )
    boom = replace(
        book.boom,
        foot_z=between(2.0, 3.6),
        head_drop=between(0.1, 0.9),
        sag={length: between(0.0, 0.5) for length in (26.2, 33.4, 34.0)},
        lowest={"side": low, "rear": radians(2.0)},
    )
    book = replace(
        book,
        boom=boom,
        winch=winch,
        head=replace(book.head, sheaves=OFFSETS, sheave_diameter=between(0.2, 0.7)),
        blocks={**book.blocks, "main": main},
        switch=replace(book.switch, trips=between(0.6, 2.0), margin=between(0.1, 0.6)),
        rereeve=tuple(replace(row, lowest=low) if row.sector == "side" else row for row in book.rereeve),
        patterns=tuple(pattern(n) for n in range(1, MOST_FALLS + 1)),
    )
    return sealed(book)


FALLS = st.tuples(st.integers(1, MOST_FALLS), st.integers(-4, 3)).map(
    lambda pair: (pair[0], min(MOST_FALLS, max(1, sum(pair))))
)
GROUND = st.floats(-0.6, 0.6)


def facts_of(book: Book, falls: tuple[int, int], ground: float) -> Facts:
    states = State(block="main", falls=falls[0]), State(block="main", falls=falls[1])
    return gather_facts(book, SETTINGS, states, Site(counterweight=9000.0, outriggers="full", ground=ground))


@given(book=books(), falls=FALLS, ground=GROUND)
@settings(derandomize=True, deadline=None, max_examples=120)
def test_least_target_most_or_a_reason(book: Book, falls: tuple[int, int], ground: float) -> None:
    found = facts_of(book, falls, ground)
    if found.leave is None:
        assert any(r.name == "position" for r in found.reasons)
    assume(found.leave is not None)
    leave = found.leave
    assert leave is not None
    if leave.target is None:
        assert leave.least > leave.most
        assert any(r.name == "rope to leave" for r in found.reasons)
        return
    assert leave.least <= leave.target <= leave.most
    assert isfinite(leave.target)


@given(book=books(), falls=FALLS, ground=GROUND)
@settings(derandomize=True, deadline=None, max_examples=120)
def test_position_is_one_of_the_permitted_and_inside_its_limits(
    book: Book, falls: tuple[int, int], ground: float
) -> None:
    position = facts_of(book, falls, ground).position.position
    assume(position is not None)
    assert position is not None
    rows = [
        r for r in book.rereeve if (r.length, r.sector, r.counterweight) == (position.length, position.sector, 9000.0)
    ]
    assert rows
    assert rows[0].lowest - 1e-9 <= position.angle <= rows[0].highest + 1e-9
    assert position.head_window[0] - 1e-6 <= position.head_height <= position.head_window[1] + 1e-6
    assert position.load <= position.rated


@given(book=books(knows_drum=True), falls=FALLS)
@settings(derandomize=True, deadline=None, max_examples=120)
def test_rope_is_conserved_and_the_block_stays_on_the_ground(book: Book, falls: tuple[int, int]) -> None:
    """Drum to dead end to 1 mm, where the drum's place is on file, through the whole run."""
    found = facts_of(book, falls, 0.0)
    assume(found.lowering is not None)
    assert found.lowering is not None
    assert found.way is not None
    assert book.winch.at_x is not None
    assert book.winch.at_z is not None
    totals = []
    for s in found.lowering.samples:
        head = head_place(found.way.stance.length, s.angle, (book.boom.foot_x, book.boom.foot_z), book.boom.head_drop)
        lead = hypot(head[0] - book.winch.at_x, head[1] - book.winch.at_z)
        totals.append(lead + s.arcs + s.falls * (s.head_height - s.block_height) + s.slack)
        assert s.slack >= 0.0
        assert s.slack < 1e-5 or s.block == "stands"
        assert s.block_height >= (book.blocks["main"].stands or 0.0) - 1e-9
    assert max(totals) - min(totals) < 1e-3


@given(book=books(), falls=FALLS)
@settings(derandomize=True, deadline=None, max_examples=120)
def test_bounds_keep_what_they_promise_in_the_run(book: Book, falls: tuple[int, int]) -> None:
    """At the target the run shows no two-block, a lift-off, a block not dragged and rope left to thread."""
    found = facts_of(book, falls, 0.0)
    assume(found.lowering is not None)
    assert found.lowering is not None
    verdicts = {f.name: f.verdict for f in found.lowering.findings}
    promised = {"two-block, going down", "rope for the new falls", "head over the block"}
    if verdicts["block touches"] is Verdict.PASS:
        promised |= {"lift-off", "plumb", "two-block, coming up"}
    else:  # what never touches never lifts off: there is no distance to judge, and the change fails
        assert found.lowering.verdict is Verdict.FAIL
    for name in promised:
        assert verdicts[name] is Verdict.PASS, name
