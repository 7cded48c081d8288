"""What a crane book says by boom length: is it a length of this boom?

In:    the parts as read, some of them missing where they were faulty.
Out:   faults for boom lengths and codes that are not there, for angles the wrong way round.
Never: judging figures against each other (limits/contradictions.py).
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from becket.book.boom import Boom, BoomLength
from becket.intake.boom_lengths import boom_lengths
from becket.intake.page import Page, first_names


class BoomReferences:
    """Checks of one book, each noting its faults on the page."""

    def __init__(self, page: Page, book: Mapping[str, Any]) -> None:
        self.page = page
        self.book = book
        self.has_lengths = book["boom"] is not None and "boom.lengths" not in page.faulty_fields()
        self.lengths = boom_lengths(book["boom"] if self.has_lengths else None)

    def check(self) -> None:
        """Note every reference that leads nowhere."""
        if self.book["boom"] is not None:
            self._boom(self.book["boom"])
        self._positions()
        self._charts()

    def _boom(self, boom: Boom) -> None:
        if self.has_lengths:
            self._codes(boom.lengths)
        for sector, lowest in boom.lowest.items():
            if None not in (boom.highest, lowest) and lowest >= boom.highest:
                wanted = "an angle under boom.highest"
                self.page.fault_at(f"boom.lowest.{sector}", "is not under the highest angle", wanted)
        self._boom_lengths("boom.sag")
        for index, _ in known_items(self.book["stowed"]):
            self._boom_lengths(f"stowed[{index}].deduct")

    def _codes(self, lengths: tuple[BoomLength, ...]) -> None:
        self.page.fault_twice("boom.lengths", [f"{one.code} {one.length:g} m" for one in lengths], "each length once")
        for index, one in enumerate(lengths):
            sections, first = len(one.sections), len(lengths[0].sections)
            if sections != first:
                found = f"{one.code} is for {sections} sections, the first code for {first}"
                self.page.fault_at(f"boom.lengths[{index}].code", found, "a figure for each section in every code")

    def _boom_lengths(self, field: str) -> None:
        """Each key of a mapping by boom length is one of the boom's."""
        for length, path in self.page.keys.get(field, {}).items():
            self._boom_length(path, length, None)

    def _boom_length(self, field: str, length: float | None, code: str | None) -> None:
        near = self.lengths.nearest(length) if length is not None else None
        if length is None or near is None:
            return
        same = self.lengths.same(length)
        if same is None:
            wanted = f"one of boom.lengths; the nearest is {near:g} m"
            self.page.fault_at(field, f"{length:g} m is no boom length of this crane", wanted)
        elif code is not None and code not in self.lengths.codes[same]:
            wanted = f"its code: {first_names(self.lengths.codes[same])}"
            self.page.fault_at(field, f"{code} is no code of the boom length {length:g} m", wanted)

    def _positions(self) -> None:
        for index, one in known_items(self.book["rereeve"]):
            self._boom_length(f"rereeve[{index}].length", one.length, None)
            if None not in (one.lowest, one.highest) and one.lowest > one.highest:
                wanted = "lowest first, then highest"
                self.page.fault_at(f"rereeve[{index}].highest", "is under the lowest angle", wanted)

    def _charts(self) -> None:
        names = [one.name if one is not None else None for one in self.book["charts"] or ()]
        self.page.fault_twice("charts", names, "each chart with a name of its own", ".name")
        for index, _ in known_items(self.book["charts"]):
            for (code, length), path in self.page.keys.get(f"charts[{index}].rows", {}).items():
                self._boom_length(path, length, code)


def known_items(items: tuple[Any, ...] | None) -> list[tuple[int, Any]]:
    """Return the items of a list with their numbers, without those that were faulty as a whole [-].

    >>> known_items(("a", None, "c"))
    [(0, 'a'), (2, 'c')]
    """
    return [(index, one) for index, one in enumerate(items or ()) if one is not None]
