"""What was entered at the crane, told by subject: path, keepers, setting, limit, wraps, position, wrong entries.

In:    what a record is told from.
Out:   sections, every value with who entered it, when, on which device.
Never: a value that is hidden; an entry left out of every section.
"""

from __future__ import annotations

from collections.abc import Iterator

from becket.cards.record_told import Line, Section
from becket.guide.compare import COUNTERS
from becket.guide.script import Item
from becket.web.present.record_kept import KeptLike, RunKept
from becket.web.present.record_times import item_name
from becket.web.present.record_values import SHEAVES, Value, said_values, values_of

# the subject of a value by a word in its name; the first that fits counts, what fits none stands with the position
SUBJECTS: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("keepers", ("keeper", "clip")),
    ("settings", ("setting", "override", "key", "stopped", "distance", "display", "limit", "wraps", "spool", "turns")),
)
REST = "position"
ORDER = ("settings", "keepers", "path", REST)
BLIND_TOO = ("settings", "keepers")  # of which the counts that are complete stand here once more


def tell_entries(run: RunKept) -> tuple[Section, ...]:
    """Return every entry that counts, by subject; of the blind ones what is asked of a record by name [-].

    Args:
        run: what the record is told from
    """
    lines: dict[str, list[Line]] = {name: [] for name in ORDER}
    for one in _counted(run):
        item = run.items.get(str(one.event.entered.get("item")))
        for value in said_values(item, values_of(one.event)):
            subject = subject_of(run, item, value)
            if item is None or not item.blind or subject in BLIND_TOO:
                lines[subject].append(_line(run, one, value))
    return tuple(_section(run, name, tuple(found)) for name, found in lines.items())


def tell_wrong(run: RunKept) -> Section:
    """Return the wrong entries: what was entered first, and what was said to it [-].

    Args:
        run: what the record is told from
    """
    lines = []
    for name, done in run.state.items.items():
        for attempt in done.attempts:
            item = run.items.get(name)
            said = "; ".join(f"{value.asked}: {value.said}" for value in said_values(item, attempt.values))
            words = {"name": run.name_of(attempt.by), "at": run.at(attempt.at)}
            below = (run.word("record.attempt_by", **words), attempt.why)
            lines.append(Line(label=item_name(run, name), value=said, below=tuple(one for one in below if one)))
    says = () if lines else (run.word("record.wrong_none"),)
    return Section(name="wrong", title=run.word("record.wrong"), says=says, lines=tuple(lines), is_empty=not lines)


def subject_of(run: RunKept, item: Item | None, value: Value) -> str:
    """Return the part of the record in which a value stands [-].

    Args:
        run: with the groups
        item: that asked for it
        value: with its name
    """
    group = run.groups.get(item.id) if item else None
    if group and group.compare == "indicator":
        return "settings"
    field = next((one for one in item.fields if one.name == value.name), None) if item else None
    if field and field.kind in SHEAVES:
        return "path"
    return next((subject for subject, words in SUBJECTS if any(word in value.name for word in words)), REST)


def _counted(run: RunKept) -> Iterator[KeptLike]:
    """The entries by which an item is done: in turn, open, not one of the wrong attempts."""
    for one in run.of_kind("entered"):
        if one.event.key in run.apart or one.event.key in run.sealed:
            continue
        if not _is_attempt(run, str(one.event.entered.get("item")), one):
            yield one


def _is_attempt(run: RunKept, name: str, one: KeptLike) -> bool:
    done = run.state.items.get(name)
    attempts = done.attempts if done else ()
    return any(one.event.at == wrong.at and dict(wrong.values) == dict(values_of(one.event)) for wrong in attempts)


def _line(run: RunKept, one: KeptLike, value: Value) -> Line:
    name = str(one.event.entered.get("item"))
    item = run.items.get(name)
    asked = item.do.rstrip(".") if item and len(item.fields) == 1 else value.asked
    label = run.word("record.asked", item=item_name(run, name), asked=asked)
    return Line(label=label, value=value.said, below=(run.said_by(one), *_for_whom(run, one, item)))


def _for_whom(run: RunKept, one: KeptLike, item: Item | None) -> tuple[str, ...]:
    """One phone for two: what stands on the other one's step was entered for that one, and is said to be."""
    if item is None or item.who not in COUNTERS or one.event.person in (None, run.state.people.get(item.who)):
        return ()
    return (run.word(f"record.for_{item.who}"),)


def _section(run: RunKept, name: str, lines: tuple[Line, ...]) -> Section:
    says = () if lines else (run.word(f"record.{name}_none"),)
    title, folded = run.word(f"record.{name}"), name == REST and bool(lines)
    return Section(name=name, title=title, says=says, lines=lines, is_empty=not lines, is_folded=folded)
