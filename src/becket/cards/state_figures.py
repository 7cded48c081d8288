"""The maker's figures of one number of falls: falls table, line pull by layer, rope, least wraps.

In:    a crane book, settings.
Out:   name, value and note of each figure, as text.
Never: a figure between two that are printed; a figure that is missing left out without a word.
"""

from __future__ import annotations

from becket.book.crane import Book
from becket.figures import UNKNOWN, shown
from becket.limits.breaking import least_wraps_of, rope_strength_of
from becket.settings.values import Settings

Figure = dict[str, str]


def state_figures(book: Book, settings: Settings, falls: int, system: str) -> list[Figure]:
    """Return the figures that the maker gives for a number of falls [-].

    Args:
        book: the crane
        settings: in force
        falls: of the state
        system: "metric" or "us"
    """
    return [
        _table(book, falls, system),
        _line_pull(book, system),
        _rope(book, settings, system),
        _wraps(book, settings),
    ]


def _figure(name: str, value: str, note: str) -> Figure:
    return {"name": name, "value": value, "note": note}


def _table(book: Book, falls: int, system: str) -> Figure:
    table, name = book.falls_table, f"Maker's table, {falls}"
    if table is None:
        return _figure(name, UNKNOWN, "the falls table is not on file")
    if not table.printed:
        return _figure(name, "none", "the manual prints no falls table")
    if falls not in table.loads:
        return _figure(name, "FAIL", "not in the maker's table: not permitted")
    page = f", page {table.page}" if table.page else ""
    counts = "does not say what it counts" if table.counts is None else f"counts {', '.join(table.counts) or 'nothing'}"
    return _figure(name, shown(table.loads[falls], "mass", system, "down"), f"at most{page}; {counts}")


def _line_pull(book: Book, system: str) -> Figure:
    pulls = book.winch.pull
    if not pulls:
        return _figure("Lead line", UNKNOWN, "the permitted line pull is not on file")
    least = min(pulls)
    layer = pulls.index(least) + 1
    if len(pulls) == 1:
        note = "at most in layer 1; less in every layer further out"
    else:
        shown_pulls = [shown(pull, "force", system, "down") for pull in pulls[: layer - 1]]
        inner = ", ".join([*(one.rpartition(" ")[0] for one in shown_pulls[:-1]), *shown_pulls[-1:]])
        note = f"at most; layers 1 to {layer - 1}: {inner}" if inner else "at most, in every layer"
    return _figure(f"Lead line, layer {layer}", shown(least, "force", system, "down"), note)


def _rope(book: Book, settings: Settings, system: str) -> Figure:
    strength = rope_strength_of(book, settings)
    if not isinstance(strength.breaking, float) or not isinstance(strength.factor, float | int):
        return _figure("Rope, lead line", UNKNOWN, "breaking force or design factor is not on file")
    note = f"at most: breaking force over {strength.factor:g}"
    if strength.doubt:
        return _figure("Rope, lead line", UNKNOWN, f"{note} is not proven")
    return _figure("Rope, lead line", shown(strength.breaking / strength.factor, "force", system, "down"), note)


def _wraps(book: Book, settings: Settings) -> Figure:
    least = least_wraps_of(book, settings)
    if not isinstance(least.value, float):
        return _figure("Least wraps", UNKNOWN, "not on file; the manual's data of the hoist")
    source = book.sources.get("winch.least_wraps", least.source)
    note = f"{source}; not proven" if least.doubt else source
    return _figure("Least wraps", f"{least.value:g}", note)
