"""What reading one file has found so far: faults, places, sources.

In:    the file's name; faults one at a time.
Out:   every fault with its place; where each field stands; the source that a figure names.
Never: reading.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from difflib import get_close_matches
from typing import Any

from becket.errors import Fault, FaultyFileError
from becket.intake.nodes import Node, Span
from becket.units import shortened

FAULTS_MOST = 1000  # a file with more is not a crane book with slips; the list would hide its first line
LOOKED_AT = 200  # names in the search for the nearest
LISTED = 30  # names in one message


class Page:
    """The notes of one reading. It is written to while reading and belongs to nobody afterwards."""

    def __init__(self, file: str, *, decimal_comma: bool = False) -> None:
        self.file = file
        self.decimal_comma = decimal_comma
        self.faults: list[Fault] = []
        self.marks: dict[str, tuple[int, int]] = {}
        self.sources: dict[str, str] = {}
        self.keys: dict[str, dict[Any, str]] = {}  # field of a mapping by figures -> key as read -> its field path

    def fault(self, place: Span | None, field: str, found: str, wanted: str) -> None:
        """Note one slip; None is the whole file.

        Raises: FaultyFileError once there are too many to be worth listing.
        """
        line, column = (place.line, place.column) if place else (0, 0)
        fault = Fault(file=self.file, line=line, column=column, field=field, found=found, wanted=wanted)
        self.faults.append(fault)
        if len(self.faults) >= FAULTS_MOST:
            found = f"{FAULTS_MOST} faults up to here"
            more = Fault(file=self.file, line=line, column=column, field="file", found=found, wanted="mend these first")
            raise FaultyFileError((*self.faults, more))

    def fault_at(self, field: str, found: str, wanted: str) -> None:
        """Note a slip where the field stands, or what it belongs to where it does not stand by itself."""
        line, column = place_of(self.marks, field)
        self.fault(Span(line=line, column=column), field, found, wanted)

    def fault_twice(self, field: str, names: Iterable[str | None], wanted: str, key: str = "") -> None:
        """Note each name of a list that stands in it a second time.

        Args:
            field: of the list [-]
            names: of its items in their order, None for one that is faulty [-]
            wanted: what would be right [-]
            key: of an item, with its point, where the name stands; "" is the item itself [-]
        """
        seen: set[str] = set()
        for index, name in enumerate(names):
            if name is not None and name in seen:
                self.fault_at(f"{field}[{index}]{key}", f'"{name}" stands twice', wanted)
            elif name is not None:
                seen.add(name)

    def mark(self, node: Node, field: str) -> None:
        """Note where a field stands."""
        self.marks.setdefault(field, (node.line, node.column))

    def faulty_fields(self) -> frozenset[str]:
        """Return every field with a fault, and every field that holds one with a fault [-]."""
        fields: set[str] = set()
        for fault in self.faults:
            field = fault.field
            while field and field not in fields:
                fields.add(field)
                field = outer_field(field)
        return frozenset(fields)

    def stop_if_faulty(self) -> None:
        """Raise FaultyFileError with every fault so far, if there is one."""
        if self.faults:
            raise FaultyFileError(tuple(self.faults))


def nearest(name: str, names: Iterable[str], what: str) -> str:
    """Return what would be right in place of a name that is not there: the nearest spelling, else all [-].

    Args:
        name: as it stands [-]
        names: those that would be right [-]
        what: what they are, in the plural: "keys here" [-]

    >>> nearest("lenghts", ["foot", "lengths"], "keys here")
    'did you mean "lengths"?'
    >>> nearest("x", ["foot", "lengths"], "keys here")
    'keys here: foot, lengths'
    """
    known = list(names)
    near = near_name(name, known)
    return f"{what}: {first_names(known)}" if near is None else f'did you mean "{near}"?'


def near_name(name: str, names: Iterable[str]) -> str | None:
    """Return the name with the nearest spelling, None where none is near [-].

    >>> near_name("lenghts", ["foot", "lengths"])
    'lengths'
    """
    near = get_close_matches(shortened(name), list(names)[:LOOKED_AT], n=1, cutoff=0.6)
    return near[0] if near else None


def first_names(names: Iterable[object]) -> str:
    """Return names with commas, the first ones only where they are many [-].

    >>> first_names([]), first_names([1, 2])
    ('none', '1, 2')
    """
    known = [str(name) for name in names]
    return (", ".join(known[:LISTED]) or "none") + (", ..." if len(known) > LISTED else "")


def outer_field(field: str) -> str:
    """Return the field that holds this one, "" for one at the top [-].

    >>> outer_field("charts[0].rows"), outer_field("sag[9.5 m]"), outer_field("charts")
    ('charts[0]', 'sag', '')
    """
    last = field.rfind("[") if field.endswith("]") else max(field.rfind("."), field.rfind("["))
    return field[: max(last, 0)]


def place_of(marks: Mapping[str, tuple[int, int]], field: str) -> tuple[int, int]:
    """Return line and column of a field, of what it belongs to where it does not stand by itself [-].

    >>> place_of({"blocks.main": (4, 2)}, "blocks.main.mass")
    (4, 2)
    >>> place_of({}, "blocks.main.mass")
    (0, 0)
    """
    while field and field not in marks:
        field = outer_field(field)
    return marks.get(field, (0, 0))
