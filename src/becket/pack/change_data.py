"""Every change between two states on file, at every set-up that the book permits re-reeving in.

In:    a book, settings, units.
Out:   plain lists and texts for JSON, every sentence once.
Never: a change without its verdict.
"""

from __future__ import annotations

from itertools import permutations

from becket.book.crane import Book
from becket.book.tackle import State
from becket.cards.falls_grid import Progress
from becket.figures import shown
from becket.method.change import work_out_change
from becket.method.site import Site
from becket.pack.change_page import change_lines
from becket.pack.strings import Numbered
from becket.settings.values import Settings


def change_data(book: Book, settings: Settings, system: str, progress: Progress) -> dict[str, object]:
    """Return every change of a crane [-].

    Args:
        book: the crane
        settings: in force
        system: "metric" or "us"
        progress: is told after each change
    """
    sites, pairs = sites_of(book), list(permutations(states_of(book), 2))
    strings, lines, pages = Numbered(), Numbered(), Numbered()
    changes: list[list[object]] = []
    for number, (before, after) in enumerate(pairs, 1):
        for site in sites:
            change = work_out_change(book, settings, before, after, site)
            page = tuple(
                lines.number_of(tuple(strings.number_of(text) for text in line))
                for line in change_lines(change, system)
            )
            set_up = strings.number_of(_set_up(site, system))
            changes.append([str(before), str(after), set_up, str(change.verdict), pages.number_of(page)])
        progress(number, len(pairs))
    return {"strings": strings.every, "lines": lines.every, "pages": pages.every, "changes": changes}


def states_of(book: Book) -> tuple[State, ...]:
    """Return the states that the book has a pattern for, each once, sorted [-].

    Args:
        book: the crane
    """
    return tuple(sorted({pattern.state for pattern in book.patterns}))


def sites_of(book: Book) -> tuple[Site, ...]:
    """Return each counterweight and outriggers for which the book permits re-reeving; none: one that says neither.

    Args:
        book: the crane
    """
    set_ups = dict.fromkeys((row.counterweight, row.outriggers) for row in book.rereeve)
    return tuple(Site(counterweight=weight, outriggers=name) for weight, name in set_ups) or (Site(),)


def _set_up(site: Site, system: str) -> str:
    if site.counterweight is None:
        return "No permitted position on file"
    return f"counterweight {shown(site.counterweight, 'mass', system)}, outriggers {site.outriggers}"
