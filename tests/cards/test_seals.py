"""One word for two patterns."""

from __future__ import annotations

from becket.cards.seals import joint_seal
from tests.crane import invented_book


def test_order_and_a_missing_pattern_make_another_word() -> None:
    book = invented_book()
    a, b = book.patterns[:2]
    words = {joint_seal(book, pair) for pair in ((a, b), (b, a), (a, a), (None, a), (a, None))}
    assert len(words) == 5
    assert all(len(word) == 16 and int(word, 16) >= 0 for word in words)
    assert joint_seal(book, (a, b)) == joint_seal(invented_book(), (a, b))
