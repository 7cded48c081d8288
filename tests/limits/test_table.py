"""The falls table of a lift."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from becket.book.tackle import State
from becket.errors import NotOnFileError
from becket.limits.answer import FallsAnswer, Limit
from becket.limits.table import falls_table, governing, most_falls, row_of
from becket.verdict import Verdict, worst
from tests.crane import invented_book, invented_lift, invented_settings
from tests.limits.asking import row, without_pattern


def _table(block: str = "main", **lift: Any) -> FallsAnswer:
    return falls_table(invented_book(), invented_settings(), block, invented_lift(**lift))


def test_the_fewest_falls_of_which_every_limit_passes_are_recommended() -> None:
    answer = _table()
    assert answer.recommended == 3
    assert answer.unproven is None
    assert answer.rows[2].verdict is Verdict.PASS
    assert all(limit.verdict is Verdict.PASS for limit in answer.rows[2].limits)
    assert [one.verdict for one in answer.rows[:2]] == [Verdict.FAIL, Verdict.FAIL]


def test_where_nothing_passes_the_fewest_that_do_not_fail_are_unproven() -> None:
    book = without_pattern(without_pattern(invented_book(), 3), 4)
    book = replace(book, patterns=tuple(p for p in book.patterns if p.falls != 6))
    answer = falls_table(book, invented_settings(), "main", invented_lift())
    assert (answer.recommended, answer.unproven) == (None, 3)


def test_unknown_is_never_recommended() -> None:
    answer = falls_table(replace(invented_book(), stowed=None), invented_settings(), "main", invented_lift())
    assert answer.recommended is None
    assert answer.unproven == 3


def test_a_lift_that_nothing_can_do_has_neither() -> None:
    answer = _table(load=30_000.0)
    assert (answer.recommended, answer.unproven) == (None, None)


def test_rows_go_to_the_most_that_head_and_block_can_carry() -> None:
    book = invented_book()
    assert [len(_table(block).rows) for block in ("main", "light", "ball")] == [11, 3, 1]
    short_head = replace(book, head=replace(book.head, sheaves={1: 0.0, 2: 0.1}))
    assert most_falls(short_head, book.blocks["main"]) == 4


def test_a_row_alone_is_the_row_of_the_table() -> None:
    for found in _table().rows:
        assert row(found.falls) == found


def test_a_row_beyond_head_and_block_can_be_asked() -> None:
    found = row(13)
    assert found.verdict is Verdict.FAIL
    assert found.limit("block_sheaves").verdict is Verdict.FAIL
    assert found.limit("head_sheaves").verdict is Verdict.FAIL


def test_the_verdict_of_a_row_is_the_worst_of_its_limits() -> None:
    for found in _table().rows:
        assert found.verdict is worst(limit.verdict for limit in found.limits)
        assert found.limit(found.governs).verdict is found.verdict


def _limit(name: str, verdict: Verdict, use: float | None) -> Limit:
    return Limit(name=name, verdict=verdict, use=use, have=None, need=None, unit="", where="", why="")


@pytest.mark.parametrize(
    ("limits", "name"),
    [
        ((("a", Verdict.PASS, 0.99), ("b", Verdict.PASS, 0.5)), "a"),
        ((("a", Verdict.PASS, 0.99), ("b", Verdict.UNKNOWN, 0.5)), "b"),
        ((("a", Verdict.UNKNOWN, 0.99), ("b", Verdict.FAIL, None)), "b"),
        ((("a", Verdict.FAIL, None), ("b", Verdict.FAIL, 1.2), ("c", Verdict.FAIL, 1.5)), "c"),
        ((("a", Verdict.UNKNOWN, None), ("b", Verdict.UNKNOWN, None)), "a"),
    ],
)
def test_the_governing_limit(limits: tuple[tuple[str, Verdict, float | None], ...], name: str) -> None:
    assert governing([_limit(*one) for one in limits]).name == name


def test_each_further_fall_costs_speed_and_rope() -> None:
    answer = _table()
    assert [one.falls for one in answer.further] == list(range(2, 12))
    two, three = answer.rows[1:3]
    further = answer.further[1]
    assert two.hook_speed is not None
    assert three.hook_speed is not None
    assert two.rope_needed is not None
    assert three.rope_needed is not None
    assert further.hook_speed_less == pytest.approx(two.hook_speed - three.hook_speed)
    assert further.rope_more == pytest.approx(three.rope_needed - two.rope_needed)
    assert further.text == "From 2 to 3 falls costs 20.8 m/min of hook speed and 18.1 m more rope."


def test_an_unknown_cost_says_so() -> None:
    book = invented_book()
    book = replace(book, rope=replace(book.rope, length=None), dead_end=replace(book.dead_end, tail=None))
    further = falls_table(book, invented_settings(), "main", invented_lift()).further[0]
    assert (further.hook_speed_less, further.rope_more) == (None, None)
    assert further.text == (
        "From 1 to 2 falls costs an unknown loss of hook speed and an unknown length of rope."
    )  # fmt: skip


def test_hook_speed_is_the_slower_layers_over_the_falls() -> None:
    found = row(4)
    assert found.layer == 4
    assert found.hook_speed == pytest.approx(1.72 / 4)  # layer 3 at the lowest hook


def test_more_falls_never_raise_the_share_of_the_lead_line_without_friction() -> None:
    book = replace(invented_book(), sheave_efficiency=1.0)
    pulls = [one.lead_line_pull for one in falls_table(book, invented_settings(), "main", invented_lift()).rows]
    known = [pull for pull in pulls if pull is not None]
    assert len(known) == len(pulls)
    assert known == sorted(known, reverse=True)


def test_a_block_that_the_book_does_not_have() -> None:
    with pytest.raises(NotOnFileError) as caught:
        _table("heavy")
    assert str(caught.value) == "block: heavy is not in the book of Tallow 40; blocks on file: ball, light, main"
    with pytest.raises(NotOnFileError):
        row_of(
            invented_book(),
            invented_settings(),
            State(block="x", falls=4),
            invented_lift(),
        )


def test_nothing_in_the_answer_is_infinite_or_not_a_number() -> None:
    for found in _table().rows:
        numbers = [found.hook_speed, found.lead_line_pull, found.rope_needed, found.wraps_left]
        numbers += [number for limit in found.limits for number in (limit.use, limit.have, limit.need)]
        assert all(number is None or abs(number) < 1e9 for number in numbers)
