"""A job sheet as a spreadsheet exports it, to nodes.

In:    the text of a CSV file: comma or semicolon, a lift a row, the first row names the columns.
Out:   the same nodes that a YAML sheet gives, each with the line and column of its cell.
Never: numbers; a cell that is empty means as in the row above for job and sheet, not given for a lift.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from becket.intake.nodes import Node, Pairs, Sequence, Span, Word
from becket.intake.page import Page, nearest
from becket.settings.values import Settings
from becket.units import shortened

LIFT_COLUMNS = (
    *("name", "count", "load", "load_basis", "rigging", "chart", "boom", "radius", "top", "bottom", "handling"),
    *("sector", "code", "kind"),
)
JOB_COLUMNS = (
    *("job", "site", "from", "to", "leave_by", "counterweight", "outriggers", "people", "free_radius", "lines_near"),
)
SHEET_COLUMNS = (
    *("becket", "crane", "rigged.block", "rigged.falls", "rates.currency", "rates.customer", "rates.own"),
    *("rates.overtime", "rates.billing_step", "rates.minimum", "yard.free_radius", "yard.setup", "yard.people"),
    "daylight",
)
CARRIED = "carried."  # and the name of a block
CELLS_MOST = 200  # in one row
SEPARATORS = (",", ";")
_SEPARATE = "separate the cells with comma or semicolon"
_NEWLINE = re.compile(r"\r\n|\n|\r")
_BLANK = re.compile(r"[ \t]*[\r\n][ \t\r\n]*")
_NAMED = re.compile(r'\s*"?sep=([^\r\n])"?[ \t,;]*(?:\r\n|\n|\r|\Z)', re.IGNORECASE)  # spreadsheets write it first


@dataclass(frozen=True, kw_only=True)
class _Row:
    """One row: how many cells, and those that are not empty."""

    line: int
    cells: int
    words: dict[int, Word]


def read_cells(text: str, page: Page, settings: Settings) -> Node | None:
    """Return the sheet as nodes, None where a fault says why not [-].

    Args:
        text: of the file, without byte order mark [-]
        page: takes the faults [-]
        settings: the limit of values
    """
    table = _Table(text, page, int(settings.file_values_most))
    if table.separator not in SEPARATORS:
        by = "tabs" if table.separator == "\t" else f'"{table.separator}"'
        page.fault(table.begin(), "first row", f"the cells are separated by {by}", _SEPARATE)
        return None
    rows = iter(table)
    first = next(rows, None)
    if first is None:
        if not page.faults:
            page.fault(None, "file", "holds no row", "a first row that names the columns, then a lift a row")
        return None
    names = _column_names(first, page)
    sheet = _Sheet(page)
    for row in rows:
        if row.cells != first.cells:
            found = f"{row.cells} cells stand in this row"
            wanted = f"{first.cells} cells, one for each column of the first row"
            page.fault(Span(line=row.line, column=1), f"row {row.line}", found, wanted)
        if row.words:
            sheet.take(row.line, {names[at]: word for at, word in row.words.items() if at in names})
    return sheet.nodes() if sheet.jobs or not page.faults else None


def is_table(text: str) -> bool:
    """Return whether the first row names columns of a job sheet, two at least [-].

    Args:
        text: of the file, without byte order mark [-]

    >>> is_table("crane;job;name"), is_table("sep=;\\nkrane;job;name"), is_table("crane: Hazel 70")
    (True, True, False)
    """
    separator, start = _separator(text)
    row = _first_row(text[start:])
    cells = {cell.strip().strip('"').strip() for cell in row.split(separator)}
    return not row.startswith("#") and len(cells & {*SHEET_COLUMNS, *JOB_COLUMNS, *LIFT_COLUMNS}) > 1


def _column_names(row: _Row, page: Page) -> dict[int, str]:
    """Return which column stands where; a name that is no column, or stands twice, is a fault [-]."""
    every = (*SHEET_COLUMNS, *JOB_COLUMNS, *LIFT_COLUMNS)
    names: dict[int, str] = {}
    for at, word in row.words.items():
        name = word.text
        if name not in every and not (name.startswith(CARRIED) and len(name) > len(CARRIED)):
            found = f'"{shortened(name)}" is no column'
            page.fault(word, shortened(name), found, nearest(name, (*every, "carried.BLOCK"), "columns"))
        elif name in names.values():
            page.fault(word, shortened(name), f'the column "{shortened(name)}" stands twice', "each column once")
        else:
            names[at] = name
    for at in range(row.cells):
        if at not in row.words:
            found = f"column {at + 1} has no name"
            page.fault(Span(line=row.line, column=1), "first row", found, "a name for each column")
    return names


class _Sheet:
    """The sheet as it grows row by row."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.values: dict[str, Word] = {}
        self.above: dict[str, Word] = {}  # job cells in force
        self.jobs: list[tuple[dict[str, Word], list[Node]]] = []

    def take(self, line: int, cells: dict[str, Word]) -> None:
        """Take in one row."""
        for name, cell in cells.items():
            if name in SHEET_COLUMNS or name.startswith(CARRIED):
                self._once(self.values, name, cell, "sheet")
        of_job = _among(cells, JOB_COLUMNS)
        if not self.jobs or ("job" in of_job and _text(self.above, "job") != of_job["job"].text):
            self.above = {**self.above, **of_job}
            self.jobs.append((dict(self.above), []))
        values, lifts = self.jobs[-1]
        for name, cell in of_job.items():
            self._once(values, name, cell, "job")
        self.above = dict(values)
        lift = _among(cells, LIFT_COLUMNS)
        place = next(iter(lift.values()), Word(line=line, column=1, text=""))
        lifts.append(_pairs(place, dict(lift)))

    def nodes(self) -> Pairs:
        """Return the sheet as nodes."""
        top: dict[str, Node] = {}
        for name, cell in self.values.items():
            group, dot, key = name.partition(".")
            if not dot:
                top[name] = cell
                continue
            inner = top.setdefault(group, _pairs(cell, {}))
            if isinstance(inner, Pairs):
                inner.pairs.append((_key(key, cell), cell))
        jobs: list[Node] = []
        for values, lifts in self.jobs:
            place = lifts[0]
            inside = Sequence(line=place.line, column=place.column, items=lifts)
            jobs.append(_pairs(place, {**values, "lifts": inside}))
        if jobs:
            top["jobs"] = Sequence(line=jobs[0].line, column=1, items=jobs)
        return _pairs(Span(line=1, column=1), top)

    def _once(self, values: dict[str, Word], name: str, cell: Word, what: str) -> None:
        known = values.setdefault(name, cell)
        if known.text != cell.text:
            found = f"{shortened(cell.text)} differs from {shortened(known.text)} in line {known.line}"
            self.page.fault(cell, name, found, f"one value for the whole {what}, or an empty cell")


def _among(cells: dict[str, Word], columns: tuple[str, ...]) -> dict[str, Word]:
    return {name: cell for name, cell in cells.items() if name in columns}


def _text(cells: dict[str, Word], name: str) -> str | None:
    return cells[name].text if name in cells else None


def _key(name: str, place: Span) -> Word:
    return Word(line=place.line, column=place.column, text=name)


def _pairs(place: Span, values: dict[str, Node]) -> Pairs:
    return Pairs(
        line=place.line, column=place.column, pairs=[(_key(name, node), node) for name, node in values.items()]
    )


# ---- rows and cells ------------------------------------------------------------------------------------------------


class _Table:
    """The rows that are not blank, up to the first cell that cannot be read."""

    def __init__(self, text: str, page: Page, values_most: int) -> None:
        self.text = text
        self.page = page
        self.values_most = values_most
        self.separator, start = _separator(text)
        self.cell = re.compile(rf'[ \t]*"([^"]*(?:""[^"]*)*)"[ \t]*|([^{re.escape(self.separator)}\r\n]*)')
        self.at, self.line, self.line_start = 0, 1, 0
        self.cells = 0  # so far, in the whole table
        self._go_on(start)

    def begin(self) -> Span:
        """Return where the first row stands, blank lines passed [-]."""
        if blank := _BLANK.match(self.text, self.at):
            self._go_on(blank.end())
        return Span(line=self.line, column=self.at - self.line_start + 1)

    def __iter__(self) -> Iterator[_Row]:
        while self.at < len(self.text):
            if blank := _BLANK.match(self.text, self.at):
                self._go_on(blank.end())
                continue
            row = self._row()
            if row is None:
                return
            yield row

    def _row(self) -> _Row | None:
        """Return the row that begins here, None where a cell cannot be read; the fault is noted."""
        line, count = self.line, 0
        words: dict[int, Word] = {}
        while True:
            match = self.cell.match(self.text, self.at)
            place = Span(line=self.line, column=self.at - self.line_start + 1)
            if match is None or _is_broken(self.text, match, self.separator):
                found = "a quote stands inside this cell"
                self.page.fault(place, f"row {line}", found, "quotes round the whole cell, doubled inside it")
                return None
            count, self.cells = count + 1, self.cells + 1
            self._stop_if_too_many(count, place, line)
            if inside := (match[1].replace('""', '"') if match[1] is not None else match[2]).strip():
                words[count - 1] = Word(line=place.line, column=place.column, text=inside, quoted=True)
            self._go_on(match.end())
            if not self.text.startswith(self.separator, self.at):
                break
            self.at += 1
        if newline := _NEWLINE.match(self.text, self.at):
            self._go_on(newline.end())
        return _Row(line=line, cells=count, words=words)

    def _stop_if_too_many(self, in_row: int, place: Span, line: int) -> None:
        """Raise FaultyFileError with every fault so far where a limit is passed."""
        if in_row > CELLS_MOST:
            found = f"more than {CELLS_MOST} cells in a row"
        elif self.cells > self.values_most:
            found = f"more than {self.values_most} cells"
        else:
            return
        self.page.fault(place, f"row {line}", found, "a smaller file (setting file_values_most)")
        self.page.stop_if_faulty()

    def _go_on(self, end: int) -> None:
        """Go on to a place in the text, counting the lines on the way."""
        passed = self.text[self.at : end]
        if breaks := _newlines(passed):
            self.line += breaks
            self.line_start = self.at + max(passed.rfind("\n"), passed.rfind("\r")) + 1
        self.at = end


def _newlines(text: str) -> int:
    return text.count("\n") + text.count("\r") - text.count("\r\n")


def _is_broken(text: str, match: re.Match[str], separator: str) -> bool:
    after = text[match.end() : match.end() + 1]
    return after not in ("", separator, "\n", "\r") or (match[1] is None and '"' in match[2])


def _separator(text: str) -> tuple[str, int]:
    """What parts the cells, and where the rows begin: a first line ``sep=;`` names it and is no row."""
    if named := _NAMED.match(text):
        return named[1], named.end()
    first = _first_row(text)
    return max(*SEPARATORS, "\t", key=first.count), 0


def _first_row(text: str) -> str:
    return _NEWLINE.split(text.strip(), maxsplit=1)[0].strip()
