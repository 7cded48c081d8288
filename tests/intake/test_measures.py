"""Kinds of field: the bounds that hold everywhere, telescoping codes, rows of a chart."""

from __future__ import annotations

import pytest

from becket.errors import UnreadableTextError
from becket.intake import measures
from becket.intake.fields import Field
from becket.intake.measures import MOTIONS, SECTORS, code_and_length, sections_of
from tests.intake.reading import value_of

CODE_WANTED = "a telescoping code as 100-50-0: how far each section is out, in percent"
# field: texts just inside, texts just outside
EDGES: list[tuple[Field, list[str], list[str]]] = [
    (measures.LENGTH, ["1 mm"], ["0 m", "-1 m"]),
    (measures.LENGTH_OR_NOUGHT, ["0 m"], ["-1 mm"]),
    (measures.PLACE, ["-3 m", "0 m", "3 m"], []),
    (measures.MASS, ["1 kg"], ["0 kg"]),
    (measures.MASS_OR_NOUGHT, ["0 kg"], ["-1 kg"]),
    (measures.FORCE, ["1 N"], ["0 N"]),
    (measures.FORCE_OR_NOUGHT, ["0 N"], ["-1 N"]),
    (measures.SPEED, ["1 m/min"], ["0 m/min"]),
    (measures.ANGLE, ["-90 deg", "0 deg", "90 deg"], ["-90.01 deg", "90.01 deg"]),
    (measures.LIMIT_ANGLE, ["0.1 deg", "89.9 deg"], ["0 deg", "90 deg"]),
    (measures.ROPE_MASS, ["0.1 kg/m"], ["0 kg/m"]),
    (measures.SHARE, ["0.1 %", "100 %"], ["0 %", "100.1 %"]),
    (measures.TIME, ["1 min"], ["0 min"]),
    (measures.TIME_OR_NOUGHT, ["0 min"], ["-1 min"]),
    (measures.RATE, ["0 /h"], ["-1 /h"]),
    (measures.EFFICIENCY, ["0.5", "1"], ["0", "1.001"]),
    (measures.FACTOR, ["1", "5"], ["0.999"]),
    (measures.NUMBER, ["0.1"], ["0"]),
]


@pytest.mark.parametrize(("field", "inside", "outside"), EDGES)
def test_bounds_hold_at_their_edges(field: Field, inside: list[str], outside: list[str]) -> None:
    for written in inside:
        value, messages = value_of(field, written)
        assert messages == []
        assert value is not None
    for written in outside:
        assert value_of(field, written) == (None, [f"f: {written} is out of range; {field.wanted}"])


def test_sides_and_motions_are_the_words_that_the_documents_use() -> None:
    for field, words in ((measures.SECTOR, SECTORS), (measures.MOTION, MOTIONS)):
        assert [value_of(field, one) for one in words] == [(one, []) for one in words]
        assert value_of(field, "up")[1] == [f"f: up; one of: {', '.join(words)}"]


@pytest.mark.parametrize(
    ("code", "sections"), [("0", (0.0,)), ("100-92.5-0", (100.0, 92.5, 0.0)), ("0-0-0-0", (0.0, 0.0, 0.0, 0.0))]
)
def test_a_code_says_how_far_each_section_is_out(code: str, sections: tuple[float, ...]) -> None:
    assert sections_of(code) == sections
    assert value_of(measures.CODE, f"'{code}'") == (code, [])


@pytest.mark.parametrize("code", ["100-x", "101-0", "-5-0", "100--0", "100-50-", "100/50"])
def test_what_is_no_code(code: str) -> None:
    assert value_of(measures.CODE, f"'{code}'") == (None, [f"f: {code}; {CODE_WANTED}"])


def test_an_empty_code() -> None:
    with pytest.raises(UnreadableTextError) as caught:
        sections_of("")
    assert str(caught.value) == f"nothing stands there; {CODE_WANTED}"


@pytest.mark.parametrize(
    ("written", "row"),
    [
        ("100-0-0 18.4 m", ("100-0-0", 18.4)),
        ("100-0-0  18.4 m", ("100-0-0", 18.4)),
        ("0 30 ft 6 in", ("0", pytest.approx(9.2964))),
    ],
)
def test_the_key_of_a_row_is_code_and_length(written: str, row: tuple[str, float]) -> None:
    assert code_and_length(written) == row


@pytest.mark.parametrize(
    ("written", "message"),
    [
        ("18.4m", "18.4m; telescoping code and boom length, as 100-0-0 18.4 m"),
        ("18.4 m", "18.4 m; telescoping code and boom length, as 100-0-0 18.4 m"),
        ("100-0 18.4", "18.4 has no unit; a length in m, mm, ft or in"),
        ("120-0 18.4 m", f"120-0; {CODE_WANTED}"),
        ("100-0 0 m", "100-0 0 m is out of range; telescoping code and boom length, as 100-0-0 18.4 m"),
    ],
)
def test_what_is_no_key_of_a_row(written: str, message: str) -> None:
    with pytest.raises(UnreadableTextError) as caught:
        code_and_length(written)
    assert str(caught.value) == message
