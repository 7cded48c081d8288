"""The explicit state of the crane."""

from __future__ import annotations

from dataclasses import FrozenInstanceError, fields

import pytest

from becket.method.crane_state import CraneState, Deed

STATE = CraneState(hanging="main", path=(), dead_end="head b", weight_line="dead-end fall")


def test_it_begins_with_nothing_settled_and_nothing_proved() -> None:
    assert (STATE.area, STATE.length_set, STATE.hook_set) == (False, False, False)
    assert (STATE.switch, STATE.indicator, STATE.winch, STATE.block) == ("unproved", "old", "free", "hangs")
    assert (STATE.keepers_out, STATE.clips_out, STATE.done) == (frozenset(), frozenset(), frozenset())


def test_it_cannot_be_changed_and_can_be_hashed() -> None:
    for field in fields(STATE):
        with pytest.raises(FrozenInstanceError):
            setattr(STATE, field.name, "other")
    assert len({STATE, STATE.with_done(Deed(kind="steady"))}) == 2


def test_a_deed_on_the_record_stays_there_with_what_it_was_done_to() -> None:
    one = STATE.with_done(Deed(kind="thread", of="head 3"))
    two = one.with_done(Deed(kind="steady"))
    assert not STATE.has_done("thread", "head 3")
    assert two.has_done("thread", "head 3")
    assert not two.has_done("thread", "head 4")
    assert not two.has_done("thread")
    assert two.has_done("steady")


def test_a_deed_reads_as_its_kind_and_what_it_is_done_to() -> None:
    assert str(Deed(kind="thread", of="head 3")) == "thread head 3"
    assert str(Deed(kind="steady")) == "steady"
