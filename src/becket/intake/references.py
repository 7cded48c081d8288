"""What one part of a crane book says of another: does it exist?

In:    the parts as read, some of them missing where they were faulty.
Out:   faults for names, sheaves and boom lengths that are not there; boom lengths made one number.
Never: judging figures against each other (limits/contradictions.py).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from becket.book.boom import BoomLength
from becket.intake.boom_lengths import boom_lengths
from becket.intake.nodes import Span
from becket.intake.page import Page, first_names, nearest, place_of


class References:
    """Checks of one book, each noting its faults on the page."""

    def __init__(self, page: Page, book: Mapping[str, Any]) -> None:
        self.page = page
        self.book = book
        self.faulty = page.faulty_fields()
        self.lengths = boom_lengths(None if "boom.lengths" in self.faulty else book["boom"])

    def check(self) -> None:
        """Note every reference that leads nowhere."""
        self._boom()
        self._positions()
        self._charts()
        self._keepers()
        self._patterns()

    def fault(self, field: str, found: str, wanted: str) -> None:
        """Note a fault where the field stands."""
        line, column = place_of(self.page.marks, field)
        self.page.fault(Span(line=line, column=column), field, found, wanted)

    def _listed(self, name: str) -> list[tuple[int, Any]]:
        """Return the items of a list with their numbers, without those that were faulty as a whole."""
        return [(index, one) for index, one in enumerate(self.book[name] or ()) if one is not None]

    def _boom(self) -> None:
        boom = self.book["boom"]
        if boom is None:
            return
        if "boom.lengths" not in self.faulty:
            self._codes(boom.lengths)
        for sector, lowest in boom.lowest.items():
            if None not in (boom.highest, lowest) and lowest >= boom.highest:
                self.fault(f"boom.lowest.{sector}", "is not under the highest angle", "an angle under boom.highest")
        self._boom_lengths("boom.sag")
        for index, _ in self._listed("stowed"):
            self._boom_lengths(f"stowed[{index}].deduct")

    def _codes(self, lengths: tuple[BoomLength, ...]) -> None:
        self._twice("boom.lengths", [f"{one.code} {one.length:g} m" for one in lengths], "each length once")
        for index, one in enumerate(lengths):
            sections, first = len(one.sections), len(lengths[0].sections)
            if sections != first:
                found = f"{one.code} is for {sections} sections, the first code for {first}"
                self.fault(f"boom.lengths[{index}].code", found, "a figure for each section in every code")

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
            self.fault(field, f"{length:g} m is no boom length of this crane", wanted)
        elif code is not None and code not in self.lengths.codes[same]:
            wanted = f"its code: {first_names(self.lengths.codes[same])}"
            self.fault(field, f"{code} is no code of the boom length {length:g} m", wanted)

    def _positions(self) -> None:
        for index, one in self._listed("rereeve"):
            self._boom_length(f"rereeve[{index}].length", one.length, None)
            if None not in (one.lowest, one.highest) and one.lowest > one.highest:
                self.fault(f"rereeve[{index}].highest", "is under the lowest angle", "lowest first, then highest")

    def _charts(self) -> None:
        self._names_twice("charts", "each chart with a name of its own")
        for index, _ in self._listed("charts"):
            for (code, length), path in self.page.keys.get(f"charts[{index}].rows", {}).items():
                self._boom_length(path, length, code)

    def _keepers(self) -> None:
        self._names_twice("keepers", "each keeper with a name of its own")
        for index, one in self._listed("keepers"):
            field = f"keepers[{index}]"
            if one.at == "dead end" and one.holds:
                self.fault(f"{field}.holds", "a keeper of the dead end holds no sheave", "no holds")
            sheaves = self._sheaves_at(one.at, one.block, f"{field}.at")
            for place, sheave in enumerate(one.holds):
                if sheave is None:
                    continue
                where = "the head" if one.at == "head" else f"the block {one.block}"
                self._sheave(f"{field}.holds[{place}]", sheave, sheaves, where)

    def _patterns(self) -> None:
        patterns = self.book["patterns"] or ()
        states = [f"{one.block}:{one.falls}" if one and one.block and one.falls else None for one in patterns]
        self._twice("patterns", states, "one pattern for each block and number of falls")
        for index, one in self._listed("patterns"):
            field = f"patterns[{index}]"
            head = self._sheaves_at("head", None, "")
            block = self._sheaves_at("block", one.block, f"{field}.block")
            for step in one.path:
                sheaves, where = (head, "the head") if step.place == "head" else (block, f"the block {one.block}")
                self._sheave(f"{field}.path", step.sheave, sheaves, where)
            self._anchor(f"{field}.dead_end", one.dead_end)
            if one.typed and one.confirmed and same_person(one.typed.by, one.confirmed.by):
                found = f"{one.confirmed.by} typed this pattern too"
                self.fault(f"{field}.confirmed", found, "another person confirms, from the page of the manual")

    def _anchor(self, field: str, dead_end: str | None) -> None:
        head = self.book["head"]
        if head is None or dead_end is None or not dead_end.startswith("head ") or "head.anchors" in self.faulty:
            return
        name = dead_end.removeprefix("head ")
        if name not in head.anchors:
            found = f'"{name}" is no anchor of the head'
            self.fault(field, found, nearest(name, head.anchors, "anchors on file"))

    def _sheaves_at(self, place: str | None, block: str | None, field: str) -> Mapping[int, float] | None:
        """Return the sheaves there; None where they are not known, a block that is not there being a fault."""
        blocks, head = self.book["blocks"], self.book["head"]
        if place == "head":
            return head.sheaves if head and "head.sheaves" not in self.faulty else None
        if place != "block" or block is None or not blocks:
            return None
        if block not in blocks:
            if f"blocks.{block}" not in self.faulty:
                self.fault(field, f'"{block}" is no block of this book', nearest(block, blocks, "blocks on file"))
            return None
        sheaves: Mapping[int, float] | None = blocks[block].sheaves
        return None if f"blocks.{block}.sheaves" in self.faulty else sheaves

    def _sheave(self, field: str, sheave: int, sheaves: Mapping[int, float] | None, where: str) -> None:
        if sheaves is not None and sheave not in sheaves:
            self.fault(field, f"there is no sheave {sheave} at {where}", f"its sheaves: {first_names(sheaves)}")

    def _names_twice(self, field: str, wanted: str) -> None:
        names = [one.name if one is not None else None for one in self.book[field] or ()]
        self._twice(field, names, wanted, ".name")

    def _twice(self, field: str, names: Iterable[str | None], wanted: str, key: str = "") -> None:
        seen: set[str] = set()
        for index, name in enumerate(names):
            if name is not None and name in seen:
                self.fault(f"{field}[{index}]{key}", f'"{name}" stands twice', wanted)
            elif name is not None:
                seen.add(name)


def same_person(one: str, other: str) -> bool:
    """Return whether two names are one person's, however they are spaced or capitalised [-].

    >>> same_person("J. Marsh", "j.  marsh"), same_person("JM", "RT")
    (True, False)
    """
    return " ".join(one.casefold().split()) == " ".join(other.casefold().split())
