"""Readers of single fields: a node in, a value out, a fault where it cannot be read.

In:    nodes, and for each field what is wanted there.
Out:   SI floats, words, records as plain dictionaries; None where nothing or a fault stands.
Never: which fields a crane has, defaults, references between fields.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from becket import units
from becket.errors import UnreadableTextError
from becket.intake.nodes import Node, Pairs, Sequence, Word
from becket.intake.page import Page, near_name, nearest
from becket.units import shortened

WORD_MOST = 1000  # characters of any one value
FOUND_MOST = 160  # characters of what a message shows of it


@dataclass(frozen=True, kw_only=True)
class Field:
    """How one field is read, and what is wanted there. ``is_figure``: may be ``{value: Q, source: text}``."""

    wanted: str
    read: Callable[[Page, Node, str], Any]
    is_figure: bool = True

    def value(self, page: Page, node: Node, field: str) -> Any:
        """Return what stands at the node, None where a fault was noted [-]."""
        page.mark(node, field)
        inner = _unwrapped(page, node, field) if self.is_figure else node
        return None if inner is None else self.read(page, inner, field)


@dataclass(frozen=True, kw_only=True)
class Bounds:
    """Where a quantity may lie, in the unit of its text: "over 0", "from 0", "up to 1"."""

    over: float | None = None
    least: float | None = None
    under: float | None = None
    most: float | None = None

    def holds(self, value: float) -> bool:
        """Return whether the value lies inside [-]."""
        return not (
            (self.over is not None and value <= self.over)
            or (self.least is not None and value < self.least)
            or (self.under is not None and value >= self.under)
            or (self.most is not None and value > self.most)
        )


ANY = Bounds()
OVER_NOUGHT = Bounds(over=0.0)
FROM_NOUGHT = Bounds(least=0.0)


# ---- single words --------------------------------------------------------------------------------------------------


def word(read: Callable[[str], Any], wanted: str) -> Field:
    """Return a field that one word or line of text fills [-].

    Args:
        read: takes the text, raises UnreadableTextError
        wanted: what is wanted there [-]
    """

    def reader(page: Page, node: Node, field: str) -> Any:
        if not isinstance(node, Word):
            page.fault(node, field, f"{_shape(node)} stands there", wanted)
            return None
        if not node.text and not node.quoted:
            page.fault(node, field, "nothing stands there", f"{wanted}, or no such line")
            return None
        if len(node.text) > WORD_MOST:
            page.fault(node, field, f"{len(node.text)} characters stand there", f"{wanted}, at most {WORD_MOST}")
            return None
        try:
            return read(node.text)
        except UnreadableTextError as error:
            page.fault(node, field, shortened(error.found, FOUND_MOST) or "an empty text stands there", error.wanted)
            return None

    return Field(wanted=wanted, read=reader)


def text() -> Field:
    """Return a field of free text on one line [-]."""
    return word(_line_of_text, "a line of text")


def choice(*words: str) -> Field:
    """Return a field that takes one of a few words [-]."""
    wanted = "one of " + ", ".join(words)

    def read(found: str) -> str:
        if found not in words:
            raise UnreadableTextError(shortened(found), nearest(found, words, "one of"))
        return found

    return word(read, wanted)


def whole(least: int = 0) -> Field:
    """Return a field of a whole number [-]."""
    return word(lambda found: units.read_whole(found, least), f"a whole number from {least} up")


def yes_no() -> Field:
    """Return a field that takes yes or no [-]."""
    return word(units.read_yes_no, "yes or no")


def day() -> Field:
    """Return a field of a date [-]."""
    return word(units.read_date, "a day as 2025-03-11")


def moment() -> Field:
    """Return a field of a day and a time [-]."""
    return word(units.read_moment, "a day and a time as 2026-11-30 07:00")


def quantity(kind: str, bounds: Bounds = ANY, bounds_words: str = "") -> Field:
    """Return a field of a quantity [SI].

    Args:
        kind: as ``units.read_quantity`` knows it [-]
        bounds: where it may lie, in SI
        bounds_words: the same in words, "over 0"; "" where it may be anything [-]
    """
    return _number(kind, lambda found: units.read_quantity(found, kind), bounds, bounds_words)


def span(kind: str, bounds: Bounds, bounds_words: str) -> Field:
    """Return a field of a range or one quantity [SI].

    Args:
        kind: as ``units.read_range`` knows it [-]
        bounds: where both ends may lie, in SI
        bounds_words: the same in words [-]
    """
    return _number(kind, lambda found: units.read_range(found, kind), bounds, bounds_words)


def _number(kind: str, read: Callable[[str], Any], bounds: Bounds, bounds_words: str) -> Field:
    noun = "a plain number without a unit" if kind == "ratio" and bounds_words else units.wanted_of(kind)
    wanted = f"{noun}, {bounds_words}" if bounds_words else noun

    def reader(page: Page, node: Node, field: str) -> Any:
        def checked(found: str) -> Any:
            value = _read_with_point(read, found) if page.decimal_comma else read(found)
            ends = value if isinstance(value, tuple) else (value,)
            if not all(bounds.holds(end) for end in ends):
                raise UnreadableTextError(f"{shortened(found)} is out of range", wanted)
            return value

        return word(checked, wanted).read(page, node, field)

    return Field(wanted=wanted, read=reader)


# ---- many ----------------------------------------------------------------------------------------------------------


def list_of(item: Field, wanted: str, least: int = 0) -> Field:
    """Return a field of a list, as a tuple [-].

    Args:
        item: how each is read
        wanted: what is wanted there [-]
        least: fewest that are right [-]
    """

    def reader(page: Page, node: Node, field: str) -> Any:
        if not isinstance(node, Sequence):
            page.fault(node, field, _found(node), wanted)
            return None
        if len(node.items) < least:
            page.fault(node, field, "the list is empty", wanted)
        # a faulty item stays as None, so that the others keep their number
        return tuple(item.value(page, one, f"{field}[{index}]") for index, one in enumerate(node.items))

    return Field(wanted=wanted, read=reader)


def map_of(key: Field, value: Field, wanted: str, least: int = 0, *, named: bool = False) -> Field:
    """Return a field that maps figures or names to values, as a dictionary [-].

    Args:
        key: how a key is read
        value: how a value is read
        wanted: what is wanted there [-]
        least: fewest pairs that are right [-]
        named: whether the keys are names, "blocks.main", rather than figures, "sag[10.6 m]"
    """

    def reader(page: Page, node: Node, field: str) -> Any:
        if not isinstance(node, Pairs):
            page.fault(node, field, _found(node), wanted)
            return None
        if len(node.pairs) < least:
            page.fault(node, field, "nothing stands in it", wanted)
        values: dict[Any, Any] = {}
        for word_, inner in node.pairs:
            place = f"{field}.{shortened(word_.text)}" if named else f"{field}[{shortened(word_.text)}]"
            page.mark(word_, place)
            read = key.read(page, word_, place)
            got = value.value(page, inner, place)
            if read in values:
                page.fault(word_, place, f"{shortened(word_.text)} stands twice", "each figure once")
            elif read is not None and got is not None:
                values[read] = got
                page.keys.setdefault(field, {})[read] = place
        return values

    return Field(wanted=wanted, read=reader, is_figure=False)


def record(
    fields: Mapping[str, Field],
    required: Iterable[str] = (),
    wanted: str = "keys with values",
    make: Callable[[dict[str, Any]], Any] = lambda values: values,
) -> Field:
    """Return a field of a mapping with known keys [-].

    Args:
        fields: key -> how it is read; every key is in the result, None where it is not on file
        required: keys without which there is no such record [-]
        wanted: what is wanted there [-]
        make: turns the dictionary into what is handed on
    """

    def reader(page: Page, node: Node, field: str) -> Any:
        if not isinstance(node, Pairs):
            page.fault(node, field or "file", _found(node), wanted)
            return None
        values: dict[str, Any] = dict.fromkeys(fields)
        for word_, inner in node.pairs:
            path = _joined(field, shortened(word_.text))
            if word_.text in fields:
                values[word_.text] = fields[word_.text].value(page, inner, path)
                _note_source(page, word_.text, values[word_.text], field)
            else:
                found = f'"{shortened(word_.text)}" is not a key here'
                page.fault(word_, path, found, nearest(word_.text, fields, "keys here"))
        mistyped = {near_name(word_.text, fields) for word_, _ in node.pairs if word_.text not in fields}
        for name in required:
            if node.get(name) is None and name not in mistyped:
                page.fault(node, _joined(field, name), "is missing", fields[name].wanted)
        return make(values)

    return Field(wanted=wanted, read=reader, is_figure=False)


def none_or(other: Field, none: Any) -> Field:
    """Return a field that takes the word "none" as an answer, or what the other takes [-]."""

    def reader(page: Page, node: Node, field: str) -> Any:
        return none if isinstance(node, Word) and node.text == "none" else other.read(page, node, field)

    return Field(wanted=f"none, or {other.wanted}", read=reader, is_figure=other.is_figure)


def one_or_list(item: Field, wanted: str) -> Field:
    """Return a field that takes one figure, or a list of them with at least one, as a tuple [-]."""
    many = list_of(item, wanted, 1)

    def reader(page: Page, node: Node, field: str) -> Any:
        if isinstance(node, Word):
            value = item.read(page, node, field)
            return None if value is None else (value,)
        return many.read(page, node, field)

    return Field(wanted=wanted, read=reader)


# ---- shapes --------------------------------------------------------------------------------------------------------


def _unwrapped(page: Page, node: Node, field: str) -> Node | None:
    """Return the figure itself, its source noted; None where the wrapping is faulty [-]."""
    if not isinstance(node, Pairs) or (node.get("value") is None and node.get("source") is None):
        return node
    wrapping = record({"value": _ANYTHING, "source": text()}, ["value"], "{value: figure, source: text}")
    values = wrapping.read(page, node, field)
    if values["source"] is not None:
        page.sources[field] = values["source"]
    value: Node | None = values["value"]
    return value


_ANYTHING = Field(wanted="the figure", read=lambda page, node, field: node, is_figure=False)


def _note_source(page: Page, key: str, value: Any, field: str) -> None:
    """Note the source that ``source`` gives of its record, and ``sag_source`` of the key ``sag`` beside it."""
    if key == "source" and value is not None:
        page.sources[field] = value
    elif key.endswith("_source") and value is not None:
        page.sources[_joined(field, key.removesuffix("_source"))] = value


def _joined(field: str, name: str) -> str:
    return f"{field}.{name}" if field else name


def _shape(node: Node) -> str:
    return "a list" if isinstance(node, Sequence) else "a mapping"


def _found(node: Node) -> str:
    if not isinstance(node, Word):
        return f"{_shape(node)} stands there"
    return shortened(node.text) if node.text else "nothing stands there"


def _line_of_text(found: str) -> str:
    stripped = found.strip()
    if not stripped or not all(c.isprintable() for c in stripped):
        raise UnreadableTextError(f'"{shortened(found)}"', "a line of text that can be printed")
    return stripped


def _read_with_point(read: Callable[[str], Any], found: str) -> Any:
    """Return a spreadsheet's figure read with a decimal point; a mark that may set thousands apart is refused."""
    if re.search(r"(?<![0-9,])[1-9][0-9]{0,2}(,[0-9]{3})+(?![0-9,])", found):
        wanted = "38 000 for thousands, or 38,0 with one or two decimals"
        raise UnreadableTextError(f"{shortened(found)} has a comma before three digits: thousands or decimals", wanted)
    if re.search(r"(?<![0-9.])[1-9][0-9]{0,2}(\.[0-9]{3})+(?![0-9.,])", found):
        wanted = "38 000 for thousands, or 38,0 with one or two decimals"
        raise UnreadableTextError(f"{shortened(found)} has a point before three digits: thousands or decimals", wanted)
    with_point = re.sub(r"(?<=[0-9]),(?=[0-9])", ".", found)
    try:
        return read(with_point)
    except UnreadableTextError as error:
        as_it_stands = error.found.replace(shortened(with_point), shortened(found), 1)
        raise UnreadableTextError(as_it_stands, error.wanted) from None
