"""The falls card: how much each reeving may lift, and what stops more.

In:    a crane book, settings, a block.
Out:   a sheet; the card as PDF.
Never: a load without its conditions; a load where a limit is unknown.
"""

from __future__ import annotations

from becket.book.charts import Chart
from becket.book.crane import Book
from becket.cards.falls_grid import Grid, GridRow, Progress, falls_grids
from becket.cards.foot import foot_of, manual_of
from becket.cards.qr import card_identity
from becket.cards.seals import joint_seal
from becket.cards.sheet import Sheet
from becket.cards.typesetting import typeset
from becket.errors import NotOnFileError
from becket.figures import UNKNOWN, shown
from becket.limits.answer import RiggedAnswer
from becket.limits.table import find_block, most_falls
from becket.limits.wording import falls_in_words
from becket.settings.values import Settings
from becket.verdict import Verdict

COLUMNS = 6  # states side by side
CAUTION = "Not for planning a lift: ask becket falls with its load, radius and heights."
SHORT = {  # names of limits as a narrow column takes them
    "lead_line_pull": "lead line",
    "rope_strength": "rope",
    "makers_table": "maker's table",
    "block_rating": "block rating",
    "block_sheaves": "block sheaves",
    "head_sheaves": "head sheaves",
    "rope_length": "rope length",
    "fleet_angle": "fleet angle",
    "head_clearance": "head clear",
    "dead_end": "dead end",
}


def falls_card(
    book: Book,
    settings: Settings,
    block: str,
    *,
    printed: str,
    system: str = "metric",
    progress: Progress | None = None,
) -> bytes:
    """Return the falls card of a block as PDF [-].

    Args:
        book: the crane
        settings: in force
        block: its name
        printed: date, as 2026-11-30
        system: "metric" or "us"
        progress: told after every row that is worked out

    Raises:
        NotOnFileError: no such block, or no load chart to go by.
    """
    sheet = falls_sheet(book, settings, block, printed=printed, system=system, progress=progress)
    return typeset((sheet,), title=sheet.title, printed=printed)


def falls_sheet(
    book: Book,
    settings: Settings,
    block: str,
    *,
    printed: str,
    system: str = "metric",
    progress: Progress | None = None,
) -> Sheet:
    """Return the falls card of a block before it is set in type [-].

    Args:
        book: the crane
        settings: in force
        block: its name
        printed: date, as 2026-11-30
        system: "metric" or "us"
        progress: told after every row that is worked out

    Raises:
        NotOnFileError: no such block, or no load chart to go by.
    """
    found = find_block(book, block)
    if not book.charts:
        raise NotOnFileError("charts: none is on file; the falls card goes by the boom lengths and radii of a chart")
    grids = falls_grids(book, settings, block, progress)
    rated = "not on file" if found.rated is None else shown(found.rated, "mass", system, "down")
    mass = "not on file" if found.mass is None else shown(found.mass, "mass", system, "up")
    data = {
        "manual": manual_of(book, None) | {"page": _chart_pages(book)},
        "title": f"Load by falls, block {block}",
        "block": f"Block rated {rated}, mass {mass}.",
        "conditions": conditions(system),
        "tables": [table for grid in grids for table in _tables(grid, system)],
        "left_out": _left_out(book, block, grids),
        "foot": foot_of(book, _identity(book, block), printed=printed, cautions=(CAUTION,)),
    }
    return Sheet(template="falls", title=f"{book.crane}: falls card, block {block}", data=data)


def conditions(system: str) -> list[str]:
    """Return what every load of the card holds for [-].

    Args:
        system: "metric" or "us"
    """
    ground = "0 m" if system == "metric" else "0 ft"
    return [
        "Greatest load on the hook, rigging counted, block not counted, rounded down; under it the limit that stops "
        "more. Every limit of becket passes at this load and at every lighter one, with the hook anywhere from the "
        f"ground ({ground}) to the height under hook, at this radius, with counterweight and outriggers of the chart.",
        "? = a figure is missing, no load is proven. FAIL = not even the empty hook.",
    ]


def _identity(book: Book, block: str) -> str:
    patterns = [one for one in sorted(book.patterns, key=lambda one: one.state) if one.block == block]
    return card_identity("falls", joint_seal(book, patterns), book.fingerprint)


def _chart_pages(book: Book) -> str:
    pages = [chart.page for chart in book.charts if chart.page]
    return f"charts on pages {', '.join(pages)}" if pages else "pages of the charts not on file"


def _tables(grid: Grid, system: str) -> list[dict[str, object]]:
    starts = range(0, len(grid.states), COLUMNS)
    return [
        {
            "name": _chart_words(grid.chart, system),
            "columns": [falls_in_words(state.falls) for state in grid.states[start : start + COLUMNS]],
            "rows": [_row(row, start, system) for row in grid.rows],
        }
        for start in starts
    ]


def _chart_words(chart: Chart, system: str) -> str:
    weight = UNKNOWN if chart.counterweight is None else shown(chart.counterweight, "mass", system)
    page = f", page {chart.page}" if chart.page else ""
    return (
        f"{chart.name}{page}: counterweight {weight}, outriggers {chart.outriggers or UNKNOWN}, "
        f"{chart.sector or 'sector ' + UNKNOWN}"
    )


def _row(row: GridRow, start: int, system: str) -> dict[str, object]:
    return {
        "boom": bare(shown(row.boom, "length", system)),
        "radius": bare(shown(row.radius, "length", system)),
        "hook": f"0 to {bare(shown(row.top, 'length', system, 'down'))}",
        "cells": [cell_of(answer, system) for answer in row.answers[start : start + COLUMNS]],
    }


def bare(quantity: str) -> str:
    """Return a quantity without noughts at its end: the same figure, shorter [-].

    >>> bare("20.40 m"), bare("6.00 m"), bare("30 ft")
    ('20.4 m', '6 m', '30 ft')
    """
    number, _, unit = quantity.rpartition(" ")
    return f"{number.rstrip('0').rstrip('.') if '.' in number else number} {unit}"


def cell_of(answer: RiggedAnswer, system: str) -> dict[str, str]:
    """Return a load with what governs it, or that there is none [-].

    Args:
        answer: of the limits
        system: "metric" or "us"
    """
    governs = SHORT.get(answer.load_governs or "", (answer.load_governs or "").replace("_", " "))
    if answer.verdict is Verdict.PASS and answer.greatest_load:
        return {"verdict": "pass", "value": shown(answer.greatest_load, "mass", system, "down"), "governs": governs}
    return {"verdict": "fail" if answer.verdict is Verdict.FAIL else "unknown", "value": "", "governs": governs}


def _left_out(book: Book, block: str, grids: tuple[Grid, ...]) -> list[str]:
    there = {state.falls for grid in grids for state in grid.states}
    missing = [str(n) for n in range(1, most_falls(book, find_block(book, block)) + 1) if n not in there]
    if not missing:
        return []
    return [f"No pattern on file, so no load: {', '.join(missing)} {'fall' if missing == ['1'] else 'falls'}."]
