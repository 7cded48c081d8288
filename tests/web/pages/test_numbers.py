"""Every number on a page is the core's answer, in both systems of units."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import ceil
from pathlib import Path

import pytest

from becket.book.crane import Book
from becket.book.jobs import Lift
from becket.book.tackle import State
from becket.limits.answer import Limit, Row
from becket.limits.gross import gross_load
from becket.limits.table import falls_table, row_of
from becket.planning.clock import plan_clock
from becket.reeving.pattern import check_state
from becket.units import show_quantity
from becket.verdict import Verdict
from becket.web.crane_files import CraneFile
from tests.web.asking import Phone
from tests.web.pages.standing import demo_phone, get, read

CRANES = ("hazel-70", "rowan-30")
SYSTEMS = ("metric", "us")
KINDS = {"N": "force", "kg": "mass", "rad": "angle"}


@pytest.fixture(scope="module")
def phone(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Phone]:
    """A phone at a server with the demo's cranes, on which nothing was counted."""
    folder: Path = tmp_path_factory.mktemp("numbers")
    found = demo_phone(folder / "data")
    yield found
    found.house.close()


def lifts_of(crane: CraneFile) -> list[Lift]:
    """Return every lift with what is fitted on its job."""
    assert crane.sheet is not None
    return [
        replace(lift, counterweight=job.counterweight, outriggers=job.outriggers)
        for job in crane.sheet.jobs
        for lift in job.lifts
    ]


def book_of(crane: CraneFile) -> Book:
    """Return the book of a crane that can be used."""
    assert crane.book is not None
    return crane.book


def percent(use: float) -> str:
    """Return whole percent, rounded up: written here anew."""
    return f"{ceil(100 * use - 1e-9)} %"


def shown(value: float, kind: str, system: str, toward: str = "nearest") -> str:
    """Return a figure as the core shows it, with the signs of a page."""
    text = show_quantity(value, kind, system=system, toward=toward)
    return text.replace(" deg", "°").replace("-", "−")


@pytest.mark.parametrize("name", CRANES)
@pytest.mark.parametrize("system", SYSTEMS)
def test_falls_page_has_every_use_of_the_falls_table(phone: Phone, name: str, system: str) -> None:
    """Each row with its use, speed, rope; each limit with need, have and use; of every lift and block."""
    crane = phone.house.crane(name)
    book, looked = book_of(crane), 0
    for number, lift in enumerate(lifts_of(crane), 1):
        text = read(get(phone, f"/c/{name}/falls/{number}", system))
        for block in book.blocks:
            for row in falls_table(book, crane.settings, block, lift).rows:
                assert _row_words(row) in text
                if row.hook_speed is not None and row.rope_needed is not None:
                    speed, rope = shown(row.hook_speed, "speed", system, "down"), row.rope_needed
                    assert f"{speed} {shown(rope, 'length', system, 'up')}" in text
                for limit in row.limits:
                    if limit.unit in KINDS and limit.need is not None and limit.have is not None:
                        assert _limit_words(limit, system) in text
                        looked += 1
    assert looked > 50


def _row_words(row: Row) -> str:
    """Return number, verdict, what governs and its use, as they stand side by side."""
    words = {Verdict.PASS: "pass", Verdict.FAIL: "FAIL", Verdict.UNKNOWN: "unknown"}
    if row.verdict is Verdict.UNKNOWN:
        return f"{row.falls} unknown"
    use = row.limit(row.governs).use
    return f"{row.falls} {words[row.verdict]} {row.governs.replace('_', ' ')}" + (
        "" if use is None else f" {percent(use)}"
    )


def _limit_words(limit: Limit, system: str) -> str:
    """Return name, verdict, need, have and use of a limit, as they stand side by side."""
    assert limit.need is not None
    assert limit.have is not None
    word = "FAIL" if limit.verdict is Verdict.FAIL else str(limit.verdict)
    need = shown(limit.need, KINDS[limit.unit], system, "up")
    have = shown(limit.have, KINDS[limit.unit], system, "down")
    use = "" if limit.use is None else f" {percent(limit.use)}"
    return f"{limit.name.replace('_', ' ')} {word} need {need}, have {have}{use}"


@pytest.mark.parametrize("name", CRANES)
def test_title_of_a_lift_is_what_the_falls_table_recommends(phone: Phone, name: str) -> None:
    """Rig so many falls, or none proven, with the block that is planned."""
    crane = phone.house.crane(name)
    plan = phone.house.plan(crane)
    assert plan is not None
    for number, (lift, group) in enumerate(zip(lifts_of(crane), plan.groups, strict=True), 1):
        text = read(get(phone, f"/c/{name}/falls/{number}"))
        block = group.state.block if group.state else "main"
        wanted = falls_table(book_of(crane), crane.settings, block, lift).recommended
        title = "No number of falls will do." if wanted is None else f"{lift.name}: rig {wanted} fall"
        assert title in text
        assert (group.needed_falls == wanted) or group.state is None


@pytest.mark.parametrize("name", CRANES)
def test_gross_load_is_the_sum_of_its_parts_on_the_page(phone: Phone, name: str) -> None:
    """What block rating and lead line count: load, rigging, block and rope add up to the gross load shown."""
    crane = phone.house.crane(name)
    for number, lift in enumerate(lifts_of(crane), 1):
        text = read(get(phone, f"/c/{name}/falls/{number}"))
        for block in book_of(crane).blocks:
            for row in falls_table(book_of(crane), crane.settings, block, lift).rows:
                parts = gross_load(book_of(crane), crane.settings, State(block=block, falls=row.falls), lift)
                known = (parts.load, parts.rigging, parts.block, parts.rope)
                assert parts.gross is not None
                assert parts.gross == pytest.approx(sum(one for one in known if one is not None), rel=1e-12)
                assert shown(parts.gross, "mass", "metric", "up") in text


@pytest.mark.parametrize("name", CRANES)
@pytest.mark.parametrize("system", SYSTEMS)
def test_week_has_the_plans_states_times_minutes_and_uses(phone: Phone, name: str, system: str) -> None:
    """Each planned lift with state, time and use; each change with time, minutes and booked minutes left."""
    crane = phone.house.crane(name)
    plan = phone.house.plan(crane)
    assert plan is not None
    assert crane.sheet is not None
    text, clock = read(get(phone, f"/c/{name}/week", system)), plan_clock(crane.sheet, plan)
    for lift, group, when in zip(lifts_of(crane), plan.groups, clock.groups, strict=True):
        if group.state is None:
            continue
        row = row_of(book_of(crane), crane.settings, group.state, lift)
        assert when is not None
        use = row.limit(row.governs).use
        assert f"{group.state.block} {group.state.falls}" in text
        assert use is not None
        assert f"{row.governs.replace('_', ' ')} {percent(use)}" in text
        assert f"{when.day} Mar {_clock(when.hour, when.minute, when.second or when.microsecond)}" in text
    for change, at in zip(plan.changes, clock.changes, strict=True):
        assert at is not None
        assert f"change {change.before.falls} → {change.after.falls}" in text
        assert f"{ceil(change.minutes - 1e-6)} min" in text
        assert f"{at.day} Mar {_clock(at.hour, at.minute, at.second or at.microsecond)}" in text
        if change.minutes_left_in_job is not None:
            assert f"Booked minutes still free in that job: {int(change.minutes_left_in_job + 1e-6)}." in text


def _clock(hour: int, minute: int, more: int) -> str:
    whole = hour * 60 + minute + (1 if more else 0)
    return f"{whole // 60:02d}:{whole % 60:02d}"


@pytest.mark.parametrize("name", CRANES)
@pytest.mark.parametrize("system", SYSTEMS)
def test_change_page_has_the_figures_of_the_change(phone: Phone, name: str, system: str) -> None:
    """Rope to leave, position, minutes and the way down and up, of every change between states on file."""
    house, crane, looked = phone.house, phone.house.crane(name), 0
    for before, after in house.changes_ahead(crane):
        change = house.change(crane, before, after)
        text = read(get(phone, f"/c/{name}/change/{before}/{after}", system))
        leave, at, run = change.rope_to_leave, change.position, change.simulation
        if leave is not None and leave.target is not None:
            assert f"rope to leave {shown(leave.target, 'length', system, 'up')}" in text
            assert f"boom angle {shown(leave.at_angle, 'angle', system)}" in text
            looked += 1
        if at is not None:
            assert f"free radius needed {shown(at.free_radius_needed, 'length', system, 'up')}" in text
            assert f"head above the ground {shown(at.head_height, 'length', system)}" in text
            assert f"counterweight {shown(at.counterweight, 'mass', system)}" in text
        if change.minutes is not None:
            assert f"{ceil(change.minutes.total / 60 - 1e-6)} min" in text
        if run is not None and run.touches_angle is not None:
            assert f"block touches, upright, at {shown(run.touches_angle, 'angle', system)}" in text
        assert ("NOT FOR USE" in text) == (change.verdict is not Verdict.PASS)
        assert all(f" {step.number} " in text for step in change.steps)
    assert looked > 5


@pytest.mark.parametrize("name", CRANES)
@pytest.mark.parametrize("system", SYSTEMS)
def test_pattern_page_has_path_checks_and_how_it_hangs(phone: Phone, name: str, system: str) -> None:
    """The path pass by pass, every check with its verdict, tilt rounded up, who typed it."""
    crane = phone.house.crane(name)
    for pattern in book_of(crane).patterns:
        page = get(phone, f"/c/{name}/pattern/{pattern.state}", system)
        text, check = read(page), check_state(book_of(crane), crane.settings, pattern.state)
        assert " → ".join([*map(str, pattern.path), f"dead end {pattern.dead_end}"]) in text
        for finding in check.findings:
            word = "FAIL" if finding.verdict is Verdict.FAIL else str(finding.verdict)
            assert f"{finding.name.replace('_', ' ')} {word}" in text
        if check.tilt is not None:
            assert f"tilt, the greatest {shown(check.tilt, 'angle', system, 'up')}" in text
        assert ("NOT CONFIRMED" in page) == (check.confirmed is None or not check.confirmed.seal_matches)
