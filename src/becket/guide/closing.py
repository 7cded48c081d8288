"""What keeps a run from closing: one function a condition.

In:    a script, the state of its run.
Out:   sentences, each names one thing that is still missing.
Never: a condition that can be waived.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Final

from becket.guide.compare import COUNTERS
from becket.guide.event import Plain
from becket.guide.found import last_round, pattern_found
from becket.guide.reading import is_same, is_whole
from becket.guide.run_state import RunState
from becket.guide.run_words import run_word
from becket.guide.script import Item, Script
from becket.guide.turn import SIGN

LIMIT: Final = ({"stopped", "distance"}, {"limit"})  # fields of the item at which the hoist limit is tried


def what_is_missing(script: Script, state: RunState) -> tuple[str, ...]:
    """Return what keeps a run from closing, in words; nothing: it closes once both have signed [-].

    Args:
        script: of the run
        state: of the run

    Source: docs/theory/run.md, what closes.
    """
    return tuple(text for condition in CONDITIONS for text in condition(script, state))


def _items(script: Script, state: RunState) -> Iterator[str]:
    open_items = [name for name in state.order if not state.items[name].done and script.item(name).part != SIGN]
    if open_items:
        facts = {"left": len(open_items), "all": len(state.order), "do": script.item(open_items[0]).do}
        yield run_word("left_items", facts)


def _groups(script: Script, state: RunState) -> Iterator[str]:
    for group in script.groups:
        last = last_round(group, state.rounds, state.rounds_kept)
        if last is None:
            yield run_word("group_open", {"label": group.label})
        elif not last.agreed:
            yield run_word("group_differs", {"label": group.label})


def _counts(script: Script, state: RunState) -> Iterator[str]:
    compares = {group.compare for group in script.groups}
    if "falls" not in compares:
        yield run_word("no_falls_group", {})
    if "indicator" not in compares:
        yield run_word("no_indicator_group", {})
    found = pattern_found(script, state.rounds, state.rounds_kept)
    if script.kind == "change" and found is not None and found.state != script.after:
        yield run_word("not_the_after", {"found": found.state, "after": script.after})


def _setting(script: Script, state: RunState) -> Iterator[str]:
    found = pattern_found(script, state.rounds, state.rounds_kept)
    if found is None:
        return
    want = {"falls": found.falls, "block": found.block}
    for group in script.groups:
        last = last_round(group, state.rounds, state.rounds_kept)
        if group.compare != "indicator" or last is None:
            continue
        for entry in last.entries:
            odd = [name for name in want if name in entry.values and not is_same(entry.values[name], want[name])]
            for name in odd:
                yield run_word("setting_not_counts", {"value": entry.values[name], "want": want[name]})


def _keepers(script: Script, state: RunState) -> Iterator[str]:
    if script.kind != "change":
        return
    for what, known in (("keepers", script.keepers_out), ("clips", script.clips_out)):
        out, back, left = (_sum(script, state, f"{what}_{way}") for way in ("out", "in", "left"))
        if known is None:
            yield run_word(f"{what}_unknown", {})
        elif back is None and known > 0:
            yield run_word(f"{what}_not_counted", {"out": known})
        elif not known == (out or 0) == (back or 0) + (left or 0):
            yield run_word(f"{what}_not_in", {"known": known, "out": out or 0, "in": (back or 0) + (left or 0)})


def _override(script: Script, state: RunState) -> Iterator[str]:
    if script.kind == "change":
        last = [value for _, value in _values(script, state, "override")]
        if not last or last[-1] != "off":
            yield run_word("override_not_off", {})


def _limit(script: Script, state: RunState) -> Iterator[str]:
    if script.kind == "change" and limit_tried(script, state) is None:
        yield run_word("limit_not_tried", {})


def limit_tried(script: Script, state: RunState) -> Item | None:
    """Return the item at which the hoist limit stopped the hook on the new falls; None: not yet [-].

    Args:
        script: of the run
        state: of the run
    """
    counted = [name for group in script.groups if group.compare == "falls" for name in group.items]
    order = list(state.order)
    after = max((order.index(name) for name in counted), default=len(order))
    for name in order[after + 1 :]:
        item = script.item(name)
        asks = {field.name for field in item.fields}
        if state.items[name].done and any(names <= asks for names in LIMIT):
            return item
    return None


def _confirmed(script: Script, state: RunState) -> Iterator[str]:
    if script.kind == "change":
        for reeving in script.expects:
            if not reeving.is_confirmed:
                yield run_word("not_confirmed", {"state": reeving.state})


def _people(script: Script, state: RunState) -> Iterator[str]:
    one, other = (state.people[role] for role in COUNTERS)
    for role in COUNTERS:
        if state.people[role] is None:
            yield run_word("nobody_named", {"role": role})
    if one is not None and one == other:
        yield run_word("one_person", {})


def _values(script: Script, state: RunState, field: str) -> list[tuple[str, object]]:
    """Return every entered value of a field with its item, in the order of the run."""
    found = []
    for name in state.order:
        values: Plain = state.items[name].values or {}
        if any(one.name == field for one in script.item(name).fields) and field in values:
            found.append((name, values[field]))
    return found


def _sum(script: Script, state: RunState, field: str) -> int | None:
    """Return the sum of a count over all places; two who counted one place count once; None: nobody counted."""
    once: dict[str, int] = {}
    for name, value in _values(script, state, field):
        if is_whole(value):
            once[script.item(name).group or name] = int(value)
    return sum(once.values()) if once else None


Condition = Callable[[Script, RunState], Iterator[str]]
CONDITIONS: Final[tuple[Condition, ...]] = (
    _items,
    _groups,
    _counts,
    _setting,
    _keepers,
    _override,
    _limit,
    _confirmed,
    _people,
)
