"""Every slip on the command line is one clear line and exit code 2."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.conftest import Runner

BOOK = "hazel-70.crane.yaml"
LIFT = ("falls", BOOK, "--block", "main", "--load", "1 t", "--boom", "20.4 m")


@pytest.mark.parametrize(
    ("words", "line"),
    [
        (("chek",), 'becket: no command "chek"; nearest: "check"; see becket --help'),
        (
            ("qwerty",),
            'becket: no command "qwerty"; one of check, falls, limits, pattern, confirm, change, plan, '
            "card, pack, serve, record, demo; "
            "see becket --help",
        ),
        (("check",), "becket check: Missing argument 'BOOK'; see becket check --help"),
        (("falls", BOOK), "becket falls: Missing option '--block'; see becket falls --help"),
        (
            ("falls", BOOK, "--blok", "main"),
            "becket falls: No such option '--blok'. (Did you mean one of: '--block', '--boom', '--load'?); "
            "see becket falls --help",
        ),
        (
            (*LIFT, "--falls", "0"),
            "becket falls: Invalid value for '--falls': 0 is not in the range x>=1; see becket falls --help",
        ),
        (
            (*LIFT, "--units", "imperial"),
            "becket falls: Invalid value for '--units': 'imperial' is not one of 'metric', 'us'; "
            "see becket falls --help",
        ),
        (
            (*LIFT, "--load-basis", "guess"),
            "becket falls: Invalid value for '--load-basis': 'guess' is not one of 'weighed', 'drawing', 'estimate'; "
            "see becket falls --help",
        ),
        (("falls", BOOK, "--block", "mian", *LIFT[4:]), 'block: "mian" is not in the book; nearest: "main"'),
        (("falls", BOOK, "--block", "xyz", *LIFT[4:]), 'block: "xyz" is not in the book; the book has: "main", "ball"'),
        (
            (*LIFT, "--chart", "full outriggers 12 t"),
            'chart: "full outriggers 12 t" is not in the book; nearest: "full outriggers, 12 t"',
        ),
        ((*LIFT, "--sector", "saide"), 'sector: "saide" is not in the book; nearest: "side"'),
        (
            (*LIFT, "--falls", "9"),
            "--falls: 9 is more than block and head can carry; the table has: 1 to 7",
        ),
    ],
)
def test_one_line_each(becket: Runner, demo: Path, words: tuple[str, ...], line: str) -> None:
    outcome = becket(*words)
    assert (outcome.code, outcome.out, outcome.err) == (2, "", line + "\n")


@pytest.mark.parametrize("command", ["check", "falls", "limits", "pattern", "confirm", "change", "plan"])
def test_a_folder_and_a_missing_file_in_place_of_the_book(becket: Runner, demo: Path, command: str) -> None:
    more = {
        "falls": LIFT[2:],
        "limits": ("main:2", "--boom", "20.4 m", "--radius", "9 m"),
        "pattern": ("main:2",),
        "confirm": ("main:2", "--by", "RS"),
        "change": ("main:2", "main:4"),
        "plan": ("hazel-70.jobs.yaml",),
    }.get(command, ())
    for path in (demo, demo / "nothing.yaml"):
        outcome = becket(command, path, *more, typed="head 3\nblock\n")
        assert outcome.code == 2
        said = outcome.out if command == "check" else outcome.err
        assert path.name in said.splitlines()[0]
        assert command == "check" or len(said.splitlines()) == 1


def test_the_version_is_told(becket: Runner) -> None:
    outcome = becket("--version")
    assert outcome.code == 0
    assert outcome.out.startswith(("becket 0", "becket 1", "becket, not installed"))


@pytest.mark.parametrize(
    ("words", "line"),
    [
        (
            ("--load", "17 ton"),
            "'--load': 17 ton is not a mass; short ton, long ton or t written in full: three different tons are in use",
        ),
        (("--load", "17"), "'--load': 17 has no unit; a mass in kg, t, lb, short ton or long ton"),
        (("--load", "-3 t"), "'--load': -3 t; 0 or more is wanted"),
        (("--load", "1e99 t"), "'--load': 1e99 t has an exponent; a mass in kg, t, lb, short ton or long ton"),
        (("--boom", "0 m"), "'--boom': 0 m; more than 0 is wanted"),
        (("--radius", "8 m to 6 m"), "'--radius': 8 m to 6 m runs backward; the lesser figure first"),
        (("--radius", "0 m"), "'--radius': 0 m; more than 0 is wanted"),
    ],
)
def test_a_quantity_that_means_nothing_is_one_line(
    becket: Runner, demo: Path, words: tuple[str, ...], line: str
) -> None:
    outcome = becket(*LIFT, *words)
    told = f"becket falls: Invalid value for {line}; see becket falls --help\n"
    assert (outcome.code, outcome.out, outcome.err) == (2, "", told)
