"""The page of a change says what the change says, each figure rounded to the safe side."""

from __future__ import annotations

from dataclasses import replace

from becket.book.tackle import State
from becket.method.change import Change, work_out_change
from becket.method.site import Site
from becket.pack.change_page import change_lines
from becket.verdict import Verdict
from tests.crane import invented_book, invented_settings

SITE = Site(counterweight=7000.0, outriggers="full")


def change(before: str, after: str, site: Site = SITE) -> Change:
    """Return a change of the invented crane."""
    states = [State(block=one.split(":")[0], falls=int(one.split(":")[1])) for one in (before, after)]
    return work_out_change(invented_book(), invented_settings(), states[0], states[1], site)


def test_every_step_and_every_rule_is_there_in_its_order() -> None:
    made = change("main:2", "main:4")
    lines = change_lines(made, "metric")
    assert made.verdict is Verdict.PASS
    steps = [line for line in lines if line[0] == "step"]
    assert [int(line[1]) for line in steps] == [step.number for step in made.steps]
    assert [line[3] for line in steps] == [step.do for step in made.steps]
    assert [line[1].split(", step")[0] for line in lines if line[0] == "pass"] == [
        rule.name.replace("_", " ") for rule in made.rules
    ]
    assert not [line for line in lines if line[0] in ("stop", "hatch", "fail", "unknown")]
    heads = [line[1] for line in lines if line[0] == "head"]
    assert heads[:4] == ["Position", "Rope to leave", "Rope", "On the way down and up, winch locked"]
    assert heads[-1] == "Rules, each proved over the steps"


def test_a_change_that_cannot_pass_says_so_first_and_why() -> None:
    made = change("main:2", "main:5")
    lines = change_lines(made, "metric")
    assert lines[0] == ("stop", f"NOT FOR USE: {made.verdict}")
    assert lines[1] == ("hatch", "NOT CONFIRMED AGAINST THE MANUAL")
    start = lines.index(("head", "What keeps it from use"))
    kept = [reason for reason in made.reasons if reason.verdict is not Verdict.PASS]
    assert list(lines[start + 1 : start + 1 + len(kept)]) == [
        (str(one.verdict), one.name.replace("_", " "), one.why) for one in kept
    ]


def test_no_position_is_said_once() -> None:
    made = change("main:2", "main:4", Site())
    texts = [text for line in change_lines(made, "metric") for text in line]
    assert made.position is None
    assert made.why_no_position is not None
    assert sum(made.why_no_position in text for text in texts) == 1
    assert "Position" not in texts


def test_blind_entries_say_that_they_are() -> None:
    made = change("main:2", "main:4")
    lines = [line for line in change_lines(made, "metric") if line[0] == "step"]
    for step, line in zip(made.steps, lines, strict=True):
        assert line[5].startswith("Enter, alone and hidden from the other: ") is step.blind
        assert ("Enter" in line[5]) is (step.value_asked is not None)


def test_us_units() -> None:
    made = change("main:2", "main:4")
    texts = [text for line in change_lines(made, "us") for text in line]
    assert any("lb" in text for text in texts)
    assert any(" ft" in text for text in texts)


def test_what_is_not_on_file_is_said() -> None:
    made = change("main:2", "main:4")
    assert made.position is not None
    bare = replace(made, position=replace(made.position, wind=None, page=None))
    assert any("wind limit not on file. Manual page not on file." in line[1] for line in change_lines(bare, "metric"))
