"""A sheet as spreadsheets export it: cells with their places, rows to jobs and lifts, limits."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from becket.errors import FaultyFileError
from becket.intake.cells import CELLS_MOST, is_table, read_cells
from becket.intake.nodes import Node, Pairs, Sequence, Word
from becket.intake.page import Page
from tests.intake.reading import SETTINGS

QUOTE = "a quote stands inside this cell; quotes round the whole cell, doubled inside it"


def plain(node: Node | None) -> object:
    """Return nodes as plain words, lists and dictionaries."""
    if isinstance(node, Pairs):
        return {key.text: plain(value) for key, value in node.pairs}
    return [plain(one) for one in node.items] if isinstance(node, Sequence) else node and node.text


def sheet_of(text: str) -> tuple[Node | None, list[str]]:
    """Return the nodes of a sheet, and its faults."""
    page = Page("a.csv")
    return read_cells(text, page, SETTINGS), [str(fault).removeprefix("a.csv:") for fault in page.faults]


def lifts_of(text: str) -> list[dict[str, Word]]:
    """Return the lifts of the first job, as words by column."""
    node, faults = sheet_of(text)
    assert faults == []
    assert isinstance(node, Pairs)
    jobs = node.get("jobs")
    assert isinstance(jobs, Sequence)
    assert isinstance(jobs.items[0], Pairs)
    lifts = jobs.items[0].get("lifts")
    assert isinstance(lifts, Sequence)
    return [
        {key.text: word for key, word in lift.pairs if isinstance(word, Word)}
        for lift in lifts.items
        if isinstance(lift, Pairs)
    ]


# ---- rows to jobs and lifts ----------------------------------------------------------------------------------------


def test_groups_jobs_and_lifts() -> None:
    node, faults = sheet_of(
        "crane,rigged.block,rigged.falls,carried.ball,job,site,name,load\n"
        "Alder,hook,2,lorry,A,Mill,beam,2 t\n"
        ",,,,,,wall,3 t\n"
        ",,,,B,,tank,4 t\n"
    )
    assert faults == []
    assert plain(node) == {
        "crane": "Alder",
        "rigged": {"block": "hook", "falls": "2"},
        "carried": {"ball": "lorry"},
        "jobs": [
            {"job": "A", "site": "Mill", "lifts": [{"name": "beam", "load": "2 t"}, {"name": "wall", "load": "3 t"}]},
            {"job": "B", "site": "Mill", "lifts": [{"name": "tank", "load": "4 t"}]},
        ],
    }


def test_a_job_named_again_in_the_next_row_is_the_same_job() -> None:
    node, faults = sheet_of("job,site,name\nA,Mill,beam\nA,,wall\n")
    assert faults == []
    assert plain(node) == {"jobs": [{"job": "A", "site": "Mill", "lifts": [{"name": "beam"}, {"name": "wall"}]}]}


def test_a_job_cell_given_later_holds_for_the_job_from_there() -> None:
    node, faults = sheet_of("job,people,name\nA,,beam\n,3,wall\nB,,tank\n")
    assert faults == []
    assert plain(node) == {
        "jobs": [
            {"job": "A", "people": "3", "lifts": [{"name": "beam"}, {"name": "wall"}]},
            {"job": "B", "people": "3", "lifts": [{"name": "tank"}]},
        ]
    }


def test_rows_of_nothing_are_passed_over() -> None:
    rows = "job,name\n\n \t \n,\nA,beam\n\r\n,\n"
    assert plain(sheet_of(rows)[0]) == {"jobs": [{"job": "A", "lifts": [{"name": "beam"}]}]}


def test_a_table_of_nothing() -> None:
    assert sheet_of("job,name\n") == (Pairs(line=1, column=1, pairs=[]), [])
    wanted = "a first row that names the columns, then a lift a row"
    for text in ("\n \n", "sep=;\n"):
        assert sheet_of(text) == (None, [f"0:0: file: holds no row; {wanted}"])


# ---- cells ---------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("cell", "text"),
    [
        ("beam", "beam"),
        ("  beam  ", "beam"),
        ('"beam"', "beam"),
        (' "beam" ', "beam"),
        ('"a,b"', "a,b"),
        ('"say ""up"""', 'say "up"'),
        ('"two\nlines"', "two\nlines"),
    ],
)
def test_what_a_cell_says(cell: str, text: str) -> None:
    assert lifts_of(f"job,name,load\nA,{cell},2 t\n")[0]["name"].text == text


def test_a_cell_of_spaces_or_of_quotes_with_nothing_in_them_is_empty() -> None:
    assert "name" not in lifts_of('job,name,load\nA,  ,2 t\n,"",3 t\n')[0]


def test_line_and_column_are_those_of_the_file_behind_a_cell_of_two_lines_too() -> None:
    beam, wall = lifts_of('job,name,load\nA,"be\nam", 2 t\n,wall,3 t\n')
    assert (beam["name"].line, beam["name"].column) == (2, 3)
    assert (beam["load"].line, beam["load"].column) == (3, 5)
    assert (wall["name"].line, wall["name"].column) == (4, 2)


@pytest.mark.parametrize(("line", "count"), [("a,b;c;d", 3), ("a;b,c,d", 3), ("a;b,c", 2)])
def test_what_stands_more_often_in_the_first_row_parts_the_cells(line: str, count: int) -> None:
    _, faults = sheet_of(f"{line}\n")
    assert len(faults) == count, faults
    assert all("is no column" in fault for fault in faults)


SEPARATE = "separate the cells with comma or semicolon"


@pytest.mark.parametrize("text", ["crane\tjob\tname\nAlder\tA\tbeam\n", "sep=\t\ncrane\tjob\tname\n"])
def test_tabs_between_the_cells_are_one_fault(text: str) -> None:
    line = 2 if text.startswith("sep") else 1
    assert sheet_of(text) == (None, [f"{line}:1: first row: the cells are separated by tabs; {SEPARATE}"])
    assert sheet_of("\n\n" + text)[1] == [f"{line + 2}:1: first row: the cells are separated by tabs; {SEPARATE}"]


@pytest.mark.parametrize("sign", ["|", "]", "\\", "^", '"', "x"])
def test_a_first_line_that_names_another_separator_is_one_fault(sign: str) -> None:
    found = f'the cells are separated by "{sign}"'
    assert sheet_of(f"sep={sign}\njob{sign}name\n") == (None, [f"2:1: first row: {found}; {SEPARATE}"])


@pytest.mark.parametrize("naming", ["sep=;\n", "SEP=;\r\n", '"sep=;"\n', "sep=;;;\r", "\n sep=; \n"])
def test_a_first_line_that_names_the_separator_is_no_row(naming: str) -> None:
    node, faults = sheet_of(naming + "job;name\nA;beam, wall, tank\n")
    assert (plain(node), faults) == ({"jobs": [{"job": "A", "lifts": [{"name": "beam, wall, tank"}]}]}, [])
    above = naming.count("\n") + naming.count("\r") - naming.count("\r\n")
    _, faults = sheet_of(naming + "job;nam\nA;beam\n")
    assert faults == [f'{1 + above}:5: nam: "nam" is no column; did you mean "name"?']


def test_the_separator_that_is_named_holds_whatever_the_headings_look_like() -> None:
    node, faults = sheet_of('sep=,\njob,"name"\nA,be;am\n')
    assert (plain(node), faults) == ({"jobs": [{"job": "A", "lifts": [{"name": "be;am"}]}]}, [])


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("crane,job,name\n", True),
        ('\n "krane" ; "job"; "name"\n', True),
        ("sep=;\nkrane;job;name\n", True),
        ("crane\tjob\n", True),
        ("job\nname\n", False),
        ("# crane, job, name\nbecket: 1\n", False),
        ("crane: {name: Hazel 70}\njobs: []\n", False),
        ("[crane, job]\n", False),
        ("", False),
    ],
)
def test_a_table_is_told_by_two_columns_in_its_first_row(text: str, told: bool) -> None:
    assert is_table(text) is told


@pytest.mark.parametrize("cell", ['be"am', '"beam', '"beam" x', '"be"am"'])
def test_a_stray_quote_stops_the_reading_there(cell: str) -> None:
    _, faults = sheet_of(f"job,name\nA,wall\n,{cell}\nB,far below\n")
    assert faults == [f"3:2: row 3: {QUOTE}"]


def test_quotes_are_part_of_no_name() -> None:
    assert sheet_of('"job","name"\nA,beam\n') == sheet_of('"job" , "name"\nA,beam\n')


CELL = st.text(st.characters(codec="utf-8", exclude_categories=("Cc", "Zs", "Cs")), min_size=1, max_size=9)


@settings(derandomize=True, deadline=None, max_examples=200)
@given(names=st.lists(CELL, min_size=1, max_size=5), separator=st.sampled_from(",;"))
def test_any_words_in_quotes_come_back_as_they_were(names: list[str], separator: str) -> None:
    rows = [["job", "name"], *(["A", name] for name in names)]
    text = "\n".join(separator.join('"' + cell.replace('"', '""') + '"' for cell in row) for row in rows)
    assert [lift["name"].text for lift in lifts_of(text)] == names


# ---- limits --------------------------------------------------------------------------------------------------------


def refused(text: str, **limits: float) -> list[str]:
    """Return the faults of a sheet whose reading is broken off."""
    with pytest.raises(FaultyFileError) as caught:
        read_cells(text, Page("a.csv"), replace(SETTINGS, **limits))  # type: ignore[arg-type]
    return [str(fault).removeprefix("a.csv:") for fault in caught.value.faults]


def test_too_many_cells_in_a_row() -> None:
    row = "," * CELLS_MOST  # one cell more than that
    wanted = "more than 200 cells in a row; a smaller file (setting file_values_most)"
    assert CELLS_MOST == 200
    assert refused(f"job,name\nA,beam\n{row}\n") == [f"3:201: row 3: {wanted}"]


def test_as_many_cells_in_a_row_as_are_allowed_are_counted() -> None:
    _, faults = sheet_of("job,name\nA,beam\n" + "," * (CELLS_MOST - 1) + "\n")
    assert faults == ["3:1: row 3: 200 cells stand in this row; 2 cells, one for each column of the first row"]


def test_too_many_cells_in_a_file() -> None:
    text = "job,name\nA,beam\n,wall\n"
    wanted = "more than 5 cells; a smaller file (setting file_values_most)"
    assert refused(text, file_values_most=5.0) == [f"3:2: row 3: {wanted}"]
    assert read_cells(text, Page("a.csv"), replace(SETTINGS, file_values_most=6.0)) is not None


def test_faults_found_before_a_limit_are_still_told() -> None:
    faults = refused("job,nam\nA,beam\n,wall\n", file_values_most=5.0)
    assert faults[0].startswith('1:5: nam: "nam" is no column; did you mean "name"?')
    assert len(faults) == 2
