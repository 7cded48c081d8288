"""A pattern on file, not on file, not confirmed; every check in one registry; wrong paths do not pass."""

from __future__ import annotations

from dataclasses import replace
from math import degrees, radians, tan

import pytest

from becket.book.boom import Anchor
from becket.book.crane import Book
from becket.book.tackle import Pattern, State
from becket.reeving.pattern import PATTERN_CHECKS, PatternCheck, check_pattern, check_state, find_pattern
from becket.reeving.seal import seal_of
from becket.reeving.words import read_path
from becket.verdict import Verdict
from tests.crane import invented_book, invented_settings

SETTINGS = invented_settings()


def pattern_of(book: Book, falls: int) -> Pattern:
    found = find_pattern(book, State(block="main", falls=falls))
    assert found is not None
    return found


def alone(book: Book, pattern: Pattern) -> PatternCheck:
    return check_pattern(book, SETTINGS, pattern, None, None)


def verdicts(check: PatternCheck) -> dict[str, Verdict]:
    return {finding.name: finding.verdict for finding in check.findings}


def why(check: PatternCheck, name: str) -> str:
    return next(finding.why for finding in check.findings if finding.name == name)


def test_every_check_of_the_registry_speaks_once() -> None:
    check = alone(invented_book(), pattern_of(invented_book(), 4))
    assert [finding.name for finding in check.findings] == list(PATTERN_CHECKS)
    assert check.verdict is Verdict.PASS
    assert (check.head_sheaves, check.block_sheaves, check.dead_end) == ((2, 4), (2, 4), "head b")
    assert check.confirmed is not None
    assert check.confirmed.seal_matches


def test_numbers_of_four_falls_by_hand() -> None:
    """Offsets top less low: -0.055, 0.165, -0.055, 0.11; mean 0.04125; held in the middle 0.165 is the greatest."""
    check = alone(invented_book(), pattern_of(invented_book(), 4))
    assert check.closest_distance == pytest.approx(0.165 / tan(radians(4)))
    assert "8.6 deg held in the middle" in why(check, "fleet_angle")  # atan(0.165/1.1) = 8.53 deg, upward
    assert "6.5 deg hanging free" in why(check, "fleet_angle")  # atan(0.12375/1.1) = 6.42 deg
    assert check.tilt is not None
    # raising: T = 1, .98, .98^2, .98^3 over x = -.11, -.11, .11, .11; the empty block tilts more: mass centre 0.40 m
    offset = 0.11 * (1 + 0.98 - 0.98**2 - 0.98**3) / (1 + 0.98 + 0.98**2 + 0.98**3)
    assert tan(check.tilt) == pytest.approx(offset / 0.40)


def test_not_on_file_is_unknown_and_names_the_page_to_look_for() -> None:
    book = invented_book()
    assert find_pattern(book, State(block="main", falls=8)) is None
    check = check_state(book, SETTINGS, State(block="main", falls=8))
    assert check.verdict is Verdict.UNKNOWN
    assert check.findings[0].why.startswith(
        "The reeving pattern main:8 is not on file. Look in Operating manual Tallow 40, issue A, 2019 for the page "
        "that shows the block main on 8 falls; becket does not make one up."
    )
    assert check_state(book, SETTINGS, State(block="main", falls=4)) == alone(book, pattern_of(book, 4))


def test_not_confirmed_is_unknown_in_these_words() -> None:
    book = invented_book()
    check = alone(book, pattern_of(book, 5))
    assert check.verdict is Verdict.UNKNOWN
    assert why(check, "confirmed") == (
        "NOT CONFIRMED AGAINST THE MANUAL: no second person has read it from the page. A second person reads page 5-16 "
        "of the manual with: becket confirm BOOK main:5."
    )


@pytest.mark.parametrize(
    ("changes", "name"),
    [
        ({"path": read_path("block 2 head 2 block 4 head 4")}, "starts_at_head"),
        ({"path": read_path("head 2 head 4 block 2 block 4")}, "alternates"),
        ({"path": read_path("head 2 block 2 head 2 block 4")}, "each_sheave_once"),
        ({"path": read_path("head 2 block 2 head 4 block 2")}, "each_sheave_once"),
        ({"path": read_path("head 2 block 2 head 4")}, "counts_agree"),
        ({"path": ()}, "counts_agree"),
        ({"dead_end": "block"}, "dead_end_agrees"),
        ({"path": read_path("head 2 block 2 head 9 block 4")}, "sheaves_on_file"),
        ({"path": read_path("head 2 block 2 head 4 block 6")}, "sheaves_on_file"),
        ({"dead_end": "head q"}, "anchor_on_file"),
        ({"falls": 12}, "block_sheaves_enough"),
    ],
)  # fmt: skip
def test_a_wrong_path_fails_the_check_of_that_name(changes: dict[str, object], name: str) -> None:
    book = invented_book()
    wrong = replace(pattern_of(book, 4), **changes)  # type: ignore[arg-type]
    check = alone(book, wrong)
    assert verdicts(check)[name] is Verdict.FAIL
    assert "Look at page 5-15 of the manual again." in why(check, name)
    assert check.verdict is Verdict.FAIL
    assert verdicts(check)["confirmed"] is Verdict.UNKNOWN  # changed words are not the words that were confirmed


@pytest.mark.parametrize(
    ("falls", "was", "slipped"),
    [(4, "head 2 block 2 head 4 block 4", "head 4 block 2 head 2 block 4"),
     (4, "head 2 block 2 head 4 block 4", "head 2 block 4 head 4 block 2")],
)  # fmt: skip
def test_a_slip_that_crosses_falls_on_one_face_asks_for_the_page(falls: int, was: str, slipped: str) -> None:
    book = invented_book()
    pattern = pattern_of(book, falls)
    assert pattern.path == read_path(was)
    assert not alone(book, pattern).crossings
    check = alone(book, replace(pattern, path=read_path(slipped)))
    assert any(one.same_face for one in check.crossings)
    assert "on the same face" in why(check, "falls_that_cross")
    assert "look at page 5-15 again" in why(check, "falls_that_cross")


def test_falls_that_rub_fail() -> None:
    """The dead end 10 mm behind the top of fall 3, which hangs in front: below that they part."""
    book = invented_book()
    anchors = {**book.head.anchors, "b": Anchor(side=0.055, along=0.17, below=0.0)}
    book = replace(book, head=replace(book.head, anchors=anchors))
    check = alone(book, pattern_of(book, 4))
    assert verdicts(check)["falls_that_rub"] is Verdict.FAIL
    assert "Falls 3 and 4 come within 10 mm" in why(check, "falls_that_rub")
    assert "under 24 mm they rub" in why(check, "falls_that_rub")


@pytest.mark.parametrize(
    ("side", "verdict"), [(0.0, Verdict.PASS), (0.08, Verdict.UNKNOWN), (0.25, Verdict.FAIL)]
)  # fmt: skip
def test_tilt_by_the_place_of_the_becket(side: float, verdict: Verdict) -> None:
    """Two falls in the middle, one at the becket: empty block, mass centre 0.40 m, e about a third of side."""
    book = invented_book()
    block = replace(book.blocks["main"], becket=Anchor(side=side, along=0.0, below=-0.22))
    book = replace(book, blocks={**book.blocks, "main": block})
    check = alone(book, pattern_of(book, 3))
    assert verdicts(check)["tilt"] is verdict
    assert check.tilt is not None
    assert degrees(check.tilt) == pytest.approx(degrees(side / 3 / 0.40), rel=0.06, abs=1e-9)


@pytest.mark.parametrize(
    ("missing", "names"),
    [
        ("head.lead", {"falls_that_rub", "falls_that_cross", "hangs_turned", "twist_length"}),
        ("switch.trips", {"falls_that_rub", "falls_that_cross", "fleet_angle"}),
        ("rope.torque_factor", {"twist_length"}),
        ("fleet.sheave", {"fleet_angle"}),
        ("sheave_efficiency", {"tilt"}),
        ("blocks.main.mass_centre", {"tilt"}),
        ("blocks.main.rated", {"tilt"}),
    ],
)
def test_a_missing_figure_is_unknown_and_named(missing: str, names: set[str]) -> None:
    book = without(invented_book(), missing)
    pattern = pattern_of(book, 4)
    check = alone(book, pattern)
    unknown = {finding.name for finding in check.findings if finding.verdict is Verdict.UNKNOWN}
    assert unknown == names
    assert all(missing in why(check, name) for name in names)
    assert check.verdict is Verdict.UNKNOWN


def without(book: Book, field: str) -> Book:
    part, _, name = field.rpartition(".")
    if not part:
        return replace(book, **{name: None})  # type: ignore[arg-type]
    if part.startswith("blocks."):
        block = part.removeprefix("blocks.")
        return replace(book, blocks={**book.blocks, block: replace(book.blocks[block], **{name: None})})  # type: ignore[arg-type]
    return replace(book, **{part: replace(getattr(book, part), **{name: None})})


def test_one_fall_length_without_the_other_is_not_judged() -> None:
    book = invented_book()
    check = check_pattern(book, SETTINGS, pattern_of(book, 4), 3.0, None)
    assert verdicts(check)["falls_that_rub"] is Verdict.UNKNOWN


def test_a_lift_judges_tilt_fleet_and_twist_itself() -> None:
    book = without(invented_book(), "rope.torque_factor")
    check = check_pattern(book, SETTINGS, pattern_of(book, 4), 2.0, 9.0)
    assert check.verdict is Verdict.PASS
    assert not {"tilt", "fleet_angle", "twist_length"} & set(verdicts(check))


def test_block_above_the_head_fails() -> None:
    book = invented_book()
    assert verdicts(check_pattern(book, SETTINGS, pattern_of(book, 4), -0.1, 9.0))["falls_that_rub"] is Verdict.FAIL


def test_a_changed_place_voids_the_confirmation_and_says_both_seals() -> None:
    book = invented_book()
    pattern = pattern_of(book, 4)
    moved = replace(book, head=replace(book.head, sheaves={**book.head.sheaves, 4: 0.056}))
    check = alone(moved, pattern)
    assert check.confirmed is not None
    assert not check.confirmed.seal_matches
    assert seal_of(moved, pattern) in why(check, "confirmed")
    assert check.verdict is Verdict.UNKNOWN
