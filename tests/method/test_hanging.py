"""What hangs under the head."""

from dataclasses import replace
from math import pi
from typing import Any

import pytest

from becket.book.tackle import State
from becket.errors import NotOnFileError
from becket.method.hanging import hanging_of, missing_figures
from tests.method.golden_crane import golden_book


def test_rope_on_the_sheaves() -> None:
    """Four falls: two half turns on the block, one on the head behind the first."""
    hanging = hanging_of(golden_book(), State(block="main", falls=4))
    assert hanging.arcs == pytest.approx(3 * pi * 0.19)


def test_one_fall_needs_no_sheave() -> None:
    assert missing_figures(golden_book(), State(block="ball", falls=1)) == ()
    assert hanging_of(golden_book(), State(block="ball", falls=1)).arcs == 0.0


@pytest.mark.parametrize("field", ["touches", "stands", "clear", "mass", "sheave_diameter"])
def test_a_missing_figure_is_named_and_never_replaced(field: str) -> None:
    book = golden_book()
    changes: dict[str, Any] = {field: None}
    main = replace(book.blocks["main"], **changes)
    book = replace(book, blocks={**book.blocks, "main": main})
    state = State(block="main", falls=4)
    assert missing_figures(book, state) == (f"blocks.main.{field}",)
    with pytest.raises(
        NotOnFileError, match=rf"^blocks.main.{field}: not on file; see the manual's pages on hook blocks"
    ):
        hanging_of(book, state)


def test_a_block_that_is_not_in_the_book() -> None:
    with pytest.raises(NotOnFileError, match=r"^block big: not in the book of Larch 55; blocks on file: ball, main$"):
        missing_figures(golden_book(), State(block="big", falls=4))
