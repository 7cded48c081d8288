"""Job sheets in YAML and CSV: what is read, and every message in full."""

# ruff: noqa: E501 (messages and lines of files stand here as they are)

from __future__ import annotations

from datetime import datetime, time
from pathlib import Path

import pytest

from becket.book.jobs import Lift
from becket.book.tackle import State
from becket.intake.jobs import KINDS, read_jobs
from tests.intake.reading import SETTINGS, Case, book_of, jobs_messages, jobs_of, written
from tests.intake.texts import BOOK, CSV, JOBS, altered


def test_a_sheet_in_yaml(tmp_path: Path) -> None:
    read = jobs_of(tmp_path, JOBS)
    sheet = read.sheet
    assert sheet.rigged == State(block="hook", falls=2)
    assert sheet.daylight == (time(7, 0), time(17, 0))
    assert sheet.rates.customer == pytest.approx(0.05)
    assert sheet.jobs[0].start == datetime(2027, 2, 1, 7, 0)
    assert sheet.jobs[0].lines_near is False
    assert sheet.jobs[0].lifts[0] == Lift(
        name="beam",
        count=4,
        load=2000.0,
        load_basis="weighed",
        rigging=60.0,
        chart="full",
        boom=16.0,
        radius=(4.0, 6.0),
        top=9.0,
        bottom=0.0,
        handling=300.0,
        counterweight=3000.0,
        outriggers="full",
    )
    assert sheet.jobs[1].lifts[0].rigging is None
    assert sheet.jobs[1].counterweight is None
    assert read.marks["jobs[1].lifts[0].load"] == (25, 28)
    assert len(sheet.fingerprint) == 16


def test_what_a_lift_may_say_besides(tmp_path: Path) -> None:
    for kind in KINDS:
        text = altered(JOBS, ("{name: tank, ", f'{{name: tank, kind: {kind}, sector: rear, code: "0-0", '))
        lift = jobs_of(tmp_path, text).sheet.jobs[1].lifts[0]
        assert (lift.kind, lift.sector, lift.code) == (kind, "rear", "0-0")


def test_a_sheet_needs_little(tmp_path: Path) -> None:
    text = "becket: 1\ncrane: Alder 25\njobs: [{job: x, lifts: [{name: y}]}]\n"
    sheet = jobs_of(tmp_path, text).sheet
    assert (sheet.rigged, sheet.yard, sheet.daylight, sheet.carried) == (None, None, None, {})
    assert sheet.rates.customer is None
    assert sheet.jobs[0].lifts[0].load is None


def test_without_a_book_names_are_not_checked(tmp_path: Path) -> None:
    path = written(tmp_path / "jobs.yaml", altered(JOBS, ("crane: Alder 25", "crane: Other")))
    assert read_jobs(path, SETTINGS, None).sheet.crane == "Other"


def test_a_boom_length_in_another_unit_is_the_boom_own_number(tmp_path: Path) -> None:
    text = altered(JOBS, ("boom: 16 m", "boom: 52.493 ft"))
    assert jobs_of(tmp_path, text).sheet.jobs[0].lifts[0].boom == 16.0


CSV_WAYS = {
    "semicolons": CSV,
    "byte order mark": "\ufeff" + CSV,
    "line ends of another system": CSV.replace("\n", "\r\n"),
    "no line end at the end": CSV.rstrip("\n"),
    "blank lines": CSV.replace("\n", "\n\n") + ";" * 15 + "\n",
    "a first line that names the separator": "sep=;\n" + CSV,
    "commas, figures with a point": CSV.replace(",", ".").replace(";", ","),
    "commas, figures in quotes": "\n".join(
        ",".join(f'"{cell.strip(chr(34))}"' for cell in line.split(";")) for line in CSV.splitlines()
    ),
}


@pytest.mark.parametrize("way", CSV_WAYS)
def test_a_sheet_as_spreadsheets_export_it(way: str, tmp_path: Path) -> None:
    read = jobs_of(tmp_path, CSV_WAYS[way], name="jobs.csv")
    sheet = read.sheet
    assert (sheet.crane, sheet.rigged, sheet.carried) == ("Alder 25", State(block="hook", falls=2), {"hook": "crane"})
    assert [job.name for job in sheet.jobs] == ["A-1", "A-2"]
    beam, wall = sheet.jobs[0].lifts
    assert (beam.load, beam.boom, beam.radius, beam.count) == (2500.0, 16.0, (4.0, 6.0), 4)
    assert (wall.load, wall.radius, wall.top, wall.count) == (1250.0, (4.5, 4.5), 8.5, 2)
    assert (sheet.jobs[1].lifts[0].boom, sheet.jobs[1].lifts[0].top) == (9.5, None)
    # an empty cell of the job means as in the row above; one of the lift is not given
    assert (sheet.jobs[1].counterweight, sheet.jobs[1].lifts[0].counterweight) == (3000.0, 3000.0)


def test_csv_and_yaml_give_the_same_sheet(tmp_path: Path) -> None:
    rows = '''\
becket,crane,rigged.block,rigged.falls,rates.currency,rates.customer,rates.own,rates.overtime,rates.billing_step,\
rates.minimum,yard.free_radius,yard.setup,yard.people,daylight,carried.hook,job,site,from,to,leave_by,counterweight,\
outriggers,people,free_radius,lines_near,name,count,load,load_basis,rigging,chart,boom,radius,top,bottom,handling
1,Alder 25,hook,2,EUR,180 /h,90 /h,60 /h,15 min,4 h,30 m,30 min,2,07:00 to 17:00,crane,A-1,"Mill, ""old""",\
2027-02-01 07:00,2027-02-01 12:00,2027-02-01 13:00,3 t,full,2,20 m,no,beam,4,2 t,weighed,60 kg,full,16 m,4 m to 6 m,\
9 m,0 m,5 min
'''
    one = jobs_of(tmp_path, rows, name="jobs.csv").sheet
    other = jobs_of(tmp_path, altered(JOBS, ("site: Mill", 'site: Mill, "old"'))).sheet
    assert one.jobs[0] == other.jobs[0]
    assert (one.rates, one.yard, one.daylight, one.carried, one.rigged) == (
        other.rates,
        other.yard,
        other.daylight,
        other.carried,
        other.rigged,
    )


def test_a_cell_with_line_breaks_keeps_the_count_of_lines(tmp_path: Path) -> None:
    text = altered(CSV, (";beam;", ';"beam\nlong";'), ("1,25 t", "1,25"))
    with_break = jobs_messages(tmp_path, text, "jobs.csv")
    assert with_break == [
        '2:76: jobs[0].lifts[0].name: "beam\\nlong"; a line of text that can be printed',
        "4:18: jobs[0].lifts[1].load: 1,25 has no unit; a mass in kg, t, lb, short ton or long ton",
    ]


def test_the_book_is_another_argument(tmp_path: Path) -> None:
    """A sheet read for one crane is refused for another."""
    other = book_of(tmp_path, altered(BOOK, ("name: Alder 25", "name: Alder 26"))).book
    path = written(tmp_path / "jobs.yaml", JOBS)
    with pytest.raises(ValueError, match='crane: "Alder 25" is another crane; the crane of the book, "Alder 26"'):
        read_jobs(path, SETTINGS, other)


YAML_CASES: dict[str, Case] = {
    "unknown key": (
        (("lines_near: no", "line_near: no"),),
        ['18:5: jobs[0].line_near: "line_near" is not a key here; did you mean "lines_near"?'],
    ),
    "missing": (
        (("  - job: A-1\n    site: Mill", "  - site: Mill"),),
        ["9:5: jobs[0].job: is missing; a line of text"],
    ),
    "no lifts": (
        (("    lifts:\n      - {name: tank, load: 4 t, boom: 9.5 m, radius: 5 m}\n", ""),),
        ["21:5: jobs[1].lifts: is missing; a list of lifts, each {name: text, load: mass, ...}, at least one"],
    ),
    "empty lifts": (
        (("    lifts:\n      - {name: tank, load: 4 t, boom: 9.5 m, radius: 5 m}\n", "    lifts: []\n"),),
        ["24:12: jobs[1].lifts: the list is empty; a list of lifts, each {name: text, load: mass, ...}, at least one"],
    ),
    "a lift that is a word": (
        (("      - {name: tank, load: 4 t, boom: 9.5 m, radius: 5 m}\n", "      - tank\n"),),
        ["25:9: jobs[1].lifts[0]: tank; {name: text, load: mass, boom: length, radius: range, ...}"],
    ),
    "a job that is a word": (
        (("jobs:\n", "jobs:\n  - A-0\n"),),
        ["9:5: jobs[0]: A-0; {job: text, from: moment, lifts: [...], ...}"],
    ),
    "name of lift": (
        (("{name: tank, ", "{"),),
        ["25:9: jobs[1].lifts[0].name: is missing; a line of text"],
    ),
    "count": (
        (("count: 4", "count: 0"),),
        ["20:29: jobs[0].lifts[0].count: 0; a whole number from 1 up, digits only, no zero in front"],
    ),
    "load": (
        (("load: 4 t", "load: 4"),),
        ["25:28: jobs[1].lifts[0].load: 4 has no unit; a mass in kg, t, lb, short ton or long ton"],
    ),
    "negative load": (
        (("load: 4 t", "load: -4 t"),),
        ["25:28: jobs[1].lifts[0].load: -4 t is out of range; a mass in kg, t, lb, short ton or long ton, from 0 up"],
    ),
    "radius backward": (
        (("radius: 4 m to 6 m", "radius: 6 m to 4 m"),),
        ["20:113: jobs[0].lifts[0].radius: 6 m to 4 m runs backward; the lesser figure first"],
    ),
    "radius nought": (
        (("radius: 4 m to 6 m", "radius: 0 m to 4 m"),),
        [
            "20:113: jobs[0].lifts[0].radius: 0 m to 4 m is out of range; a length in m, mm, ft or in, over 0, or a range as 6 m to 14 m"
        ],
    ),
    "basis": (
        (("load_basis: weighed", "load_basis: weighted"),),
        ['20:55: jobs[0].lifts[0].load_basis: weighted; did you mean "weighed"?'],
    ),
    "kind": (
        (("{name: tank, ", "{name: tank, kind: person, "),),
        ['25:28: jobs[1].lifts[0].kind: person; did you mean "persons"?'],
    ),
    "sector": (
        (("{name: tank, ", "{name: tank, sector: all round, "),),
        ["25:30: jobs[1].lifts[0].sector: all round; one of: side, rear, front"],
    ),
    "top under bottom": (
        (("top: 9 m, bottom: 0 m", "top: 0 m, bottom: 9 m"),),
        ["20:130: jobs[0].lifts[0].top: is under bottom; the highest hook in top, the lowest in bottom"],
    ),
    "another crane": (
        (("crane: Alder 25", "crane: Alder 52"),),
        ['2:8: crane: "Alder 52" is another crane; the crane of the book, "Alder 25"'],
    ),
    "another block": (
        (("rigged: {block: hook", "rigged: {block: hok"),),
        ['3:17: rigged.block: "hok" is no block of the book; did you mean "hook"?'],
    ),
    "carried of another block": (
        (("carried: {hook: crane}", "carried: {ball: crane}"),),
        ['7:11: carried.ball: "ball" is no block of the book; blocks on file: hook'],
    ),
    "carried where": (
        (("carried: {hook: crane}", "carried: {hook: truck}"),),
        ["7:17: carried.hook: truck; one of: crane, lorry, yard"],
    ),
    "another chart": (
        (("chart: full", "chart: ful"),),
        ['20:87: jobs[0].lifts[0].chart: "ful" is no chart of the book; did you mean "full"?'],
    ),
    "boom length": (
        (("boom: 9.5 m", "boom: 9 m"),),
        [
            "25:39: jobs[1].lifts[0].boom: 9 m is no boom length of this crane; one of boom.lengths of the book; the nearest is 9.5 m"
        ],
    ),
    "code": (
        (("{name: tank, ", '{name: tank, code: "0-100", '),),
        ["25:28: jobs[1].lifts[0].code: 0-100 is no code of the boom length 9.5 m; its code: 0-0"],
    ),
    "moment": (
        (("from: 2027-02-01 07:00", "from: 1.2.2027 07:00"),),
        ["11:11: jobs[0].from: 1.2.2027 07:00; a day and a time as 2026-11-30 07:00"],
    ),
    "to before from": (
        (("to: 2027-02-01 12:00", "to: 2027-02-01 06:00"),),
        ["12:9: jobs[0].to: 2027-02-01 06:00 is not after from; a moment after from"],
    ),
    "leave_by before to": (
        (("leave_by: 2027-02-01 13:00", "leave_by: 2027-02-01 11:00"),),
        ["13:15: jobs[0].leave_by: 2027-02-01 11:00 is before to; the same as to, or later"],
    ),
    "jobs overlap": (
        (("from: 2027-02-02 07:00", "from: 2027-02-01 11:00"),),
        [
            "22:11: jobs[1].from: 2027-02-01 11:00 is before the job above ends, 2027-02-01 12:00; jobs one after the other, in the order of time"
        ],
    ),
    "jobs out of order": (
        (("from: 2027-02-02 07:00\n    to: 2027-02-02 12:00", "from: 2027-01-02 07:00\n    to: 2027-01-02 12:00"),),
        [
            "22:11: jobs[1].from: 2027-01-02 07:00 is before the job above ends, 2027-02-01 12:00; jobs one after the other, in the order of time"
        ],
    ),
    "job twice": (
        (("job: A-2", "job: A-1"),),
        ['21:10: jobs[1].job: "A-1" stands twice; each job once, with all its lifts'],
    ),
    "currency": (
        (("currency: EUR", "currency: euro"),),
        ["4:19: rates.currency: euro; three capital letters, as EUR"],
    ),
    "rate": (
        (("customer: 180 /h", "customer: 180"),),
        ["4:34: rates.customer: 180 has no unit; a rate in /h"],
    ),
    "daylight": (
        (("daylight: 07:00 to 17:00", "daylight: 07:00"),),
        ["6:11: daylight: 07:00; two times of day, as 07:00 to 17:30"],
    ),
    "daylight backward": (
        (("daylight: 07:00 to 17:00", "daylight: 17:00 to 07:00"),),
        ["6:11: daylight: 17:00 to 07:00 runs backward; the earlier time first"],
    ),
    "lines_near": (
        (("lines_near: no", "lines_near: false"),),
        ["18:17: jobs[0].lines_near: false; yes or no"],
    ),
    "people": (
        (("people: 2\n    free", "people: two\n    free"),),
        ["16:13: jobs[0].people: two; a whole number from 0 up, digits only, no zero in front"],
    ),
    "decimal comma": (
        (("load: 4 t", 'load: "4,5 t"'),),
        [
            "25:28: jobs[1].lifts[0].load: 4,5 t has a comma; a mass in kg, t, lb, short ton or long ton, with a point for decimals and a space for thousands"
        ],
    ),
}
CSV_CASES: dict[str, Case] = {
    "unknown column": (
        (("top\n", "topp\n"),),
        ['1:130: topp: "topp" is no column; did you mean "top"?'],
    ),
    "unknown column, nothing near": (
        (("top\n", "zzzzz\n"),),
        [
            '1:130: zzzzz: "zzzzz" is no column; columns: becket, crane, rigged.block, rigged.falls, rates.currency, rates.customer, rates.own, rates.overtime, rates.billing_step, rates.minimum, yard.free_radius, yard.setup, yard.people, daylight, job, site, from, to, leave_by, counterweight, outriggers, people, free_radius, lines_near, name, count, load, load_basis, rigging, chart, ...'
        ],
    ),
    "column twice": (
        (("radius;top", "radius;radius"),),
        ['1:130: radius: the column "radius" stands twice; each column once'],
    ),
    "tabs between the cells": (
        ((CSV, CSV.replace(";", "\t")),),
        ["1:1: first row: the cells are separated by tabs; separate the cells with comma or semicolon"],
    ),
    "a separator is named, no row follows": (
        ((CSV, "sep=;\n"),),
        ["0:0: file: holds no row; a first row that names the columns, then a lift a row"],
    ),
    "column without a name": (
        (("radius;top", "radius;"),),
        ["1:1: first row: column 16 has no name; a name for each column"],
    ),
    "carried of no block": (
        (("carried.hook", "carried."),),
        ['1:63: carried.: "carried." is no column; did you mean "carried.BLOCK"?'],
    ),
    "cells too few": (
        ((";4 m to 6 m;9 m\n", ";4 m to 6 m\n"),),
        ["2:1: row 2: 15 cells stand in this row; 16 cells, one for each column of the first row"],
    ),
    "cells too many": (
        ((";4 m to 6 m;9 m\n", ";4 m to 6 m;9 m;\n"),),
        ["2:1: row 2: 17 cells stand in this row; 16 cells, one for each column of the first row"],
    ),
    "a quote inside": (
        (("beam", 'be"am'),),
        ["2:76: row 2: a quote stands inside this cell; quotes round the whole cell, doubled inside it"],
    ),
    "a quote that does not close": (
        (("beam", '"beam'),),
        ["2:76: row 2: a quote stands inside this cell; quotes round the whole cell, doubled inside it"],
    ),
    "text after a quote": (
        (("beam", '"beam" x'),),
        ["2:76: row 2: a quote stands inside this cell; quotes round the whole cell, doubled inside it"],
    ),
    "thousands or decimals": (
        (("1,25 t", "1,250 t"),),
        [
            "3:18: jobs[0].lifts[1].load: 1,250 t has a comma before three digits: thousands or decimals; 38 000 for thousands, or 38,0 with one or two decimals"
        ],
    ),
    "a point before three digits": (
        (("1,25 t", "1.250 t"),),
        [
            "3:18: jobs[0].lifts[1].load: 1.250 t has a point before three digits: thousands or decimals; 38 000 for thousands, or 38,0 with one or two decimals"
        ],
    ),
    "a cell": (
        (("1,25 t", "1,25"),),
        ["3:18: jobs[0].lifts[1].load: 1,25 has no unit; a mass in kg, t, lb, short ton or long ton"],
    ),
    "another boom": (
        (("9,5 m", "9,4 m"),),
        [
            "4:56: jobs[1].lifts[0].boom: 9.4 m is no boom length of this crane; one of boom.lengths of the book; the nearest is 9.5 m"
        ],
    ),
    "job cell differs": (
        ((";;;;;;;;;;wall", ";;;;;;;2027-02-01 08:00;;;wall"),),
        [
            "3:8: from: 2027-02-01 08:00 differs from 2027-02-01 07:00 in line 2; one value for the whole job, or an empty cell"
        ],
    ),
    "sheet cell differs": (
        ((";;;;;;;;;;wall", ";ball;;;;;;;;;wall"),),
        ["3:2: rigged.block: ball differs from hook in line 2; one value for the whole sheet, or an empty cell"],
    ),
    "no crane": (
        (("\nAlder 25;", "\n;"),),
        ["1:1: crane: is missing; a line of text"],
    ),
    "no job": (
        (
            (";A-1;", ";;"),
            (";A-2;", ";;"),
            ("2027-02-02 07:00;2027-02-02 12:00", ";"),
        ),
        ["2:73: jobs[0].job: is missing; a line of text"],
    ),
    "no lift name": (
        ((";beam;", ";;"),),
        ["2:77: jobs[0].lifts[0].name: is missing; a line of text"],
    ),
    "job comes back": (
        (("4 t;9,5 m;5 m;\n", "4 t;9,5 m;5 m;\n;;;;;;A-1;;;;x;;;;;\n"),),
        [
            "4:11: jobs[2].from: 2027-02-02 07:00 is before the job above ends, 2027-02-02 12:00; jobs one after the other, in the order of time",
            '5:7: jobs[2].job: "A-1" stands twice; each job once, with all its lifts',
        ],
    ),
}


@pytest.mark.parametrize("name", YAML_CASES)
def test_message_of_a_yaml_sheet(name: str, tmp_path: Path) -> None:
    changes, wanted = YAML_CASES[name]
    assert jobs_messages(tmp_path, altered(JOBS, *changes)) == wanted


@pytest.mark.parametrize("name", CSV_CASES)
def test_message_of_a_csv_sheet(name: str, tmp_path: Path) -> None:
    changes, wanted = CSV_CASES[name]
    assert jobs_messages(tmp_path, altered(CSV, *changes), "jobs.csv") == wanted
