"""What each kind of event does to a run: one function a kind.

In:    a run as far as it has come, its next event.
Out:   the run after it; an event that counts for nothing is kept as out of turn, or as late.
Never: a way past a difference; an item skipped; a value put right.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Final

from becket.guide.closing import what_is_missing
from becket.guide.compare import COUNTERS, Counts, compared, merged
from becket.guide.course import Course
from becket.guide.event import Event, Plain
from becket.guide.found import block_named
from becket.guide.moment import seconds_between
from becket.guide.reading import is_same, what_is_wrong
from becket.guide.run_state import SEALED, Attempt, Entry, ItemState, Resume, Round, Signature, Stop
from becket.guide.run_words import run_word
from becket.guide.script import Group, Item
from becket.guide.turn import SIGN, items_in_turn, pauses

LONGEST_STOP: Final = 8  # [h], one shift; after it the last pause starts again
AS_KEPT: Final = ("keepers_out", "last_sheave", "block")  # asked on coming back, before what was kept is shown
# kept; no state hangs on them
NO_EFFECT: Final = ("noted", "went_on_from_paper", "photo_taken", "photo_kept", "phone_joined")


def take(course: Course, event: Event) -> None:
    """Take the next event of a run: it counts, or it is kept as out of turn, or as late.

    Args:
        course: the run so far
        event: the next one in order
    """
    if event.kind in NO_EFFECT:
        return
    if course.closed_by is not None:
        course.late.append(event.key)
    elif RULES.get(event.kind, _nothing)(course, event):
        course.devices.setdefault(event.device)
    else:
        course.out_of_turn.append(event.key)


def _nothing(course: Course, event: Event) -> bool:
    return False


def _run_started(course: Course, event: Event) -> bool:
    if course.started is not None:
        return False
    course.started = event.at
    course.turn = items_in_turn(course.script, event.entered.get("lot"))
    course.people = {role: _text(event.entered.get(role)) for role in COUNTERS}
    return True


def _entered(course: Course, event: Event) -> bool:
    item = _open_item(course, event)
    if item is None or not is_same(event.entered.get("round"), course.round_of(item)):
        return False
    if course.is_blind(item):
        return _counted(course, event, item)
    values = event.entered.get("values")
    if not isinstance(values, Mapping):
        return False
    why = " ".join(filter(None, (what_is_wrong(one, values.get(one.name)) for one in item.fields)))
    if not why:
        course.done[item.id] = _as_done(course, event, item, values)
    else:
        attempt = Attempt(by=event.person, at=event.at, round=course.round_of(item), values=values, why=why)
        course.attempts[item.id] = (*course.attempts.get(item.id, ()), attempt)
    course.resume = None
    return True


def _open_item(course: Course, event: Event) -> Item | None:
    """Return the item that an entry is for, if it may be entered now; of a pair by lot either of the two may."""
    current = course.current()
    if current is None or course.stop or course.differ or course.waiting or current.part == SIGN:
        return None
    named = event.entered.get("item")
    if not isinstance(named, str) or named not in (current.id, course.partners.get(current.id)):
        return None
    item = course.script.item(named)
    return None if course.is_done(item) else item


def _counted(course: Course, event: Event, item: Item) -> bool:
    """Take a count that a person made alone: whatever it says, it is fixed for this round."""
    one, other = (course.people[role] for role in COUNTERS)
    group = course.group(item.group)
    if group is None or event.person is None or event.person != course.people.get(item.who) or one == other:
        return False
    values = SEALED if event.entered.get("sealed") is True else event.entered.get("values")
    if not isinstance(values, Mapping):
        return False
    course.done[item.id] = _as_done(course, event, item, values)
    course.counters.add(event.device)
    course.resume = None
    if all(name in course.done for name in group.items):
        course.complete[group.name] = course.rounds[group.name]
        _compare(course, group)
    return True


def _as_done(course: Course, event: Event, item: Item, values: Plain) -> ItemState:
    return ItemState(
        done=True,
        by=event.person,
        role=event.role,
        device=event.device,
        at=event.at,
        values=values,
        round=course.round_of(item),
    )


def _compare(course: Course, group: Group) -> None:
    entries = tuple(_entry(course, name) for name in group.items)
    if any(is_sealed(entry.values) for entry in entries):
        course.waiting = group.name
        return
    sides = merged((entry.role, entry.values) for entry in entries)
    block = block_named(course.script, course.rounds, course.kept)
    counts = Counts(script=course.script, group=group, sides=sides, found=course.found(), block=block)
    outcome = compared(counts)
    found = Round(
        group=group.name,
        round=course.rounds[group.name],
        agreed=outcome.why is None,
        entries=entries,
        why=outcome.why,
        finds=outcome.finds.state if outcome.finds else None,
    )
    course.kept.append(found)
    course.differ, course.followed = (None if found.agreed else found), False


def _entry(course: Course, name: str) -> Entry:
    done, item = course.done[name], course.script.item(name)
    return Entry(
        item=name,
        role=item.who,
        by=str(done.by),
        device=str(done.device),
        at=str(done.at),
        values=done.values or {},
    )


def is_sealed(values: Plain) -> bool:
    """Return whether values are still hidden from this device [-].

    Args:
        values: of an entry
    """
    return values.get("sealed") is True


def _followed_by_hand(course: Course, event: Event) -> bool:
    if not _is_about_difference(course, event) or course.followed:
        return False
    course.followed = True
    return True


def _count_again(course: Course, event: Event) -> bool:
    if not _is_about_difference(course, event) or course.has_to_follow():
        return False
    group = course.group(course.differ.group if course.differ else None)
    course.differ = None
    if group is not None:
        _next_round(course, group)
    return True


def _is_about_difference(course: Course, event: Event) -> bool:
    differ = course.differ
    if differ is None or course.stop is not None:
        return False
    return event.entered.get("group") == differ.group and is_same(event.entered.get("round"), differ.round)


def _next_round(course: Course, group: Group) -> None:
    """Ask a group anew; new falls void the setting that was read; whoever signed signs again."""
    if course.differ is not None and course.differ.group == group.name:
        return  # only "both count again" leads out of a difference
    course.rounds[group.name] += 1
    course.waiting = None if course.waiting == group.name else course.waiting
    course.signed.clear()
    for name in group.items:
        course.done.pop(name, None)
    if group.compare == "falls":
        for other in course.script.groups:
            if other.compare == "indicator" and any(name in course.done for name in other.items):
                _next_round(course, other)


def _interrupted(course: Course, event: Event) -> bool:
    if course.started is None or course.stop or course.differ:
        return False
    part = event.entered.get("part")
    if part not in pauses(course.script) or not _is_begun(course, str(part)) or _is_complete(course, str(part)):
        return False
    _start_again(course, str(part))
    return True


def _is_begun(course: Course, part: str) -> bool:
    return any(item.id in course.done for item in course.script.items if item.part == part)


def _is_complete(course: Course, part: str) -> bool:
    return all(item.id in course.done for item in course.script.items if item.part == part)


def _start_again(course: Course, part: str) -> None:
    """Ask a pause anew from its first item, with every group that has a count in it."""
    course.rounds[part] += 1
    course.signed.clear()
    inside = [item for item in course.script.items if item.part == part]
    for group in course.script.groups:
        if any(item.group == group.name and item.id in course.done for item in inside):
            _next_round(course, group)
    for item in inside:
        if course.group(item.group) is None:
            course.done.pop(item.id, None)


def _stopped(course: Course, event: Event) -> bool:
    if course.started is None or course.stop is not None:
        return False
    item, left = course.current(), event.entered.get("left")
    course.stop = Stop(
        item=item.id if item else None,
        left=tuple(left) if isinstance(left, list | tuple) else (),
        told=event.entered.get("told"),
        by=event.person,
        at=event.at,
    )
    course.resume = None
    return True


def _resumed(course: Course, event: Event) -> bool:
    stop = course.stop
    if stop is None or any(event.entered.get(name) is None for name in AS_KEPT):
        return False
    item = course.current() or course.script.items[-1]  # stopped at the signatures: as the last step left it
    kept = item.resume
    seen = {name: event.entered[name] for name in AS_KEPT}
    differs = tuple(name for name in AS_KEPT if kept is not None and not is_same(kept.get(name), seen[name]))
    why = [run_word(f"kept_{name}", {"kept": (kept or {}).get(name), "seen": seen[name]}) for name in differs]
    why += _reasons(course, stop, event)
    course.stop = None
    _take_over(course, event)
    part = _last_pause_begun(course) if why else _pause_in_hand(course)
    if part is not None:
        why += [] if why else [run_word("pause_again", {})]
        _start_again(course, part)
    course.resume = Resume(
        by=event.person, at=event.at, kept=kept, seen=seen, differs=differs, restarted=part, why=tuple(why)
    )
    return True


def _reasons(course: Course, stop: Stop, event: Event) -> list[str]:
    """Return why the last pause starts again though all is as it was kept."""
    reasons = []
    if event.person not in course.people.values() or _is_other_crew(course, event):
        reasons.append(run_word("other_person", {}))
    gone = seconds_between(stop.at, event.at)
    if gone is None or not 0 <= gone <= LONGEST_STOP * 3600:
        reasons.append(run_word("long_stop", {"hours": LONGEST_STOP}))
    return reasons


def _is_other_crew(course: Course, event: Event) -> bool:
    named = {role: _text(event.entered.get(role)) for role in COUNTERS}
    one, other = named.values()
    return one is not None and other is not None and one != other and named != course.people


def _take_over(course: Course, event: Event) -> None:
    """Name the crew that goes on; a count of the one before that is not complete is counted anew."""
    if not _is_other_crew(course, event):
        return
    course.people = {role: _text(event.entered.get(role)) for role in COUNTERS}
    course.signed.clear()
    for group in course.script.groups:
        counted = [name in course.done for name in group.items]
        if any(counted) and not all(counted):
            _next_round(course, group)


def _last_pause_begun(course: Course) -> str | None:
    return next((part for part in reversed(pauses(course.script)) if _is_begun(course, part)), None)


def _pause_in_hand(course: Course) -> str | None:
    """Return the pause that was broken off by the stop."""
    part = _last_pause_begun(course)
    return part if part is not None and not _is_complete(course, part) else None


def _signed(course: Course, event: Event) -> bool:
    role = event.entered.get("role")
    one, other = (course.people[name] for name in COUNTERS)
    if not course.is_ready_to_sign() or role not in COUNTERS or role in course.signed:
        return False
    if event.person is None or event.person != course.people[str(role)] or one == other:
        return False
    course.signed[str(role)] = Signature(by=event.person, at=event.at, device=event.device)
    if len(course.signed) == len(COUNTERS) and not what_is_missing(course.script, course.state()):
        course.closed_by = event
    return True


def _text(value: object) -> str | None:
    return value if isinstance(value, str) else None


RULES: Final[Mapping[str, Callable[[Course, Event], bool]]] = {
    "run_started": _run_started,
    "entered": _entered,
    "interrupted": _interrupted,
    "followed_by_hand": _followed_by_hand,
    "count_again": _count_again,
    "stopped": _stopped,
    "resumed": _resumed,
    "signed": _signed,
}
