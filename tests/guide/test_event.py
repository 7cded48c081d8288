"""What is read as an event, and what is refused because a phone or a page would fall over it."""

from __future__ import annotations

from typing import Any

import pytest

from becket.errors import UnreadableTextError
from becket.guide.event import event_as_dict, read_event
from tests.records.invented import an_event

PLAIN = event_as_dict(an_event(1))


def nested(deep: int) -> dict[str, Any]:
    """Return objects one in another."""
    return {"a": nested(deep - 1)} if deep > 1 else {"a": 1}


@pytest.mark.parametrize("name", sorted(PLAIN))
@pytest.mark.parametrize("value", [{}, [], {"a": 1}, [1], 1.5, True, "\ud800", -1], ids=repr)
def test_a_value_of_any_kind_is_read_or_refused_by_name(name: str, value: object) -> None:
    if name in ("shown", "entered") and isinstance(value, dict):
        assert read_event({**PLAIN, name: value})
        return
    with pytest.raises(UnreadableTextError, match=f"^{name}: ") as raised:
        read_event({**PLAIN, name: value})
    str(raised.value).encode()  # what is said can be sent


@pytest.mark.parametrize(
    "at",
    [
        "0000-00-00T00:00:00Z",
        "2026-02-30T00:00:00Z",
        "2026-11-30T24:00:00Z",
        "2026-11-30T00:00:60Z",
        "2026-11-30T00:00:00+24:00",
        "0999-11-30T00:00:00Z",
        "9999-12-31T23:59:59-12:00",
        "２026-11-30T00:00:00Z",  # noqa: RUF001
        "2026-11-30T00:00:00Z\n",
        "2026-11-30T00:00:00",
    ],
)
def test_a_moment_that_is_none_is_refused(at: str) -> None:
    with pytest.raises(UnreadableTextError, match=r"a moment as 2026-11-30T15:31:00\+01:00"):
        read_event({**PLAIN, "at": at})


@pytest.mark.parametrize("at", ["1970-01-01T00:00:00Z", "2028-02-29T23:59:59.123456-09:30", "9998-12-31T00:00:00Z"])
def test_a_clock_that_is_wrong_is_kept(at: str) -> None:
    assert read_event({**PLAIN, "at": at}).at == at


def test_nesting_has_an_end() -> None:
    assert read_event({**PLAIN, "entered": nested(16)})
    with pytest.raises(UnreadableTextError, match="entered: too deep; at most 16 lists and objects one in another"):
        read_event({**PLAIN, "entered": nested(17)})
    deep: object = 1
    for _ in range(900):
        deep = [deep]
    with pytest.raises(UnreadableTextError, match="too deep"):
        read_event({**PLAIN, "shown": {"x": deep}})


def test_numbers_can_be_worked_with() -> None:
    for good in (10**100, -(2**60), 1.7e308, 0, -0.0, True):
        assert read_event({**PLAIN, "entered": {"values": {"n": good}}})
    for bad, why in (
        (10**100 + 1, "over 100"),
        (-(10**400), "over 100"),
        (float("inf"), "finite"),
        (float("nan"), "finite"),
    ):
        with pytest.raises(UnreadableTextError, match=why):
            read_event({**PLAIN, "entered": {"values": {"n": bad}}})


def test_other_keys_are_told_in_letters_that_can_be_sent() -> None:
    with pytest.raises(UnreadableTextError) as raised:
        read_event({**PLAIN, "\ud800": 1, "x" * 5000: 2})
    assert len(str(raised.value).encode()) < 500
