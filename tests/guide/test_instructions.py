"""The catalogue: a row for every kind of deed, short whatever the crane's names are."""

from __future__ import annotations

import re

import pytest

from becket.errors import NotOnFileError
from becket.guide.instructions import MOST_WORDS, SIGNS, catalogue, instruction_of, said_in_nine, word_count
from becket.method.deeds import AUXILIARY, DEEDS
from becket.method.step_sentences import WRITTEN
from becket.method.step_words import WORDS

VARIANTS = {"down_to_low.stays", "open_dead_end.whole"}


def test_every_kind_of_deed_has_a_row_and_no_row_is_left_over() -> None:
    assert set(catalogue()) == {*DEEDS, *AUXILIARY, *VARIANTS}
    assert {kind for kind in {**WORDS, **WRITTEN} if not kind.startswith("sign_")} == {*DEEDS, *AUXILIARY}


def test_every_text_has_nine_words_at_most_before_names_are_put_in() -> None:
    for row in catalogue().values():
        for text in row.do:
            assert word_count(re.sub(r"\{\w+\}", "one", text)) <= MOST_WORDS, text
        assert row.sign is None or row.sign in SIGNS
        assert row.picture in (None, "side", "thread", "draw", "after")
        assert (row.view is None) is (row.picture is None)
        assert row.other.split(":")[0] in ("operator", "rigger", "both")


def test_a_motion_says_so_and_its_hazard() -> None:
    for kind, row in catalogue().items():
        deed = {**DEEDS, **AUXILIARY}[kind.partition(".")[0]]
        if row.moves:
            assert deed.posture == "motion"
            assert row.sign in ("overhead", "crush", "no-hands"), kind
    switches = {"override_on", "override_off", "down_to_low.stays"}  # a key is turned, or the boom stays: nothing moves
    still = {kind for kind, row in catalogue().items() if not row.moves}
    assert {kind for kind in still if {**DEEDS, **AUXILIARY}[kind.partition(".")[0]].posture == "motion"} == switches


def test_the_other_one_is_named_not_the_one_whose_step_it_is() -> None:
    for kind, row in catalogue().items():
        who = {**DEEDS, **AUXILIARY}[kind.partition(".")[0]].who
        assert row.other.split(":")[0] != who or who == "both", kind


def test_long_names_take_the_shorter_text() -> None:
    texts = instruction_of("slack_keeper_out").do
    name = "upper left hand head sheave retaining bar"
    assert said_in_nine(texts, {"keeper": "bar", "lock": "clip"}) == "Draw bar and its clip. Into the box."
    assert said_in_nine(texts, {"keeper": name, "lock": "spring clip"}) == f"Draw {name}."
    assert said_in_nine(texts, {"keeper": "bar"}) == "Draw bar. Into the box."


def test_a_figure_that_is_not_known_is_left_out_or_shown_as_unknown() -> None:
    assert said_in_nine(instruction_of("spool").do, {}) == "Lower to least wraps. Raise again under tension."
    assert said_in_nine(("Boom to {start}.",), {}) == "Boom to ?."


def test_a_deed_without_a_row_is_named() -> None:
    with pytest.raises(NotOnFileError, match=r"dance: no row in instructions\.csv; one row a kind of deed is wanted"):
        instruction_of("dance")
