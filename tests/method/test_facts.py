"""The facts of one change."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from becket.book.crane import Book
from becket.book.tackle import Keeper, State
from becket.errors import NotOnFileError
from becket.method.facts import Around, Facts, gather_facts, stops_between
from becket.method.site import Site
from becket.verdict import Verdict
from tests.crane import invented_settings
from tests.method.golden_crane import SITE, golden_book
from tests.method.test_leave import state

SETTINGS = invented_settings()


def facts(before: str, after: str, book: Book | None = None, site: Site = SITE, around: Around | None = None) -> Facts:
    return gather_facts(book or golden_book(), SETTINGS, (state(before), state(after)), site, around)


def reasons(found: Facts) -> dict[str, Verdict]:
    return {reason.why.split(":")[0]: reason.verdict for reason in found.reasons}


def part(record: str, **changes: Any) -> Book:
    """Return the book with one of its records changed [-]."""
    book = golden_book()
    return replace(book, **{record: replace(getattr(book, record), **changes)})


@pytest.mark.parametrize(
    ("before", "after"), [("main:2", "main:4"), ("main:4", "main:2"), ("ball:1", "main:4"), ("main:4", "ball:1")]
)
def test_nothing_keeps_a_good_change_from_passing(before: str, after: str) -> None:
    found = facts(before, after)
    assert found.reasons == ()
    assert found.is_confirmed
    assert found.minutes is not None
    assert found.rope_pulled == sum(p.metres for p in found.pulled)


def test_two_to_four_falls_pass_by_pass() -> None:
    found = facts("main:2", "main:4")
    assert found.path is not None
    assert [str(p.place) for p in found.pulled] == [str(p) for p in found.path.draw_out + found.path.thread]
    assert found.rope_pulled == pytest.approx(17.1, abs=0.05)


@pytest.mark.parametrize(
    ("before", "after", "least", "most"),
    [
        ("main:2", "main:4", 50, 55),
        ("main:6", "main:4", 50, 55),
        ("main:4", "main:6", 50, 56),
        ("ball:1", "main:4", 68, 74),
    ],
)
def test_minutes_are_of_the_size_that_a_method_worked_by_hand_expects(
    before: str, after: str, least: float, most: float
) -> None:
    """50 to 55 min between main falls, about 70 from the ball with the block on its lorry; not check values."""
    around = Around(boom_before=26.2, boom_after=18.4, carried="lorry")
    minutes = facts(before, after, around=around).minutes
    assert minutes is not None
    assert least <= minutes.total / 60 <= most
    assert minutes.not_counted == ()


def test_what_is_not_given_is_said_beside_the_minutes() -> None:
    minutes = facts("ball:1", "main:4").minutes
    assert minutes is not None
    assert minutes.not_counted == (
        "telescoping from the boom of the lift before",
        "telescoping to the boom of the lift after",
        "fetching the block: where it is kept is not given",
    )


def test_own_records_replace_the_minutes() -> None:
    minutes = facts("main:2", "main:4", around=Around(records=[3000.0] * 5)).minutes
    assert minutes is not None
    assert minutes.total == 3000.0


def test_same_state_twice() -> None:
    found = facts("main:4", "main:4")
    assert found.path is None
    assert found.reasons[0].why == "from main:4 to main:4: the same state twice, there is nothing to change"
    assert found.reasons[0].verdict is Verdict.FAIL


def test_pattern_not_on_file_says_which_page_to_look_for() -> None:
    found = facts("main:4", "main:7")
    assert found.path is None
    assert found.minutes is None
    assert not found.is_confirmed
    assert found.reasons[0].verdict is Verdict.UNKNOWN
    assert found.reasons[0].why == (
        "patterns: main:7 is not on file; look in Operating manual Tallow 40, issue A, 2019 for the page that shows "
        "block main on 7 falls, type it into the book, and have it confirmed"
    )


@pytest.mark.parametrize(("before", "after"), [("main:2", "main:5"), ("main:5", "main:2")])
def test_pattern_not_confirmed_is_said_in_capitals(before: str, after: str) -> None:
    found = facts(before, after)
    assert not found.is_confirmed
    assert [r.verdict for r in found.reasons if r.name == "pattern"] == [Verdict.UNKNOWN]
    assert "main:5 is NOT CONFIRMED AGAINST THE MANUAL; a second person reads page 6-15" in found.reasons[0].why


def test_stale_confirmation_is_not_confirmed() -> None:
    """DANGERS: confirmation stale or by the typist: the page changed after the seal."""
    book = golden_book()
    patterns = tuple(replace(p, page="9-9") if p.falls == 4 else p for p in book.patterns)
    assert not facts("main:2", "main:4", replace(book, patterns=patterns)).is_confirmed


def test_keeper_that_holds_nothing() -> None:
    book = golden_book()
    empty = Keeper(name="spare bar", at="head", block=None, holds=(), draw="slack", lock=None)
    found = facts("main:2", "main:4", replace(book, keepers=(*book.keepers, empty)))
    assert reasons(found) == {"keepers": Verdict.UNKNOWN}
    assert found.reasons[0].why == "keepers: spare bar at the head holds nothing; name the sheaves it holds"


def test_block_that_is_not_in_the_book() -> None:
    with pytest.raises(NotOnFileError, match=r"^block big: not in the book of Larch 55"):
        facts("main:2", "big:4")


@pytest.mark.parametrize(
    ("record", "changes", "field"),
    [
        ("switch", {"trips": None}, "switch.trips"),
        ("switch", {"margin": None}, "switch.margin"),
        ("switch", {"weight_on_even": None}, "switch.weight_on.even"),
        ("winch", {"at_x": None, "at_z": None}, "winch.at or winch.lead_run"),
        ("winch", {"least_wraps": None}, "winch.at, winch.least_wraps or dead_end.tail"),
        ("dead_end", {"tail": None}, "dead_end.tail"),
        ("dead_end", {"goes_through_sheaves": None}, "dead_end.goes_through_sheaves"),
        ("rope", {"length": None}, "rope.length"),
        ("rope", {"mass": None}, "33.4 m over the side"),
        ("boom", {"sag": None}, "boom.sag for 33.4 m"),
    ],
)
def test_a_missing_figure_is_unknown_and_named(record: str, changes: dict[str, Any], field: str) -> None:
    found = reasons(facts("main:2", "main:4", part(record, **changes)))
    assert found[field] is Verdict.UNKNOWN
    assert set(found.values()) == {Verdict.UNKNOWN}


@pytest.mark.parametrize("field", ["touches", "stands", "clear", "mass"])
def test_a_missing_figure_of_a_block_is_unknown_and_named(field: str) -> None:
    book = golden_book()
    changes: dict[str, Any] = {field: None}
    bare = replace(book, blocks={**book.blocks, "main": replace(book.blocks["main"], **changes)})
    assert reasons(facts("main:2", "main:4", bare)) == {f"blocks.main.{field}": Verdict.UNKNOWN}


def test_rope_too_short_for_the_position() -> None:
    found = facts("main:2", "main:4", part("rope", length=47.0))
    assert reasons(found) == {"rope.length": Verdict.FAIL}
    assert found.rope_needed == pytest.approx(35.0 + 0.37 + 7.8 + 0.60 + 0.34 + 3 * 3.14159 * 0.357, abs=0.2)


def test_switch_distance_under_the_height_of_the_block() -> None:
    found = facts("main:2", "main:4", part("switch", trips=0.6))
    assert [r.name for r in found.reasons] == ["switch distance"]
    assert "see the manual's page on the hoist limit switch" in found.reasons[0].why


def test_no_position_is_the_reason_and_nothing_is_worked_out_from_it() -> None:
    found = facts("main:2", "main:4", site=replace(SITE, counterweight=5000.0))
    assert [r.name for r in found.reasons] == ["position"]
    assert found.leave is None
    assert found.lowering is None
    assert found.minutes is None
    assert found.rope_pulled is None


def test_a_stop_between_is_named_where_it_helps() -> None:
    found = facts("main:2", "main:6")
    assert State(block="main", falls=4) in stops_between(golden_book(), found)
    why = next(r.why for r in found.reasons if r.name == "rope to leave")
    assert "a stop between that does, by its rope: main:4" in why
    assert stops_between(golden_book(), facts("ball:1", "main:4")) == ()


def test_a_book_that_says_nothing_of_keepers_is_no_pass() -> None:
    """Left out is not none: only ``keepers: []`` says that there is none."""
    silent, none = replace(golden_book(), keepers=(), keepers_on_file=False), replace(golden_book(), keepers=())
    (reason,) = (one for one in facts("main:2", "main:4", silent).reasons if one.name == "keepers")
    assert reason.verdict is Verdict.UNKNOWN
    assert reason.why == (
        "keepers: not on file; see the manual's drawings of head and block, and the crane itself; "
        "keepers: [] says that there are none"
    )
    assert not [one for one in facts("main:2", "main:4", none).reasons if one.name == "keepers"]


def test_a_second_line_that_the_book_does_not_speak_of_is_no_pass() -> None:
    """Its mass counts against the rated load of the position: left out is not none."""
    (reason,) = facts("main:2", "main:4", replace(golden_book(), second_line=None)).reasons
    assert (reason.name, reason.verdict) == ("second line", Verdict.UNKNOWN)
    assert reason.why == (
        "second_line: not on file; look what hangs on the other winch's rope: it counts against the rated load and "
        "hangs from the head; second_line: none says that there is none"
    )
