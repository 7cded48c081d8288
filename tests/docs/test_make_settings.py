"""The page of settings, and its example of a replaced one, which is read."""

from __future__ import annotations

from dataclasses import fields
from pathlib import Path

import pytest

from becket.intake.settings import read_settings
from becket.settings.values import Settings
from docs.make_settings import pages, table_of

PAGE = pages()["settings.md"]


def test_every_setting_stands_on_the_page() -> None:
    names = {field.name for field in fields(Settings)} - {"rules", "reasons", "replaced"}
    lines = PAGE.split("## Settings")[1].split("## Rule sets")[0].splitlines()
    shown = {line.split("|")[1].strip() for line in lines if line.startswith("|")}
    assert shown == names | {"name", "---"}


def test_the_example_is_read_as_it_stands(tmp_path: Path) -> None:
    (tmp_path / "becket.settings.yaml").write_text(PAGE.split("```yaml\n")[1].split("```")[0], "utf-8")
    settings = read_settings(tmp_path)
    assert settings.rules == "ASME B30.5-2018"
    assert settings.hand_height == pytest.approx(1.7)
    assert settings.replaced == {"hand_height": "our own measurement, 2027-01-12"}


def test_a_bar_in_a_cell_does_not_break_the_table() -> None:
    assert table_of([{"a": "x|y"}], ("a",)) == "| a |\n| --- |\n| x\\|y |"
