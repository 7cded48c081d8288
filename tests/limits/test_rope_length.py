"""Limits of the rope's length."""

from __future__ import annotations

from dataclasses import replace
from math import hypot, pi

import pytest

from becket.verdict import Verdict
from tests.crane import invented_book
from tests.limits.asking import book_with, head_by_halving, limit, row, without_pattern


def test_the_rope_needed_is_the_sum_of_its_parts() -> None:
    found, geometry = limit("rope_length"), limit("twist")
    angle, head = head_by_halving(5.0)
    assert geometry.need == pytest.approx(head - 0.88, abs=1e-9)
    lead = hypot(5.0 + 2.9, head - 3.1)
    arcs = 2 * pi * 0.18 + pi * 0.18 + (pi / 2 + angle) * 0.18
    falls = 4 * (head - 0.88) + 0.32 - 0.15  # the anchor hangs 0.15 m under the head shaft
    assert found.need == pytest.approx(lead + arcs + falls + 3 * pi * (0.34 + 0.016), abs=1e-9)


def test_a_long_rope_passes() -> None:
    found = limit("rope_length")
    assert found.verdict is Verdict.PASS
    assert found.why == (
        "On 4 falls the lift needs 93.20 m of rope, the least wraps included; on the crane are 170.00 m (log "
        "2025-02-01, after the last cut). Worst place: lowest hook, steepest boom."
    )


def test_a_short_rope_fails_both_ways() -> None:
    need = limit("rope_length").need
    assert need is not None
    for length, verdict in ((need + 1e-6, Verdict.PASS), (need - 1e-3, Verdict.FAIL)):
        answer = row(book=book_with(rope={"length": length}))
        assert answer.limit("rope_length").verdict is verdict
        assert answer.limit("wraps").verdict is verdict


def test_the_lowest_hook_and_the_least_radius_are_the_worst_place() -> None:
    plain = limit("rope_length").need
    lower, nearer = limit("rope_length", bottom=-2.0).need, limit("rope_length", radius=(4.0, 7.0)).need
    assert plain is not None
    assert lower == pytest.approx(plain + 4 * 2.0)
    assert nearer is not None
    assert nearer > plain


def test_wraps_are_counted_through_the_layers() -> None:
    found = limit("wraps")
    assert found.verdict is Verdict.PASS
    assert found.why == (
        "On 4 falls 67.6 turns stay on the drum; 3 are asked by the book. Worst place: lowest hook, steepest boom."
    )


def test_a_rope_that_leaves_the_drum_fails_without_a_use() -> None:
    found = limit("wraps", book=book_with(rope={"length": 60.0}))
    assert (found.verdict, found.use) == (Verdict.FAIL, None)


def test_a_least_of_wraps_from_memory_proves_nothing() -> None:
    book = book_with(winch={"least_wraps": None})
    answer = row(book=book, settings={"rules": "29 CFR 1926 Subpart CC"})
    for name in ("rope_length", "wraps"):
        assert answer.limit(name).verdict is Verdict.UNKNOWN
        assert "29 CFR 1926.1417(r) is from memory" in answer.limit(name).why
    assert limit("wraps", book=book, settings={"rules": "Alberta OHS Code"}).need == 5.0


def test_without_the_pattern_a_rope_too_short_for_every_anchor_fails() -> None:
    book = without_pattern(book_with(rope={"length": 90.0}), 4)
    assert limit("rope_length", book=book).verdict is Verdict.FAIL
    assert limit("wraps", book=book).verdict is Verdict.FAIL


def test_without_the_pattern_a_rope_that_one_anchor_spares_is_unknown() -> None:
    need = limit("rope_length").need
    assert need is not None
    book = invented_book()
    anchors = {**book.head.anchors, "d": replace(book.head.anchors["b"], below=0.0)}
    short = without_pattern(book_with(head={"anchors": anchors}, rope={"length": need + 0.05}), 4)
    assert limit("rope_length", book=short).verdict is Verdict.UNKNOWN  # anchor d needs 0.15 m more, the others do not


def test_a_becket_above_the_shaft_takes_rope_off() -> None:
    high = limit("rope_length", 3).need
    book = invented_book()
    becket = book.blocks["main"].becket
    assert becket is not None
    level = limit("rope_length", 3, book_with(block={"becket": replace(becket, below=0.0)})).need
    assert high is not None
    assert level == pytest.approx(high + 0.22)


def test_an_unknown_place_of_the_drum_takes_lead_run_and_boom() -> None:
    book = book_with(winch={"at_x": None, "at_z": None, "lead_run": 2.0})
    exact, bound = limit("rope_length").need, limit("rope_length", book=book).need
    assert exact is not None
    assert bound == pytest.approx(exact - hypot(7.9, 15.334658190185226) + 2.0 + 17.0, abs=1e-4)
