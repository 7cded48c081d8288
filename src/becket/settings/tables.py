"""The tables that ship with the settings.

In:    the name of a table in this folder.
Out:   its rows as text; a table without a source line is refused.
Never: numbers, units, a crew's files.
"""

from __future__ import annotations

import csv
from importlib.resources import files

from becket.errors import NotOnFileError


def read_table(name: str, columns: tuple[str, ...]) -> list[dict[str, str]]:
    """Return the rows of a shipped table, column name to text [-].

    Args:
        name: of the file in this folder [-]
        columns: that it must have, in this order [-]

    Raises: NotOnFileError where the table names no source or has other columns: a table to mend.
    """
    return rows_of(name, files("becket.settings").joinpath(name).read_text(encoding="utf-8"), columns)


def rows_of(name: str, text: str, columns: tuple[str, ...]) -> list[dict[str, str]]:
    """Return the rows of a table's text [-].

    Args:
        name: of the table, for the message [-]
        text: of the table, first line ``# source: ...`` [-]
        columns: that it must have, in this order [-]

    Raises: NotOnFileError

    >>> rows_of("t", "# source: a book\\nname,value\\na,1\\n", ("name", "value"))
    [{'name': 'a', 'value': '1'}]
    """
    first, _, rest = text.partition("\n")
    if not first.startswith("# source: ") or not first.removeprefix("# source: ").strip():
        raise NotOnFileError(f'{name}: the first line names no source; "# source: title, edition, page"')
    reader = csv.DictReader(rest.splitlines())
    if tuple(reader.fieldnames or ()) != columns:
        raise NotOnFileError(f"{name}: columns {reader.fieldnames}; columns {', '.join(columns)}")
    rows = list(reader)
    for number, row in enumerate(rows, start=3):
        if None in row or None in row.values():
            raise NotOnFileError(f"{name}:{number}: {len(columns)} cells are wanted in each row")
    return rows
