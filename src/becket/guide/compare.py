"""What two persons saw, each alone, compared with each other and with what has to be.

In:    a group of blind items, what each role entered in one round, the patterns that the script expects.
Out:   agreed, or why not in words; the state that the counts found.
Never: a count taken because it is near; a pattern that is not on file.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Final

from becket.guide.event import Plain
from becket.guide.reading import is_alike, is_free, is_readable, is_same, is_whole, what_is_wrong
from becket.guide.run_words import filled, run_word
from becket.guide.script import Field, Group, Reeving, Script

COUNTERS: Final = ("operator", "rigger")
COUNTED: Final = ("sheaves", "ends_on", "ropes", "block_sheaves")  # fields that "falls" is made of


@dataclass(frozen=True, kw_only=True)
class Compared:
    """What comparing gave. ``why`` None: agreed."""

    why: str | None
    finds: Reeving | None = None  # of "falls": the state that both counted


@dataclass(frozen=True, kw_only=True)
class Counts:
    """One round of a group, ready to be compared."""

    script: Script
    group: Group
    sides: Mapping[str, Plain]  # role -> every value that it entered in this round
    found: Reeving | None  # the state that the counts found before: dead end and setting are compared with it
    block: object = None  # that both read off its plate before; None: not asked


def compared(counts: Counts) -> Compared:
    """Return whether the two sides of a round agree with each other and with what has to be [-].

    Args:
        counts: a round in which every item of the group was entered
    """
    return COMPARE[counts.group.compare](counts)


def falls_at_head(values: Plain) -> int | None:
    """Return the falls that head sheaves with rope and the place of the dead end make; None: not readable [-].

    Args:
        values: "sheaves" with rope over them, "ends_on": "head" or "block"

    Source: docs/theory/run.md, what is compared.
    """
    sheaves, ends_on = values.get("sheaves"), values.get("ends_on")
    if not _is_sheaves(sheaves) or ends_on not in ("head", "block"):
        return None
    return 2 * len(sheaves) - (1 if ends_on == "block" else 0)  # type: ignore[arg-type]


def _equal(counts: Counts) -> Compared:
    """Return whether every field that both were asked is the same, and right where the script wants something."""
    for asked in _fields(counts):
        field = _with_found_end(counts, asked)
        why = _field_differs(counts, field) or _field_is_wrong(counts, field)
        if why is not None:
            return Compared(why=why)
    return Compared(why=None)


def _with_found_end(counts: Counts, field: Field) -> Field:
    """Return the place of the dead end as a field that wants the place of the pattern that the counts found."""
    if field.name != "place" or field.want is not None or counts.found is None:
        return field
    return replace(field, want=counts.found.dead_end)


def _falls(counts: Counts) -> Compared:
    """Return whether ropes at the block, sheaves at the head and the pattern are one."""
    operator, rigger = (counts.sides.get(role, {}) for role in COUNTERS)
    at_head, ropes, label = falls_at_head(operator), rigger.get("ropes"), f"{counts.group.label}:"
    if at_head is None:
        return _not_readable(label, "operator")
    if not is_whole(ropes) or not _is_sheaves(_at_block(counts)):
        return _not_readable(label, "rigger")
    if at_head != ropes:
        return _differ(label, at_head, ropes)
    for field in _fields(counts):
        why = None if field.name in COUNTED else _field_differs(counts, field) or _field_is_wrong(counts, field)
        if why is not None:
            return Compared(why=why)
    return _against_pattern(counts, at_head, operator.get("block", rigger.get("block", counts.block)))


def _at_block(counts: Counts) -> object:
    """Return the block sheaves with rope; a ball has none, so none is asked."""
    is_asked = any(field.name == "block_sheaves" for field in _fields(counts))
    return counts.sides.get("rigger", {}).get("block_sheaves") if is_asked else []


def _against_pattern(counts: Counts, falls: int, block: object) -> Compared:
    expects = [one for one in counts.script.expects if block is None or is_same(one.block, block)]
    for_falls = [one for one in expects if one.falls == falls]
    if not for_falls:
        wanted = [one for one in expects if counts.script.kind == "change"]
        if len(wanted) == 1:
            return Compared(why=run_word("falls_not_pattern", {"falls": falls, "want": wanted[0].falls}))
        return Compared(why=run_word("no_pattern", {"falls": falls}))
    seen = {"head": counts.sides["operator"]["sheaves"], "block": _at_block(counts)}
    on_path = [one for one in for_falls if not _odd_places(one, seen)]
    if on_path:
        return Compared(why=None, finds=on_path[0])
    if len(for_falls) > 1:
        return Compared(why=run_word("path_none", {"falls": falls}))
    places = "; ".join(_odd_places(for_falls[0], seen))
    return Compared(why=run_word("path_differs", {"falls": falls, "places": places}))


def _odd_places(wanted: Reeving, seen: Plain) -> list[str]:
    """Return where the sheaves with rope are not those of a pattern, in words."""
    told = []
    for place, sheaves in (("head", wanted.head_sheaves), ("block", wanted.block_sheaves)):
        rope = seen[place]
        more = sorted(one for one in rope if one not in sheaves)  # type: ignore[attr-defined]
        less = sorted(one for one in sheaves if one not in rope)  # type: ignore[operator]
        if more or less:
            code = "path_other" if more and less else "path_more" if more else "path_less"
            told.append(run_word(code, {"place": place, "seen": more, "want": less}))
    return told


def _indicator(counts: Counts) -> Compared:
    """Return whether both read one setting, and the setting is what the counts found."""
    fields = _fields(counts)
    for field in fields:
        why = _field_differs(counts, field)
        if why is not None:
            return Compared(why=why)
    if counts.found is None:
        return Compared(why=run_word("no_count", {}))
    for field in fields:
        want = {"falls": counts.found.falls, "block": counts.found.block}.get(field.name)
        why = _field_is_wrong(counts, field) if want is None else _setting_is_wrong(counts, field, want)
        if why is not None:
            return Compared(why=why)
    return Compared(why=None)


def _setting_is_wrong(counts: Counts, field: Field, want: object) -> str | None:
    value = _asked(counts, field)[0][1]
    return None if is_same(value, want) else run_word(f"setting_{field.name}", {"value": value, "want": want})


def _fields(counts: Counts) -> list[Field]:
    by_name: dict[str, Field] = {}
    for name in counts.group.items:
        for field in counts.script.item(name).fields:
            by_name.setdefault(field.name, field)
    return list(by_name.values())


def _asked(counts: Counts, field: Field) -> list[tuple[str, object]]:
    """Return the value of each role that was asked a field."""
    asked = []
    for role in COUNTERS:
        items = (counts.script.item(name) for name in counts.group.items)
        if any(item.who == role and any(one.name == field.name for one in item.fields) for item in items):
            asked.append((role, counts.sides.get(role, {}).get(field.name)))
    return asked


def _field_differs(counts: Counts, field: Field) -> str | None:
    if is_free(field):
        return None
    asked = _asked(counts, field)
    for role, value in asked:
        if value is None or not is_readable(field, value):
            return _not_readable(_label(field), role).why
    if len(asked) == 2 and not is_alike(field, asked[0][1], asked[1][1]):
        return _differ(_label(field), asked[0][1], asked[1][1]).why
    return None


def _field_is_wrong(counts: Counts, field: Field) -> str | None:
    asked = _asked(counts, field)
    for role, value in asked:
        wrong = what_is_wrong(field, value)
        if wrong is None:
            continue
        who = "both" if len(asked) == 2 else "one"
        facts = {"label": _label(field), "role": role, "value": value, "want": field.want}
        if field.wrong:
            return run_word(f"{who}_wrong", {**facts, "wrong": filled(field.wrong, facts)})
        if field.want is not None:
            return run_word(f"{who}_not_wanted", facts)
        return wrong
    return None


def _label(field: Field) -> str:
    return field.prompt if field.prompt.endswith("?") else f"{field.prompt}:"


def _differ(label: str, operator: object, rigger: object) -> Compared:
    return Compared(why=run_word("differ", {"label": label, "operator": operator, "rigger": rigger}))


def _not_readable(label: str, role: str) -> Compared:
    return Compared(why=run_word("not_whole", {"label": label, "role": role}))


def _is_sheaves(value: object) -> bool:
    return isinstance(value, list | tuple) and all(map(is_whole, value)) and len(set(value)) == len(value)


COMPARE: Final[Mapping[str, Callable[[Counts], Compared]]] = {
    "equal": _equal,
    "falls": _falls,
    "indicator": _indicator,
}


def merged(entries: Iterable[tuple[str, Plain]]) -> dict[str, Plain]:
    """Return every value that each role entered in a round [-].

    Args:
        entries: role and values of each entry
    """
    sides: dict[str, Plain] = {}
    for role, values in entries:
        sides[role] = {**sides.get(role, {}), **values}
    return sides
