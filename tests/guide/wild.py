"""A crew that does all that a crew may do wrong: seeded, so that a failure can be played again.

In:    a script, a seed.
Out:   events of one run: right and wrong entries, stops, interruptions, stale rounds, strangers, two devices.
Never: an event that is not good in form.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from random import Random

from becket.guide.course import Course
from becket.guide.event import Event
from becket.guide.run_rules import take
from becket.guide.run_state import RunState
from becket.guide.script import Item, Script
from tests.guide.play import PEOPLE, RUN, Play, right_values

STRANGER = "wanda"
ODD: tuple[object, ...] = (None, 0, 1, 2, 3, 4, -1, 20.2, 21.5, 1e20, True, "", "on", "soft", "block", "head", [3, 5])
MORE_ODD: tuple[object, ...] = ([3, 4], [3, 3], [], [5, 3], {"a": 1}, "12:60", "ball", "main", "another")


def wild_run(script: Script, seed: int, length: int = 36, run: str = RUN) -> tuple[Event, ...]:
    """Return the events of a run in which anything happens; drawn toward the end by doing right most of the time [-].

    Args:
        script: of the run
        seed: of the chance
        length: number of deeds
        run: id of the run
    """
    chance = Random(seed)
    play = Play(script, lot=chance.randrange(8), run=run, minute=chance.choice((0, 700)))
    if chance.random() < 0.97:
        crew = {"rigger": PEOPLE["operator"]} if chance.random() < 0.03 else {}
        play.start(**crew)
    course, taken = Course(script), 0
    for _ in range(length):
        for event in play.events[taken:]:
            take(course, event)
        taken, state = len(play.events), course.state()
        play.device = chance.choice(("phone-1", "phone-1", "phone-1", "phone-2"))
        deed: Callable[[Play, RunState, Random], None] = _right if chance.random() < 0.8 else chance.choice(_ODD_DEEDS)
        deed(play, state, chance)
    return tuple(play.events)


def delivered(events: tuple[Event, ...], seed: int) -> tuple[Event, ...]:
    """Return the same set as a bad network brings it: out of order, some twice [-].

    Args:
        events: of a run
        seed: of the chance
    """
    chance = Random(seed)
    many = [*events, *chance.sample(events, k=min(len(events), 3))]
    chance.shuffle(many)
    return tuple(many)


def _item(play: Play, state: RunState) -> Item | None:
    return play.script.item(state.at) if state.at else None


def _right(play: Play, state: RunState, chance: Random) -> None:
    if state.screen in ("differ", "follow_by_hand") and state.differ:
        kind = "followed_by_hand" if state.screen == "follow_by_hand" else "count_again"
        play.write(kind, {"group": state.differ.group, "round": state.differ.round})
    elif state.screen == "stopped":
        item = _item(play, state)
        kept = (
            dict(item.resume) if item and item.resume else {"keepers_out": 0, "last_sheave": "none", "block": "hangs"}
        )
        if chance.random() < 0.3:
            kept["keepers_out"] = 3
        crew = {"operator": "carol", "rigger": "dmitri"} if chance.random() < 0.1 else {}
        play.write("resumed", {**kept, **crew})
    elif state.screen == "sign":
        role = chance.choice(tuple(PEOPLE))
        play.write("signed", {"role": role, "values": {}}, person=state.people[role] or "nobody", role=role)
    elif (item := _item(play, state)) is not None:
        play.enter(item.id, counted=state.round or 1, person=state.people.get(item.who) or PEOPLE["operator"])
    else:
        play.write("noted", {"text": "after the close"})


def _wrong(play: Play, state: RunState, chance: Random) -> None:
    item = _item(play, state) or play.script.items[0]
    values = right_values(play.script, item)
    for name in values:
        if chance.random() < 0.7:
            values[name] = chance.choice((*ODD, *MORE_ODD))
    person = state.people.get(item.who) or PEOPLE["operator"]
    play.enter(item.id, values, counted=state.round or 1, person=person)


def _anywhere(play: Play, state: RunState, chance: Random) -> None:
    item = chance.choice(play.script.items)
    person = chance.choice((*PEOPLE.values(), STRANGER))
    play.enter(item.id, counted=chance.choice((1, 1, 2, 3)), person=person)


def _sealed(play: Play, state: RunState, chance: Random) -> None:
    item = _item(play, state)
    if item is not None:
        person = state.people.get(item.who) or PEOPLE["operator"]
        play.write("entered", {"item": item.id, "round": state.round, "sealed": True}, person=person)


def _stop(play: Play, state: RunState, chance: Random) -> None:
    play.write("stopped", {"item": state.at, "left": ["Winch locked."], "told": "Mo"})
    play.minute += chance.choice((1, 30, 480, 481, 1000))


def _interrupt(play: Play, state: RunState, chance: Random) -> None:
    play.write("interrupted", {"part": chance.choice(("pause-1", "pause-1", "pause-9"))})


def _other_kind(play: Play, state: RunState, chance: Random) -> None:
    groups = [group.name for group in play.script.groups]
    about = {"group": chance.choice(groups), "round": chance.choice((1, 2))}
    kinds: tuple[tuple[str, dict[str, object]], ...] = (
        ("count_again", dict(about)),
        ("followed_by_hand", dict(about)),
        ("signed", {"role": "rigger", "values": {}}),
        ("resumed", {"keepers_out": 2}),
        ("noted", {"text": "rain"}),
        ("went_on_from_paper", {"sheet": 4}),
        ("run_started", {"kind": "change", "lot": 1, **PEOPLE}),
        ("photo_taken", {"photo": "ab" * 32, "bytes": 9, "item": state.at, "pattern": None, "note": ""}),
        ("photo_kept", {"photo": "ab" * 32, "kept": "cd" * 32, "width": 4, "height": 3, "bytes": 9}),
    )
    kind, entered = chance.choice(kinds)
    play.write(kind, entered, person=chance.choice((*PEOPLE.values(), STRANGER)))


def _behind(play: Play, state: RunState, chance: Random) -> None:
    """An event of a phone that had seen less: its tick is low."""
    _right(play, state, chance)
    last = play.events[-1]
    play.events[-1] = replace(last, tick=max(1, last.tick - chance.randrange(1, 6)))


_ODD_DEEDS = (_wrong, _wrong, _wrong, _anywhere, _sealed, _stop, _interrupt, _other_kind, _behind)
