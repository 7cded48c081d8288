"""A test with the same fault as the code: the independent ways stay apart from what they check."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

TESTS = Path(__file__).resolve().parent.parent
ALLOWED = ("becket.book", "becket.settings.values", "becket.verdict")
FILES = sorted(file for file in (TESTS / "slow_evaluation").glob("*.py") if not file.stem.startswith("test_"))


def _imported(file: Path) -> set[str]:
    names = set()
    for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and node.module:
            names.add(node.module)
        elif isinstance(node, ast.Import):
            names.update(alias.name for alias in node.names)
    return names


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_test_with_the_same_fault_as_the_code(file: Path) -> None:
    """The slow evaluation takes records from the product and nothing that computes."""
    of_product = {name for name in _imported(file) if name.split(".")[0] == "becket"}
    assert {name for name in of_product if not name.startswith(ALLOWED)} == set()
    of_tests = {name for name in _imported(file) if name.startswith("tests.")}
    assert {name for name in of_tests if not name.startswith("tests.slow_evaluation")} == set()


def test_there_is_something_to_keep_apart() -> None:
    assert len(FILES) > 8
