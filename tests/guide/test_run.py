"""The rules of a run, one test a rule, each with the danger that it keeps off."""

from __future__ import annotations

from dataclasses import replace
from random import Random

import pytest

from becket.guide.event import Event
from becket.guide.run import fold_run
from becket.guide.run_state import RunState
from becket.guide.script import Script
from tests.guide.play import PEOPLE, Play, with_item
from tests.guide.sample import hazel_change, hazel_count
from tests.guide.small import FOUND, small_change

AT_HEAD = {"sheaves": [3, 5], "ends_on": "head"}


def state_of(play: Play) -> RunState:
    return fold_run(play.script, play.events)


def before_falls() -> Play:
    return Play(small_change()).start().upto("f1")


def counted(head: list[int], ends_on: str, ropes: int, block: list[int]) -> Play:
    play = before_falls()
    play.enter("f1", {"sheaves": head, "ends_on": ends_on})
    play.enter("f2", {"ropes": ropes, "block_sheaves": block})
    return play


@pytest.mark.parametrize("lot", range(4))
def test_a_whole_change_of_the_demo_crane_closes(lot: int) -> None:
    state = state_of(Play(hazel_change(), lot=lot).whole())
    assert (state.status, state.result, state.missing, state.out_of_turn) == ("closed", "main:4", (), ())


def test_a_count_finds_what_is_rigged_without_being_told() -> None:
    assert state_of(Play(hazel_count(), state="main:2").whole()).result == "main:2"


def test_a_step_cannot_be_skipped() -> None:
    play = Play(small_change()).start()
    event = play.enter("a2")  # the keeper would be drawn before the block stands
    state = state_of(play)
    assert (state.at, state.out_of_turn) == ("a1", (event.key,))


def test_a_wrong_value_is_kept_and_the_step_stays() -> None:
    play = Play(small_change()).start().upto("a2")
    play.enter("a2", {"angle": 12.0})
    state = state_of(play)
    assert state.at == "a2"
    assert [one.why for one in state.items["a2"].attempts] == ["You entered 12 deg. Stop."]


def test_a_count_is_hidden_in_the_state_until_the_other_is_in() -> None:
    play = before_falls()
    play.enter("f1", AT_HEAD)
    assert state_of(play).items["f1"].values == {"sealed": True}
    play.enter("f2")
    assert state_of(play).items["f1"].values == AT_HEAD


def test_a_hidden_count_cannot_be_changed() -> None:
    play = before_falls()
    play.enter("f1", AT_HEAD)
    again = play.enter("f1", {"sheaves": [1], "ends_on": "block"})
    assert again.key in state_of(play).out_of_turn


def test_nobody_counts_for_the_other() -> None:
    play = before_falls()
    play.enter("f1")
    play.enter("f2", person=PEOPLE["operator"])
    assert state_of(play).at == "f2"


def test_one_person_in_both_roles_neither_agrees_nor_closes() -> None:
    play = Play(small_change()).start(rigger=PEOPLE["operator"])
    for item in play.script.items:
        play.enter(item.id, person=PEOPLE["operator"])
    play.write("signed", {"role": "operator", "values": {}})
    play.write("signed", {"role": "rigger", "values": {}})
    state = state_of(play)
    assert (state.status, state.rounds_kept) == ("open", ())
    assert "Operator and rigger are one person. Two persons close a run." in state.missing


def test_a_wrong_path_with_equal_counts_is_found() -> None:
    state = state_of(counted([3, 4], "head", 4, [3, 5]))
    assert state.screen == "differ"
    assert state.differ is not None
    assert state.differ.why == "Both say 4. The path is not the pattern: rope on head 4, pattern head 5."


@pytest.mark.parametrize(
    ("head", "ends_on", "ropes", "block", "why"),
    [
        ([3, 5], "block", 4, [3, 5], "The counts differ. Falls: operator 3, rigger 4."),
        ([3], "head", 2, [3], "Both say 2. The pattern has 4 falls."),
        (
            [3, 5],
            "head",
            4,
            [3],
            "Both say 4. The path is not the pattern: no rope on block 5, which is in the pattern.",
        ),
        ([5, 5], "head", 4, [3, 5], "Falls: what the operator entered cannot be read."),
    ],
)
def test_counts_that_are_not_right_block(head: list[int], ends_on: str, ropes: int, block: list[int], why: str) -> None:
    play = counted(head, ends_on, ropes, block)
    past = play.enter("k2")
    state = state_of(play)
    assert state.differ is not None
    assert (state.differ.why, past.key in state.out_of_turn) == (why, True)


def test_differ_twice_needs_the_rope_followed_by_hand() -> None:
    play = counted([3, 4], "head", 4, [3, 5])
    play.write("count_again", {"group": "falls", "round": 1})
    play.enter("f1", AT_HEAD, counted=2)
    play.enter("f2", {"ropes": 3, "block_sheaves": [3, 5]}, counted=2)
    play.write("count_again", {"group": "falls", "round": 2})
    assert state_of(play).screen == "follow_by_hand"
    play.write("followed_by_hand", {"group": "falls", "round": 2})
    play.write("count_again", {"group": "falls", "round": 2})
    state = state_of(play)
    kept = [(one.round, one.agreed) for one in state.rounds_kept if one.group == "falls"]
    assert (state.screen, state.rounds["falls"], kept) == ("item", 3, [(1, False), (2, False)])


def test_a_stop_is_no_way_past_a_difference() -> None:
    play = counted([3, 4], "head", 4, [3, 5])
    play.write("stopped", {"left": [], "told": "Mo"})
    play.write("resumed", FOUND)
    assert state_of(play).screen == "differ"


def test_a_pause_broken_off_starts_again_from_its_first_item() -> None:
    play = Play(small_change()).start().upto("p3")
    play.write("interrupted", {"part": "pause-1"})
    state = state_of(play)
    assert (state.at, state.round) == ("p1", 2)


def test_stopped_takes_no_entry_until_somebody_has_looked() -> None:
    play = Play(small_change()).start().upto("a3")
    play.write("stopped", {"left": ["Winch locked."], "told": "Mo"})
    event = play.enter("a3")
    state = state_of(play)
    assert (state.status, event.key in state.out_of_turn) == ("stopped", True)


def test_resumed_as_kept_goes_on_where_it_stopped() -> None:
    play = Play(small_change()).start().upto("a3")
    play.write("stopped", {"left": [], "told": "Mo"})
    play.write("resumed", FOUND)
    assert state_of(play).at == "a3"


def test_not_as_kept_says_both_and_the_last_pause_starts_again() -> None:
    play = Play(small_change()).start().upto("a3")
    play.write("stopped", {"left": [], "told": "Mo"})
    play.write("resumed", {**FOUND, "keepers_out": 3})
    state = state_of(play)
    assert state.resume is not None
    assert (state.screen, state.at) == ("not_as_kept", "p1")
    assert state.resume.why == ("Kept: 2 keepers out. You saw 3.",)


def test_stopped_at_the_signatures_what_is_found_is_compared_with_what_the_last_step_left() -> None:
    """Seven keepers lying out are not signed away: the last pause starts again."""
    play = Play(hazel_change()).start().upto(None)
    assert state_of(play).screen == "sign"
    play.write("stopped", {"left": [], "told": "Mo"})
    play.write("resumed", {"keepers_out": 7, "last_sheave": "none", "block": "away"})
    state = state_of(play)
    assert state.resume is not None
    assert state.resume.differs == ("keepers_out", "last_sheave", "block")
    assert state.screen == "not_as_kept"
    assert play.script.item(str(state.at)).part == "pause-4"


def test_stopped_at_the_signatures_and_as_kept_is_signed() -> None:
    play = Play(hazel_change()).start().upto(None)
    play.write("stopped", {"left": [], "told": "Mo"})
    play.write("resumed", {"keepers_out": 0, "last_sheave": "block 3", "block": "hangs"})
    assert state_of(play).screen == "sign"


@pytest.mark.parametrize(("minutes", "person", "at"), [(478, "ines", "a3"), (481, "ines", "p1"), (1, "wanda", "p1")])
def test_a_shift_or_another_person_goes_back_to_the_last_pause(minutes: int, person: str, at: str) -> None:
    play = Play(small_change()).start().upto("a3")
    play.write("stopped", {"left": [], "told": "Mo"})
    play.minute += minutes
    play.write("resumed", FOUND, person=person)
    assert state_of(play).at == at


def test_what_comes_after_the_close_changes_nothing() -> None:
    play = Play(small_change()).whole()
    closed = state_of(play)
    late = play.enter("a2", {"angle": 1.0})
    play.write("noted", {"text": "rain"})
    assert state_of(play) == replace(closed, late=(late.key,))


@pytest.mark.parametrize("seed", range(20))
def test_any_order_of_delivery_gives_one_state(seed: int) -> None:
    play = Play(small_change(), lot=seed % 4).whole()
    many = [*play.events, *play.events[:5]]
    Random(seed).shuffle(many)
    assert fold_run(play.script, many) == state_of(play)


def _without(script: Script, name: str) -> Script:
    items = tuple(item for item in script.items if item.group != name)
    return replace(script, items=items, groups=tuple(group for group in script.groups if group.name != name))


def _bare(name: str) -> Script:
    return with_item(small_change(), replace(small_change().item(name), fields=()))


@pytest.mark.parametrize(
    ("script", "missing"),
    [
        (
            replace(small_change(), keepers_out=3),
            "Keepers: 3 to come out, 2 out, 2 in. Look for the others before anything moves.",
        ),
        (
            replace(small_change(), clips_out=1),
            "Clips: 1 to come out, 2 out, 2 in. Look for the others before anything moves.",
        ),
        (replace(small_change(), keepers_out=None), "Keepers out: unknown. The book has to say how many come out."),
        (_without(small_change(), "in"), "Keepers: 2 out. Nobody counted them in."),
        (_without(small_change(), "override"), "Override: not entered as off."),
        (_without(small_change(), "indicator"), "The setting of the indicator was not read by two persons."),
        (_bare("t1"), "Hoist limit: not tried on the new falls."),
        (replace(small_change(), after="main:6"), "The counts found main:4. The change was to main:6."),
        (
            replace(small_change(), expects=(replace(small_change().expects[0], is_confirmed=False),)),
            "The pattern main:4 is not confirmed against the manual.",
        ),
    ],
)
def test_nothing_closes_while_one_thing_is_missing(script: Script, missing: str) -> None:
    state = state_of(Play(script).whole())
    assert (state.status, missing in state.missing) == ("open", True)


@pytest.mark.parametrize("role", PEOPLE)
def test_one_signature_does_not_close(role: str) -> None:
    assert state_of(Play(small_change()).start().upto(None).sign(role)).status == "open"


def test_closing_never_hangs_on_one_event_that_another_result_would_follow_from() -> None:
    play = Play(small_change()).whole()
    for left_out in play.events:
        state = fold_run(play.script, [event for event in play.events if event.key != left_out.key])
        assert (state.status, state.result) == ("open", None)


def test_events_of_two_runs_are_refused() -> None:
    one: list[Event] = Play(small_change()).start().events
    with pytest.raises(ValueError, match="events of one run are wanted, these are of run-1, run-2"):
        fold_run(small_change(), [*one, replace(one[0], run="run-2", key="other")])
