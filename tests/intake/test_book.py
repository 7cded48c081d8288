"""Crane books: what is read, and every message in full."""

# ruff: noqa: E501 (messages and lines of files stand here as they are)

from __future__ import annotations

from math import radians
from pathlib import Path

import pytest

from tests.intake.reading import Case, book_messages, book_of
from tests.intake.texts import BOOK, altered


def test_a_whole_book(tmp_path: Path) -> None:
    read = book_of(tmp_path, BOOK)
    book = read.book
    assert book.boom.lowest == {"side": radians(-2), "rear": radians(1)}
    assert book.head.anchors["right"].below == 0.12
    becket = book.blocks["hook"].becket
    assert becket is not None
    assert becket.below == -0.2
    assert book.stowed is not None
    assert book.stowed[0].deduct == {9.5: 300.0, 16.0: 250.0, 22.5: 200.0}
    assert book.rope.length_source == "log 2025-01-05"
    assert book.sources["switch.margin"] == "manual 5-2"
    assert book.sources["fleet"] == "rope maker's sheet"
    assert book.second_line is not None
    assert (book.second_line.hangs, book.second_line.mass) == (None, 0.0)
    assert read.marks["patterns[1].path"] == (85, 11)
    assert read.marks["charts[0].rows[100-0 16 m][6 m]"] == (104, 33)
    assert read.marks["blocks.hook.mass"] == (57, 11)
    assert len(book.fingerprint) == 16


def test_the_fingerprint_is_of_the_bytes(tmp_path: Path) -> None:
    one = book_of(tmp_path, BOOK).book.fingerprint
    other = book_of(tmp_path, BOOK + "# looked at again\n").book.fingerprint
    assert one != other


def test_missing_figures_are_no_fault(tmp_path: Path) -> None:
    """Only a few are required; whatever else is missing is None, never a default."""
    least = """\
becket: 1
crane: {name: Bare 5}
manual: {title: Manual}
boom: {foot: {x: 0 m, z: 2 m}, lengths: [{length: 8 m, code: "0"}], head_drop: 0 m, highest: 80 deg}
head: {sheave_diameter: 0.2 m, sheaves: {1: 0 m}}
winch: {drum: {diameter: 0.2 m, width: 0.3 m}}
rope: {diameter: 10 mm}
blocks: {ball: {sheaves: {}}}
"""
    book = book_of(tmp_path, least).book
    assert book.falls_table is None
    assert book.stowed is None
    assert book.second_line is None
    assert book.sheave_efficiency is None
    assert book.boom.sag is None
    assert book.winch.pull == ()
    assert book.winch.least_wraps is None
    assert book.blocks["ball"].mass is None
    assert book.switch.trips is None
    assert book.fleet.sheave is None
    assert book.indicator is None
    assert not any((book.patterns, book.keepers, book.charts, book.rereeve, book.override))


def test_keys_that_few_books_have(tmp_path: Path) -> None:
    text = altered(
        BOOK,
        ("sheave_efficiency: {value: 0.98, source: manual 4-2}", "sheave_ratio: {value: 1.04, source: manual 4-2}"),
        ("  at: {x: -2.4 m, z: 2.9 m}\n", "  lead_run: 2 m\n"),
        ("  type: II\n", "  type: II\n  grade: 1960\n"),
        ("lead: over", "lead: under"),
        ("falls_table: {counts: [load, rigging, block], layer: 1, page: 6-1, loads: ", "falls_table: none #"),
        ("second_line: none", "second_line: {hangs: ball, mass: 120 kg}"),
        ("pull: [34 kN, 31 kN, 29 kN, 27 kN]", "pull: 34 kN"),
        ("page: 6-3", "page: 6-3\n    picture: pages/6-3.png"),
    )
    book = book_of(tmp_path, text).book
    assert book.sheave_efficiency == pytest.approx(1 / 1.04)
    assert book.sources["sheave_efficiency"] == "manual 4-2"
    assert (book.winch.lead_run, book.winch.at_x, book.winch.pull) == (2.0, None, (34000.0,))
    assert (book.rope.grade, book.head.lead) == (1960.0, "under")
    assert book.falls_table is not None
    assert not book.falls_table.printed
    assert book.second_line is not None
    assert (book.second_line.hangs, book.second_line.mass) == ("ball", 120.0)
    assert book.patterns[1].picture == "pages/6-3.png"


def test_what_was_seen_on_the_rope(tmp_path: Path) -> None:
    """Days on which the rope was found worn, the falls seen turning; neither is in a book by itself."""
    rope = book_of(tmp_path, BOOK).book.rope
    assert (rope.found_worn, rope.seen_turning) == (None, None)
    told = altered(BOOK, ("  installed: 2024-05-06", "  found_worn: 2024-06-07\n  seen_turning: 2024-06-08"))
    rope = book_of(tmp_path, told).book.rope
    assert (rope.found_worn, rope.seen_turning) == ("2024-06-07", "2024-06-08")


def test_nothing_is_resolved_behind_the_typist_back(tmp_path: Path) -> None:
    """No 4:1 = 241, no 010 = 8, no `no` = False, no 1e3, no date objects: words stay words."""
    text = altered(BOOK, ("name: Alder 25", "name: no"), ("serial: A25-3", "serial: 010"), ("issue: C", "issue: 4:1"))
    book = book_of(tmp_path, text).book
    assert (book.crane, book.serial, book.manual_issue) == ("no", "010", "4:1")


def test_a_chart_counts_what_it_does_not_leave_out(tmp_path: Path) -> None:
    text = altered(BOOK, ("counts: {rigging: yes, block: yes, rope: no, stowed: yes}", "counts: {rope: no}"))
    counts = book_of(tmp_path, text).book.charts[0].counts
    assert counts is not None
    assert (counts.rigging, counts.block, counts.rope, counts.stowed) == (True, True, "no", True)


def test_one_boom_length_in_two_units_is_one_number(tmp_path: Path) -> None:
    text = altered(
        BOOK, ("sag: {9.5 m: 10 mm, 16 m", "sag: {9500 mm: 10 mm, 52.493 ft"), ('"0-0 9.5 m"', '"0-0 31.168 ft"')
    )
    book = book_of(tmp_path, text).book
    assert book.boom.sag == {9.5: 0.01, 16.0: 0.04, 22.5: 0.11}
    assert book.charts[0].rows[0].length == 9.5


# id: (change, messages as line:column: field: what stands there; what would be right)
CASES: dict[str, Case] = {
    "unknown key": (
        (("head_drop", "hed_drop"),),
        ['10:3: boom.hed_drop: "hed_drop" is not a key here; did you mean "head_drop"?'],
    ),
    "unknown key, nothing near": (
        (("  highest: 80 deg", "  highest: 80 deg\n  zzz: 3"),),
        [
            '15:3: boom.zzz: "zzz" is not a key here; keys here: foot, lengths, head_drop, sag, sag_source, lowest, highest'
        ],
    ),
    "duplicate key": (
        (("  highest: 80 deg", "  highest: 80 deg\n  highest: 81 deg"),),
        ['15:3: boom.highest: the key "highest" stands twice, first in line 14; each key once'],
    ),
    "duplicate key in a list": (
        (("{name: head bar,", "{name: head bar, name: x,"),),
        ['78:22: keepers[0].name: the key "name" stands twice, first in line 78; each key once'],
    ),
    "the same figure twice": (
        (("9.5 m: 10 mm, 16 m", "9.5 m: 10 mm, 9500 mm: 3 mm, 16 m"),),
        ["11:23: boom.sag[9500 mm]: 9500 mm stands twice; each figure once"],
    ),
    "missing": (
        (("  highest: 80 deg\n", ""),),
        ["5:3: boom.highest: is missing; an angle in deg, over 0 deg, under 90 deg"],
    ),
    "missing record": (
        (("manual: {title: Operating manual Alder 25, issue: C}\n", ""),),
        ["1:1: manual: is missing; {title: text, issue: text}"],
    ),
    "no unit": (
        (("mass: 240 kg", "mass: 240"),),
        ["57:11: blocks.hook.mass: 240 has no unit; a mass in kg, t, lb, short ton or long ton"],
    ),
    "ton": (
        (("rated: 25 t", "rated: 25 ton"),),
        [
            "56:12: blocks.hook.rated: 25 ton is not a mass; short ton, long ton or t written in full: three different tons are in use"
        ],
    ),
    "negative length": (
        (("hook: 0.8 m", "hook: -0.8 m"),),
        ["62:11: blocks.hook.hook: -0.8 m is out of range; a length in m, mm, ft or in, over 0"],
    ),
    "efficiency over 1": (
        (("value: 0.98", "value: 1.02"),),
        ["34:28: sheave_efficiency: 1.02 is out of range; a plain number without a unit, over 0, up to 1"],
    ),
    "ratio under 1": (
        (("sheave_efficiency: {value: 0.98", "sheave_ratio: {value: 0.98"),),
        ["34:23: sheave_ratio: 0.98 is out of range; a plain number without a unit, from 1 up"],
    ),
    "efficiency and ratio": (
        (("sheave_efficiency:", "sheave_ratio: 1.02\nsheave_efficiency:"),),
        ["34:15: sheave_ratio: stands beside sheave_efficiency; one of the two, as the manual prints it"],
    ),
    "angle out of range": (
        (("highest: 80 deg", "highest: 95 deg"),),
        ["14:12: boom.highest: 95 deg is out of range; an angle in deg, over 0 deg, under 90 deg"],
    ),
    "lowest over highest": (
        (("side: -2 deg, rear", "side: 85 deg, rear"),),
        ["13:12: boom.lowest.side: is not under the highest angle; an angle under boom.highest"],
    ),
    "share out of range": (
        (("spooling_tension: 2 %", "spooling_tension: 200 %"),),
        ["46:21: rope.spooling_tension: 200 % is out of range; a share in %, over 0 %, up to 100 %"],
    ),
    "grade": (
        (("  type: II", "  type: II\n  grade: 196"),),
        ["38:10: rope.grade: 196 is out of range; a plain number without a unit, from 1000 to 3000, as 1960"],
    ),
    "falls nought": (
        (("falls: 3", "falls: 0"),),
        ["84:12: patterns[1].falls: 0; a whole number from 1 up, digits only, no zero in front"],
    ),
    "octal": (
        (("falls: 3", "falls: 03"),),
        ["84:12: patterns[1].falls: 03; a whole number from 1 up, digits only, no zero in front"],
    ),
    "sexagesimal": (
        (("falls: 3", "falls: 4:1"),),
        ["84:12: patterns[1].falls: 4:1; a whole number from 1 up, digits only, no zero in front"],
    ),
    "yes or no": (
        (("grooved: yes", "grooved: true"),),
        ["27:68: winch.drum.grooved: true; yes or no"],
    ),
    "choice": (
        (("lead: over", "lead: ovr"),),
        ['19:9: head.lead: ovr; did you mean "over"?'],
    ),
    "choice, nothing near": (
        (("lead: over", "lead: sideways and more"),),
        ["19:9: head.lead: sideways and more; one of: over, under"],
    ),
    "date": (
        (("installed: 2024-05-06", "installed: 06.05.2024"),),
        ["47:14: rope.installed: 06.05.2024; a day as 2025-03-11, year first"],
    ),
    "list for a word": (
        (("mass: 240 kg", "mass: [240 kg]"),),
        ["57:11: blocks.hook.mass: a list stands there; a mass in kg, t, lb, short ton or long ton, over 0"],
    ),
    "mapping for a word": (
        (("mass: 240 kg", "mass: {kg: 240}"),),
        ["57:11: blocks.hook.mass: a mapping stands there; a mass in kg, t, lb, short ton or long ton, over 0"],
    ),
    "word for a list": (
        (("stops: [hoist, telescope out]", "stops: hoist"),),
        ["72:10: switch.stops: hoist; a list of motions, as [hoist, telescope out]"],
    ),
    "nothing for a list": (
        (("stops: [hoist, telescope out]", "stops:"),),
        ["72:9: switch.stops: nothing stands there; a list of motions, as [hoist, telescope out]"],
    ),
    "empty list": (
        (("pull: [34 kN, 31 kN, 29 kN, 27 kN]", "pull: []"),),
        ["29:9: winch.pull: the list is empty; a force by layer, layer 1 first, as [52 kN, 48 kN]"],
    ),
    "word for a mapping": (
        (("sag: {9.5 m: 10 mm, 16 m: 40 mm, 22.5 m: 110 mm}", "sag: 10 mm"),),
        ["11:8: boom.sag: 10 mm; boom length: sag, as {10.6 m: 0.01 m}"],
    ),
    "empty mapping": (
        (
            ("sheaves: {1: -0.2 m, 2: 0 m, 3: 0.2 m}", "sheaves: {}"),
            ("holds: [1, 2, 3]", "holds: []"),
        ),
        ["18:12: head.sheaves: nothing stands in it; sheave number: offset sideways, as {1: -0.12 m, 2: 0.12 m}"],
    ),
    "word for a record": (
        (("foot: {x: -1.2 m, z: 2.6 m}", "foot: 3 m"),),
        ["5:9: boom.foot: 3 m; {x: length, z: length}"],
    ),
    "list for a record": (
        (("foot: {x: -1.2 m, z: 2.6 m}", "foot: [-1.2 m, 2.6 m]"),),
        ["5:9: boom.foot: a list stands there; {x: length, z: length}"],
    ),
    "nothing stands there": (
        (("mass: 240 kg", "mass:"),),
        [
            "57:10: blocks.hook.mass: nothing stands there; a mass in kg, t, lb, short ton or long ton, over 0, or no such line"
        ],
    ),
    "quotes with nothing in them": (
        (("mass: 240 kg", "mass: ''"),),
        ["57:11: blocks.hook.mass: nothing stands there; a mass in kg, t, lb, short ton or long ton"],
    ),
    "quotes with no word in them": (
        (("winds: over", "winds: ''"),),
        ["26:10: winch.winds: an empty text stands there; one of: over, under"],
    ),
    "empty text": (
        (("title: Operating manual Alder 25", 'title: ""'),),
        ['3:17: manual.title: ""; a line of text that can be printed'],
    ),
    "control character": (
        (("title: Operating manual Alder 25", 'title: "a\\x1bb"'),),
        ['3:17: manual.title: "a\\x1bb"; a line of text that can be printed'],
    ),
    "long value": (
        (("title: Operating manual Alder 25", "title: " + "x" * 1001 + ""),),
        ["3:17: manual.title: 1001 characters stand there; a line of text, at most 1000"],
    ),
    "value without source key": (
        (("value: 120 m, source: log 2025-01-05", "valu: 120 m, source: log 2025-01-05"),),
        ['39:12: rope.length.valu: "valu" is not a key here; did you mean "value"?'],
    ),
    "value of a record": (
        (("value: 120 m, source: log 2025-01-05", "value: [120 m], source: log 2025-01-05"),),
        ["39:19: rope.length: a list stands there; a length in m, mm, ft or in, over 0"],
    ),
    "code": (
        (('code: "0-0"', 'code: "0-150"'),),
        ["7:29: boom.lengths[0].code: 0-150; a telescoping code as 100-50-0: how far each section is out, in percent"],
    ),
    "code of other sections": (
        (('code: "100-0"', 'code: "100-0-0"'),),
        [
            "8:28: boom.lengths[1].code: 100-0-0 is for 3 sections, the first code for 2; a figure for each section in every code",
            "104:7: charts[0].rows[100-0 16 m]: 100-0 is no code of the boom length 16 m; its code: 100-0-0",
        ],
    ),
    "length twice": (
        (
            (
                '    - {length: 16 m, code: "100-0"}\n',
                '    - {length: 16 m, code: "100-0"}\n    - {length: 16 m, code: "100-0"}\n',
            ),
        ),
        ['9:7: boom.lengths[2]: "100-0 16 m" stands twice; each length once'],
    ),
    "sag of no length": (
        (("22.5 m: 110 mm", "22 m: 110 mm"),),
        ["11:36: boom.sag[22 m]: 22 m is no boom length of this crane; one of boom.lengths; the nearest is 22.5 m"],
    ),
    "deduct of no length": (
        (("22.5 m: 200 kg", "23 m: 200 kg"),),
        [
            "92:55: stowed[0].deduct[23 m]: 23 m is no boom length of this crane; one of boom.lengths; the nearest is 22.5 m"
        ],
    ),
    "position of no length": (
        (("length: 16 m, lowest", "length: 17 m, lowest"),),
        ["94:66: rereeve[0].length: 17 m is no boom length of this crane; one of boom.lengths; the nearest is 16 m"],
    ),
    "position upside down": (
        (("lowest: -2 deg, highest: 20 deg", "lowest: 25 deg, highest: 20 deg"),),
        ["94:97: rereeve[0].highest: is under the lowest angle; lowest first, then highest"],
    ),
    "row key": (
        (('"0-0 9.5 m"', '"0-0"'),),
        ["103:7: charts[0].rows[0-0]: 0-0; telescoping code and boom length, as 100-0-0 18.4 m"],
    ),
    "row of no length": (
        (('"0-0 9.5 m"', '"0-0 9 m"'),),
        [
            "103:7: charts[0].rows[0-0 9 m]: 9 m is no boom length of this crane; one of boom.lengths; the nearest is 9.5 m"
        ],
    ),
    "row of another code": (
        (('"0-0 9.5 m"', '"0-50 9.5 m"'),),
        ["103:7: charts[0].rows[0-50 9.5 m]: 0-50 is no code of the boom length 9.5 m; its code: 0-0"],
    ),
    "row of length nought": (
        (('"0-0 9.5 m"', '"0-0 0 m"'),),
        [
            "103:7: charts[0].rows[0-0 0 m]: 0-0 0 m is out of range; telescoping code and boom length, as 100-0-0 18.4 m"
        ],
    ),
    "chart twice": (
        (("charts:\n", 'charts:\n  - {name: full, rows: {"0-0 9.5 m": {3 m: 25 t}}}\n'),),
        ['97:11: charts[1].name: "full" stands twice; each chart with a name of its own'],
    ),
    "sector": (
        (("sector: side", "sector: sied"),),
        ['94:52: rereeve[0].sector: sied; did you mean "side"?'],
    ),
    "motion": (
        (("[hoist, telescope out]", "[hoist, telescop out]"),),
        ['72:18: switch.stops[1]: telescop out; did you mean "telescope out"?'],
    ),
    "keeper at": (
        (("at: block hook", "at: hook"),),
        ["79:27: keepers[1].at: hook; head, dead end, or block and its name"],
    ),
    "keeper of no block": (
        (("at: block hook", "at: block hok"),),
        ['79:27: keepers[1].at: "hok" is no block of this book; did you mean "hook"?'],
    ),
    "keeper of no sheave": (
        (("holds: [1, 2, 3]", "holds: [1, 2, 7]"),),
        ["78:46: keepers[0].holds[2]: there is no sheave 7 at the head; its sheaves: 1, 2, 3"],
    ),
    "keeper of no sheave at the block": (
        (("holds: [1, 2], draw", "holds: [1, 9], draw"),),
        ["79:50: keepers[1].holds[1]: there is no sheave 9 at the block hook; its sheaves: 1, 2"],
    ),
    "keeper twice": (
        (("name: block bar", "name: head bar"),),
        ['79:12: keepers[1].name: "head bar" stands twice; each keeper with a name of its own'],
    ),
    "keeper of the dead end": (
        (("at: dead end, draw", "at: dead end, holds: [1], draw"),),
        ["80:42: keepers[2].holds: a keeper of the dead end holds no sheave; no holds"],
    ),
    "pattern of no block": (
        (("- {block: hook, falls: 2", "- {block: ball, falls: 2"),),
        ['82:13: patterns[0].block: "ball" is no block of this book; blocks on file: hook'],
    ),
    "pattern of no sheave": (
        (("path: head 2 block 1,", "path: head 5 block 1,"),),
        ["82:35: patterns[0].path: there is no sheave 5 at the head; its sheaves: 1, 2, 3"],
    ),
    "pattern of no block sheave": (
        (("path: head 2 block 1,", "path: head 2 block 6,"),),
        ["82:35: patterns[0].path: there is no sheave 6 at the block hook; its sheaves: 1, 2"],
    ),
    "pattern of no anchor": (
        (("dead_end: head right", "dead_end: head rigth"),),
        ['82:61: patterns[0].dead_end: "rigth" is no anchor of the head; did you mean "right"?'],
    ),
    "pattern twice": (
        (("falls: 3\n", "falls: 2\n"),),
        ['83:5: patterns[1]: "hook:2" stands twice; one pattern for each block and number of falls'],
    ),
    "path": (
        (("path: head 2 block 1,", "path: head two,"),),
        [
            '82:35: patterns[0].path: path "head two": cannot read "head two"; a path such as "head 3, block 3, head 5, block 5" is wanted, rope from the drum outward'
        ],
    ),
    "dead end": (
        (("dead_end: head right", "dead_end: boom"),),
        [
            '82:61: patterns[0].dead_end: dead end "boom"; "block", or "head" with the name of its anchor such as "head b", is wanted'
        ],
    ),
    "confirmed by the typist": (
        (
            (
                "    typed: {by: AB, date: 2025-01-05}\n",
                "    typed: {by: AB, date: 2025-01-05}\n    confirmed: {by: ab, date: 2025-01-06, seal: 0011223344556677}\n",
            ),
        ),
        [
            "89:16: patterns[1].confirmed: ab typed this pattern too; another person confirms, from the page of the manual"
        ],
    ),
    "picture outside": (
        (("page: 6-3", "page: 6-3\n    picture: ../other/6-3.png"),),
        ["88:14: patterns[1].picture: ../other/6-3.png; a file in the book's folder, as pages/6-14.png"],
    ),
    "version": (
        (("becket: 1", "becket: 2"),),
        ["1:9: becket: version 2; 1, the version of the format that this becket reads"],
    ),
    "becket missing": (
        (("becket: 1\n", ""),),
        ["1:1: becket: is missing; 1, the version of the format"],
    ),
    "many at once": (
        (
            ("mass: 240 kg", "mass: 240"),
            ("rope:\n", "rop:\n"),
            ("head right", "head rigth"),
        ),
        [
            '35:1: rop: "rop" is not a key here; did you mean "rope"?',
            "57:11: blocks.hook.mass: 240 has no unit; a mass in kg, t, lb, short ton or long ton",
            '82:61: patterns[0].dead_end: "rigth" is no anchor of the head; did you mean "right"?',
        ],
    ),
    "falls table counts": (
        (("counts: [load, rigging, block]", "counts: [load, riging]"),),
        ['89:30: falls_table.counts[1]: riging; did you mean "rigging"?'],
    ),
}


@pytest.mark.parametrize("name", CASES)
def test_message(name: str, tmp_path: Path) -> None:
    changes, wanted = CASES[name]
    assert book_messages(tmp_path, altered(BOOK, *changes)) == wanted
