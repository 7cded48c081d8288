"""``becket falls``: text, JSON, exit codes."""

from __future__ import annotations

from pathlib import Path

import pytest

from becket.cli.walk import PUMP
from tests.cli.conftest import Runner, fits, held_by_schema

BOOK = "hazel-70.crane.yaml"


@pytest.fixture(autouse=True)
def _in_the_demo_folder(demo: Path) -> None:
    """Every test here runs beside the demo files."""


def test_the_pump_is_rigged_with_four_falls_and_says_why_not_three(becket: Runner) -> None:
    outcome = becket("falls", BOOK, *PUMP)
    assert (outcome.code, outcome.err) == (0, "")
    lines = outcome.out.splitlines()
    assert lines[0] == "rig 4 falls on block main"
    chosen = [line for line in lines if line.startswith(">")]
    assert len(chosen) == 1
    assert chosen[0].split()[1:3] == ["4", "pass"]
    assert any(line.startswith(" 3  lead line pull: On 3 falls the lead line pulls") for line in lines)
    assert "What a further fall costs" in lines
    fits(outcome.out)


def test_json_holds_the_schema_and_says_the_same(becket: Runner) -> None:
    outcome = becket("falls", BOOK, *PUMP, "--json")
    assert outcome.code == 0
    held_by_schema("falls", outcome.answer)
    assert outcome.answer["recommended"] == 4
    assert outcome.answer["unproven"] is None
    assert [row["falls"] for row in outcome.answer["rows"]] == [1, 2, 3, 4, 5, 6, 7]
    row = outcome.answer["rows"][3]
    assert row["verdict"] == "pass"
    assert {limit["verdict"] for limit in row["limits"]} == {"pass"}
    assert len(row["limits"]) == 17


def test_nothing_is_recommended_where_a_figure_is_missing(becket: Runner) -> None:
    words = ("--block", "ball", "--load", "0.7 t", "--load-basis", "weighed", "--rigging", "60 kg", "--boom", "20.4 m")
    more = ("--radius", "10 m to 14 m", "--chart", "full outriggers, 12 t", "--top", "6 m", "--bottom", "0 m")
    outcome = becket("falls", BOOK, *words, *more)
    assert outcome.code == 1
    assert outcome.out.startswith("NOT PROVEN. No number of falls passes every limit. Fewest that nothing fails: 1")
    assert "rope.swivel" in " ".join(outcome.out.split())
    answer = becket("falls", BOOK, *words, *more, "--json").answer
    assert (answer["recommended"], answer["unproven"]) == (None, 1)
    held_by_schema("falls", answer)


def test_no_number_of_falls_will_do_where_the_chart_says_so(becket: Runner) -> None:
    words = list(PUMP)
    words[words.index("6 m to 9 m")] = "14 m"
    outcome = becket("falls", BOOK, *words)
    assert outcome.code == 1
    assert outcome.out.startswith("No number of falls will do on block main. Nearest: ")
    assert "chart" in outcome.out.split("\n\n")[0]
    answer = becket("falls", BOOK, *words, "--json").answer
    assert (answer["recommended"], answer["unproven"]) == (None, None)


def test_what_the_options_leave_out_is_unknown_and_named_once(becket: Runner) -> None:
    outcome = becket("falls", BOOK, "--block", "main", "--load", "1 t", "--boom", "20.4 m")
    assert outcome.code == 1
    assert outcome.out.startswith("NOT PROVEN.")
    told = "the lift itself: give --load-basis, --rigging, --radius, --chart, --top, --bottom. What needs them is not"
    assert told in " ".join(outcome.out.split())
    fits(outcome.out)


@pytest.mark.parametrize("falls", [3, 4])
def test_one_number_of_falls_is_opened_limit_by_limit(becket: Runner, falls: int) -> None:
    outcome = becket("falls", BOOK, *PUMP, "--falls", falls)
    opened = outcome.out.split(f"{falls} falls, limit by limit\n")[1]
    assert len([line for line in opened.splitlines() if line.split()[:1] and not line.startswith(" ")]) >= 17
    assert "have 48.5 kN, need " in opened
    fits(outcome.out)


def test_us_units_are_a_display_and_the_json_stays_si(becket: Runner) -> None:
    metric, us = (becket("falls", BOOK, *PUMP, "--units", units) for units in ("metric", "us"))
    assert "boom 66.93 ft" in " ".join(us.out.split())
    assert "boom 20.40 m" in " ".join(metric.out.split())
    assert us.out.splitlines()[0] == metric.out.splitlines()[0]
    as_json = [becket("falls", BOOK, *PUMP, "--units", units, "--json").out for units in ("metric", "us")]
    assert as_json[0] == as_json[1]
    fits(us.out)


def test_the_chart_says_what_must_be_fitted(becket: Runner) -> None:
    out = " ".join(becket("falls", BOOK, *PUMP).out.split())
    assert (
        "That chart, page 9-4 is for counterweight 12.00 t, outriggers full, sector all round. "
        "Look whether that is what is fitted." in out
    )
