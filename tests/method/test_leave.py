"""How far under the head the hook is left."""

from dataclasses import replace
from math import degrees, hypot, pi, radians, sin
from typing import Any

import pytest

from becket.book.crane import Book
from becket.book.tackle import State
from becket.method.hanging import hanging_of
from becket.method.leave import (
    RopeToLeave,
    Way,
    lift_off_angle,
    missing_for_leave,
    plumb_share,
    rope_to_leave,
    touch_angle,
    way_of,
)
from becket.method.position import find_position
from becket.settings.values import Settings
from becket.verdict import Verdict
from tests.crane import invented_settings
from tests.method.golden_crane import SITE, golden_book

SETTINGS = invented_settings()


def state(text: str) -> State:
    block, falls = text.split(":")
    return State(block=block, falls=int(falls))


def way(before: str, after: str, book: Book | None = None, settings: Settings = SETTINGS) -> Way:
    book = book or golden_book()
    states = state(before), state(after)
    position = find_position(book, settings, *states, SITE).position
    assert position is not None
    return way_of(book, settings, position, (hanging_of(book, states[0]), hanging_of(book, states[1])), SITE)


def leave(before: str, after: str, **changes: Any) -> RopeToLeave:
    return rope_to_leave(way(before, after, **changes))


@pytest.mark.parametrize(
    ("before", "after", "target", "decides"),
    [
        ("main:2", "main:4", 3.9, "threading"),
        ("main:6", "main:4", 1.7, "switch, going down"),
        ("main:4", "main:2", 1.8, "switch, going down"),
        ("main:4", "main:6", 2.6, "threading"),
        ("main:2", "main:5", 4.9, "threading"),
        ("ball:1", "main:4", 8.4, "threading"),
        ("main:4", "ball:1", 1.8, "switch, going down"),
    ],
)
def test_numbers_that_a_method_worked_by_hand_gives(before: str, after: str, target: float, decides: str) -> None:
    found = leave(before, after)
    assert found.verdict is Verdict.PASS
    assert found.target == pytest.approx(target)
    assert found.least_because.startswith(decides)
    assert found.least <= target <= found.most
    assert degrees(found.at_angle) == pytest.approx(20.0)


def test_two_to_six_falls_asks_for_more_than_the_plumb_of_the_block_allows() -> None:
    """By the rope 5.8 m; but the block would touch at 7.7 deg and stand 0.24 m behind the head at lift-off."""
    found = leave("main:2", "main:6")
    assert found.by_rope == pytest.approx(5.8)
    assert found.verdict is Verdict.FAIL
    assert found.target is None
    assert found.most_because.startswith("plumb")
    assert "least 5.24 m (threading" in found.why
    assert "is over most 4.54 m (plumb" in found.why
    assert "a stop between on another number of falls" in found.why


def test_every_least_bound_by_hand() -> None:
    """2 -> 4 falls, written out: s = 1.436 - 0.60, dC from the straight boom, A(n) half turns of 0.19 m."""

    def drum_rope(degree: float) -> float:
        a = radians(degree)
        x = -1.45 + 33.4 * (1 - sin(a) ** 2) ** 0.5 + 0.48 * sin(a)
        z = 3.05 + 33.4 * sin(a) - 0.48 * (1 - sin(a) ** 2) ** 0.5
        return hypot(x + 3.30, z - 3.55)

    growth = drum_rope(-1.5) - drum_rope(20.0)
    span = 3.05 + 33.4 * sin(radians(-1.5)) - 0.74 * (1 - sin(radians(1.5)) ** 2) ** 0.5 - 0.60
    arcs = 2 * pi * 0.19
    heights = {b.name: b.height for b in leave("main:2", "main:4").least_bounds}
    assert heights["threading"] == pytest.approx((4 * (span + 0.3) + 1.0 + arcs + growth) / 2, abs=1e-9)
    assert heights["switch, going down"] == pytest.approx(1.2 + 0.3 + growth / 2, abs=1e-9)
    assert heights["switch, coming up"] == pytest.approx((4 * 1.3 + arcs + growth) / 2, abs=1e-9)


def test_each_most_bound_is_where_its_words_come_true() -> None:
    for before, after in (("main:2", "main:4"), ("main:4", "main:2"), ("main:6", "main:4"), ("main:4", "ball:1")):
        one = way(before, after)
        bounds = {b.name: b.height for b in rope_to_leave(one).most_bounds}
        at_highest = lift_off_angle(one, bounds["lift-off"] - 1e-6)
        assert at_highest is not None
        assert at_highest == pytest.approx(one.highest, abs=1e-5)
        share = plumb_share(one, bounds["plumb"])
        slack = bounds["slack on the ground"]
        if bounds["plumb"] < slack - 1e-6:
            assert share is not None
            assert share == pytest.approx(0.1, abs=1e-5)


def test_slack_bound_decides_where_people_manage_less() -> None:
    found = leave("main:2", "main:4", settings=replace(SETTINGS, leave_slack_most=6.2))
    assert found.most_because.startswith("slack on the ground")
    assert found.target == pytest.approx(3.9)
    low = leave("main:2", "main:4", settings=replace(SETTINGS, leave_slack_most=3.0))
    assert low.target is None
    assert "winding in with one fall" in low.why


def test_target_is_never_over_most() -> None:
    found = leave("main:2", "main:4", settings=replace(SETTINGS, leave_slack_most=5.4))
    assert found.target == found.most
    assert found.least < found.most < 3.9


def test_lift_off_bound_names_the_highest_angle() -> None:
    """Main block to one fall, highest angle 9 deg: the slack is more than the boom takes up."""
    book = golden_book()
    flat = replace(book, rereeve=tuple(replace(row, highest=radians(9)) for row in book.rereeve))
    found = leave("main:4", "ball:1", book=flat)
    assert found.verdict is Verdict.FAIL
    assert found.most_because.startswith("lift-off: the block is off the ground by 9.0 deg")
    assert degrees(found.at_angle) == pytest.approx(9.0)


def test_angle_on_the_card_is_never_over_the_highest_of_the_row() -> None:
    book = golden_book()
    flat = replace(book, rereeve=tuple(replace(row, highest=radians(14)) for row in book.rereeve))
    assert degrees(leave("main:2", "main:4", book=flat).at_angle) == pytest.approx(14.0)


def test_unknown_place_of_the_drum_takes_the_worse_sign_for_each_bound() -> None:
    book = golden_book()
    unknown = replace(book, winch=replace(book.winch, at_x=None, at_z=None, lead_run=1.9))
    swing = 2 * 1.9 * sin(radians(21.5) / 2)
    known_place = leave("main:2", "main:4", book=replace(book, winch=replace(book.winch, at_x=-1.45, at_z=3.05)))
    worse = leave("main:2", "main:4", book=unknown)
    for name, one, other, sign in zip(
        ("threading", "switch", "up"), worse.least_bounds, known_place.least_bounds, (1, 1, 1), strict=True
    ):
        assert one.height == pytest.approx(other.height + sign * swing / 2, abs=0.01), name
    assert worse.most_bounds[0].height == pytest.approx(known_place.most_bounds[0].height - swing / 2, abs=0.01)
    assert worse.most < known_place.most


def test_figures_that_are_missing_are_named() -> None:
    book = golden_book()
    bare = replace(
        book,
        winch=replace(book.winch, at_x=None, at_z=None, lead_run=None),
        switch=replace(book.switch, trips=None, margin=None),
    )
    assert missing_for_leave(bare) == ("winch.at or winch.lead_run", "switch.trips", "switch.margin")
    assert missing_for_leave(replace(book, winch=replace(book.winch, at_x=None, lead_run=1.9))) == ()
    assert missing_for_leave(book) == ()
    for half in ("at_x", "at_z"):
        nowhere: dict[str, Any] = {half: None}
        one = replace(book, winch=replace(book.winch, **nowhere))
        assert missing_for_leave(one) == ("winch.at or winch.lead_run",)


def test_touch_angle_is_where_the_hook_is_its_height_over_the_ground() -> None:
    angle = touch_angle(way("main:2", "main:4"), 3.9)
    assert angle is not None
    assert round(degrees(angle), 1) == 4.4
    assert touch_angle(way("main:2", "main:4"), 14.0) is None


def test_another_block_stands_on_the_plumb_mark() -> None:
    """The new block is set under the head of the low position, so the ball's touching does not count."""
    share = plumb_share(way("ball:1", "main:4"), 8.4)
    assert share is not None
    assert share < 0.05
