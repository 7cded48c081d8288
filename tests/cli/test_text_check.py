"""Faults, findings and confirmations as text."""

from __future__ import annotations

from becket.book.tackle import State
from becket.cli.text_check import check_text, confirm_text
from becket.errors import Fault
from becket.intake.check import CheckReport, FilePlace, PlacedContradiction
from becket.intake.confirm import Confirmation
from becket.verdict import Verdict


def test_nothing_found_is_good() -> None:
    assert check_text(CheckReport(verdict=Verdict.PASS, faults=(), findings=())) == "good"


def test_a_fault_stays_on_one_line_however_long_and_a_finding_names_its_places() -> None:
    fault = Fault(file="a.yaml", line=3, column=9, field="rope.mass", found="x" * 90, wanted="a mass per length")
    places = (
        FilePlace(file="a.yaml", line=4, column=1, field="one"),
        FilePlace(file="a.yaml", line=9, column=2, field="two"),
    )
    finding = PlacedContradiction(name="falls_table_above_pull", why="They contradict each other.", places=places)
    text = check_text(CheckReport(verdict=Verdict.FAIL, faults=(fault,), findings=(finding,)))
    assert text.splitlines() == [
        f"a.yaml:3:9: rope.mass: {'x' * 90}; a mass per length",
        "",
        "FINDING  falls table above pull: They contradict each other.",
        "  a.yaml:4:1: one",
        "  a.yaml:9:2: two",
        "",
        "1 fault, 1 finding.",
    ]


def test_a_confirmation() -> None:
    state = State(block="main", falls=4)
    same = Confirmation(state=state, sealed=True, seal="0123456789abcdef", difference=None)
    assert confirm_text(same) == "Same as typed. main:4 is confirmed, seal 0123456789abcdef."
    other = Confirmation(state=state, sealed=False, seal=None, difference="typed first: a\nread now:    b")
    assert confirm_text(other) == "Not confirmed: main:4. Nothing is written.\ntyped first: a\nread now:    b"
