"""Why a pattern is not confirmed: each reason in its own words."""

from __future__ import annotations

from dataclasses import replace

import pytest

from becket.book.tackle import Confirmed, Pattern
from becket.reeving.pattern import check_pattern
from becket.verdict import Verdict
from tests.crane import invented_book, invented_settings

BOOK = invented_book()
SOUND = BOOK.patterns[4]
BEFORE = "NOT CONFIRMED AGAINST THE MANUAL: "
AFTER = ". A second person reads page 5-15 of the manual with: becket confirm BOOK main:4."


@pytest.mark.parametrize(
    ("pattern", "why"),
    [
        (replace(SOUND, confirmed=None), "no second person has read it from the page"),
        (
            replace(SOUND, typed=None),
            "the book does not say who typed it, so nobody can tell that a second person confirmed it",
        ),
        (
            replace(SOUND, confirmed=Confirmed(by="ab", date="2025-02-04", seal="0" * 16)),
            "ab typed it and cannot confirm it",
        ),
        (
            replace(SOUND, confirmed=Confirmed(by="CD", date="2025-02-04", seal=None)),
            "CD has put a name under it but no seal",
        ),
    ],
)
def test_reason_in_words(pattern: Pattern, why: str) -> None:
    check = check_pattern(BOOK, invented_settings(), pattern, None, None)
    finding = next(one for one in check.findings if one.name == "confirmed")
    assert (finding.verdict, finding.why) == (Verdict.UNKNOWN, BEFORE + why + AFTER)
    assert check.verdict is Verdict.UNKNOWN


def test_words_of_a_wrong_count_and_a_wrong_dead_end() -> None:
    check = check_pattern(BOOK, invented_settings(), replace(SOUND, falls=6, dead_end="block"), None, None)
    why = {one.name: one.why for one in check.findings}
    assert why["counts_agree"] == (
        "6 falls go over 3 head and 3 block sheaves; the path has 2 and 2. Look at page 5-15 of the manual again."
    )
    assert why["dead_end_agrees"] == (
        'The dead end is "block"; of 6 falls, an even number, it is at the head. Look at page 5-15 of the manual again.'
    )
