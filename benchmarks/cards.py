"""How long a card takes once the program is warm, against typst's own empty page with one drawing.

In:    ``--quick`` for few rounds.
Out:   the median of each card (aim: under 150 ms), and its ratio to the empty page with the same drawing (aim: 2).
Never: a verdict that fails a build.
"""

from __future__ import annotations

import statistics
import sys
import tempfile
import time
from collections.abc import Callable
from importlib.resources import files
from pathlib import Path

import typst

from becket.book.crane import Book
from becket.book.tackle import State
from becket.cards.change_sheet import change_sheet
from becket.cards.count_slip import count_slip
from becket.cards.pattern_card import pattern_card
from becket.cards.window_card import window_card
from becket.drawing.front import draw_pattern
from becket.drawing.svg import as_svg
from becket.intake.book import read_book
from becket.intake.settings import read_settings
from becket.method.change import work_out_change
from becket.method.site import Site
from becket.reeving.pattern import find_pattern
from becket.settings.values import Settings

EMPTY = b"""
#set document(title: "empty")
#set text(font: "Roboto", lang: "en")
#page(paper: "a4", image(bytes(sys.inputs.svg), format: "svg", alt: "drawing", width: 92mm))
"""


def demo_book() -> tuple[Book, Settings]:
    """Return the demo crane with settings as shipped [-]."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "hazel-70.crane.yaml"
        path.write_bytes((files("becket.demo") / path.name).read_bytes())
        settings = read_settings(None)
        return read_book(path, settings).book, settings


def median_of(make: Callable[[int], object], rounds: int) -> float:
    """Return the median time of one call, each with other input so that nothing is kept from the last one [s].

    Args:
        make: takes the number of the round
        rounds: how often, after one that is not counted
    """
    make(rounds)
    taken = []
    for number in range(rounds):
        start = time.perf_counter()
        make(number)
        taken.append(time.perf_counter() - start)
    return statistics.median(taken)


def main() -> int:
    """Print the medians and the ratio; return 0 [-]."""
    rounds = 5 if "--quick" in sys.argv else 40
    book, settings = demo_book()
    two, four = State(block="main", falls=2), State(block="main", falls=4)
    pattern = find_pattern(book, four)
    assert pattern is not None
    change = work_out_change(book, settings, two, four, Site(counterweight=12000.0, outriggers="full"))
    fonts = typst.Fonts(include_system_fonts=False, font_paths=[str(files("font_roboto") / "files")])
    bare = typst.Compiler(font_paths=fonts, ignore_system_fonts=True)
    svg = as_svg(draw_pattern(book, pattern, is_confirmed=True), font="Roboto")

    def empty(number: int) -> object:
        fresh = svg.replace("</svg>", f"<!-- {number} --></svg>")
        return bare.compile(EMPTY, format="pdf", sys_inputs={"svg": fresh}, pdf_standards="ua-1", timestamp=0)

    def day(number: int) -> str:
        return f"2026-{number % 12 + 1:02d}-{number // 12 + 1:02d}"

    page = median_of(empty, rounds)
    print(f"empty page with one drawing: {page * 1000:.1f} ms")
    cards: dict[str, Callable[[int], object]] = {
        "pattern card, two drawings": lambda n: pattern_card(book, settings, pattern, printed=day(n)),
        "window card": lambda n: window_card(book, settings, "main", printed=day(n)),
        "count slip": lambda n: count_slip(printed=day(n)),
        "change sheet, all its pages": lambda n: change_sheet(book, change, printed=day(n)),
    }
    for name, make in cards.items():
        took = median_of(make, rounds)
        print(f"{name}: {took * 1000:.1f} ms, {took / page:.1f} times the empty page")
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
