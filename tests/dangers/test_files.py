"""Ways to a wrong pass through what is typed: units, confirmations, the rounding of what is shown."""

from __future__ import annotations

from pathlib import Path

import pytest

from becket.book.tackle import State
from becket.errors import RefusedError, UnreadableTextError
from becket.intake.confirm import confirm_pattern
from becket.units import read_quantity, show_quantity
from tests.intake.texts import BOOK


def test_rounding_up() -> None:
    """52 kN x 0.98 are 5.1965 t: shown as capacity 5.19 t, never 5.2 t; as a requirement the other way."""
    permitted = 52000 * 0.98 / 9.80665
    assert show_quantity(permitted, "mass", toward="down") == "5.19 t"
    assert show_quantity(permitted, "mass", toward="up") == "5.20 t"
    assert show_quantity(permitted, "mass", system="us", toward="down") != show_quantity(
        permitted, "mass", system="us", toward="up"
    )


def test_unit_of_ton() -> None:
    with pytest.raises(UnreadableTextError, match="ton"):
        read_quantity("5 ton", "mass")
    assert read_quantity("5 t", "mass") == 5000.0


@pytest.mark.parametrize("text", ["5", "", "nan t", "inf t", "1e999 t", "5 t t", "0x10 t", "5 m", "five t", "--5 t"])
def test_mass_that_is_no_mass(text: str) -> None:
    with pytest.raises(UnreadableTextError):
        read_quantity(text, "mass")


@pytest.mark.parametrize("name", ["AB", "ab", "  AB "])
def test_typist_confirms_himself(tmp_path: Path, name: str) -> None:
    file = tmp_path / "alder.crane.yaml"
    file.write_text(BOOK, encoding="utf-8")
    before = file.read_bytes()
    with pytest.raises(RefusedError):
        confirm_pattern(file, State(block="hook", falls=2), name, "head 2 block 1", "head right", "2025-02-02")
    assert file.read_bytes() == before


@pytest.mark.parametrize(
    ("path", "dead_end"), [("head 1 block 1", "head right"), ("head 2 block 1", "head left"), ("head 2", "head right")]
)
def test_second_reading_that_differs_is_not_sealed(tmp_path: Path, path: str, dead_end: str) -> None:
    file = tmp_path / "alder.crane.yaml"
    file.write_text(BOOK, encoding="utf-8")
    before = file.read_bytes()
    found = confirm_pattern(file, State(block="hook", falls=2), "Somebody Else", path, dead_end, "2025-02-02")
    assert not found.sealed
    assert found.seal is None
    assert file.read_bytes() == before
