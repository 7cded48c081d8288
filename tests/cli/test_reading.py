"""Files and names that a command is about."""

from __future__ import annotations

from pathlib import Path

import pytest

from becket.book.tackle import State
from becket.cli.reading import named_in_book, open_book, row_asked, site_on_file, state_on_file
from becket.errors import FaultyFileError, NotOnFileError
from becket.limits.answer import FallsAnswer
from tests.cli.conftest import Runner
from tests.crane import invented_book


def test_a_book_comes_with_the_settings_beside_it(demo: Path) -> None:
    (demo / "becket.settings.yaml").write_text("becket: 1\nhand_height: {value: 1.7 m, source: site rule 4}\n", "utf-8")
    book, settings = open_book(demo / "hazel-70.crane.yaml")
    assert book.crane == "Hazel 70"
    assert settings.hand_height == pytest.approx(1.7)
    assert "site rule 4" in settings.replaced["hand_height"]


def test_a_book_that_is_not_there(demo: Path) -> None:
    with pytest.raises(FaultyFileError, match=r"nothing\.yaml:0:0: file: "):
        open_book(demo / "nothing.yaml")


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("mian", 'block: "mian" is not in the book; nearest: "main"'),
        ("", 'block: "" is not in the book; the book has: "main", "ball"'),
        ("zzz", 'block: "zzz" is not in the book; the book has: "main", "ball"'),
    ],
)
def test_the_nearest_name_is_told_or_all(name: str, text: str) -> None:
    with pytest.raises(NotOnFileError) as error:
        named_in_book("block", name, ["main", "ball"])
    assert str(error.value) == text
    assert named_in_book("block", "main", ["main"]) == "main"


def test_where_several_are_as_near_all_are_told() -> None:
    with pytest.raises(NotOnFileError) as error:
        named_in_book("chart", "full outriggers", ["full outriggers, 12 t", "full outriggers, 4 t"])
    assert str(error.value).endswith('; the book has: "full outriggers, 12 t", "full outriggers, 4 t"')


def test_a_book_that_contradicts_itself_says_so_before_the_answer(
    demo: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = demo / "hazel-70.crane.yaml"
    open_book(path)
    assert capsys.readouterr().err == ""
    text = path.read_text("utf-8")
    path.write_text(text.replace("52 kN, 48.5 kN", "52 kN, 485 kN"), "utf-8")
    open_book(path)
    told = capsys.readouterr()
    assert told.out == ""
    assert told.err.startswith("THE BOOK CONTRADICTS ITSELF.")
    assert "pull rises with layer: layer 4 permits 485 kN, layer 3 52 kN" in told.err
    assert "winch.pull[3]" in told.err


def test_nothing_on_file_says_none() -> None:
    with pytest.raises(NotOnFileError, match="the book has: none"):
        named_in_book("chart", "full", [])


def test_a_state_needs_its_block_on_file_and_not_its_pattern() -> None:
    book = invented_book()
    assert state_on_file(book, State(block="main", falls=99)).falls == 99
    with pytest.raises(NotOnFileError):
        state_on_file(book, State(block="mani", falls=2))


def test_a_site_has_what_was_given_and_names_of_the_book() -> None:
    book = invented_book()
    site = site_on_file(
        book, outriggers=None, sector=None, counterweight=None, free_radius=40.0, ground=None, slope=0.0
    )
    assert (site.counterweight, site.outriggers, site.free_radius, site.ground, site.slope) == (
        None,
        None,
        40.0,
        None,
        0.0,
    )


def test_a_row_that_is_not_there_is_refused() -> None:
    with pytest.raises(NotOnFileError, match="--falls: 3 is more than block and head can carry; the table has: none"):
        row_asked(FallsAnswer(recommended=None, unproven=None, rows=(), further=()), 3)


@pytest.mark.parametrize("command", ["falls", "limits", "plan", "change"])
def test_an_answer_that_rests_on_a_contradiction_does_not_exit_as_good(
    becket: Runner, demo: Path, command: str
) -> None:
    lift = ("--boom", "20.4 m", "--radius", "6 m to 9 m", "--chart", "full outriggers, 12 t", "--top", "6 m")
    words = {
        "falls": ("hazel-70.crane.yaml", "--block", "main", "--load", "1 t", "--load-basis", "weighed",
                  "--rigging", "10 kg", "--bottom", "0 m", *lift),
        "limits": ("hazel-70.crane.yaml", "main:2", *lift),
        "plan": ("rowan-30.crane.yaml", "rowan-30.jobs.csv"),
        "change": ("hazel-70.crane.yaml", "main:2", "main:4", "--counterweight", "12 t", "--outriggers", "full"),
    }[command]  # fmt: skip
    assert becket(command, *words).code == 0
    book = demo / words[0]
    text = book.read_text("utf-8")
    book.write_text(text.replace("numbered: from the left", "numbered: from the right", 1), "utf-8")
    told = becket(command, *words)
    assert told.code == 1
    assert told.err.startswith("THE BOOK CONTRADICTS ITSELF.")
