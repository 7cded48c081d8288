"""Options say what stands there and what would be right."""

from __future__ import annotations

import contextlib

import click
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from becket.book.tackle import State
from becket.cli.options import Quantity, Range, StateText


def test_texts_become_si() -> None:
    assert Quantity("mass").convert("14.6 t", None, None) == pytest.approx(14600)
    assert Range("length").convert("6 m to 8 m", None, None) == (6.0, 8.0)
    assert Range("length").convert("6 m", None, None) == (6.0, 6.0)
    assert StateText().convert("main:4", None, None) == State(block="main", falls=4)


@pytest.mark.parametrize(
    ("kind", "text"),
    [(Quantity("mass"), "17 ton"), (Quantity("mass"), "17"), (Range("length"), "6 to 8"), (StateText(), "main4")],
)
def test_what_cannot_be_read_is_told_beside_the_option(kind: Quantity | Range | StateText, text: str) -> None:
    with pytest.raises(click.BadParameter) as error:
        kind.convert(text, None, None)
    assert text.split()[0] in error.value.message
    assert ";" in error.value.message


@settings(derandomize=True, deadline=None, max_examples=200)
@given(st.text(max_size=40))
def test_any_text_is_read_or_refused_never_a_crash(text: str) -> None:
    for kind in (Quantity("mass"), Quantity("angle"), Range("length"), StateText()):
        with contextlib.suppress(click.BadParameter):
            assert kind.convert(text, None, None) is not None
