"""The rope played pass by pass: an animated picture, SVG and CSS alone.

In:    a crane book, one of its patterns, from where it is seen.
Out:   SVG text. It stands still, whole, until its class ``is-playing`` or its fragment asks for it.
Never: a script; motion where the reader's system asks for less of it, or on paper.
"""

from __future__ import annotations

from xml.etree import ElementTree as ET

from becket.book.crane import Book
from becket.book.tackle import Pattern
from becket.drawing.front import draw_pattern, lay_out_front
from becket.drawing.layout import ROPE
from becket.drawing.legs import Leg
from becket.drawing.lettering import broken
from becket.drawing.not_drawn import why_not_drawn
from becket.drawing.picture import MARK, Polyline, Text
from becket.drawing.svg import FONT, as_text, element, number, svg_root
from becket.drawing.threading import phase_of, step_words

RUN = 1.2  # how long a pass takes [s]
REST = 1.0  # stop after it [s]
_KINDS = ("lead", "arc", "fall")
_LINE = 24.0


def play_pattern(
    book: Book, pattern: Pattern, *, view: str = "cab", is_confirmed: bool, name: str = "play", font: str = FONT
) -> str:
    """Return the animated front view of a pattern as SVG text [-].

    Args:
        book: the crane
        pattern: of the book
        view: "cab" or "rigger"
        is_confirmed: by a second person
        name: identifier of the picture: the fragment that starts it
        font: families, best first

    Raises:
        OutOfRangeError: another view.

    Source: docs/drawing.md.
    """
    picture = draw_pattern(book, pattern, view=view, is_confirmed=is_confirmed)
    root = svg_root(picture, font=font)
    root.set("id", name)
    root.set("class", "becket-play")
    if why_not_drawn(book, pattern) is not None:
        return as_text(root)
    front = lay_out_front(book, pattern, view)
    last = len(pattern.path) + 1
    for shape in list(root):
        phase = _phase(shape, last)
        if phase:
            shape.set("class", f"{shape.get('class', '')} bp-{phase}".strip())
    leads = next(s for s in root if s.get("data-kind") == "lead")
    down = float(leads.get("points", "").split(" ")[0].split(",")[1]) - front.legs[0].points[0][1]
    root.extend(_moving(leg, down) for leg in front.legs)
    root.extend(_words(pattern, picture.width, picture.height))
    height = picture.height + _LINE * _most_lines(pattern, picture.width) + 12
    root.set("viewBox", f"0 0 {number(picture.width)} {number(height)}")
    root.set("height", number(height))
    paper = next(s for s in root if s.tag == "rect")
    paper.set("height", number(height))
    style = ET.Element("style")
    style.text = _style(last)
    root.insert(2, style)
    return as_text(root)


def _phase(shape: ET.Element, last: int) -> int:
    kind = shape.get("data-kind")
    if kind in _KINDS:
        return _phase_of_kind(kind, int(shape.get("data-number", "0")))
    if kind == "casing":
        of, at = shape.get("data-of", "lead 0").split()
        return _phase_of_kind(of, int(at))
    if kind == "circle":
        return int(shape.get("data-fall", "0")) + 1
    return last if kind == "dead end" else 0


def _phase_of_kind(kind: str, at: int) -> int:
    return {"lead": 1, "fall": at + 1}.get(kind, at)


def _moving(leg: Leg, down: float) -> ET.Element:
    """A heavy line that runs along a leg: the first half of a phase down or up, the rest round the sheave."""
    made = element(Polyline(points=tuple((x, y + down) for x, y in leg.points), ink=MARK, width=ROPE + 3))
    half = {"lead": "", "fall": "a", "arc": "b"}[leg.kind]
    made.set("class", f"stroke-mark bm bm-{phase_of(leg)}{half}")
    made.set("pathLength", "1")
    made.set("aria-hidden", "true")
    return made


def _words(pattern: Pattern, width: float, top: float) -> list[ET.Element]:
    made = []
    for phase in range(1, len(pattern.path) + 2):
        for i, line in enumerate(_lines(pattern, phase, width)):
            text = element(Text(at=(20, top + 20 + i * _LINE), text=line, is_bold=True))
            text.set("class", f"fill-ink bw bw-{phase}")
            text.set("aria-hidden", "true")
            made.append(text)
    return made


def _lines(pattern: Pattern, phase: int, width: float) -> tuple[str, ...]:
    return broken(f"{phase}: {step_words(pattern, phase)}", 18, width - 40, True)


def _most_lines(pattern: Pattern, width: float) -> int:
    return max(len(_lines(pattern, phase, width)) for phase in range(1, len(pattern.path) + 2))


def _style(last: int) -> str:
    rules = [
        "@keyframes becket-show{from{opacity:0}to{opacity:0}}",
        "@keyframes becket-run{from{opacity:1;stroke-dashoffset:1}to{opacity:1;stroke-dashoffset:0}}",
        "@keyframes becket-stay{from{opacity:1}to{opacity:1}}",
        ".becket-play .bm{opacity:0;stroke-dasharray:1 1}",
        ".becket-play .bw{opacity:0}",
    ]
    for phase in range(1, last + 1):
        start = (phase - 1) * (RUN + REST)
        rules += [
            _rule(f"bp-{phase}", f"becket-show {number(start + RUN)}s"),
            _rule(f"bw-{phase}", f"becket-stay {number(RUN + REST)}s linear {number(start)}s"),
        ]
        if phase == 1:
            rules.append(_rule("bm-1", f"becket-run {number(RUN)}s linear {number(start)}s"))
            continue
        fall = RUN if phase == last else 0.7 * RUN
        arc = RUN - fall
        held = f",becket-stay {number(arc)}s linear {number(start + fall)}s" if arc else ""
        rules.append(_rule(f"bm-{phase}a", f"becket-run {number(fall)}s linear {number(start)}s{held}"))
        if arc:
            rules.append(_rule(f"bm-{phase}b", f"becket-run {number(arc)}s linear {number(start + fall)}s"))
    still = ".becket-play *{animation:none!important}"
    rules += [f"@media (prefers-reduced-motion:reduce){{{still}}}", f"@media print{{{still}}}"]
    return "\n".join(rules)


def _rule(name: str, animation: str) -> str:
    return f".becket-play.is-playing .{name},.becket-play:target .{name}{{animation:{animation}}}"
