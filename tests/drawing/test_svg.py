"""SVG text: real text, one number format, named for those who do not see it."""

from __future__ import annotations

from pathlib import Path
from xml.etree import ElementTree as ET

import pytest

from becket.drawing.falls import draw_falls
from becket.drawing.front import draw_pattern
from becket.drawing.picture import Circle, Picture, Polygon, Polyline, Rect, Text
from becket.drawing.play import play_pattern
from becket.drawing.side import draw_side
from becket.drawing.svg import as_svg, number
from becket.drawing.threading import draw_threading
from becket.drawing.week import draw_week
from tests.crane import invented_book
from tests.drawing.test_falls import ANSWER
from tests.drawing.test_side import change
from tests.drawing.test_threading import TWO_TO_FOUR
from tests.drawing.test_week import PLAN

GOLDEN = Path(__file__).parent.parent / "golden" / "drawing"
BOOK = invented_book()
FOUR = next(p for p in BOOK.patterns if p.falls == 4)
FIVE = next(p for p in BOOK.patterns if p.falls == 5)
SVG = "{http://www.w3.org/2000/svg}"


def drawings() -> dict[str, str]:
    """Every kind of picture as text. Run this file as a module to write them anew, and look at what changed."""
    return {
        "front_4_cab": as_svg(draw_pattern(BOOK, FOUR, is_confirmed=True)),
        "front_4_rigger": as_svg(draw_pattern(BOOK, FOUR, view="rigger", is_confirmed=True)),
        "front_5_not_confirmed": as_svg(draw_pattern(BOOK, FIVE, is_confirmed=False)),
        "threading_2_to_4_step_3": as_svg(draw_threading(BOOK, TWO_TO_FOUR, 3)),
        "side_2_to_4": as_svg(draw_side(BOOK, change())),
        "falls": as_svg(draw_falls(ANSWER)),
        "week": as_svg(draw_week(PLAN)),
        "play_4": play_pattern(BOOK, FOUR, is_confirmed=True),
    }


@pytest.mark.parametrize("name", sorted(drawings()))
def test_golden(name: str) -> None:
    """The text of every kind of picture, as it was looked at."""
    assert drawings()[name] == (GOLDEN / f"{name}.svg").read_text(encoding="utf-8")


@pytest.mark.parametrize("name", sorted(drawings()))
def test_every_picture_has_a_role_a_name_a_title_and_a_description(name: str) -> None:
    root = ET.fromstring(drawings()[name])
    assert root.get("role") == "img"
    assert [root[0].tag, root[1].tag] == [f"{SVG}title", f"{SVG}desc"]
    assert root.get("aria-label") == f"{root[0].text}. {root[1].text}"
    assert len(str(root[1].text)) > 20


@pytest.mark.parametrize("name", sorted(drawings()))
def test_black_and_white_and_one_accent(name: str) -> None:
    """Nothing but ink, paper, soft, fill and the accent of what moves now; no letter under 15 px."""
    root = ET.fromstring(drawings()[name])
    allowed = {"#0a0a0a", "#ffffff", "#434343", "#ececec", "#7a0b4a", "none", None}
    assert {e.get("fill") for e in root} | {e.get("stroke") for e in root} <= allowed
    assert all(float(str(e.get("font-size"))) >= 15 for e in root if e.tag == f"{SVG}text")
    assert all(e.get("class") for e in root if e.get("fill") or e.get("stroke"))


def test_every_shape() -> None:
    picture = Picture(
        width=20,
        height=10.5,
        title="a < b",
        description="c & d",
        shapes=(
            Polyline(points=((0, 0), (1.234, -0.001)), dash=(3, 2), facts=(("kind", "fall"),)),
            Polygon(points=((0, 0), (1, 0), (0, 1)), outline="soft"),
            Rect(x=1, y=2, width=3, height=4, round=1),
            Circle(centre=(5, 5), radius=2),
            Text(at=(1, 9), text="1 < 2", is_bold=True, anchor="end"),
        ),
    )
    lines = as_svg(picture).splitlines()
    assert lines[0].startswith('<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 20 10.5" width="20" height="10.5"')
    assert lines[1:3] == [" <title>a &lt; b</title>", " <desc>c &amp; d</desc>"]
    assert lines[4:] == [
        ' <polyline points="0,0 1.23,0" class="stroke-ink" fill="none" stroke="#0a0a0a" stroke-width="2" '
        'stroke-dasharray="3 2" stroke-linejoin="round" stroke-linecap="butt" data-kind="fall" />',
        ' <polygon points="0,0 1,0 0,1" class="fill-ink stroke-soft" fill="#0a0a0a" stroke="#434343" '
        'stroke-width="2" />',
        ' <rect x="1" y="2" width="3" height="4" rx="1" class="stroke-ink" fill="none" stroke="#0a0a0a" '
        'stroke-width="2" />',
        ' <circle cx="5" cy="5" r="2" class="fill-paper stroke-ink" fill="#ffffff" stroke="#0a0a0a" '
        'stroke-width="3" />',
        ' <text x="1" y="9" font-size="18" font-weight="700" text-anchor="end" class="fill-ink" '
        'fill="#0a0a0a">1 &lt; 2</text>',
        "</svg>",
    ]


def test_numbers() -> None:
    """At most two places, no minus zero, no exponent."""
    assert [number(v) for v in (1, 1.5, 1.005, -0.004, 1e-9, 1234567.891)] == [
        "1",
        "1.5",
        "1",
        "0",
        "0",
        "1234567.89",
    ]


def test_a_font_of_ones_own() -> None:
    assert 'font-family="Own Sans"' in as_svg(draw_week(PLAN), font="Own Sans")


if __name__ == "__main__":
    for name, text in drawings().items():
        (GOLDEN / f"{name}.svg").write_text(text, encoding="utf-8")
