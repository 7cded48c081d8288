"""Falls table, fleet angles, deductions, positions, charts: records, and the heavier load where nothing is said."""

from __future__ import annotations

from math import radians

import pytest

from becket.book.charts import Chart, ChartCounts, ChartRow, FallsTable, Fleet, Position, Stowed
from becket.intake.charts import CHARTS, COUNTED, FALLS_TABLE, FLEET, REREEVE, STOWED
from tests.intake.reading import value_of

MASS = "a mass in kg, t, lb, short ton or long ton"
ROWS = 'rows: {"0-0 9.5 m": {3 m: 25 t}}'


def test_a_falls_table_or_the_word_that_there_is_none() -> None:
    assert value_of(FALLS_TABLE, "none") == (
        FallsTable(printed=False, counts=None, layer=None, page=None, loads={}),
        [],
    )
    assert value_of(FALLS_TABLE, "{loads: {2: 6 t, 1: 3 t}}") == (
        FallsTable(printed=True, counts=None, layer=None, page=None, loads={1: 3000.0, 2: 6000.0}),
        [],
    )


def test_what_a_table_counts_is_a_list_and_an_empty_one_says_nothing_is_counted() -> None:
    for counts in (("load",), COUNTED, ()):
        text = f"{{loads: {{1: 3 t}}, counts: [{', '.join(counts)}]}}"
        assert value_of(FALLS_TABLE, text)[0].counts == counts


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("{layer: 1}", "f.loads: is missing; falls: mass, as {1: 5.1 t, 2: 10.2 t}"),
        ("{loads: {}}", "f.loads: nothing stands in it; falls: mass, as {1: 5.1 t, 2: 10.2 t}"),
        ("{loads: {0: 3 t}}", "f.loads[0]: 0; a whole number from 1 up, digits only, no zero in front"),
        ("{loads: {1: 3}}", f"f.loads[1]: 3 has no unit; {MASS}"),
        ("{loads: {1: 3 t}, counts: load}",
         "f.counts: load; a list of what the figure includes, as [load, rigging, block]"),
        ("{loads: {1: 3 t}, layer: 0}", "f.layer: 0; a whole number from 1 up, digits only, no zero in front"),
        ("no", "f: no; {counts: [load], layer: number, page: text, loads: {falls: mass}}"),
    ],
)  # fmt: skip
def test_what_is_no_falls_table(text: str, fault: str) -> None:
    assert value_of(FALLS_TABLE, text)[1] == [fault]


def test_fleet_angles_stand_alone_or_together() -> None:
    assert value_of(FLEET, "{sheave: 4 deg}") == (Fleet(sheave=radians(4), drum=None), [])
    assert value_of(FLEET, "{source: rope maker}") == (Fleet(sheave=None, drum=None), [])
    assert value_of(FLEET, "{drum: 90 deg}")[1] == [
        "f.drum: 90 deg is out of range; an angle in deg, over 0 deg, under 90 deg"
    ]


def test_nothing_stowed_is_an_answer_and_a_part_without_deductions_deducts_at_no_length() -> None:
    assert value_of(STOWED, "[]") == ((), [])
    assert value_of(STOWED, "[{name: fly}]") == ((Stowed(name="fly", deduct={}),), [])
    assert value_of(STOWED, "[{name: fly, deduct: {16 m: 0 kg}}]") == ((Stowed(name="fly", deduct={16.0: 0.0}),), [])
    assert value_of(STOWED, "none")[1] == [
        "f: none; [] where nothing hangs there, or a list of {name: text, deduct: {boom length: mass}}"
    ]


POSITION = "counterweight: 0 t, outriggers: full, sector: rear, length: 16 m, lowest: -2 deg, highest: 20 deg"


def test_a_position_with_what_it_need_not_say_left_out() -> None:
    assert value_of(REREEVE, f"[{{{POSITION}}}]") == (
        (
            Position(
                counterweight=0.0,
                outriggers="full",
                sector="rear",
                length=16.0,
                lowest=radians(-2),
                highest=radians(20),
                rated=None,
                wind=None,
                page=None,
            ),
        ),
        [],
    )


@pytest.mark.parametrize("key", [part.split(":")[0] for part in POSITION.split(", ")])
def test_a_position_is_none_without(key: str) -> None:
    text = ", ".join(part for part in POSITION.split(", ") if not part.startswith(key))
    (fault,) = value_of(REREEVE, f"[{{{text}}}]")[1]
    assert fault.startswith(f"f[0].{key}: is missing; ")


def test_all_round_is_a_sector_of_a_chart_and_not_of_a_position() -> None:
    assert value_of(CHARTS, f"[{{name: full, sector: all round, {ROWS}}}]")[1] == []
    assert value_of(REREEVE, f"[{{{POSITION.replace('rear', 'all round')}}}]")[1] == [
        "f[0].sector: all round; one of: side, rear, front"
    ]


def test_the_least_chart_has_no_figure_that_was_not_written() -> None:
    rows = (ChartRow(code="0-0", sections=(0.0, 0.0), length=9.5, rated={3.0: 25000.0}),)
    assert value_of(CHARTS, f"[{{name: full, {ROWS}}}]") == (
        (Chart(name="full", counterweight=None, outriggers=None, sector=None, page=None, counts=None, rows=rows),),
        [],
    )


@pytest.mark.parametrize(
    ("counts", "read"),
    [
        ("{}", ChartCounts(rigging=True, block=True, rope="yes", stowed=True)),
        ("{rigging: no, stowed: no}", ChartCounts(rigging=False, block=True, rope="yes", stowed=False)),
        ("{block: no, rope: falls beyond need}",
         ChartCounts(rigging=True, block=False, rope="falls beyond need", stowed=True)),
        ("{rope: no}", ChartCounts(rigging=True, block=True, rope="no", stowed=True)),
    ],
)  # fmt: skip
def test_what_a_chart_does_not_leave_out_is_load(counts: str, read: ChartCounts) -> None:
    assert value_of(CHARTS, f"[{{name: full, counts: {counts}, {ROWS}}}]")[0][0].counts == read


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("name: full", "f[0].rows: is missing; code and boom length: {radius: rated load}, at least one row"),
        (ROWS, "f[0].name: is missing; a line of text"),
        ("name: full, rows: {}",
         "f[0].rows: nothing stands in it; code and boom length: {radius: rated load}, at least one row"),
        ('name: full, rows: {"0-0 9.5 m": {}}',
         "f[0].rows[0-0 9.5 m]: nothing stands in it; radius: rated load, as {4 m: 31 t, 6 m: 22.5 t}"),
        ('name: full, rows: {"0-0 9.5 m": {3 m: 0 t}}',
         f"f[0].rows[0-0 9.5 m][3 m]: 0 t is out of range; {MASS}, over 0"),
        ('name: full, rows: {"9.5 m": {3 m: 5 t}}',
         "f[0].rows[9.5 m]: 9.5 m; telescoping code and boom length, as 100-0-0 18.4 m"),
        (f"name: full, counts: {{rope: some}}, {ROWS}", "f[0].counts.rope: some; one of: yes, no, falls beyond need"),
    ],
)  # fmt: skip
def test_what_is_no_chart(text: str, fault: str) -> None:
    assert value_of(CHARTS, f"[{{{text}}}]")[1] == [fault]
