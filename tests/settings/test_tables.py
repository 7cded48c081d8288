"""Shipped tables: refused without a source."""

from __future__ import annotations

import pytest

from becket.errors import NotOnFileError
from becket.settings.tables import read_table, rows_of

COLUMNS = ("name", "value")


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("name,value\na,1\n", 't.csv: the first line names no source; "# source: title, edition, page"'),
        ("# source: \nname,value\na,1\n", 't.csv: the first line names no source; "# source: title, edition, page"'),
        ("", 't.csv: the first line names no source; "# source: title, edition, page"'),
        ("# source: a book\nname,unit\na,1\n", "t.csv: columns ['name', 'unit']; columns name, value"),
        ("# source: a book\nname,value\na\n", "t.csv:3: 2 cells are wanted in each row"),
        ("# source: a book\nname,value\nb,2\na,1,2\n", "t.csv:4: 2 cells are wanted in each row"),
    ],
)
def test_message(text: str, message: str) -> None:
    with pytest.raises(NotOnFileError) as caught:
        rows_of("t.csv", text, COLUMNS)
    assert str(caught.value) == message


def test_a_table_that_ships() -> None:
    rows = read_table("settings.csv", ("name", "value", "unit", "reason"))
    assert {"name": "hand_height", "value": "1.55", "unit": "m"}.items() <= next(
        row for row in rows if row["name"] == "hand_height"
    ).items()
    assert all(row["reason"] for row in rows)
