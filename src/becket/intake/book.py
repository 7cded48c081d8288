"""The crane book: one file to one record.

In:    the path of a YAML file, the settings with their limits.
Out:   the book in SI, where each field stands, every fault in one go.
Never: judging figures, a default for one that is missing.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from becket.book.boom import Boom
from becket.book.charts import Chart, Position, Stowed
from becket.book.crane import Book
from becket.intake.boom import BOOM, HEAD
from becket.intake.boom_lengths import BoomLengths, boom_lengths
from becket.intake.boom_references import BoomReferences
from becket.intake.charts import CHARTS, FALLS_TABLE, FLEET, NO_FLEET, REREEVE, STOWED
from becket.intake.fields import Field, record
from becket.intake.files import read_text
from becket.intake.hoist import DEAD_END, NO_DEAD_END, ROPE, SECOND_LINE, WINCH
from becket.intake.measures import EFFICIENCY, FACTOR, TEXT
from becket.intake.nodes import Node
from becket.intake.page import Page
from becket.intake.reeving_references import ReevingReferences
from becket.intake.tackle import BLOCKS, INDICATOR, KEEPERS, NO_SWITCH, OVERRIDE, PATTERNS, SWITCH, blocks_of
from becket.intake.version import VERSION
from becket.intake.yaml_nodes import read_yaml
from becket.settings.values import Settings


@dataclass(frozen=True, kw_only=True)
class ReadBook:
    """A crane book, and where each of its fields stands in the file."""

    book: Book
    marks: Mapping[str, tuple[int, int]]  # field path -> line, column


FIELDS: dict[str, Field] = {
    "becket": VERSION,
    "crane": record({"name": TEXT, "serial": TEXT}, ["name"], "{name: text, serial: text}"),
    "manual": record({"title": TEXT, "issue": TEXT}, ["title"], "{title: text, issue: text}"),
    "boom": BOOM,
    "head": HEAD,
    "winch": WINCH,
    "second_line": SECOND_LINE,
    "sheave_efficiency": EFFICIENCY,
    "sheave_ratio": FACTOR,
    "rope": ROPE,
    "dead_end": DEAD_END,
    "blocks": BLOCKS,
    "switch": SWITCH,
    "indicator": INDICATOR,
    "override": OVERRIDE,
    "keepers": KEEPERS,
    "patterns": PATTERNS,
    "falls_table": FALLS_TABLE,
    "fleet": FLEET,
    "stowed": STOWED,
    "rereeve": REREEVE,
    "charts": CHARTS,
}
REQUIRED = ("becket", "crane", "manual", "boom", "head", "winch", "rope", "blocks")
BOOK = record(FIELDS, REQUIRED, "the keys of a crane book")


def read_book(path: Path, settings: Settings) -> ReadBook:
    """Return the crane book of a file [-].

    Args:
        path: of the file [-]
        settings: the limits of what is read

    Raises: FaultyFileError with every fault, sorted by place.
    """
    page = Page(str(path))
    book = read_parts(path, page, settings)
    page.stop_if_faulty()
    assert book is not None  # a file without a book has a fault
    return ReadBook(book=book, marks=page.marks)


def read_parts(path: Path, page: Page, settings: Settings) -> Book | None:
    """Return the book as far as it can be read; its faults stand on the page [-].

    A book with faults has holes where its records promise figures: use it for names only.
    """
    file = read_text(path, page, settings.file_size_most)
    node = read_yaml(file.text, page, settings) if file else None
    if file is None or node is None:
        return None
    values = BOOK.read(page, node, "")
    if values is None:
        return None
    _sheave_friction(page, node, values)
    values["blocks"] = blocks_of(values["blocks"])
    BoomReferences(page, values).check()
    ReevingReferences(page, values).check()
    _mark_rows(page)
    return _book(values, page.sources, file.fingerprint)


def _sheave_friction(page: Page, node: Node, values: dict[str, Any]) -> None:
    efficiency, ratio = values["sheave_efficiency"], values.pop("sheave_ratio")
    if efficiency is not None and ratio is not None:
        found = "stands beside sheave_efficiency"
        page.fault_at("sheave_ratio", found, "one of the two, as the manual prints it")
    if ratio is not None:
        values["sheave_efficiency"] = 1.0 / ratio
        if "sheave_ratio" in page.sources:
            page.sources["sheave_efficiency"] = page.sources["sheave_ratio"]


def _mark_rows(page: Page) -> None:
    """Let what is keyed by a figure be found by its figure in metres too, however it was typed."""
    for field, keys in list(page.keys.items()):
        for key, path in keys.items():
            if isinstance(key, float):
                page.marks.setdefault(f"{field}[{key:g} m]", page.marks[path])
            elif isinstance(key, tuple):
                page.marks.setdefault(f"{field}[{key[0]} {key[1]:g} m]", page.marks[path])


# what a book has of a part that it does not write
_NOT_WRITTEN: Mapping[str, Any] = {
    "crane": {"name": None, "serial": None},
    "manual": {"title": None, "issue": None},
    "dead_end": NO_DEAD_END,
    "switch": NO_SWITCH,
    "override": (),
    "keepers": (),
    "patterns": (),
    "fleet": NO_FLEET,
}


def _book(values: dict[str, Any], sources: Mapping[str, str], fingerprint: str) -> Book:
    keepers_on_file = values["keepers"] is not None
    values = values | {name: values[name] or nothing for name, nothing in _NOT_WRITTEN.items()}
    lengths = boom_lengths(values["boom"])
    crane, manual, rope = values["crane"], values["manual"], values["rope"]
    return Book(
        crane=crane["name"],
        serial=crane["serial"],
        manual_title=manual["title"],
        manual_issue=manual["issue"],
        boom=_boom(values["boom"], lengths),
        head=values["head"],
        winch=values["winch"],
        second_line=values["second_line"],
        sheave_efficiency=values["sheave_efficiency"],
        rope=replace(rope, length_source=sources.get("rope.length")) if rope else rope,
        dead_end=values["dead_end"],
        blocks=values["blocks"],
        switch=values["switch"],
        indicator=values["indicator"],
        override=values["override"],
        keepers=values["keepers"],
        keepers_on_file=keepers_on_file,
        patterns=values["patterns"],
        falls_table=values["falls_table"],
        fleet=values["fleet"],
        stowed=_stowed(values["stowed"], lengths),
        rereeve=_positions(values["rereeve"], lengths),
        charts=_charts(values["charts"], lengths),
        sources=dict(sources),
        fingerprint=fingerprint,
    )


# ---- boom lengths: the same float wherever the same length is meant ----


def _boom(boom: Boom, lengths: BoomLengths) -> Boom:
    """The boom with its sag by the boom's own lengths; a faulty boom stays the hole it is."""
    if not boom or boom.sag is None:
        return boom
    return replace(boom, sag=_by_boom_length(boom.sag, lengths))


def _by_boom_length(figures: Mapping[float, float], lengths: BoomLengths) -> dict[float, float]:
    return {lengths.snapped(length): figure for length, figure in figures.items()}


def _stowed(stowed: tuple[Stowed, ...] | None, lengths: BoomLengths) -> tuple[Stowed, ...] | None:
    if stowed is None:
        return None
    known = [one for one in stowed if one is not None]
    return tuple(replace(one, deduct=_by_boom_length(one.deduct, lengths)) for one in known)


def _positions(positions: tuple[Position, ...] | None, lengths: BoomLengths) -> tuple[Position, ...]:
    known = [one for one in positions or () if one is not None and one.length is not None]
    return tuple(replace(one, length=lengths.snapped(one.length)) for one in known)


def _charts(charts: tuple[Chart, ...] | None, lengths: BoomLengths) -> tuple[Chart, ...]:
    known = [one for one in charts or () if one is not None]
    return tuple(
        replace(chart, rows=tuple(replace(row, length=lengths.snapped(row.length)) for row in chart.rows))
        for chart in known
    )
