"""Limit of the lead line's pull: by layer, capped by the rope."""

from __future__ import annotations

from dataclasses import replace

import pytest

from becket.verdict import Verdict
from tests.crane import invented_book
from tests.limits.asking import book_with, limit, without_pattern

GRAVITY = 9.80665


def test_it_passes_within_the_pull_of_the_layer() -> None:
    found = limit("lead_line_pull")
    assert found.verdict is Verdict.PASS
    assert found.have == 36_000.0  # layer 4 of the book
    assert found.why == (
        "On 4 falls the lead line pulls 23.9 kN at the drum; permitted in layer 4 are 36.0 kN. Worst place: raising "
        "with the lowest hook and the steepest boom, on the drum layer that permits least."
    )


def test_the_pull_is_that_of_the_gross_load_raised_with_friction() -> None:
    found = limit("lead_line_pull")
    longest = limit("twist").need
    assert longest is not None
    gross = 8500 + 200 + 480 + 4 * longest * 1.28
    eta = 0.98
    first = gross * GRAVITY / (1 + eta + eta**2 + eta**3)
    assert found.need == pytest.approx(first / eta, rel=1e-12)


def test_it_fails_over_the_pull_of_the_layer() -> None:
    found = limit("lead_line_pull", 2)
    assert found.verdict is Verdict.FAIL
    assert found.use is not None
    assert found.use > 1
    assert found.why.startswith("On 2 falls the lead line pulls 46.7 kN at the drum; permitted in layer 4 are 36.0 kN.")


def test_the_rope_caps_the_pull_of_the_drum() -> None:
    found = limit("lead_line_pull", book=book_with(rope={"design_factor": 12.0}))
    assert found.have == pytest.approx(250_000 / 12)
    assert found.verdict is Verdict.FAIL


def test_the_cap_fails_even_where_the_layer_is_not_printed() -> None:
    weak = book_with(rope={"design_factor": 12.0}, winch={"pull": (44e3, 41e3)})
    assert limit("lead_line_pull", book=weak).verdict is Verdict.FAIL


def test_the_layer_fails_even_where_the_cap_is_missing() -> None:
    assert limit("lead_line_pull", 2, book_with(rope={"breaking_force": None})).verdict is Verdict.FAIL


def test_more_rope_on_the_drum_takes_the_lower_pull_of_the_higher_layer() -> None:
    shorter, longer = (limit("lead_line_pull", book=book_with(rope={"length": length})) for length in (100.0, 170.0))
    assert shorter.have == 41_000.0
    assert longer.have == 36_000.0


def test_the_highest_hook_decides_the_layer() -> None:
    high, low = limit("lead_line_pull", top=12.0), limit("lead_line_pull", top=0.0)
    assert (high.have, low.have) == (36_000.0, 38_000.0)


def test_the_least_radius_decides_the_gross_load() -> None:
    wide, narrow = limit("lead_line_pull", radius=(3.5, 7.0)), limit("lead_line_pull", radius=(7.0, 7.0))
    assert wide.need is not None
    assert narrow.need is not None
    assert wide.need > narrow.need


def test_layer_one_only_is_read_with_the_square_radius() -> None:
    found = limit("lead_line_pull", book=book_with(winch={"pull": (44e3,)}))
    radii = [(0.34 + 0.016) / 2 + layer * 0.016 for layer in range(4)]
    assert found.have == pytest.approx(44e3 * radii[0] / radii[3])


@pytest.mark.parametrize("basis", ["estimate", None])
def test_a_load_without_a_sound_basis_proves_nothing_over_ninety_percent(basis: str | None) -> None:
    load = 11_900.0
    assert limit("lead_line_pull", load=load, load_basis="weighed").verdict is Verdict.PASS
    found = limit("lead_line_pull", load=load, load_basis=basis)
    assert found.verdict is Verdict.UNKNOWN
    assert found.use is not None
    assert 0.9 < found.use <= 1
    assert "over 90 % use nothing is proven (setting estimate_use_most)" in found.why


def test_an_estimate_gets_its_allowance_on_the_load_alone() -> None:
    weighed, estimate = limit("block_rating"), limit("block_rating", load_basis="estimate")
    assert weighed.need == 8700.0
    assert estimate.need == pytest.approx(8500 * 1.1 + 200)


def test_a_replaced_setting_is_named_where_it_decides() -> None:
    settings = {"estimate_use_most": 0.5, "replaced": {"estimate_use_most": "site rule 7"}}
    found = limit("lead_line_pull", load_basis="estimate", settings=settings)
    assert found.verdict is Verdict.UNKNOWN
    assert "(setting estimate_use_most (replaced: site rule 7))" in found.why


def test_without_the_pattern_the_worst_anchor_on_file_counts() -> None:
    book = invented_book()
    deep = {**book.head.anchors, "d": replace(book.head.anchors["b"], below=40.0)}  # far more rope stays on the drum
    found = limit("lead_line_pull", book=without_pattern(book_with(head={"anchors": deep}), 4))
    assert found.have == 34_000.0
    assert found.verdict is Verdict.UNKNOWN
    assert found.why.endswith("reeving pattern main:4 (patterns), in the manual's pages on reeving.")
