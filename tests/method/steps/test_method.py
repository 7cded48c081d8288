"""Methods of random cranes: what is printed as usable passes every rule, what cannot says which need stops it."""

from __future__ import annotations

from dataclasses import replace
from math import hypot

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from becket.book.crane import Book
from becket.book.tackle import Keeper, Pass, Pattern, State
from becket.mechanics.boom import head_place
from becket.method.change import work_out_change
from becket.method.facts import Facts, gather_facts
from becket.method.method import write_method
from becket.method.order import order_deeds
from becket.method.rules import RULES
from becket.method.scene import Scene, scene_of
from becket.method.site import Site
from becket.verdict import Verdict
from tests.crane import sealed
from tests.method.golden_crane import SITE, golden_book
from tests.method.steps.checker import why_not
from tests.method.steps.scenes import SETTINGS, deeds, method, scene
from tests.method.steps.test_rules import job_of
from tests.method.test_random_changes import books

SHEAVES = 9
STOPS = (("hoist", "telescope out", "derrick down"), ("hoist", "telescope out"), ("hoist",))


@st.composite
def keepers(draw: st.DrawFn) -> tuple[Keeper, ...]:
    """Return none to twelve keepers of any kind [-]."""
    found = []
    for number in range(draw(st.integers(0, 12))):
        at = draw(st.sampled_from(("head", "head", "block", "block", "dead end")))
        often_slack = ("slack",) if at != "block" and draw(st.integers(0, 9)) else ("tight", "slack")
        found.append(
            Keeper(
                name=f"keeper {'ABCDEFGHIJKL'[number]}",
                at=at,
                block=draw(st.sampled_from(("main", "main", "ball"))) if at == "block" else None,
                holds=() if at == "dead end" else tuple(sorted(draw(st.sets(st.integers(1, SHEAVES), min_size=1)))),
                draw=draw(st.sampled_from(often_slack)),
                lock=draw(st.sampled_from((None, "clip"))),
            )
        )
    return tuple(found)


def mirrored(pattern: Pattern) -> Pattern:
    """Return a pattern on a crane whose sheaves are numbered from the other side [-]."""
    return replace(pattern, path=tuple(Pass(place=p.place, sheave=SHEAVES + 1 - p.sheave) for p in pattern.path))


@st.composite
def cranes(draw: st.DrawFn) -> Book:
    """Return a crane with 1 to 16 falls on its block, a ball, and keepers by chance [-]."""
    book = draw(books(knows_drum=True))
    patterns = (*book.patterns, golden_book().patterns[0])
    numbered = "from the left, seen from the cab"
    if draw(st.booleans()):
        patterns, numbered = tuple(mirrored(p) for p in patterns), "from the right, seen from the cab"
    return sealed(
        replace(
            book,
            head=replace(book.head, numbered=numbered),
            patterns=patterns,
            keepers=draw(keepers()),
            switch=replace(book.switch, stops=draw(st.sampled_from(STOPS))),
            dead_end=replace(book.dead_end, goes_through_sheaves=draw(st.sampled_from((True, False, None)))),
        )
    )


BALL = State(block="ball", falls=1)
FALLS = st.integers(1, 16)
NEAR = st.integers(-3, 3)


@st.composite
def changes(draw: st.DrawFn) -> tuple[State, State]:
    """Return two states, seldom far apart, one in four with another block [-]."""
    falls = draw(FALLS)
    one = State(block="main", falls=falls)
    other = State(block="main", falls=min(16, max(1, falls + draw(NEAR))))
    pick = draw(st.integers(0, 7))
    return (one, BALL) if pick == 0 else (BALL, one) if pick == 1 else (one, other)


def facts_of(book: Book, states: tuple[State, State]) -> Facts:
    return gather_facts(book, SETTINGS, states, Site(counterweight=9000.0, outriggers="full"))


def second_statement_accepts(one: Scene) -> bool:
    """Return whether the second statement of the rules lets the printed order through, whole [-]."""
    listed = order_deeds(one).deeds
    log = [(deed.kind, deed.of) for deed in listed]
    job = job_of(one, listed)
    return not any(why_not(job, log[:i], kind, of) for i, (kind, of) in enumerate(log))


COUNTED = {"usable": 0, "stopped": 0, "other block": 0, "tight at the head": 0}


@given(book=cranes(), states=changes())
@settings(derandomize=True, deadline=None, max_examples=90)
def random_method(book: Book, states: tuple[State, State]) -> None:
    facts = facts_of(book, states)
    written, one = write_method(book, SETTINGS, facts), scene_of(book, SETTINGS, facts)
    if one is None:
        assert written.why_none == "there is no path, no position or no rope to leave to start from"
        assert facts.reasons
        assert {rule.verdict for rule in written.rules} == {Verdict.UNKNOWN}
    assume(one is not None)
    assert one is not None
    if written.why_none is not None:
        stuck = order_deeds(one).stuck
        assert stuck is not None
        assert written.why_none == f"no order reaches '{stuck[0]}': {stuck[1].why} (rule {stuck[1].rule})"
        assert stuck[1].rule in RULES
        assert any(k.draw == "tight" and k.at != "block" for k in one.keepers)  # nothing else stops an order
        assert not written.steps
        COUNTED["stopped"] += 1
        return
    assert [rule.name for rule in written.rules] == list(RULES)
    assert {rule.verdict for rule in written.rules} == {Verdict.PASS}
    assert second_statement_accepts(one)
    assert [step.number for step in written.steps] == list(range(1, len(written.steps) + 1))
    COUNTED["usable"] += 1
    COUNTED["other block"] += one.path.block_changes
    COUNTED["tight at the head"] += any(k.draw == "tight" and k.at == "head" for k in book.keepers)


def test_random_cranes_have_methods_that_pass_every_rule_or_say_what_stops_them() -> None:
    random_method()
    assert COUNTED["usable"] > 35, COUNTED
    assert COUNTED["stopped"] > 3, COUNTED
    assert COUNTED["other block"] > 5, COUNTED


@given(book=cranes(), states=changes())
@settings(derandomize=True, deadline=None, max_examples=60)
def test_rope_is_conserved_and_least_target_most_or_a_reason(book: Book, states: tuple[State, State]) -> None:
    """Drum to dead end to 1 mm along the whole run, another block too."""
    found = facts_of(book, states)
    assume(found.leave is not None)
    assert found.leave is not None
    if found.leave.target is None:
        assert found.leave.least > found.leave.most
        assert any(r.name == "rope to leave" for r in found.reasons)
        return
    assert found.leave.least <= found.leave.target <= found.leave.most
    assert found.lowering is not None
    assert found.way is not None
    foot, drum = (book.boom.foot_x, book.boom.foot_z), (book.winch.at_x or 0.0, book.winch.at_z or 0.0)
    totals = []
    for s in found.lowering.samples:
        head = head_place(found.way.stance.length, s.angle, foot, book.boom.head_drop)
        lead = hypot(head[0] - drum[0], head[1] - drum[1])
        totals.append(lead + s.arcs + s.falls * (s.head_height - s.block_height) + s.slack)
    assert max(totals) - min(totals) < 1e-3


def test_no_way_to_start_is_no_method_and_no_rule_is_called_good() -> None:
    one = scene("main:2", "main:4")
    found = write_method(one.book, SETTINGS, replace(one.facts, leave=None))
    assert (found.steps, found.why_none) == ((), "there is no path, no position or no rope to leave to start from")
    assert [rule.verdict for rule in found.rules] == [Verdict.UNKNOWN] * len(RULES)


def test_an_order_that_is_stuck_is_a_change_that_fails_and_says_so() -> None:
    book = golden_book()
    pin = Keeper(name="head pin", at="head", block=None, holds=(4,), draw="tight", lock=None)
    book = sealed(replace(book, keepers=(*book.keepers, pin)))
    found = work_out_change(book, SETTINGS, State(block="main", falls=2), State(block="main", falls=4), SITE)
    assert found.verdict is Verdict.FAIL
    assert not found.steps
    (reason,) = found.reasons
    assert reason.why.startswith("no order reaches 'tight_keeper_out head pin': the rope under this keeper")
    assert reason.why.endswith("(rule keepers)")


def test_a_usable_method_is_a_change_that_passes_and_one_not_confirmed_is_not() -> None:
    book = golden_book()
    two, four, five = (State(block="main", falls=n) for n in (2, 4, 5))
    good = work_out_change(book, SETTINGS, two, four, SITE)
    assert good.verdict is Verdict.PASS
    assert len(good.steps) == len(deeds("main:2", "main:4"))
    bad = work_out_change(book, SETTINGS, four, five, SITE)
    assert bad.steps
    assert {r.name for r in bad.rules if r.verdict is Verdict.FAIL} == {"configuration"}
    assert bad.verdict is Verdict.FAIL


def test_phases_come_in_their_order_and_calling_in_belongs_to_what_follows() -> None:
    for before, after in (("main:2", "main:4"), ("main:4", "ball:1"), ("ball:1", "main:4")):
        steps = method(before, after).steps
        phases = list(dict.fromkeys(step.phase for step in steps))
        runs = [step.phase for i, step in enumerate(steps) if i == 0 or steps[i - 1].phase != step.phase]
        assert runs == phases
        assert [phase[:2] for phase in phases if phase.startswith("H")] == ["H1", "H2", "H3", "H4", "H5"]
        calls = [i for i, step in enumerate(steps) if step.do.startswith("Operator: engine off")]
        assert all(steps[i].phase == steps[i + 1].phase for i in calls)
