"""What the search looks through: one entry for each page of the file.

In:    a crane book.
Out:   title, address in the file, the words by which it is found.
Never: a page that the file does not have.
"""

from __future__ import annotations

from itertools import permutations
from urllib.parse import quote

from becket.book.crane import Book
from becket.book.tackle import Pattern, State
from becket.cards.reeving_words import keepers_that_hold
from becket.limits.registry import LIMITS
from becket.limits.wording import falls_in_words
from becket.pack.change_data import states_of
from becket.reeving.change import path_change
from becket.reeving.pattern import PATTERN_CHECKS, find_pattern

SearchPage = tuple[str, str, str]
METHOD_WORDS = "change re-reeve reeve unreeve thread draw out position rope to leave switch weight counts pause"


def search_pages(book: Book) -> list[SearchPage]:
    """Return every page with the words by which it is found, in small letters [-].

    Args:
        book: the crane
    """
    limits = " ".join(LIMITS).replace("_", " ")
    finder = ("Falls finder", "#falls", f"falls finder load radius boom length height hook chart gross {limits}")
    states = states_of(book)
    patterns = [(state, find_pattern(book, state)) for state in states]
    return [
        finder,
        *(_pattern_page(book, pattern) for _, pattern in patterns if pattern is not None),
        *(_change_page(book, before, after) for before, after in permutations(states, 2)),
    ]


def _pattern_page(book: Book, pattern: Pattern) -> SearchPage:
    checks = " ".join(PATTERN_CHECKS).replace("_", " ")
    keepers = " ".join(f"{one.name} {one.lock or ''}" for one in keepers_that_hold(book, pattern))
    words = (
        f"pattern {pattern.state} {pattern.block} block {falls_in_words(pattern.falls)} fall "
        f"{' '.join(map(str, pattern.path))} sheave dead end {pattern.dead_end} page {pattern.page or ''} "
        f"keeper {keepers} {checks} {book.dead_end.fitting or ''}"
    )
    return f"Pattern {pattern.state}", f"#pattern/{_quoted(str(pattern.state))}", words.lower()


def _change_page(book: Book, before: State, after: State) -> SearchPage:
    old, new = find_pattern(book, before), find_pattern(book, after)
    keepers = " ".join(one.name for one in path_change(book, old, new).keepers) if old and new else ""
    words = f"{before} to {after} {before.block} {after.block} falls fall keeper {keepers} {METHOD_WORDS}"
    return f"Change {before} to {after}", f"#change/{_quoted(str(before))}/{_quoted(str(after))}/0", words.lower()


def _quoted(text: str) -> str:
    return quote(text, safe="")
