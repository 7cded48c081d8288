"""Whatever the bytes are, reading gives a record or faults: never a traceback, never a half-read figure."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from becket.errors import Fault, FaultyFileError
from becket.intake.book import read_book
from becket.intake.check import check_files
from becket.intake.jobs import read_jobs
from becket.intake.settings import read_settings
from becket.verdict import Verdict
from tests.intake.reading import SETTINGS, written
from tests.intake.texts import BOOK, CSV, JOBS

OFTEN = settings(
    derandomize=True,
    deadline=None,
    max_examples=250,
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
PIECES = (
    *(
        "",
        " ",
        "\n",
        "\t",
        ":",
        "- ",
        "#",
        "'",
        '"',
        "{",
        "}",
        "[",
        "]",
        ",",
        ";",
        "|",
        ">",
        "&a",
        "*a",
        "!!int",
        "%",
        "?",
    ),
    *(
        "~",
        "null",
        "none",
        "yes",
        "no",
        "-1",
        "0",
        "1e9",
        "nan",
        "4:1",
        "010",
        "17 t",
        "5 ton",
        "12 ft 6 in",
        "{value: 1}",
    ),
    *(
        "\r\n",
        "\x00",
        "\ufeff",
        "\u2028",
        "\U0001f3d7",
        "---\n",
        "...\n",
        "<<",
        "head 9",
        "block",
        "x" * 70,
        "{}",
        "[]",
    ),
)


@st.composite
def mangled(draw: st.DrawFn, text: str) -> bytes:
    """Return a valid file with a few pieces put in, taken out, doubled, or bytes overwritten."""
    for _ in range(draw(st.integers(1, 4))):
        at = draw(st.integers(0, len(text)))
        until = min(len(text), at + draw(st.sampled_from([0, 0, 1, 2, 5, 20, 80])))
        piece = draw(st.sampled_from([*PIECES, text[at:until] * 2]))
        text = text[:at] + piece + text[until:]
    data = bytearray(text.encode())
    for _ in range(draw(st.integers(0, 1))):
        data[draw(st.integers(0, len(data) - 1))] = draw(st.integers(0, 255))
    return bytes(data)


def answered(read: Any, *arguments: Any) -> bool:
    """Return whether reading gave a record, or faults that each say what stands there and what would be right."""
    try:
        return read(*arguments) is not None
    except FaultyFileError as error:
        return bool(error.faults) and all(is_clear(fault) for fault in error.faults)


def is_clear(fault: Fault) -> bool:
    """Return whether a fault is one line that says what stands there and what would be right."""
    return bool(fault.found and fault.wanted and fault.field) and str(fault).isprintable()


@OFTEN
@given(data=st.binary(max_size=300) | mangled(BOOK))
def test_a_book(data: bytes, tmp_path: Path) -> None:
    assert answered(read_book, written(tmp_path / "crane.yaml", data), SETTINGS)


@OFTEN
@given(data=mangled(JOBS))
def test_a_sheet_in_yaml(data: bytes, tmp_path: Path) -> None:
    assert answered(read_jobs, written(tmp_path / "jobs.yaml", data), SETTINGS, None)


@OFTEN
@given(data=st.binary(max_size=300) | mangled(CSV))
def test_a_sheet_in_csv(data: bytes, tmp_path: Path) -> None:
    assert answered(read_jobs, written(tmp_path / "jobs.csv", data), SETTINGS, None)


@OFTEN
@given(data=mangled("rules: ASME B30.5-2018\nhand_height: {value: 1.6 m, source: us}\n"))
def test_settings(data: bytes, tmp_path: Path) -> None:
    written(tmp_path / "becket.settings.yaml", data)
    assert answered(read_settings, tmp_path)


@OFTEN
@given(book=mangled(BOOK), jobs=mangled(JOBS))
def test_check_of_both(book: bytes, jobs: bytes, tmp_path: Path) -> None:
    report = check_files(written(tmp_path / "crane.yaml", book), written(tmp_path / "jobs.yaml", jobs))
    assert (report.verdict is Verdict.PASS) == (not report.faults and not report.findings)
    assert list(report.faults) == sorted(report.faults)


@pytest.mark.parametrize("text", [BOOK, JOBS, CSV])
def test_a_file_cut_off_anywhere_is_answered(text: str, tmp_path: Path) -> None:
    is_csv, is_book = text is CSV, text is BOOK
    path = tmp_path / ("a.csv" if is_csv else "a.yaml")
    for length in range(0, len(text), 7):
        written(path, text[:length])
        assert answered(read_book, path, SETTINGS) if is_book else answered(read_jobs, path, SETTINGS, None)
