"""Words of a pattern as a card says them: falls, sides, keepers.

In:    a crane book and one of its patterns.
Out:   which way a fall goes; the keepers that hold the rope.
Never: a side that the book does not give.
"""

from __future__ import annotations

from becket.book.crane import Book
from becket.book.tackle import Keeper, Pass, Pattern
from becket.drawing.legs import side_of_fall
from becket.reeving.change import DEAD_END, keepers_of

NOT_IN_BOOK = "side not in the book"


def way_of_fall(book: Book, fall: int) -> str:
    """Return which way a fall goes from the pass that it leaves, and on which side of head or block [-].

    Args:
        book: the crane
        fall: 1 next to the drum
    """
    way = "down" if fall % 2 else "up"
    side = side_of_fall(book, fall)
    return f"{way}, {side} side" if side else f"{way}, {NOT_IN_BOOK}"


def keepers_that_hold(book: Book, pattern: Pattern) -> tuple[Keeper, ...]:
    """Return the keepers over the rope of a pattern, from the drum to the dead end, each once [-].

    Args:
        book: the crane
        pattern: of the book
    """
    places: tuple[Pass | str, ...] = (*pattern.path, DEAD_END)
    met = [keeper for one in places for keeper in keepers_of(book, one, pattern.block)]
    return tuple(dict.fromkeys(met))
