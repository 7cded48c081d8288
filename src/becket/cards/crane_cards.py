"""All cards of a crane in one document, with a contents page.

In:    a crane book, settings, the changes that were worked out.
Out:   one PDF.
Never: a card for a state that is not on file.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from becket.book.crane import Book
from becket.cards.change_sheet import change_sheets
from becket.cards.count_slip import count_sheet
from becket.cards.falls_card import falls_sheet
from becket.cards.falls_grid import Progress, states_with_patterns
from becket.cards.pattern_card import pattern_sheet
from becket.cards.sheet import Sheet
from becket.cards.typesetting import typeset
from becket.cards.window_card import window_sheet
from becket.method.change import Change
from becket.settings.values import Settings


def book_of_cards(
    book: Book,
    settings: Settings,
    *,
    printed: str,
    system: str = "metric",
    changes: Iterable[Change] = (),
    left_out: Sequence[str] = (),
    progress: Progress | None = None,
) -> bytes:
    """Return all cards of a crane as one PDF with a contents page [-].

    Args:
        book: the crane
        settings: in force
        printed: date, as 2026-11-30
        system: "metric" or "us"
        changes: of which a sheet is wanted
        left_out: changes of which the contents page says that they do not pass
        progress: told after every row of a falls card that is worked out
    """
    sheets = crane_sheets(book, settings, printed=printed, system=system, changes=changes, progress=progress)
    title = f"{book.crane}: all cards"
    return typeset(sheets, title=title, printed=printed, with_contents=True, left_out=left_out)


def crane_sheets(
    book: Book,
    settings: Settings,
    *,
    printed: str,
    system: str = "metric",
    changes: Iterable[Change] = (),
    progress: Progress | None = None,
) -> tuple[Sheet, ...]:
    """Return all cards of a crane before they are set in type: patterns, falls, window, changes, count slip [-].

    Args:
        book: the crane
        settings: in force
        printed: date, as 2026-11-30
        system: "metric" or "us"
        changes: of which a sheet is wanted
        progress: told after every row of a falls card that is worked out
    """
    patterns = sorted(book.patterns, key=lambda one: one.state)
    blocks = [name for name in book.blocks if states_with_patterns(book, name)]
    sheets = [pattern_sheet(book, settings, one, printed=printed, system=system) for one in patterns]
    if book.charts:
        sheets += [
            falls_sheet(book, settings, name, printed=printed, system=system, progress=progress) for name in blocks
        ]
    sheets += [window_sheet(book, settings, name, printed=printed, system=system) for name in blocks]
    for change in changes:
        sheets += change_sheets(book, change, printed=printed, system=system)
    return (*sheets, count_sheet())
