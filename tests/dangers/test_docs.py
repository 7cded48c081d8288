"""The page of dangers lists every test of this folder, and every test that it names is there."""

from __future__ import annotations

import ast
import re
from pathlib import Path

HERE = Path(__file__).parent
PAGE = HERE.parent.parent / "docs" / "dangers.md"
CONTROLS = {
    "test_falls_table::test_the_invented_crane_passes_before_anything_is_wrong",
    "test_change::test_there_is_a_position_before_anything_is_wrong",
    "test_plan::test_there_is_a_plan_before_anything_is_wrong",
    "test_at_the_crane::test_a_change_that_is_right_closes",
    "test_independence::test_there_is_something_to_keep_apart",
}


def _tests() -> set[str]:
    found = set()
    for file in HERE.glob("test_*.py"):
        if file.stem != Path(__file__).stem:
            tree = ast.parse(file.read_text(encoding="utf-8"))
            found |= {
                f"{file.stem}::{node.name}"
                for node in tree.body
                if isinstance(node, ast.FunctionDef) and node.name.startswith("test_")
            }
    return found


def _rows() -> list[list[str]]:
    lines = PAGE.read_text(encoding="utf-8").splitlines()
    rows = [[cell.strip() for cell in line.strip("|").split("|")] for line in lines if line.startswith("|")]
    return [row for row in rows if row[0] not in ("way", "---")]


def test_every_danger_names_its_test_or_the_part_that_it_waits_for() -> None:
    for way, prevention, test in _rows():
        assert way
        assert prevention
        assert re.fullmatch(r"`[a-z_/.:0-9]+`|\*later: [a-z, ]+\*", test), way


def test_named_tests_are_there_and_no_test_is_left_out() -> None:
    named = {test.strip("`") for _, _, test in _rows() if "::" in test}
    assert named == _tests() - CONTROLS
