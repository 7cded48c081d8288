"""One deed, where it stands in the method, and the crane before it: what a question is made from.

In:    a scene, the state of the crane, a deed, its printed number.
Out:   a frozen record; words that several questions share.
Never: questions.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import degrees

from becket.book.boom import Anchor
from becket.book.crane import Book
from becket.guide.script import Field
from becket.method.crane_state import CraneState, Deed
from becket.method.position import BoomPosition
from becket.method.scene import Scene


@dataclass(frozen=True, kw_only=True)
class Asked:
    """One deed of a method."""

    scene: Scene
    state: CraneState  # before the deed
    deed: Deed
    number: int  # of the step, as printed

    @property
    def position(self) -> BoomPosition:
        """The position that the method lays the boom down in [-]."""
        position = self.scene.facts.position.position
        if position is None:
            raise LookupError("a scene has a position")
        return position

    @property
    def touch_tolerance(self) -> float:
        """How far an angle that is foretold may be from the one read [deg]."""
        return round(degrees(self.scene.settings.touch_tolerance), 2)


Ask = Callable[[Asked], tuple[Field, ...]]


def seen(what: str, wrong: tuple[str, ...]) -> tuple[Field, ...]:
    """Return the field of a look: good, or what is wrong, which stops the change [-].

    Args:
        what: is looked at
        wrong: what can be wrong with it
    """
    stops = (*wrong, "something else")
    return (
        Field(
            name="seen",
            kind="choice",
            prompt=what,
            choices=("good", *stops),
            stops=stops,
            wrong="You saw: {value}. Nobody goes on until it is mended. Then look again, and enter again.",
        ),
    )


def dead_end_places(book: Book) -> tuple[str, ...]:
    """Return every place where a dead end can be on this crane: anchors of the head, then the block [-].

    Args:
        book: the crane
    """
    anchors: dict[str, Anchor] = dict(book.head.anchors)
    return (*(f"head {name}" for name in anchors), "block")


def sheave_keys(book: Book, place: str, block: str) -> tuple[int, ...]:
    """Return every sheave that the book has at a place: the keys of the pad [-].

    Args:
        book: the crane
        place: "head" or "block"
        block: whose sheaves; "": those of any block on file
    """
    if place == "head":
        return tuple(sorted(book.head.sheaves))
    blocks = [book.blocks[block]] if block else list(book.blocks.values())
    return tuple(sorted({sheave for one in blocks for sheave in one.sheaves}))
