"""Errors: one line each, with what stands there and what would be right; caught as what they are."""

from __future__ import annotations

import pytest

from becket import errors
from becket.errors import (
    BecketError,
    CannotWriteError,
    Fault,
    FaultyFileError,
    NotOnFileError,
    OutOfRangeError,
    RefusedError,
    UnreadableTextError,
)


def fault(line: int, column: int, field: str = "mass", file: str = "a.yaml") -> Fault:
    """Return a fault at a place."""
    return Fault(file=file, line=line, column=column, field=field, found="240 has no unit", wanted="a mass in kg")


def test_a_fault_is_one_line_that_an_editor_can_follow() -> None:
    assert str(fault(57, 11)) == "a.yaml:57:11: mass: 240 has no unit; a mass in kg"


def test_faults_come_by_file_line_and_column() -> None:
    given = (fault(9, 2), fault(10, 1), fault(9, 1, "b"), fault(2, 1, file="b.yaml"), fault(9, 1, "a"), fault(0, 0))
    error = FaultyFileError(given)
    assert [(one.file, one.line, one.column, one.field) for one in error.faults] == [
        ("a.yaml", 0, 0, "mass"),
        ("a.yaml", 9, 1, "a"),
        ("a.yaml", 9, 1, "b"),
        ("a.yaml", 9, 2, "mass"),
        ("a.yaml", 10, 1, "mass"),
        ("b.yaml", 2, 1, "mass"),
    ]
    assert str(error).splitlines() == [str(one) for one in error.faults]


def test_facts_stay_with_the_error() -> None:
    out = OutOfRangeError("falls", 0, "1 or more is wanted")
    assert (out.field, out.value, out.wanted, str(out)) == (
        "falls",
        0,
        "1 or more is wanted",
        "falls: 0; 1 or more is wanted",
    )
    text = UnreadableTextError("240 has no unit", "a mass in kg")
    assert (text.found, text.wanted, str(text)) == ("240 has no unit", "a mass in kg", "240 has no unit; a mass in kg")


EVERY = [one for one in vars(errors).values() if isinstance(one, type) and issubclass(one, BecketError)]


@pytest.mark.parametrize("error", [one for one in EVERY if one is not BecketError])
def test_every_error_is_ours_and_one_of_the_language_too(error: type[BecketError]) -> None:
    assert error.__name__.endswith("Error")
    assert error.__mro__[1] is BecketError
    assert issubclass(error, ValueError | LookupError | OSError)


@pytest.mark.parametrize(
    ("error", "caught"), [(NotOnFileError, LookupError), (RefusedError, ValueError), (CannotWriteError, OSError)]
)
def test_the_sentence_stays_as_it_was_said(error: type[BecketError], caught: type[Exception]) -> None:
    with pytest.raises(caught) as raised:
        raise error('block: "hok" is not in the book')
    assert str(raised.value) == 'block: "hok" is not in the book'
