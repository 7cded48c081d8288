"""Random tackles of an invented crane, and what must hold of every picture, measured by shapely.

In:    falls, numbering, places, keepers, lead.
Out:   books with one pattern; faults of a picture as sentences.
Never: the project's own geometry: distances and overlaps are shapely's.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from itertools import combinations

from hypothesis import strategies as st
from shapely.geometry import LineString, Point, Polygon, box

from becket.book.boom import Anchor
from becket.book.crane import Book
from becket.book.tackle import Keeper, Pass, Pattern
from becket.drawing import picture as records
from tests.crane import invented_book

LONG_NAME = "Hauptunterflasche für Schwerlast Ελλάδα Подвеска 40 т WWWMMM"  # 60 characters, three scripts


@dataclass(frozen=True, kw_only=True)
class Tackle:
    """A book with one pattern."""

    book: Book = field(repr=False)
    pattern: Pattern


def tackle(
    falls: int,
    *,
    head: tuple[int, ...] | None = None,
    block: tuple[int, ...] | None = None,
    spare: int = 0,
    first: int = 1,
    from_right: bool = False,
    anchor: float | None = None,
    becket: float = 0.0,
    has_keepers: bool = True,
    lead: str | None = "over",
    name: str = "main",
    pitch: float = 0.11,
) -> Tackle:
    """Return a tackle of a number of falls; ``head`` and ``block`` say in which order the sheaves are used [-]."""
    base = invented_book()
    head_row = _row((falls + 1) // 2 + spare, first, from_right, pitch)
    block_row = _row(falls // 2 + spare if falls > 1 else 0, first, from_right, pitch)
    heads = [sorted(head_row)[i] for i in head or range((falls + 1) // 2)]
    blocks = [sorted(block_row)[i] for i in block or range(falls // 2)]
    path = tuple(
        Pass(place="block", sheave=blocks[i // 2]) if i % 2 else Pass(place="head", sheave=heads[i // 2])
        for i in range(falls)
    )
    side = anchor if anchor is not None else max(head_row.values()) + pitch / 2
    anchors = {"right": Anchor(side=side, along=-0.09, below=0.15)}
    one = replace(base.blocks["main"], name=name, sheaves=block_row, becket=Anchor(side=becket, along=0.0, below=-0.2))
    pattern = Pattern(
        block=name,
        falls=falls,
        path=path,
        dead_end="block" if falls % 2 else "head right",
        page="5-1",
        typed=None,
        confirmed=None,
        picture=None,
    )
    book = replace(
        base,
        head=replace(base.head, sheaves=head_row, lead=lead, anchors=anchors),
        blocks={name: one},
        keepers=_keepers(tuple(head_row), tuple(block_row), name) if has_keepers else (),
        patterns=(pattern,),
    )
    return Tackle(book=book, pattern=pattern)


@st.composite
def tackles(draw: st.DrawFn, most: int = 16) -> Tackle:
    """Tackles of 1 to 16 falls in any order of the sheaves, numbered from either side, with and without keepers."""
    falls = draw(st.integers(1, most))
    spare = draw(st.integers(0, 2))
    heads, blocks = (falls + 1) // 2 + spare, falls // 2 + spare
    pitch = draw(st.sampled_from((0.08, 0.11, 0.35)))
    middle = st.sampled_from([pitch / 2 * i for i in range(-heads, heads + 1)])
    return tackle(
        falls,
        head=tuple(draw(st.permutations(range(heads))))[: (falls + 1) // 2],
        block=tuple(draw(st.permutations(range(blocks))))[: falls // 2] if falls > 1 else (),
        spare=spare,
        first=draw(st.sampled_from((1, 7))),
        from_right=draw(st.booleans()),
        anchor=draw(st.none() | middle),
        has_keepers=draw(st.booleans()),
        lead=draw(st.sampled_from(("over", "under", None))),
        name=draw(st.sampled_from(("main", LONG_NAME))),
        pitch=pitch,
    )


def faults(picture: records.Picture) -> list[str]:
    """Return what is wrong with a picture: text over text or rope, a circle over a rope that is not its own [-]."""
    found = []
    texts = [s for s in picture.shapes if isinstance(s, records.Text)]
    circles = [s for s in picture.shapes if isinstance(s, records.Circle) and _kind(s) == "circle"]
    ropes = [s for s in picture.shapes if isinstance(s, records.Polyline) and _kind(s) in ("lead", "arc", "fall")]
    for shape in picture.shapes:
        left, top, right, bottom = shape.box
        if left < -0.01 or top < -0.01 or right > picture.width + 0.01 or bottom > picture.height + 0.01:
            found.append(f"outside the canvas: {shape}")
    for a, b in combinations(texts, 2):
        if box(*a.box).intersection(box(*b.box)).area > 0.01:
            found.append(f"text over text: {a.text}, {b.text}")
    lines = [LineString(rope.points).buffer(rope.width / 2, cap_style="flat") for rope in ropes]
    for text in texts:
        for rope, line in zip(ropes, lines, strict=True):
            if _kind(text) != "circle" and line.intersects(box(*text.box)):
                found.append(f"text over rope: {text.text}, {rope.facts}")
    wedges = [s for s in picture.shapes if isinstance(s, records.Polygon) and _kind(s) == "dead end"]
    for wedge in wedges:
        found += [f"{t.text} over the dead end" for t in texts if Polygon(wedge.points).intersects(box(*t.box))]
    discs = [Point(c.centre).buffer(c.radius + c.stroke / 2, quad_segs=32) for c in circles]
    for circle, disc in zip(circles, discs, strict=True):
        fall = dict(circle.facts)["fall"]
        for rope, line in zip(ropes, lines, strict=True):
            is_own = _kind(rope) == "fall" and dict(rope.facts)["number"] == fall
            if not is_own and disc.intersects(line):
                found.append(f"circle {fall} over {rope.facts}")
            if is_own and LineString(rope.points).distance(Point(circle.centre)) > 0.01:
                found.append(f"circle {fall} beside its fall")
        for wedge in wedges:
            found += [f"circle {fall} over the dead end"] * disc.intersects(Polygon(wedge.points))
        for text in texts:
            if _kind(text) != "circle" and disc.intersects(box(*text.box)):
                found.append(f"circle {fall} over {text.text}")
    for (first, disc), (second, other) in combinations(zip(circles, discs, strict=True), 2):
        found += [f"circles touch: {first.facts}, {second.facts}"] * disc.intersects(other)
    return found


def _kind(shape: records.Shape) -> str:
    return dict(shape.facts).get("kind", "")


def _row(count: int, first: int, from_right: bool, pitch: float) -> dict[int, float]:
    sides = [(i - (count - 1) / 2) * pitch for i in range(count)]
    return {first + i: side for i, side in enumerate(reversed(sides) if from_right else sides)}


def _keepers(head: tuple[int, ...], block: tuple[int, ...], name: str) -> tuple[Keeper, ...]:
    bar = Keeper(name="head bar", at="head", block=None, holds=head, draw="slack", lock="spring clip")
    pin = Keeper(name="dead-end pin", at="dead end", block=None, holds=(), draw="slack", lock="split pin")
    ends = (*block[:1], *block[-1:])
    more = [
        Keeper(name="outer bolt", at="block", block=name, holds=ends, draw="tight", lock="lynch pin"),
        Keeper(name="inner bolt", at="block", block=name, holds=block[:1], draw="tight", lock="lynch pin"),
    ]
    return (bar, pin, *(more if block else ()))
