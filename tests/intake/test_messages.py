"""No message without a test: every place in the intake that notes a fault is reached by a message test."""

from __future__ import annotations

import ast
import sys
from pathlib import Path
from types import FrameType

import pytest

from becket.errors import FaultyFileError, UnreadableTextError
from becket.intake import page as page_module
from becket.intake.book import read_book
from becket.intake.check import check_files
from tests.intake.reading import SETTINGS, written
from tests.intake.test_book import CASES as BOOK_CASES
from tests.intake.test_files import SMALL
from tests.intake.test_jobs import CSV_CASES, YAML_CASES
from tests.intake.test_settings import CASES as SETTINGS_CASES
from tests.intake.texts import BOOK, CSV, JOBS, altered

FOLDER = Path(page_module.__file__).parent
# where a fault is noted that no text of a file reaches: each has its full text tested in the file named
BY_OTHER_TESTS = {
    ("files.py", "_bytes"),  # pipes, links, sizes: test_files.py
    ("yaml_nodes.py", "read_yaml"),  # errors that name no place: test_yaml_nodes.py
    ("yaml_nodes.py", "_put"),  # the limit of values: test_files.py
    ("cells.py", "_stop_if_too_many"),  # the limits of cells: test_cells.py
}
HELPERS = {("page.py", "fault_at")}
Site = tuple[str, str, int, int]


def fault_sites() -> set[Site]:
    """Return every call of ``fault`` and every refusal of a text: file, function, first and last line."""
    sites: set[Site] = set()
    for path in sorted(FOLDER.glob("*.py")):
        for function in ast.walk(ast.parse(path.read_text())):
            if isinstance(function, ast.FunctionDef):
                for node in ast.walk(function):
                    is_call = isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute)
                    is_fault = is_call and node.func.attr in ("fault", "fault_at")  # type: ignore[attr-defined]
                    is_refusal = isinstance(node, ast.Raise) and "UnreadableTextError(" in ast.unparse(node)
                    if is_fault or is_refusal:
                        assert isinstance(node, (ast.Call, ast.Raise))
                        sites.add((path.name, function.name, node.lineno, node.end_lineno or node.lineno))
    return {site for site in sites if site[:2] not in HELPERS | BY_OTHER_TESTS}


def every_case_read(folder: Path) -> None:
    """Read every text of the message tests."""
    book = folder / "crane.yaml"
    for data, _ in SMALL.values():
        with pytest.raises(FaultyFileError):
            read_book(written(book, data), SETTINGS)
    for changes, _ in BOOK_CASES.values():
        check_files(written(book, altered(BOOK, *changes)), None)
    written(book, BOOK)
    for changes, _ in YAML_CASES.values():
        check_files(book, written(folder / "jobs.yaml", altered(JOBS, *changes)))
    for changes, _ in CSV_CASES.values():
        check_files(book, written(folder / "jobs.csv", altered(CSV, *changes)))
    for changes, _ in SETTINGS_CASES.values():
        written(folder / "becket.settings.yaml", changes[0][1])
        check_files(book, None)


def test_every_fault_has_its_message_tested(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    reached: set[tuple[str, int]] = set()

    def note(frame: FrameType | None) -> None:
        while frame is not None:
            path = Path(frame.f_code.co_filename)
            if path.parent == FOLDER:
                reached.add((path.name, frame.f_lineno))
            frame = frame.f_back

    fault, refuse = page_module.Page.fault, UnreadableTextError.__init__

    def noted_fault(self: page_module.Page, *rest: object) -> None:
        note(sys._getframe(1))
        fault(self, *rest)  # type: ignore[arg-type]

    def noted_refusal(self: UnreadableTextError, found: str, wanted: str) -> None:
        note(sys._getframe(1))
        refuse(self, found, wanted)

    monkeypatch.setattr(page_module.Page, "fault", noted_fault)
    monkeypatch.setattr(UnreadableTextError, "__init__", noted_refusal)
    every_case_read(tmp_path)
    missed = {
        site
        for site in fault_sites()
        if not any(name == site[0] and site[2] <= line <= site[3] for name, line in reached)
    }
    assert missed == set()
