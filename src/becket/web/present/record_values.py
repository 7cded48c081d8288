"""What was entered, as it stands in a record.

In:    an item of a script, the values of an entry.
Out:   text, one a value.
Never: a value rounded, turned into another unit, or left out.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from becket.guide.event import Event
from becket.guide.script import Field, Item

UNITS: Mapping[str, str] = {"deg": "°"}  # units that stand without a space
SHEAVES = ("sheave", "sheaves")


@dataclass(frozen=True, kw_only=True)
class Value:
    """One value with what was asked."""

    name: str
    asked: str
    said: str


def values_of(event: Event) -> Mapping[str, object]:
    """Return the values of an entry; none where it is sealed [-].

    Args:
        event: of kind "entered"
    """
    values = event.entered.get("values")
    return values if isinstance(values, Mapping) else {}


def said_values(item: Item | None, values: Mapping[str, object]) -> tuple[Value, ...]:
    """Return every value of an entry in the order in which they are asked, then those that nobody asked [-].

    Args:
        item: of the script; None: it has no such item
        values: as entered
    """
    fields = {field.name: field for field in item.fields} if item else {}
    known = [name for name in fields if name in values]
    others = sorted(name for name in values if name not in fields)
    return tuple(
        Value(name=name, asked=asked_by(fields.get(name), name), said=said_value(fields.get(name), values[name]))
        for name in [*known, *others]
    )


def asked_by(field: Field | None, name: str) -> str:
    """Return what was asked, without its question mark [-].

    Args:
        field: of the script
        name: in the entry

    >>> asked_by(None, "block_sheaves")
    'block sheaves'
    """
    return field.prompt.rstrip("?. ") if field else name.replace("_", " ")


def said_value(field: Field | None, value: object) -> str:
    """Return a value as it was entered, with its unit or its place [-].

    Args:
        field: of the script; None: the script has none of this name
        value: as entered

    >>> said_value(Field(name="angle", kind="number", prompt="Angle read", unit="deg"), 4.4)
    '4.4°'
    >>> said_value(Field(name="sheaves", kind="sheaves", prompt="Sheaves", place="head"), [3, 5])
    'head 3, 5'
    """
    said = _plain(value)
    if field is None:
        return said
    if field.kind in SHEAVES and field.place and value not in (None, []):
        return f"{field.place} {said}"
    if field.kind == "number" and field.unit:
        return f"{said}{UNITS[field.unit]}" if field.unit in UNITS else f"{said} {field.unit}"
    return said


def _plain(value: object) -> str:
    if isinstance(value, list | tuple):
        return ", ".join(_plain(one) for one in value) or "none"
    if isinstance(value, Mapping):
        return ", ".join(f"{name} {_plain(one)}" for name, one in value.items()) or "none"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float) and value.is_integer():
        return str(int(value)).replace("-", "−")
    if isinstance(value, int | float):
        return str(value).replace("-", "−")
    return "nothing" if value is None else str(value)
