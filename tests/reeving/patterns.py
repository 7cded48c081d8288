"""Random cranes with one random pattern, for invariants.

In:    Hypothesis.
Out:   a book and a pattern that makes its falls.
Never: the code under test.
"""

from __future__ import annotations

from dataclasses import replace

from hypothesis import strategies as st

from becket.book.boom import Anchor
from becket.book.crane import Book
from becket.book.tackle import Confirmed, Pass, Pattern, Typed
from tests.crane import invented_book

SIDES = st.integers(-400, 400).map(lambda mm: mm / 1000)


@st.composite
def books_with_pattern(draw: st.DrawFn, most_falls: int = 10) -> tuple[Book, Pattern]:
    """Return a crane whose one pattern alternates, uses each sheave once and ends on the right side."""
    falls = draw(st.integers(1, most_falls))
    heads, lows = (falls + 1) // 2, falls // 2
    head_numbers = draw(st.lists(st.integers(1, 12), min_size=heads, max_size=heads, unique=True))
    block_numbers = draw(st.lists(st.integers(1, 12), min_size=lows, max_size=lows, unique=True))
    path = [
        Pass(place="block" if i % 2 else "head", sheave=(block_numbers if i % 2 else head_numbers)[i // 2])
        for i in range(falls)
    ]
    book = invented_book()
    anchor = Anchor(side=draw(SIDES), along=draw(SIDES), below=0.15)
    block = replace(
        book.blocks["main"],
        sheaves={n: draw(SIDES) for n in block_numbers},
        becket=Anchor(side=draw(SIDES), along=draw(SIDES), below=-0.2),
    )
    pattern = Pattern(
        block="main",
        falls=falls,
        path=tuple(path),
        dead_end="block" if falls % 2 else "head z",
        page="1-1",
        typed=Typed(by="AB", date="2025-01-01"),
        confirmed=Confirmed(by="CD", date="2025-01-02", seal=None),
        picture=None,
    )
    head = replace(book.head, sheaves={n: draw(SIDES) for n in head_numbers}, anchors={"z": anchor})
    return replace(book, head=head, blocks={"main": block}, patterns=(pattern,)), pattern
