"""``becket demo`` from start to end."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from becket.cli.overview import GOVERNS
from becket.cli.walk import WALK
from tests.cli.conftest import Runner, fits

ROOT = Path(__file__).parents[2]
PAGE = ROOT / "docs" / "demo.md"
README = ROOT / "README.md"


@pytest.fixture
def walked(becket: Runner, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> str:
    monkeypatch.chdir(tmp_path)
    outcome = becket("demo", "--into", "demo")
    assert (outcome.code, outcome.err) == (0, "")
    return outcome.out


def test_the_whole_walk_is_as_it_was_looked_at_last(walked: str) -> None:
    """Look at the difference; if it is right, ``make docs`` writes it."""
    assert PAGE.read_text("utf-8").split("```text\n")[1].split("\n```")[0] == walked.strip()


def test_the_pictures_of_the_readme_are_what_the_demo_prints(walked: str) -> None:
    pictures = re.findall(r"<!-- demo stop \d+ -->\n```text\n(.*?)\n```", README.read_text("utf-8"), re.DOTALL)
    assert len(pictures) == 2
    for picture in pictures:
        assert picture in walked


def test_every_stop_leaves_as_it_should_and_every_answer_says_what_governs(walked: str) -> None:
    fits(walked)
    assert walked.count("(exit code ") == len(WALK)
    assert " ".join(walked.split()).count(GOVERNS) == len(WALK)
    assert "Traceback" not in walked


def test_it_ends_with_how_to_type_in_ones_own_crane(walked: str) -> None:
    last = " ".join(walked.rsplit("(exit code", 1)[1].split())
    assert "Your own crane: copy demo/hazel-70.crane.yaml" in last


def test_a_second_walk_is_the_same(becket: Runner, walked: str) -> None:
    assert becket("demo", "--into", "demo").out == walked
