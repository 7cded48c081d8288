"""``becket plan``: the week."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from becket.book.tackle import State
from becket.cli.text_plan import money
from becket.errors import RefusedError
from becket.web.house import House
from tests.cli.conftest import Runner, fits, held_by_schema
from tests.guide.play import Play

BIG = ("plan", "hazel-70.crane.yaml", "hazel-70.jobs.yaml")
SMALL = ("plan", "rowan-30.crane.yaml", "rowan-30.jobs.csv")


def test_the_week_of_the_big_crane(becket: Runner, demo: Path) -> None:
    outcome = becket(*BIG)
    assert (outcome.code, outcome.err) == (1, "")
    lines = outcome.out.splitlines()
    assert lines[0].startswith("3 changes for Hazel 70, cost EUR ")
    assert lines[0].endswith(" 1 lift left out.")
    assert len([line for line in lines if line.startswith("  ==> ")]) == 3
    assert "T-2, old cream tank: chart." in " ".join(outcome.out.split())
    fits(outcome.out)


def test_json_says_the_same_and_is_complete_enough_to_be_solved_again(becket: Runner, demo: Path) -> None:
    outcome = becket(*BIG, "--json")
    assert outcome.code == 1
    held_by_schema("plan", outcome.answer)
    groups = outcome.answer["groups"]
    assert len(groups) >= 10
    assert [group["lift"] for group in groups if group["state"] is None] == ["old cream tank"]
    assert len(outcome.answer["model"]["groups"]) == len(groups) - 1
    states = [group["state"] for group in groups if group["state"]]
    assert len({*states}) == 3


def test_the_small_crane_from_a_spreadsheet_is_planned_whole(becket: Runner, demo: Path) -> None:
    outcome = becket(*SMALL, "--units", "us")
    assert outcome.code == 0
    assert outcome.out.startswith("1 change for Rowan 30, cost USD ")
    held_by_schema("plan", becket(*SMALL, "--json").answer)
    fits(outcome.out)


def test_a_sheet_of_another_crane_is_refused(becket: Runner, demo: Path) -> None:
    outcome = becket("plan", "hazel-70.crane.yaml", "rowan-30.jobs.csv")
    assert outcome.code == 2
    assert outcome.out == ""
    assert "Rowan 30" in outcome.err


def test_long_names_of_a_job_sheet_do_not_break_the_table(becket: Runner, demo: Path) -> None:
    sheet = demo / "hazel-70.jobs.yaml"
    sheet.write_text(sheet.read_text("utf-8").replace("valves and pipes", "valves, pipes and everything else " * 3))
    fits(becket(*BIG).out)


def test_money_rounds_up() -> None:
    assert money(14279.0001, "EUR") == "EUR 14 280"
    assert money(14280.0, "EUR") == "EUR 14 280"
    assert money(None, "EUR") == "unknown"


def test_own_minutes_from_records(becket: Runner, demo: Path) -> None:
    """Records of five closed changes in a folder of becket serve; the plan says so. None there: refused."""
    outcome = becket(*BIG, "--data", "nowhere")
    assert outcome.code == 2
    assert "nowhere: no records there" in outcome.err
    assert "own records" not in becket(*BIG, "--data", ".").out
    keep_closed_changes(demo, 5)
    said = " ".join(becket(*BIG, "--data", ".").out.split())
    assert "the median of 5 own records" in said
    database = f"sqlite:///{demo / 'becket.sqlite'}"
    assert "the median of 5 own records" in " ".join(becket(*BIG, "--url", database).out.split())


@pytest.mark.parametrize("url", ["postgresql://nobody@127.0.0.1:1/none", "sqlite:///nowhere.sqlite", "becket", ""])
def test_records_that_cannot_be_read_are_named_and_no_plan_is_told(becket: Runner, demo: Path, url: str) -> None:
    """What was asked for is not left out in silence."""
    outcome = becket(*BIG, "--url", url)
    assert outcome.code == 2
    assert outcome.out == ""
    assert outcome.err.startswith("Cannot open the records" if url else "an empty address; the records are found at ")


def keep_closed_changes(folder: Path, count: int) -> None:
    house = House.open(folder)
    made = house.script_for(house.crane("hazel-70"), State(block="main", falls=2), State(block="main", falls=4))
    assert not isinstance(made, RefusedError)
    for number in range(count):
        play = Play(script=made[1], run=f"run-{number}").start(script=made[0]).upto(None).sign()
        brisk = [replace(one, at=moment(20 * i)) for i, one in enumerate(play.events)]
        house.store.append(brisk, "2026-11-25T12:00:00+00:00")
    house.close()


def moment(second: int) -> str:
    return (datetime(2026, 11, 25, 10, tzinfo=UTC) + timedelta(seconds=second)).isoformat()
