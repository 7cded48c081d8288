"""Limits of the running rope and of the dead end."""

from __future__ import annotations

from dataclasses import replace

import pytest

from becket.verdict import Verdict
from tests.limits.asking import book_with, limit


def test_the_rope_passes_with_its_design_factor() -> None:
    found, pull = limit("rope_strength"), limit("lead_line_pull").need
    assert found.verdict is Verdict.PASS
    assert pull is not None
    assert found.have == pytest.approx(250_000 / pull)
    assert found.why == (
        "On 4 falls the rope has a design factor of 10.4; 5.0 is asked by the book. Worst place: raising with the "
        "lowest hook and the steepest boom, at the drum."
    )


def test_the_rope_fails_under_its_design_factor() -> None:
    found = limit("rope_strength", book=book_with(rope={"breaking_force": 110e3}))
    assert found.verdict is Verdict.FAIL
    assert found.use is not None
    assert found.use > 1


def test_the_dead_end_is_loaded_while_lowering() -> None:
    found, pull = limit("dead_end"), limit("lead_line_pull").need
    assert pull is not None
    assert found.verdict is Verdict.PASS
    assert found.have == pytest.approx(250_000 * 0.80 / (pull * 0.98))  # equals fall 1 while raising
    assert found.need == pytest.approx(4.0)
    assert found.why == (
        "On 4 falls the rope's end in its fitting has a factor of 8.5; 4.0 is asked, 80 % of the design factor "
        "(setting dead_end_share). Worst place: lowering with the lowest hook and the steepest boom, at the dead end."
    )


def test_a_weak_fitting_fails() -> None:
    assert limit("dead_end", book=book_with(dead_end={"efficiency": 0.37})).verdict is Verdict.FAIL


def test_one_fall_has_its_dead_end_on_the_ball() -> None:
    found = limit("dead_end", 1, block="ball", load=3000.0)
    longest = limit("twist", 2).need
    assert longest is not None
    assert found.verdict is Verdict.PASS


def test_without_a_book_figure_the_rule_set_is_asked() -> None:
    book = book_with(rope={"design_factor": None})
    found = limit("rope_strength", book=book, settings={"rules": "29 CFR 1926 Subpart CC"})
    assert found.verdict is Verdict.PASS
    assert found.need == 5.0
    assert "5.0 is asked by 29 CFR 1926.1414(e)(2)(iii)" in found.why


def test_a_rule_from_memory_proves_nothing() -> None:
    book = book_with(rope={"design_factor": None})
    found = limit("rope_strength", book=book, settings={"rules": "ASME B30.5-2018"})
    assert found.verdict is Verdict.UNKNOWN
    assert "is from memory and proves nothing: check the current text." in found.why


def test_an_estimated_breaking_force_never_passes() -> None:
    rope = {"breaking_force": None, "grade": 1960.0, "construction": "18x7-FC"}
    found = limit("rope_strength", book=book_with(rope=rope))
    assert found.have is not None
    assert found.use is not None
    assert found.use < 1
    assert found.verdict is Verdict.UNKNOWN
    assert "estimated from the class 18x7-FC, 1960 N/mm2" in found.why
    for name in ("dead_end", "lead_line_pull"):
        assert limit(name, book=book_with(rope=rope)).verdict is Verdict.UNKNOWN


def test_an_estimated_breaking_force_can_fail() -> None:
    rope = {"breaking_force": None, "grade": 960.0, "construction": "18x7-FC", "diameter": 0.010}
    assert limit("rope_strength", book=book_with(rope=rope)).verdict is Verdict.FAIL


def test_a_compacted_rope_is_never_estimated() -> None:
    found = limit("rope_strength", book=book_with(rope={"breaking_force": None, "grade": 2160.0}))
    assert found.verdict is Verdict.UNKNOWN
    assert "rope.breaking_force" in found.why


def test_the_source_of_the_book_is_named() -> None:
    book = book_with()
    found = limit("rope_strength", book=replace(book, sources={"rope.design_factor": "certificate 12"}))
    assert "5.0 is asked by certificate 12." in found.why
