"""What keepers and patterns of a crane book name: is it on this crane, and who read it?

In:    the parts as read, some of them missing where they were faulty.
Out:   faults for blocks, sheaves and anchors that are not there, for a typist who confirms.
Never: judging figures against each other (limits/contradictions.py), proposing a pattern.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from becket.book.tackle import Keeper, Pattern
from becket.intake.boom_references import known_items
from becket.intake.page import Page, first_names, nearest
from becket.reeving.seal import is_typist


class ReevingReferences:
    """Checks of one book, each noting its faults on the page."""

    def __init__(self, page: Page, book: Mapping[str, Any]) -> None:
        self.page = page
        self.book = book
        self.faulty = page.faulty_fields()

    def check(self) -> None:
        """Note every reference that leads nowhere."""
        names = [one.name if one is not None else None for one in self.book["keepers"] or ()]
        self.page.fault_twice("keepers", names, "each keeper with a name of its own", ".name")
        for index, keeper in known_items(self.book["keepers"]):
            self._keeper(f"keepers[{index}]", keeper)
        states = [_state(one) for one in self.book["patterns"] or ()]
        self.page.fault_twice("patterns", states, "one pattern for each block and number of falls")
        for index, pattern in known_items(self.book["patterns"]):
            self._pattern(f"patterns[{index}]", pattern)

    def _keeper(self, field: str, keeper: Keeper) -> None:
        if keeper.at == "dead end" and keeper.holds:
            self.page.fault_at(f"{field}.holds", "a keeper of the dead end holds no sheave", "no holds")
        sheaves = self._sheaves_at(keeper.at, keeper.block, f"{field}.at")
        where = "the head" if keeper.at == "head" else f"the block {keeper.block}"
        for place, sheave in enumerate(keeper.holds):
            self._sheave(f"{field}.holds[{place}]", sheave, sheaves, where)

    def _pattern(self, field: str, pattern: Pattern) -> None:
        sheaves = {
            "head": (self._sheaves_at("head", None, ""), "the head"),
            "block": (self._sheaves_at("block", pattern.block, f"{field}.block"), f"the block {pattern.block}"),
        }
        for step in pattern.path:
            self._sheave(f"{field}.path", step.sheave, *sheaves[step.place])
        self._anchor(f"{field}.dead_end", pattern.dead_end)
        self._second_person(field, pattern)

    def _second_person(self, field: str, pattern: Pattern) -> None:
        names = [one.by for one in (pattern.typed, pattern.confirmed) if one is not None and one.by is not None]
        if len(names) == 2 and is_typist(pattern, names[1]):
            found = f"{names[1]} typed this pattern too"
            self.page.fault_at(f"{field}.confirmed", found, "another person confirms, from the page of the manual")

    def _anchor(self, field: str, dead_end: str | None) -> None:
        head = self.book["head"]
        if head is None or dead_end is None or not dead_end.startswith("head ") or "head.anchors" in self.faulty:
            return
        name = dead_end.removeprefix("head ")
        if name not in head.anchors:
            found = f'"{name}" is no anchor of the head'
            self.page.fault_at(field, found, nearest(name, head.anchors, "anchors on file"))

    def _sheaves_at(self, place: str | None, block: str | None, field: str) -> Mapping[int, float] | None:
        """Return the sheaves there; None where they are not known, a block that is not there being a fault."""
        if place == "head":
            head = self.book["head"]
            return head.sheaves if head and "head.sheaves" not in self.faulty else None
        return self._sheaves_of(block, field) if place == "block" and block is not None else None

    def _sheaves_of(self, block: str, field: str) -> Mapping[int, float] | None:
        blocks = self.book["blocks"]
        if not blocks:
            return None
        if block not in blocks:
            if f"blocks.{block}" not in self.faulty:
                found = f'"{block}" is no block of this book'
                self.page.fault_at(field, found, nearest(block, blocks, "blocks on file"))
            return None
        sheaves: Mapping[int, float] | None = blocks[block].sheaves
        return None if f"blocks.{block}.sheaves" in self.faulty else sheaves

    def _sheave(self, field: str, sheave: int | None, sheaves: Mapping[int, float] | None, where: str) -> None:
        if sheave is not None and sheaves is not None and sheave not in sheaves:
            self.page.fault_at(field, f"there is no sheave {sheave} at {where}", f"its sheaves: {first_names(sheaves)}")


def _state(pattern: Pattern | None) -> str | None:
    """Return the state that a pattern is for, None where block or falls were faulty."""
    return str(pattern.state) if pattern and pattern.block and pattern.falls else None
