"""Every script can be gone through to its close by two people who enter what is right, whatever the lot."""

from __future__ import annotations

import pytest

from becket.guide.count_script import count_script
from becket.guide.run import fold_run
from tests.guide.changes import SETTINGS, every_change
from tests.guide.play import Play
from tests.guide.sample import demo_book

EVERY = every_change()


def test_every_change_closes() -> None:
    for one in EVERY:
        state = fold_run(one.script, Play(script=one.script, lot=5).whole().events)
        assert (state.status, state.missing) == ("closed", ()), (one.script.before, one.script.after, state.missing)
        assert state.result is not None


def test_a_change_with_a_keeper_left_out_does_not_close() -> None:
    for one in EVERY[::10]:
        if not one.script.keepers_out:
            continue
        play = Play(script=one.script).start()
        last = [item for item in one.script.items if item.group == "in at the block"][-1]
        play.upto(last.id)
        wrong = {field.name: int(str(field.want)) + 1 for field in last.fields}
        play.enter(last.id, wrong)
        state = fold_run(one.script, play.events)
        assert (state.status, state.screen) == ("open", "differ")


@pytest.mark.parametrize("name", ["hazel-70", "rowan-30"])
def test_every_state_on_file_can_be_counted(name: str) -> None:
    book = demo_book(name)
    script = count_script(book, SETTINGS, crane=name, fingerprint=book.fingerprint)
    for expected in script.expects:
        state = fold_run(script, Play(script=script, lot=3, state=expected.state).whole().events)
        assert state.status == "closed", (expected.state, state.missing)
        assert state.result is not None
