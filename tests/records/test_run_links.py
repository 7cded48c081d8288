"""Events of one record against their links: what was changed by hand is found without reading the whole chain."""

from __future__ import annotations

import pytest

from becket.records.run_links import first_broken_link
from becket.records.store import Store
from tests.records.test_verify import full, moved, tamper

__all__ = ["full"]
CHANGED = "UPDATE events SET body = replace(body, 'tick', 'tock') WHERE number = {}"
HASHED = "UPDATE events SET hash = '{}' WHERE number = {}"


def test_untouched_events_fit(full: Store) -> None:
    count = full.head().number
    assert first_broken_link(full.database, range(1, count + 1)) is None
    assert first_broken_link(full.database, []) is None
    assert first_broken_link(full.database, [1, count]) is None


@pytest.mark.parametrize(
    ("statements", "number"),
    [
        ([CHANGED.format(5)], 5),
        (["UPDATE events SET received = '2001-01-01T00:00:00+00:00' WHERE number = 5"], 5),
        (["DELETE FROM events WHERE number = 4"], 5),
        (["DELETE FROM events WHERE number = 5"], 5),
        ([HASHED.format("0" * 64, 5)], 5),
        ([moved(5, 9001), moved(6, 5), moved(9001, 6)], 5),
        (["UPDATE events SET before = hash WHERE number = 6"], 5),
    ],
    ids=["text", "time", "before gone", "gone", "hash", "swapped", "after"],
)
def test_what_was_done_by_hand_is_found(full: Store, statements: list[str], number: int) -> None:
    tamper(full, *statements)
    assert first_broken_link(full.database, [5, 6]) == number


def test_an_event_that_is_far_from_the_break_fits(full: Store) -> None:
    """The record of another run says nothing of this one; the whole chain is verify's."""
    tamper(full, CHANGED.format(2))
    assert first_broken_link(full.database, [5, 6]) is None
    assert first_broken_link(full.database, [2]) == 2
