"""``becket demo`` from start to end."""

from __future__ import annotations

import re
from contextlib import chdir, redirect_stderr, redirect_stdout
from io import StringIO
from pathlib import Path

import pytest

from becket.cli.demo_crew import keep_crew
from becket.cli.main import run
from becket.cli.overview import GOVERNS
from becket.cli.walk import DEMO_FILES, WALK, WRITTEN
from becket.guide.event import FIRM
from becket.records.store import Store, store_place
from tests.cli.conftest import fits

pytestmark = pytest.mark.xdist_group("test_demo")  # walked twice for all

ROOT = Path(__file__).parents[2]
PAGE = ROOT / "docs" / "demo.md"
README = ROOT / "README.md"


@pytest.fixture(scope="module")
def walks(tmp_path_factory: pytest.TempPathFactory) -> tuple[str, str]:
    """Return what two walks into the same folder print."""
    said = StringIO()
    told = StringIO()
    printed = []
    with chdir(tmp_path_factory.mktemp("walk")), redirect_stdout(said), redirect_stderr(told):
        for _ in range(2):
            assert run(["demo", "--into", "demo"]) == 0
            printed.append(said.getvalue())
            said.seek(0)
            said.truncate()
        files = {path.name for path in Path("demo").iterdir()}
    assert told.getvalue() == ""
    assert files == {*DEMO_FILES, *WRITTEN, "becket.sqlite"}
    return printed[0], printed[1]


@pytest.fixture(scope="module")
def walked(walks: tuple[str, str]) -> str:
    """Return what the first walk prints."""
    return walks[0]


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


def test_it_says_how_to_open_the_phone_pages_and_whose_digits_let_in(walked: str) -> None:
    last = " ".join(walked.rsplit("(exit code", 1)[1].split())
    assert "becket serve --data demo" in last
    assert "Otto Operator 1111, Rita Rigger 2222, Suse Supervisor 3333" in last
    assert "What is rigged is not known yet" in last


def test_the_crew_stands_once_on_the_list_after_two_walks_and_nothing_is_said_of_a_crane(tmp_path: Path) -> None:
    for _ in range(2):
        keep_crew(tmp_path)
    with Store.look(store_place(tmp_path)) as store:
        kept = [one.event for one in store.every()]
    assert [(event.kind, event.crane, event.entered["name"]) for event in kept] == [
        ("person_added", FIRM, "Otto Operator"),
        ("person_added", FIRM, "Rita Rigger"),
        ("person_added", FIRM, "Suse Supervisor"),
    ]
    assert not any("digits" in event.entered for event in kept)


def test_a_second_walk_is_the_same(walks: tuple[str, str]) -> None:
    assert walks[0] == walks[1]
