"""What locks a crane out, what is sealed, what the server refuses."""

from __future__ import annotations

from dataclasses import replace

from becket.guide.crane_now import crane_now
from becket.guide.event import FIRM, Event
from becket.guide.legal import why_refused
from becket.guide.sealed import sealed_keys
from tests.guide.play import PEOPLE, SCRIPT, Play
from tests.guide.small import small_change

SCRIPTS = {SCRIPT: small_change()}


def crew() -> list[Event]:
    play = Play(small_change(), run="crew")
    for person in PEOPLE.values():
        play.write("person_added", {"id": person, "name": person}, person=person)
    return [replace(event, crane=FIRM, run=None) for event in play.events]


def refused(events: list[Event], last: Event) -> str | None:
    return why_refused(last, [*crew(), *events], SCRIPTS)


def test_trouble_locks_a_crane_until_an_inspection_finds_it_fit() -> None:
    play = Play(small_change(), tick=10)
    play.write("trouble_entered", {"what": "two-block", "note": ""})
    assert crane_now(play.events, SCRIPTS).locked is not None
    play.write("inspection_entered", {"by_whom": "Ada Able", "found": "bent", "fit": False})
    assert crane_now(play.events, SCRIPTS).locked is not None
    play.write("inspection_entered", {"by_whom": "Ada Able", "found": "nothing", "fit": True})
    assert crane_now(play.events, SCRIPTS).locked is None


def test_the_last_closed_run_says_what_is_rigged() -> None:
    now = crane_now(Play(small_change()).whole().events, SCRIPTS)
    assert (now.state, now.by, now.indicator) == ("main:4", ("ines", "tomas"), {"falls": 4, "block": "main"})
    assert (now.open_run, now.limit_tried is not None) == (None, True)


FIT = {"by_whom": "Ada Able", "found": "nothing", "fit": True}


def test_after_a_lock_out_nothing_is_known_until_it_is_counted_anew() -> None:
    """A change given up half threaded: neither what was closed before it nor its own late signing tells what hangs."""
    before = Play(small_change(), run="run-0").whole().events
    tick = before[-1].tick + 1
    half = Play(small_change(), run="run-1", tick=tick).start().upto("f1")
    assert crane_now([*before, *half.events], SCRIPTS).state == "main:4"
    yard = Play(small_change(), run="run-9", tick=tick + 500)
    yard.write("trouble_entered", {"what": "wrong reeve", "note": ""})
    yard.write("inspection_entered", FIT)
    told = [replace(event, run=None) for event in yard.events]
    now = crane_now([*before, *half.events, *told], SCRIPTS)
    assert (now.state, now.indicator, now.limit_tried, now.open_run, now.locked) == (None, None, None, None, None)
    late = half.upto(None).sign()
    assert crane_now([*before, *late.events, *told], SCRIPTS).state is None
    anew = Play(small_change(), run="run-2", tick=tick + 1000).whole().events
    assert crane_now([*before, *half.events, *told, *anew], SCRIPTS).state == "main:4"


def test_an_inspection_that_ends_no_lock_out_leaves_what_is_known() -> None:
    play = Play(small_change()).whole()
    play.write("inspection_entered", FIT)
    assert crane_now(play.events, SCRIPTS).state == "main:4"


def test_a_count_is_sealed_until_both_are_in_also_out_of_turn() -> None:
    play = Play(small_change()).start().upto("f1")
    early = play.enter("f2")
    own = play.enter("f1")
    assert sealed_keys(play.script, play.events) == {early.key, own.key}
    play.enter("f2")
    assert sealed_keys(play.script, play.events) == frozenset()


def test_a_run_does_not_start_while_the_crane_is_locked_out() -> None:
    play = Play(small_change(), tick=10)
    play.write("trouble_entered", {"what": "shock", "note": ""})
    trouble = list(play.events)
    why = refused(trouble, play.start().events[-1])
    assert why == "The crane is locked out: shock. An inspection has to be entered first."


def test_a_run_does_not_start_beside_an_open_one() -> None:
    play = Play(small_change(), tick=10).start()
    other = replace(play.events[0], key="other", run="run-2", tick=50)
    assert refused(play.events, other) == "The change run-1 is open on this crane. Finish it first."


def test_operator_and_rigger_are_two_persons() -> None:
    start = Play(small_change(), tick=10).start(rigger=PEOPLE["operator"]).events[0]
    assert refused([], start) == "Operator and rigger are one person. Two persons close a run."


def test_a_stranger_and_an_unknown_run_are_refused() -> None:
    play = Play(small_change(), tick=10).start()
    stranger = play.enter("a1", person="wanda")
    assert refused(play.events[:1], stranger) == (
        "wanda is not on the crew list. Put the person on the list, then enter it again."
    )
    assert "is not known here" in str(refused([], play.enter("a1")))


def test_work_that_is_late_or_wrong_is_not_lost() -> None:
    play = Play(small_change(), tick=10).whole()
    assert refused(play.events, play.enter("a2", {"angle": 1})) is None
    own = replace(play.write("interrupted", {"part": "pause-1"}), person=None, role="becket")
    assert refused(play.events, own) is None


def test_a_hidden_count_without_its_value_is_refused() -> None:
    play = Play(small_change(), tick=10).start()
    sealed = play.write("entered", {"item": "f1", "round": 1, "sealed": True})
    assert "came without its value" in str(refused(play.events[:1], sealed))


def test_an_order_number_far_beyond_all_others_is_refused() -> None:
    """It would leave no room for what comes after: one spoilt phone would stop all others."""
    play = Play(small_change(), tick=10)
    play.write("trouble_entered", {"what": "shock", "note": ""})
    fair = replace(play.events[-1], run=None, key="fair", tick=1_000_000)
    far = replace(fair, key="far", tick=10**15)
    assert refused(play.events, fair) is None
    words = "The order number of this entry, 1000000000000000, is far beyond every other. Enter it again."
    assert refused(play.events, far) == words
