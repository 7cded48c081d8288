"""The short answer is the falls table in one line, worked out in full or as far as it needs."""

from __future__ import annotations

from dataclasses import replace
from random import Random

from becket.limits.answer import Limit
from becket.limits.registry import LIMITS
from becket.limits.table import falls_table
from becket.pack.short_answer import NONE, RIG, UNPROVEN, ShortAnswer, short_answer, short_of
from becket.verdict import Verdict
from tests.crane import invented_book, invented_lift, invented_settings

SETTINGS = invented_settings()


def test_recommended_with_what_stops_one_fewer() -> None:
    table = falls_table(invented_book(), SETTINGS, "main", invented_lift())
    answer = short_of(table)
    assert (answer.kind, answer.falls) == (RIG, table.recommended)
    assert answer.falls is not None
    fewer = {limit.name: limit.verdict for limit in table.rows[answer.falls - 2].limits}
    assert answer.fails == tuple(name for name in LIMITS if fewer[name] is Verdict.FAIL)
    assert answer.unknown == tuple(name for name in LIMITS if fewer[name] is Verdict.UNKNOWN)
    assert "lead_line_pull" in answer.fails


def test_one_fall_has_none_fewer() -> None:
    lift = invented_lift(load=500.0)
    assert short_answer(invented_book(), SETTINGS, "ball", lift) == ShortAnswer(RIG, 1)


def test_unproven_names_what_is_unknown() -> None:
    book = replace(invented_book(), rope=replace(invented_book().rope, torque_factor=None))
    answer = short_answer(book, SETTINGS, "main", invented_lift())
    assert (answer.kind, answer.falls, answer.unknown) == (UNPROVEN, 3, ("twist",))


def test_none_names_what_fails_with_every_number_of_falls() -> None:
    answer = short_answer(invented_book(), SETTINGS, "main", invented_lift(load=20_000.0))
    assert (answer.kind, answer.falls, answer.unknown) == (NONE, None, ())
    assert answer.fails == ("chart",)


def test_the_short_way_is_the_long_way() -> None:
    random, books = Random(3), [invented_book()]
    books.append(replace(books[0], rope=replace(books[0].rope, torque_factor=None, length=90.0)))
    books.append(replace(books[0], sheave_efficiency=None))
    books.append(replace(books[0], patterns=()))
    for number in range(160):
        lift = invented_lift(
            load=random.uniform(0, 26_000),
            boom=random.choice((9.8, 17.0, 24.2, 30.8, 31.4)),
            radius=(random.uniform(2, 6), random.uniform(6, 14)),
            top=random.uniform(0, 14),
            bottom=random.uniform(-12, 0),
        )
        book, block = books[number % 4], random.choice(("main", "light", "ball"))
        assert short_answer(book, SETTINGS, block, lift) == short_of(falls_table(book, SETTINGS, block, lift))


def test_rows_that_fail_for_different_reasons_name_none() -> None:
    table = falls_table(invented_book(), SETTINGS, "light", invented_lift(load=900.0))
    assert len(table.rows) >= 2

    def failing(limit: Limit, name: str) -> Limit:
        return limit._replace(verdict=Verdict.FAIL if limit.name == name else Verdict.PASS)

    names = ("wraps", "chart", "twist")
    rows = tuple(
        replace(row, verdict=Verdict.FAIL, limits=tuple(failing(limit, name) for limit in row.limits))
        for row, name in zip(table.rows, names, strict=False)
    )
    answer = short_of(replace(table, recommended=None, unproven=None, rows=rows))
    assert answer == ShortAnswer(NONE, None)
