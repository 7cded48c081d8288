"""Boom lengths that other fields name: found however they are typed, blamed once where they are not there."""

from __future__ import annotations

from pathlib import Path

import pytest

from becket.intake.boom_references import known_items
from tests.intake.reading import book_messages, book_of
from tests.intake.texts import BOOK, altered

ONE_CODE = '    - {length: 16 m, code: "100-0"}\n'
SECOND_CODE = (ONE_CODE, ONE_CODE + ONE_CODE.replace("100-0", "0-100"))


def test_items_keep_their_number() -> None:
    assert known_items(None) == []
    assert known_items(()) == []
    assert known_items((None, "b")) == [(1, "b")]


@pytest.mark.parametrize(
    "change",
    [
        ("22.5 m: 110 mm", "73.819 ft: 110 mm"),  # half a millimetre of rounding is the same length
        ("length: 16 m, lowest", "length: 16000 mm, lowest"),
        ("22.5 m: 200 kg", "22.5004 m: 200 kg"),
        ('"100-0 16 m"', '"100-0 52 ft 5.92 in"'),
    ],
)
def test_a_length_in_another_unit_is_the_same_length(change: tuple[str, str], tmp_path: Path) -> None:
    assert book_of(tmp_path, altered(BOOK, change)).book.crane == "Alder 25"


def test_two_codes_may_give_one_length_and_a_row_may_have_either(tmp_path: Path) -> None:
    text = altered(
        BOOK,
        SECOND_CODE,
        ('"100-0 16 m"', '"0-100 16 m"'),
    )
    assert [row.code for row in book_of(tmp_path, text).book.charts[0].rows] == ["0-0", "0-100"]


def test_a_row_of_neither_code_is_told_both(tmp_path: Path) -> None:
    text = altered(
        BOOK,
        SECOND_CODE,
        ('"100-0 16 m"', '"50-50 16 m"'),
    )
    assert book_messages(tmp_path, text) == [
        "105:7: charts[0].rows[50-50 16 m]: 50-50 is no code of the boom length 16 m; its code: 100-0, 0-100"
    ]


@pytest.mark.parametrize(
    ("change", "fault"),
    [
        (("length: 16 m, code", "length: 16, code"), "8:16: boom.lengths[1].length: 16 has no unit; a length in "),
        (('code: "100-0"', 'code: "100-x"'), "8:28: boom.lengths[1].code: 100-x; a telescoping code as 100-50-0"),
        (("  lengths:\n", "  lengthz:\n"), '6:3: boom.lengthz: "lengthz" is not a key here; did you mean "lengths"?'),
    ],
)
def test_with_a_slip_in_the_lengths_nothing_else_is_blamed(change: tuple[str, str], fault: str, tmp_path: Path) -> None:
    messages = book_messages(tmp_path, altered(BOOK, change))
    assert len(messages) == 1
    assert messages[0].startswith(fault)


def test_without_a_boom_the_rest_is_still_read(tmp_path: Path) -> None:
    text = altered(BOOK, ("boom:\n", "boon:\n"), ("mass: 240 kg", "mass: 240"))
    assert [line.split(": ")[1] for line in book_messages(tmp_path, text)] == ["boon", "blocks.hook.mass"]


def test_a_lowest_angle_as_high_as_the_highest_is_refused(tmp_path: Path) -> None:
    text = altered(BOOK, ("side: -2 deg, rear", "side: 80 deg, rear"))
    assert book_messages(tmp_path, text) == [
        "13:12: boom.lowest.side: is not under the highest angle; an angle under boom.highest"
    ]


def test_a_position_at_one_angle_is_a_position(tmp_path: Path) -> None:
    text = altered(BOOK, ("lowest: -2 deg, highest: 20 deg", "lowest: 5 deg, highest: 5 deg"))
    position = book_of(tmp_path, text).book.rereeve[0]
    assert position.lowest == position.highest


def test_a_chart_that_is_no_chart_does_not_shift_the_others(tmp_path: Path) -> None:
    text = altered(BOOK, ("charts:\n", "charts:\n  - nothing\n"), ('"0-0 9.5 m"', '"0-0 9 m"'))
    assert [line.split(": ")[1] for line in book_messages(tmp_path, text)] == ["charts[0]", "charts[1].rows[0-0 9 m]"]
