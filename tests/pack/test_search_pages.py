"""Every pattern and change can be found, by names, passes, keepers and words of the trade."""

from __future__ import annotations

from itertools import permutations
from urllib.parse import unquote

from becket.pack.change_data import states_of
from becket.pack.search_pages import search_pages
from tests.crane import invented_book


def test_each_page_once_with_its_address() -> None:
    book = invented_book()
    pages = search_pages(book)
    states = [str(state) for state in states_of(book)]
    wanted = ["#falls", *(f"#pattern/{state}" for state in states)]
    wanted += [f"#change/{before}/{after}/0" for before, after in permutations(states, 2)]
    assert [unquote(address) for _, address, _ in pages] == wanted


def test_words_are_in_small_letters_and_name_what_is_there() -> None:
    pages = {title: words for title, _, words in search_pages(invented_book())}
    assert all(words == words.lower() for words in pages.values())
    assert "head bar" in pages["Pattern main:4"]
    assert "head 2 block 2 head 4 block 4" in pages["Pattern main:4"]
    assert "wedge socket" in pages["Pattern main:4"]
    assert "overhaul" in pages["Falls finder"]
    assert "block pin" in pages["Change main:2 to main:4"]
