"""The front view: nothing over anything, the path read back out of the SVG, the rigger's view a true mirror."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from xml.etree import ElementTree as ET

import pytest
from hypothesis import example, given, settings

from becket.book.tackle import Pass
from becket.drawing.front import draw_pattern
from becket.drawing.hatch import NOT_CONFIRMED
from becket.drawing.picture import Circle, Picture, Polyline, Rect, Text
from becket.drawing.svg import as_svg
from becket.errors import OutOfRangeError
from becket.reeving.words import path_words
from tests.crane import invented_book
from tests.drawing.tackles import LONG_NAME, Tackle, faults, tackle, tackles

VIEWS = ("cab", "rigger")
SVG = "{http://www.w3.org/2000/svg}"


def draw(one: Tackle, view: str = "cab", *, is_confirmed: bool = True) -> Picture:
    return draw_pattern(one.book, one.pattern, view=view, is_confirmed=is_confirmed)


def elements(picture: Picture) -> list[ET.Element]:
    return list(ET.fromstring(as_svg(picture)))


def ropes(picture: Picture) -> dict[tuple[str, int], list[Polyline]]:
    found: dict[tuple[str, int], list[Polyline]] = {}
    for shape in picture.shapes:
        facts = dict(shape.facts)
        if isinstance(shape, Polyline) and facts.get("kind") in ("lead", "arc", "fall"):
            found.setdefault((facts["kind"], int(facts["number"])), []).append(shape)
    return found


def words(picture: Picture) -> list[str]:
    return [shape.text for shape in picture.shapes if isinstance(shape, Text)]


@given(one=tackles())
@example(one=tackle(1))
@example(one=tackle(12))
@example(one=tackle(16, has_keepers=False))
@example(one=tackle(15, name=LONG_NAME, from_right=True, lead=None))
@settings(derandomize=True, deadline=None, max_examples=40)
def test_nothing_covers_anything(one: Tackle) -> None:
    """No text over text or rope, no number over a foreign rope or another number, nothing outside the canvas."""
    for view in VIEWS:
        for is_confirmed in (True, False):
            assert faults(draw(one, view, is_confirmed=is_confirmed)) == []


def test_the_measure_finds_faults() -> None:
    """The measure itself can fail: a number moved onto another rope, a word onto a word, a shape off the canvas."""
    picture = draw(tackle(4))
    circle = next(s for s in picture.shapes if isinstance(s, Circle))
    other = ropes(picture)["fall", 3][0].points[2]
    assert any("over" in f for f in faults(replace(picture, shapes=(*picture.shapes, replace(circle, centre=other)))))
    twice = (*picture.shapes, next(s for s in picture.shapes if isinstance(s, Text)))
    assert any("text over text" in f for f in faults(replace(picture, shapes=twice)))
    assert any("outside" in f for f in faults(replace(picture, width=picture.width - 60)))


@given(one=tackles())
@settings(derandomize=True, deadline=None, max_examples=25)
def test_the_path_is_read_back_out_of_the_svg(one: Tackle) -> None:
    """Following data-from and data-to from the drum gives the pattern, and each leg ends where the next begins."""
    for view in VIEWS:
        legs = [e for e in elements(draw(one, view)) if e.get("data-kind") in ("lead", "fall", "arc")]
        boxes = {e.get("data-sheave"): e for e in elements(draw(one, view)) if e.get("data-kind") == "sheave"}
        at, passes = "drum", []
        falls = {e.get("data-from"): e for e in legs if e.get("data-kind") != "arc"}
        while at != "dead end":
            leg = falls.pop(at)
            at = str(leg.get("data-to"))
            passes.append(at)
            end = points_of(leg)[-1]
            if at in boxes:
                left = float(str(boxes[at].get("x")))
                assert left <= end[0] <= left + float(str(boxes[at].get("width")))
        assert falls == {}
        assert ", ".join(passes[:-1]) == path_words(one.pattern.path)


def points_of(element: ET.Element) -> list[tuple[float, float]]:
    pairs = (pair.split(",") for pair in str(element.get("points")).split(" "))
    return [(float(x), float(y)) for x, y in pairs]


@given(one=tackles())
@settings(derandomize=True, deadline=None, max_examples=25)
def test_the_rope_is_in_one_piece(one: Tackle) -> None:
    """Each leg begins where the one before it ends; the last ends at the dead end."""
    legs = ropes(draw(one))
    order: list[tuple[str, int]] = [("lead", 0), ("fall", 1)]
    for number in range(2, one.pattern.falls + 1):
        order += [("arc", number), ("fall", number)]
    assert sorted(legs) == sorted(order)
    for before, after in pairwise(order):
        assert legs[before][-1].points[-1] == pytest.approx(legs[after][0].points[0]) or before[0] == "lead"
    ends = [legs["lead", 0], legs["fall", 1]]
    assert any(piece.points[-1] == pytest.approx(ends[1][0].points[0]) for piece in ends[0])


@given(one=tackles())
@settings(derandomize=True, deadline=None, max_examples=25)
def test_the_rigger_sees_the_mirror(one: Tackle) -> None:
    """Order of the sheaves turns round, every dashed fall is solid and the other way round; text is not mirrored."""
    cab, rigger = draw(one, "cab"), draw(one, "rigger")
    if cab.width == rigger.width and not any("leader" in dict(s.facts).values() for s in cab.shapes):
        middles = [sheave_middles(picture) for picture in (cab, rigger)]
        assert {k: round(cab.width - x, 3) for k, x in middles[0].items()} == {
            k: round(x, 3) for k, x in middles[1].items()
        }
    in_order = [sorted(m, key=m.__getitem__) for m in (sheave_middles(cab), sheave_middles(rigger))]
    for place in ("head", "block"):
        rows = [[key for key in order if key.startswith(place)] for order in in_order]
        assert rows[0] == rows[1][::-1]
    for key, pieces in ropes(cab).items():
        if key[0] != "fall":
            continue
        here, there = bool(pieces[0].dash), bool(ropes(rigger)[key][0].dash)
        assert (here, there) == (False, False) if one.book.head.lead is None else here != there
    assert "transform" not in as_svg(rigger)
    for picture, left in ((cab, "cab\u2019s left"), (rigger, "cab\u2019s right")):
        turned = [s for s in picture.shapes if isinstance(s, Text) and dict(s.facts).get("kind") == "orientation"]
        assert min(turned, key=lambda s: s.box[0]).text == left


def sheave_middles(picture: Picture) -> dict[str, float]:
    return {
        dict(s.facts)["sheave"]: s.x + s.width / 2
        for s in picture.shapes
        if isinstance(s, Rect) and dict(s.facts).get("kind") == "sheave"
    }


def test_solid_faces_you_and_dashes_do_not() -> None:
    """Lead line over its sheave: odd falls hang on the tip side; from the cab they are dashed, left of the number."""
    picture = draw(tackle(4))
    middles = sheave_middles(picture)
    legs = ropes(picture)
    assert [bool(legs["fall", n][0].dash) for n in (1, 2, 3, 4)] == [True, False, True, False]
    assert [dict(legs["fall", n][0].facts)["side"] for n in (1, 2, 3, 4)] == ["tip", "cab", "tip", "cab"]
    assert legs["fall", 1][0].points[0][0] < middles["head 1"] < legs["lead", 0][0].points[0][0]
    under = ropes(draw(tackle(4, lead="under")))
    assert [bool(under["fall", n][0].dash) for n in (1, 2, 3, 4)] == [False, True, False, True]


def test_every_rope_behind_is_drawn_before_every_rope_in_front() -> None:
    """The rope without a break is over the other: paper beside it cuts what was drawn before."""
    picture = draw(tackle(6, head=(2, 0, 1), block=(0, 2, 1)))
    dashed = [bool(s.dash) for s in picture.shapes if isinstance(s, Polyline) and dict(s.facts).get("kind") == "fall"]
    assert dashed == sorted(dashed, reverse=True)
    kinds = [(dict(s.facts).get("kind"), dict(s.facts).get("of")) for s in picture.shapes]
    behind = [i for i, s in enumerate(picture.shapes) if isinstance(s, Polyline) and s.dash]
    assert kinds.index(("casing", "fall 2")) > max(behind)


def test_side_not_in_the_book() -> None:
    """No lead: every rope solid, the words say why, no rope is over another."""
    picture = draw(tackle(5, lead=None))
    assert not any(piece.dash for pieces in ropes(picture).values() for piece in pieces)
    assert "Side not in the book." in words(picture)
    assert not any("Dashes" in line for line in words(picture))
    assert "Side not in the book." in picture.description
    kinds = [dict(s.facts).get("kind") for s in picture.shapes]
    first_rope = kinds.index("lead")
    assert "casing" not in kinds[first_rope:]


def test_not_confirmed_stands_above_and_below_and_never_over_the_rope() -> None:
    """Two solid bands with the words, hatch at both sides, none of it where the rope is."""
    picture = draw(tackle(5), is_confirmed=False)
    bands = [s for s in picture.shapes if isinstance(s, Rect) and dict(s.facts).get("kind") == "band"]
    assert [band.y for band in bands] == [0, picture.height - bands[1].height]
    said = " ".join(s.text for s in picture.shapes if isinstance(s, Text) and dict(s.facts).get("kind") == "band")
    assert said == f"{NOT_CONFIRMED} {NOT_CONFIRMED}"
    hatched = [s for s in picture.shapes if dict(s.facts).get("kind") == "hatch"]
    everything = [piece for pieces in ropes(picture).values() for piece in pieces]
    low, high = min(s.box[0] for s in everything), max(s.box[2] for s in everything)
    assert all(s.box[2] <= low or s.box[0] >= high for s in hatched)
    assert bands[0].box[3] < min(s.box[1] for s in everything)
    assert bands[1].box[1] > max(s.box[3] for s in everything)
    assert "Not confirmed" in picture.title
    confirmed = draw(tackle(5))
    assert not any(dict(s.facts).get("kind") in ("band", "hatch") for s in confirmed.shapes)


@pytest.mark.parametrize("falls", [12, 16])
def test_many_falls_are_readable_on_a5(falls: int) -> None:
    """134 mm of an A5 sheet: numbers of falls and sheaves 4 mm high or more, rope 1.6 mm or more.

    Source: the project's own aim; a cap of 0.73 of 4 mm is 20 arc minutes at half a metre.
    """
    picture = draw(tackle(falls))
    millimetre = 134 / picture.width
    sizes = [
        s.size for s in picture.shapes if isinstance(s, Text) and dict(s.facts).get("kind") in ("circle", "number")
    ]
    assert min(sizes) * millimetre >= 4.0
    assert 8 * millimetre >= 1.6
    assert picture.height * millimetre <= 195


def test_the_words_say_the_path() -> None:
    """The name of the picture is the path in words: nobody has to see it."""
    picture = draw(tackle(2), "rigger")
    assert picture.title == "main, 2 falls. You face the cab"
    assert picture.description == (
        "Rope from the drum; over head 1, fall 1 down, tip side; under block 1, fall 2 up, cab side. "
        "Dead end: head, cab\u2019s right. Keepers: head bar, dead-end pin, outer bolt, inner bolt."
    )


def test_a_long_name_is_whole() -> None:
    """60 characters in three scripts, broken into lines, never cut off."""
    assert len(LONG_NAME) == 60
    assert f"{LONG_NAME}, 4 falls" in " ".join(words(draw(tackle(4, name=LONG_NAME))))


def test_a_pattern_that_cannot_be_drawn_is_not_drawn() -> None:
    """A sheave that is not on file: no ghost of it, but what is missing and where manuals print it."""
    one = tackle(4)
    path = (*one.pattern.path[:2], Pass(place="head", sheave=9), one.pattern.path[3])
    picture = draw_pattern(one.book, replace(one.pattern, path=path), is_confirmed=True)
    assert ropes(picture) == {}
    said = " ".join(words(picture))
    assert "Cannot be drawn. Not on file: sheave 9 (head.sheaves), in the manual's drawing of the boom head." in said


def test_another_view_is_refused() -> None:
    with pytest.raises(OutOfRangeError, match=r'view: above; "cab" or "rigger" is wanted'):
        draw(tackle(2), "above")


def test_the_same_pattern_is_the_same_text() -> None:
    """Equal drawings are equal text."""
    book = invented_book()
    for pattern in book.patterns:
        first, second = (as_svg(draw_pattern(book, pattern, is_confirmed=True)) for _ in range(2))
        assert first == second
