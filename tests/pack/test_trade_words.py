"""Every word of the table is found by what else is heard for it."""

from __future__ import annotations

from becket.pack.trade_words import TradeWord, trade_words


def test_no_word_stands_twice_and_each_says_what_it_means() -> None:
    words = [one.word for one in trade_words()]
    assert len(words) == len(set(words)) > 20
    assert all(one.means for one in trade_words())


def test_a_word_is_found_by_what_is_heard_for_it() -> None:
    names = {one.word: one.names for one in trade_words()}
    assert names["fall"] == ("fall", "part of line", "part")
    assert names["derrick"] == ("derrick", "luff", "lower")
    assert names["rope"] == ("rope", "cable")
    assert names["reeve, unreeve, re-reeve"] == ("reeve", "unreeve", "re-reeve")


def test_words_that_are_not_names_stay_out() -> None:
    word = TradeWord(word="a, b", means="c", also_heard='d; never "E f" alone')
    assert word.names == ("a", "b", "d", "e f")
