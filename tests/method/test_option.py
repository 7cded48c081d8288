"""Whether a change is possible on a site, for planning."""

from __future__ import annotations

from dataclasses import replace
from math import inf

import pytest

from becket.book.crane import Book
from becket.method.facts import Around
from becket.method.option import ChangeOption, change_option, change_room
from becket.method.site import Site
from becket.verdict import Verdict
from tests.crane import invented_settings
from tests.method.golden_crane import SITE, golden_book
from tests.method.test_facts import facts
from tests.method.test_leave import state

SETTINGS = invented_settings()


def option(
    before: str, after: str, book: Book | None = None, site: Site = SITE, carried: str | None = "crane"
) -> ChangeOption:
    return change_option(
        book or golden_book(),
        SETTINGS,
        state(before),
        state(after),
        site,
        boom_before=26.2,
        boom_after=18.4,
        carried=carried,
    )


@pytest.mark.parametrize(("before", "after"), [("main:2", "main:4"), ("main:6", "main:4"), ("ball:1", "main:4")])
@pytest.mark.parametrize("carried", ["crane", "lorry"])
def test_minutes_are_those_of_the_change_itself(before: str, after: str, carried: str) -> None:
    around = Around(boom_before=26.2, boom_after=18.4, carried=carried)
    minutes = facts(before, after, around=around).minutes
    found = option(before, after, carried=carried)
    assert found.verdict is Verdict.PASS
    assert minutes is not None
    assert found.minutes == pytest.approx(minutes.total)


@pytest.mark.parametrize(
    ("before", "after", "site", "verdict"),
    [
        ("main:2", "main:5", SITE, Verdict.UNKNOWN),
        ("main:2", "main:3", SITE, Verdict.UNKNOWN),
        ("main:2", "main:6", SITE, Verdict.FAIL),
        ("main:2", "main:2", SITE, Verdict.FAIL),
        ("main:2", "main:4", Site(), Verdict.UNKNOWN),
        ("main:2", "main:4", replace(SITE, counterweight=5000.0), Verdict.FAIL),
        ("main:2", "main:4", replace(SITE, free_radius=9.0), Verdict.FAIL),
    ],
)
def test_anything_else_is_not_possible_there(before: str, after: str, site: Site, verdict: Verdict) -> None:
    found = option(before, after, site=site)
    assert found.verdict is verdict
    assert found.minutes == inf
    assert found.why


def test_where_the_other_block_is_kept_has_to_be_given() -> None:
    found = option("ball:1", "main:4", carried=None)
    assert found.verdict is Verdict.UNKNOWN
    assert found.why == "carried: where the other block is kept is not given; the job sheet says crane, lorry or yard"
    assert option("main:2", "main:4", carried=None).verdict is Verdict.PASS


def test_why_says_position_room_and_hook() -> None:
    assert option("main:2", "main:4").why == (
        "33.4 m over the side, page 6-3; needs 34.4 m of free radius; hook 3.90 m under the head"
    )


def test_room_is_the_same_whatever_the_lifts_around_it() -> None:
    room = change_room(golden_book(), SETTINGS, state("main:2"), state("main:4"), SITE)
    assert room.length == 33.4
    assert room.minutes == pytest.approx(option("main:2", "main:4").minutes - (7.2 + 15.0) / SETTINGS.telescope_speed)
