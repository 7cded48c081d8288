"""Single fields: what they take, what they say of the rest, what stays readable around a slip."""

from __future__ import annotations

from datetime import datetime
from typing import Any

import pytest

from becket.errors import UnreadableTextError
from becket.intake.fields import (
    FOUND_MOST,
    OVER_NOUGHT,
    WORD_MOST,
    Bounds,
    Field,
    choice,
    day,
    list_of,
    map_of,
    moment,
    none_or,
    one_or_list,
    quantity,
    record,
    span,
    text,
    whole,
    word,
    yes_no,
)
from becket.intake.page import Page
from becket.intake.yaml_nodes import read_yaml
from tests.intake.reading import SETTINGS, value_of

MASS = quantity("mass", OVER_NOUGHT, "over 0")
LENGTH = quantity("length", OVER_NOUGHT, "over 0")
KINDS_OF_MASS = "a mass in kg, t, lb, short ton or long ton"
TOO_LONG = "q" * (WORD_MOST + 1)
CUT = "q" * 57 + "..."


@pytest.mark.parametrize(
    ("field", "written", "value"),
    [
        (text(), "  Alder 25  ", "Alder 25"),
        (text(), "' padded '", "padded"),
        (choice("over", "under"), "under", "under"),
        (whole(), "0", 0),
        (whole(1), "12", 12),
        (yes_no(), "no", False),
        (day(), "2024-02-29", "2024-02-29"),
        (moment(), "2026-11-30 07:00", datetime(2026, 11, 30, 7, 0)),
        (MASS, "38 000 lb", 17236.51006),
        (span("length", OVER_NOUGHT, "over 0"), "6 m to 14 m", (6.0, 14.0)),
        (span("length", OVER_NOUGHT, "over 0"), "6 m", (6.0, 6.0)),
        (none_or(MASS, 0.0), "none", 0.0),
        (none_or(MASS, 0.0), "2 t", 2000.0),
        (one_or_list(MASS, "masses"), "2 t", (2000.0,)),
        (one_or_list(MASS, "masses"), "[2 t, 1 t]", (2000.0, 1000.0)),
        (list_of(whole(1), "numbers"), "[]", ()),
        (map_of(whole(1), MASS, "falls: mass"), "{}", {}),
        (map_of(whole(1), MASS, "falls: mass"), "{2: 4 t, 1: 2 t}", {2: 4000.0, 1: 2000.0}),
        (MASS, "{value: 2 t, source: weighed 2025-01-05}", 2000.0),
        (list_of(whole(1), "numbers"), "{value: [1, 2], source: manual}", (1, 2)),
    ],
)
def test_what_a_field_takes(field: Field, written: str, value: object) -> None:
    assert value_of(field, written) == (value, [])


@pytest.mark.parametrize(
    ("field", "written", "message"),
    [
        (text(), TOO_LONG, f"f: {WORD_MOST + 1} characters stand there; a line of text, at most {WORD_MOST}"),
        (MASS, TOO_LONG, f"f: {WORD_MOST + 1} characters stand there; {KINDS_OF_MASS}, over 0, at most {WORD_MOST}"),
        (MASS, TOO_LONG[1:], f"f: {CUT} is not a mass; {KINDS_OF_MASS}"),
        (choice("over", "under"), TOO_LONG[1:], f"f: {CUT}; one of: over, under"),
        (whole(1), TOO_LONG[1:], f"f: {CUT}; a whole number from 1 up, digits only, no zero in front"),
        (yes_no(), TOO_LONG[1:], f"f: {CUT}; yes or no"),
        (day(), TOO_LONG[1:], f"f: {CUT}; a day as 2025-03-11, year first"),
        (moment(), TOO_LONG[1:], f"f: {CUT}; a day and a time as 2026-11-30 07:00"),
        (text(), "[a]", "f: a list stands there; a line of text"),
        (text(), "{a: b}", "f: a mapping stands there; a line of text"),
        (text(), "''", 'f: ""; a line of text that can be printed'),
        (moment(), "2027-02-30 07:00", "f: 2027-02-30 07:00; a day and a time as 2026-11-30 07:00"),
        (moment(), "2027-02-03 24:00", "f: 2027-02-03 24:00; a day and a time as 2026-11-30 07:00"),
        (day(), "2025-02-29", "f: 2025-02-29; a day as 2025-03-11, year first"),
        (MASS, "0 kg", f"f: 0 kg is out of range; {KINDS_OF_MASS}, over 0"),
        (quantity("ratio"), "3 m", "f: 3 m has a unit; a plain number without a unit, as 0.98"),
        (none_or(MASS, 0.0), "[none]", f"f: a list stands there; {KINDS_OF_MASS}, over 0"),
        (none_or(MASS, 0.0), "None", f"f: None is not a mass; {KINDS_OF_MASS}"),
        (one_or_list(MASS, "masses"), "{a: 1}", "f: a mapping stands there; masses"),
        (MASS, "{value: {value: 2 t}}", f"f: a mapping stands there; {KINDS_OF_MASS}, over 0"),
    ],
)
def test_what_a_field_says_of_anything_else(field: Field, written: str, message: str) -> None:
    assert value_of(field, written) == (None, [message])


def test_a_list_that_may_not_be_empty() -> None:
    assert value_of(one_or_list(MASS, "masses"), "[]") == ((), ["f: the list is empty; masses"])


def test_a_value_of_the_greatest_length_is_read() -> None:
    assert value_of(text(), "x" * WORD_MOST) == ("x" * WORD_MOST, [])


def test_what_a_reader_says_is_cut_where_it_runs_on() -> None:
    def read(found: str) -> str:
        raise UnreadableTextError(f'path "{found}"', "a path")

    _, (message,) = value_of(word(read, "a path"), "head " * 60)
    shown = 'path "' + "head " * 60
    assert message == f"f: {shown[: FOUND_MOST - 3]}...; a path"


@pytest.mark.parametrize(
    ("bounds", "inside", "outside"),
    [
        (Bounds(), [-1e9, 0.0, 1e9], []),
        (Bounds(over=0.0), [1e-9], [0.0, -1.0]),
        (Bounds(least=0.0), [0.0, 1.0], [-1e-9]),
        (Bounds(under=1.0), [0.999, -5.0], [1.0, 2.0]),
        (Bounds(over=0.0, most=1.0), [0.5, 1.0], [0.0, 1.000001]),
    ],
)
def test_bounds(bounds: Bounds, inside: list[float], outside: list[float]) -> None:
    assert all(map(bounds.holds, inside))
    assert not any(map(bounds.holds, outside))


def test_both_ends_of_a_range_lie_inside() -> None:
    field = span("length", Bounds(over=0.0, most=10.0), "over 0, up to 10 m")
    wanted = "a length in m, mm, ft or in, over 0, up to 10 m"
    assert value_of(field, "4 m to 11 m") == (None, [f"f: 4 m to 11 m is out of range; {wanted}"])
    assert value_of(field, "0 m to 4 m") == (None, [f"f: 0 m to 4 m is out of range; {wanted}"])


def test_a_faulty_item_keeps_its_place_so_that_the_others_keep_their_number() -> None:
    value, messages = value_of(list_of(whole(1), "numbers"), "[4, x, 6]")
    assert value == (4, None, 6)
    assert messages == ["f[1]: x; a whole number from 1 up, digits only, no zero in front"]


def test_a_faulty_pair_is_left_out_and_the_others_stay() -> None:
    value, messages = value_of(map_of(whole(1), MASS, "falls: mass"), "{1: 2 t, x: 4 t, 2: 5}")
    assert value == {1: 2000.0}
    assert messages == [
        "f[x]: x; a whole number from 1 up, digits only, no zero in front",
        f"f[2]: 5 has no unit; {KINDS_OF_MASS}",
    ]


def test_one_figure_written_in_two_units_stands_twice() -> None:
    value, messages = value_of(map_of(LENGTH, MASS, "length: mass"), "{3 m: 1 t, 3000 mm: 2 t}")
    assert value == {3.0: 1000.0}
    assert messages == ["f[3000 mm]: 3000 mm stands twice; each figure once"]


# ---- records and sources -------------------------------------------------------------------------------------------

RECORD = record(
    {"mass": MASS, "sag": LENGTH, "sag_source": text(), "source": text()}, ["mass"], "{mass: mass, sag: length}"
)


def page_of(written: str) -> tuple[Any, Page]:
    """Return what the record reads, and the page of its reading."""
    page = Page("a.yaml")
    node = read_yaml(written, page, SETTINGS)
    assert node is not None
    return RECORD.value(page, node, "block"), page


def test_every_key_of_a_record_is_there_none_where_it_is_not_on_file() -> None:
    value, page = page_of("{mass: 2 t}")
    assert value == {"mass": 2000.0, "sag": None, "sag_source": None, "source": None}
    assert page.faults == []


def test_a_source_is_noted_where_the_figure_stands_however_it_is_written() -> None:
    _, page = page_of("{mass: {value: 2 t, source: weighed}, sag: 3 mm, sag_source: AB, source: page 4}")
    assert page.sources == {"block.mass": "weighed", "block.sag": "AB", "block": "page 4"}
    assert page.marks["block.mass"] == (1, 8)


def test_a_source_without_a_figure_and_a_figure_with_an_empty_source() -> None:
    assert value_of(MASS, "{source: page 3}") == (None, ["f.value: is missing; the figure"])
    assert value_of(MASS, "{value: 2 t, source: ''}") == (2000.0, ['f.source: ""; a line of text that can be printed'])


def test_a_mistyped_key_is_not_called_missing_too() -> None:
    assert [str(fault) for fault in page_of("{mas: 2 t}")[1].faults] == [
        'a.yaml:1:2: block.mas: "mas" is not a key here; did you mean "mass"?'
    ]
    assert [str(fault) for fault in page_of("{sag: 3 mm}")[1].faults] == [
        f"a.yaml:1:1: block.mass: is missing; {KINDS_OF_MASS}, over 0"
    ]


def test_a_whole_file_that_is_no_record_is_named_as_the_file() -> None:
    page = Page("a.yaml")
    node = read_yaml("hello", page, SETTINGS)
    assert node is not None
    assert RECORD.read(page, node, "") is None
    assert [str(fault) for fault in page.faults] == ["a.yaml:1:1: file: hello; {mass: mass, sag: length}"]


# ---- spreadsheets --------------------------------------------------------------------------------------------------

THOUSANDS = "38 000 for thousands, or 38,0 with one or two decimals"


@pytest.mark.parametrize(
    ("written", "mass"), [("38,0 t", 38000.0), ("0,250 t", 250.0), ("12,34 t", 12340.0), ("1 250,5 kg", 1250.5)]
)
def test_a_decimal_comma_in_a_spreadsheet(written: str, mass: float) -> None:
    assert value_of(MASS, f"'{written}'", decimal_comma=True) == (mass, [])


@pytest.mark.parametrize(
    ("written", "message"),
    [
        ("38,000 t", f"38,000 t has a comma before three digits: thousands or decimals; {THOUSANDS}"),
        ("1,234,567 kg", f"1,234,567 kg has a comma before three digits: thousands or decimals; {THOUSANDS}"),
        ("19.500 t", f"19.500 t has a point before three digits: thousands or decimals; {THOUSANDS}"),
        ("1.250,5 t", f"1.250,5 t is not a mass; {KINDS_OF_MASS}"),
        ("1,25", f"1,25 has no unit; {KINDS_OF_MASS}"),
    ],
)
def test_a_comma_that_may_mean_two_things_is_refused_as_it_stands(written: str, message: str) -> None:
    assert value_of(MASS, f"'{written}'", decimal_comma=True) == (None, [f"f: {message}"])


def test_a_comma_in_a_yaml_file_is_refused() -> None:
    wanted = f"{KINDS_OF_MASS}, with a point for decimals and a space for thousands"
    assert value_of(MASS, "'38,0 t'") == (None, [f"f: 38,0 t has a comma; {wanted}"])
