"""The words of a drawing: from where it is seen, what solid and dashes mean, the path.

In:    a crane book, a pattern, a view.
Out:   sentences.
Never: places, shapes.
"""

from __future__ import annotations

from becket.book.crane import Book
from becket.book.tackle import Pattern
from becket.drawing.layout import Layout
from becket.drawing.legs import side_of_fall
from becket.reeving.words import dead_end_anchor

SIDE_UNKNOWN = "Side not in the book."


def seen_from(view: str) -> str:
    """Return from where a front view is seen [-].

    Args:
        view: "cab" or "rigger"

    >>> seen_from("rigger")
    'You face the cab'
    """
    return "Seen from the cab" if view == "cab" else "You face the cab"


def dead_end_words(pattern: Pattern, view: str) -> str:
    """Return the place of the dead end in words; whose left it is, where one faces the cab [-].

    Args:
        pattern: of the book
        view: "cab" or "rigger"
    """
    name = dead_end_anchor(pattern.dead_end)
    if name is None:
        return "block"
    return f"head, cab\u2019s {name}" if view == "rigger" and name.lower() in ("left", "right") else f"head, {name}"


def legend_lines(layout: Layout) -> tuple[str, ...]:
    """Return the lines under a front view [-].

    Args:
        layout: with book, pattern and view
    """
    facing, behind = ("cab", "tip") if layout.view == "cab" else ("tip", "cab")
    sides = SIDE_UNKNOWN if side_of_fall(layout.book, 1) is None else f"Solid: {facing} side. Dashes: {behind} side."
    end = f"Dead end: {dead_end_words(layout.pattern, layout.view)}."
    return (sides, end) if layout.is_to_scale else (sides, end, "Sideways not to scale.")


def describe_path(book: Book, pattern: Pattern, view: str) -> str:
    """Return the rope in words, from the drum to the dead end [-].

    Args:
        book: the crane
        pattern: of the book
        view: "cab" or "rigger"
    """
    parts = ["Rope from the drum"]
    for i, one in enumerate(pattern.path, start=1):
        over = "over" if one.place == "head" else "under"
        side = side_of_fall(book, i)
        where = f", {side} side" if side else ""
        parts.append(f"{over} {one}, fall {i} {'down' if i % 2 else 'up'}{where}")
    keepers = [k.name for k in book.keepers if k.at != "block" or k.block == pattern.block]
    ends = [f"Dead end: {dead_end_words(pattern, view)}."]
    if side_of_fall(book, 1) is None:
        ends.append(SIDE_UNKNOWN)
    ends.append(f"Keepers: {', '.join(keepers)}." if keepers else "No keepers on file.")
    return f"{'; '.join(parts)}. {' '.join(ends)}"
