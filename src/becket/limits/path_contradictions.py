"""Contradictions among patterns, sheaves and keepers.

In:    a crane book.
Out:   contradictions.
Never: a figure that is missing: it contradicts nothing.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from itertools import pairwise

from becket.book.crane import Book
from becket.book.tackle import Pattern
from becket.limits.contradiction import Contradiction, number
from becket.reeving.change import keepers_of
from becket.reeving.counts import block_sheave_count, dead_end_side, head_sheave_count
from becket.reeving.places import is_alternating
from becket.reeving.seal import is_typist, seal_of
from becket.reeving.words import dead_end_anchor, path_words, shell_word

_LOOK = "look at the page again"


def sheave_used_twice(book: Book) -> Iterator[Contradiction]:
    """Yield patterns that pass a sheave twice."""
    for field, pattern in _patterns(book):
        twice = [str(one) for one, times in Counter(pattern.path).items() if times > 1]
        if twice:
            why = f"{pattern.state} passes {' and '.join(twice)} more than once; a groove takes one rope: {_LOOK}"
            yield Contradiction(name="sheave_used_twice", why=why, fields=(f"{field}.path",))


def path_against_falls(book: Book) -> Iterator[Contradiction]:
    """Yield patterns whose path does not make their falls."""
    for field, pattern in _patterns(book):
        fields = (f"{field}.path", f"{field}.falls")
        if not is_alternating(pattern.path):
            why = (
                f'{pattern.state}: "{path_words(pattern.path)}" does not go from head to block and back in turn, '
                f"beginning at the head: {_LOOK}"
            )
            yield Contradiction(name="path_against_falls", why=why, fields=fields)
        elif len(pattern.path) != pattern.falls:
            why = (
                f"{pattern.state}: {pattern.falls} falls go over {head_sheave_count(pattern.falls)} head and "
                f"{block_sheave_count(pattern.falls)} block sheaves; the path has {len(pattern.path)} passes: {_LOOK}"
            )
            yield Contradiction(name="path_against_falls", why=why, fields=fields)


def dead_end_against_falls(book: Book) -> Iterator[Contradiction]:
    """Yield patterns whose dead end is on the wrong side for their falls."""
    for field, pattern in _patterns(book):
        side, need = ("block" if dead_end_anchor(pattern.dead_end) is None else "head"), dead_end_side(pattern.falls)
        if side != need:
            why = (
                f'{pattern.state}: the dead end is "{pattern.dead_end}"; of {pattern.falls} falls it is at the {need}: '
                f"{_LOOK}"
            )
            yield Contradiction(name="dead_end_against_falls", why=why, fields=(f"{field}.dead_end", f"{field}.falls"))


def more_falls_than_sheaves(book: Book) -> Iterator[Contradiction]:
    """Yield patterns that ask for more sheaves than head or block has."""
    for field, pattern in _patterns(book):
        block = book.blocks.get(pattern.block)
        asked = [("head.sheaves", "the head", head_sheave_count(pattern.falls), len(book.head.sheaves))]
        if block is not None:
            asked.append(
                (
                    f"blocks.{block.name}.sheaves",
                    f"the block {block.name}",
                    block_sheave_count(pattern.falls),
                    len(block.sheaves),
                )
            )
        for other, who, need, have in asked:
            if have < need:
                why = f"{pattern.state} needs {need} sheaves; {who} has {have}: {_LOOK}"
                yield Contradiction(name="more_falls_than_sheaves", why=why, fields=(f"{field}.falls", other))


def two_patterns_for_one_state(book: Book) -> Iterator[Contradiction]:
    """Yield states that have two patterns."""
    first: dict[object, str] = {}
    for field, pattern in _patterns(book):
        earlier = first.setdefault(pattern.state, field)
        if earlier != field:
            why = f"two patterns for {pattern.state}; one of them is to be taken out, as the page of the manual says"
            yield Contradiction(name="two_patterns_for_one_state", why=why, fields=(earlier, field))


def seal_no_longer_matches(book: Book) -> Iterator[Contradiction]:
    """Yield confirmations that belong to other words than those that stand there now."""
    for field, pattern in _patterns(book):
        seal = pattern.confirmed
        if seal is None or seal.seal == seal_of(book, pattern) or is_typist(pattern, seal.by):
            continue
        what = f"the seal {seal.seal} is not that of the pattern as it stands" if seal.seal else "there is no seal"
        why = (
            f"{pattern.state}: {what}; NOT CONFIRMED AGAINST THE MANUAL until a second person reads the page again: "
            f"becket confirm BOOK {shell_word(pattern.state)}"
        )
        yield Contradiction(name="seal_no_longer_matches", why=why, fields=(f"{field}.confirmed", f"{field}.path"))


def confirmed_before_typed(book: Book) -> Iterator[Contradiction]:
    """Yield confirmations that are older than what they confirm."""
    for field, pattern in _patterns(book):
        typed, seal = pattern.typed, pattern.confirmed
        if typed is not None and seal is not None and seal.date < typed.date:
            why = f"{pattern.state} was confirmed on {seal.date}, before it was typed on {typed.date}"
            yield Contradiction(
                name="confirmed_before_typed", why=why, fields=(f"{field}.confirmed.date", f"{field}.typed.date")
            )


def sheaves_in_one_place(book: Book) -> Iterator[Contradiction]:
    """Yield sheaves that are nearer to each other than a rope is thick."""
    places: list[tuple[str, Mapping[int, float]]] = [("head.sheaves", book.head.sheaves)]
    places += [(f"blocks.{block.name}.sheaves", block.sheaves) for block in book.blocks.values()]
    for field, sheaves in places:
        ordered = sorted(sheaves.items(), key=lambda item: item[1])
        for (a, left), (b, right) in pairwise(ordered):
            if right - left < book.rope.diameter - 1e-9:
                why = (
                    f"sheaves {a} and {b} are {number(1000 * (right - left))} mm apart; "
                    f"the rope alone is {number(1000 * book.rope.diameter)} mm thick"
                )
                yield Contradiction(name="sheaves_in_one_place", why=why, fields=(f"{field}.{a}", f"{field}.{b}"))


def numbered_against_places(book: Book) -> Iterator[Contradiction]:
    """Yield a head whose sheaves are numbered from the side on which the last one is; plus is the cab's right."""
    words = (book.head.numbered or "").casefold()
    if "seen from the cab" not in words or ("from the left" in words) == ("from the right" in words):
        return
    first, last = book.head.sheaves[min(book.head.sheaves)], book.head.sheaves[max(book.head.sheaves)]
    is_right = "from the right" in words
    if (first > last) != is_right and first != last:
        why = (
            f'the head is numbered "{book.head.numbered}", and its first sheave stands to the '
            f"{'right' if first > last else 'left'} of its last; sideways, plus is to the right, seen from the cab"
        )
        yield Contradiction(name="numbered_against_places", why=why, fields=("head.numbered", "head.sheaves"))


def keeper_holds_nothing(book: Book) -> Iterator[Contradiction]:
    """Yield keepers at head or block that hold no sheave."""
    for index, keeper in enumerate(book.keepers):
        if keeper.at in ("head", "block") and not keeper.holds:
            why = f"{keeper.name} is at the {keeper.at} and holds no sheave; its sheave numbers are wanted"
            yield Contradiction(
                name="keeper_holds_nothing", why=why, fields=(f"keepers[{index}].holds", f"keepers[{index}].at")
            )


def keeper_of_no_pattern(book: Book) -> Iterator[Contradiction]:
    """Yield keepers that hold only sheaves over which no pattern goes."""
    for index, keeper in enumerate(book.keepers):
        if keeper.at not in ("head", "block") or not keeper.holds or not book.patterns:
            continue
        used = {
            one.sheave
            for pattern in book.patterns
            if keeper.at == "head" or pattern.block == keeper.block
            for one in pattern.path
            if one.place == keeper.at
        }
        if not used & set(keeper.holds):
            where = "the head" if keeper.at == "head" else f"the block {keeper.block}"
            why = f"{keeper.name} holds sheaves of {where} over which no pattern goes: look at its sheave numbers again"
            yield Contradiction(name="keeper_of_no_pattern", why=why, fields=(f"keepers[{index}].holds", "patterns"))


def pass_without_keeper(book: Book) -> Iterator[Contradiction]:
    """Yield patterns with a pass that no keeper holds; a book without keepers says nothing of them."""
    if not book.keepers:
        return
    for field, pattern in _patterns(book):
        bare = [str(one) for one in pattern.path if not keepers_of(book, one, pattern.block)]
        if bare:
            why = f"{pattern.state}: no keeper holds the rope at {' and '.join(dict.fromkeys(bare))}; {_LOOK}"
            yield Contradiction(name="pass_without_keeper", why=why, fields=(f"{field}.path", "keepers"))


def _patterns(book: Book) -> Iterator[tuple[str, Pattern]]:
    for index, pattern in enumerate(book.patterns):
        yield f"patterns[{index}]", pattern
