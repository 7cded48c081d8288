"""``becket limits``: what the reeving that is on can do."""

from __future__ import annotations

from pathlib import Path

from tests.cli.conftest import Runner, fits, held_by_schema

BOOK = "hazel-70.crane.yaml"
AT = ("--boom", "20.4 m", "--radius", "9 m", "--chart", "full outriggers, 12 t", "--top", "6 m")


def test_the_greatest_load_and_the_lowest_hook_with_what_governs(becket: Runner, demo: Path) -> None:
    outcome = becket("limits", BOOK, "main:2", *AT)
    assert (outcome.code, outcome.err) == (0, "")
    assert outcome.out.startswith("Hazel 70 rigged main:2.\n")
    assert "Greatest load on the hook, rigging counted: " in outcome.out
    assert "Governs: lead line pull." in outcome.out
    fits(outcome.out)


def test_json(becket: Runner, demo: Path) -> None:
    two, four = (becket("limits", BOOK, state, *AT, "--json") for state in ("main:2", "main:4"))
    for outcome in (two, four):
        held_by_schema("limits", outcome.answer)
        assert outcome.answer["verdict"] == "pass"
    assert two.answer["greatest_load"] < four.answer["greatest_load"]
    assert two.answer["lowest_hook"] < four.answer["lowest_hook"] < 0


def test_a_pattern_that_nobody_confirmed_proves_nothing(becket: Runner, demo: Path) -> None:
    outcome = becket("limits", BOOK, "main:5", *AT)
    assert outcome.code == 1
    assert outcome.out.startswith("NOT PROVEN. Hazel 70 rigged main:5.")


def test_a_block_that_is_not_there_names_the_nearest(becket: Runner, demo: Path) -> None:
    outcome = becket("limits", BOOK, "mian:2", *AT)
    assert (outcome.code, outcome.err) == (2, 'block: "mian" is not in the book; nearest: "main"\n')
