"""Limit of the maker's falls table."""

from __future__ import annotations

from dataclasses import replace

import pytest

from becket.book.charts import Stowed
from becket.book.crane import Book
from becket.book.hoist import SecondLine
from becket.verdict import Verdict
from tests.crane import invented_book
from tests.limits.asking import limit


def _table(book: Book | None = None, **changes: object) -> Book:
    book = book or invented_book()
    assert book.falls_table is not None
    return replace(book, falls_table=replace(book.falls_table, **changes))  # type: ignore[arg-type]


def test_within_the_printed_figure_it_passes() -> None:
    found = limit("makers_table")
    assert (found.verdict, found.need, found.have) == (Verdict.PASS, 8500 + 200 + 480, 16_900)
    assert found.why == (
        "The maker's falls table gives 16.90 t for 4 falls; counted as it counts 9.18 t hang. Worst place: lowest "
        "hook, steepest boom."
    )


def test_over_it_it_fails() -> None:
    assert limit("makers_table", load=16_221.0).verdict is Verdict.FAIL
    assert limit("makers_table", load=16_220.0).verdict is Verdict.PASS


def test_it_is_never_read_across() -> None:
    found = limit("makers_table", 3, _table(loads={2: 8600.0, 4: 16_900.0}))
    assert found.verdict is Verdict.FAIL
    assert found.why == "3 falls: not in the maker's table; printed are 2, 4. It is never read across."


def test_a_manual_that_prints_none_passes() -> None:
    found = limit("makers_table", 3, _table(printed=False, loads={}))
    assert found.verdict is Verdict.PASS
    assert found.why == "The book says that the manual prints no falls table."


@pytest.mark.parametrize(
    ("counts", "counted"),
    [
        (("load",), 8500.0),
        (("load", "rigging"), 8700.0),
        (("load", "rigging", "block"), 9180.0),
        (("load", "block"), 8980.0),
    ],
)
def test_it_is_compared_with_what_it_counts(counts: tuple[str, ...], counted: float) -> None:
    assert limit("makers_table", book=_table(counts=counts)).need == pytest.approx(counted)


def test_a_table_that_does_not_say_counts_everything() -> None:
    said = limit("makers_table", book=_table(counts=("load", "rigging", "block", "rope"))).need
    assert said is not None
    assert said > 9180
    assert limit("makers_table", book=_table(counts=None)).need == pytest.approx(said)


def test_what_hangs_beside_counts_always() -> None:
    book = invented_book(
        second_line=SecondLine(hangs="ball", mass=210.0), stowed=(Stowed(name="extension", deduct={17.0: 350.0}),)
    )
    assert limit("makers_table", book=book).need == pytest.approx(9180 + 210 + 350)
