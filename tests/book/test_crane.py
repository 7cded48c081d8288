"""The records of a crane book and of a job sheet: what is typed stays as it is, each figure has its unit beside it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import MISSING, FrozenInstanceError, fields, is_dataclass, replace
from inspect import getsource
from types import ModuleType
from typing import Any

import pytest

from becket.book import boom, charts, crane, hoist, jobs, tackle
from becket.settings import values
from tests.crane import invented_book

MODULES: tuple[ModuleType, ...] = (boom, charts, crane, hoist, jobs, tackle, values)
FIELD_OF_FIGURES = re.compile(r"^    (\w+): [^#\n=]*\bfloat\b[^#\n]*(#.*)?$", re.MULTILINE)


def records() -> list[type[Any]]:
    """Return every record of the modules."""
    every = [one for module in MODULES for one in vars(module).values() if isinstance(one, type)]
    return list(dict.fromkeys(one for one in every if is_dataclass(one) and one.__module__.startswith("becket.")))


def inner(value: object) -> Iterator[object]:
    """Yield a record and every record in it."""
    if is_dataclass(value):
        yield value
        for one in fields(value):
            yield from inner(getattr(value, one.name))
    elif isinstance(value, tuple):
        for item in value:
            yield from inner(item)
    elif hasattr(value, "values"):
        for item in value.values():
            yield from inner(item)


@pytest.mark.parametrize("module", MODULES)
def test_every_figure_has_its_unit_beside_it(module: ModuleType) -> None:
    for name, comment in FIELD_OF_FIGURES.findall(getsource(module)):
        assert re.search(r"\[[^\]]+\]", comment), f"{module.__name__}: {name} {comment}"


def test_the_search_for_units_sees_the_figures() -> None:
    assert ("length", "") in FIELD_OF_FIGURES.findall("    length: float | None\n")
    assert sum(len(FIELD_OF_FIGURES.findall(getsource(module))) for module in MODULES) > 90


@pytest.mark.parametrize("record", records())
def test_records_are_made_by_keyword_and_stay_as_they_are(record: type[Any]) -> None:
    assert record.__dataclass_params__.frozen
    assert all(one.kw_only for one in fields(record))
    assert record.__bases__ == (object,)


def test_no_record_of_a_book_can_be_written_to() -> None:
    book = invented_book()
    seen = {type(one) for one in inner(book)}
    assert len(seen) > 15, seen
    for one in inner(book):
        name = fields(one)[0].name  # type: ignore[arg-type]
        with pytest.raises(FrozenInstanceError):
            setattr(one, name, None)


def test_a_book_with_one_figure_changed_is_another_book() -> None:
    book = invented_book()
    other = replace(book, rope=replace(book.rope, length=169.5))
    assert (book.rope.length, other.rope.length) == (170.0, 169.5)
    assert other != book
    assert replace(other, rope=book.rope) == book


def test_no_figure_has_a_default_but_those_of_a_lift_that_its_job_gives() -> None:
    with_default = {
        f"{record.__name__}.{one.name}" for record in records() for one in fields(record) if one.default is not MISSING
    }
    assert with_default == {
        "Lift.count",
        "Lift.sector",
        "Lift.code",
        "Lift.kind",
        "Lift.counterweight",
        "Lift.outriggers",
        "Rope.found_worn",  # the day on which somebody saw it; no day: nobody has
        "Rope.seen_turning",
        "Settings.rules",
    }
