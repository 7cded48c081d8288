"""The falls table as a picture: a row for each number of falls, and the use of every limit.

In:    a falls table.
Out:   a picture; verdicts by ink, outline and word.
Never: colour, a row with anything unknown drawn as pass, use rounded down.
"""

from __future__ import annotations

from math import ceil

from becket.drawing.frame import MARGIN, lines
from becket.drawing.lettering import broken, text_width
from becket.drawing.picture import INK, PAPER, Picture, Polyline, Rect, Shape, Text
from becket.drawing.verdicts import plate, sign, tag
from becket.limits.answer import FallsAnswer, Limit, Row
from becket.verdict import Verdict

_ROW = 68.0
_TAG_LEFT, _TAG_WIDTH = 64.0, 130.0
_TEXT_LEFT = 202.0
_CELL_WIDTH, _CELL_HEIGHT = 46.0, 32.0
_NAMES = 112.0
_ROUNDING = 1e-9  # a use of 1 that is a hair over by rounding is at the limit, as the limits themselves count


def draw_falls(answer: FallsAnswer) -> Picture:
    """Return the falls table of one lift as a picture [px].

    Args:
        answer: rows and what is recommended

    Source: docs/drawing.md.
    """
    width = max(360.0, 2 * MARGIN + _NAMES + _CELL_WIDTH * len(answer.rows))
    title = title_of(answer)
    shapes, y = lines((title,), 8, width, size=24, is_bold=True)
    body: list[Shape] = [*shapes]
    y += 10
    for row in answer.rows:
        body += _row(row, y, width, row.falls == answer.recommended)
        y += _ROW
    table, y = _uses(answer, y + 12, width)
    body += table
    return Picture(width=width, height=y + 12, title=title, description=_describe(answer), shapes=tuple(body))


def title_of(answer: FallsAnswer) -> str:
    """Return what a falls table answers, in a sentence [-].

    Args:
        answer: rows and what is recommended
    """
    if answer.recommended is not None:
        return f"Rig {answer.recommended} fall{'s' if answer.recommended > 1 else ''}"
    if answer.unproven is not None:
        return f"No falls proven. Fewest that nothing fails: {answer.unproven}."
    return "No number of falls will do."


def percent(use: float) -> str:
    """Return a use as a number that is never too small: whole percent, ten times the limit and over as a multiple [-].

    Args:
        use: share [-]

    >>> percent(0.961), percent(1.0), percent(1.0001), percent(18.2)
    ('97 %', '100 %', '101 %', '19 times')
    """
    if use >= 10:
        return f"{ceil(use - _ROUNDING)} times"
    return f"{ceil(100 * use - 100 * _ROUNDING)} %"


def _row(row: Row, y: float, width: float, is_recommended: bool) -> list[Shape]:
    facts = (("kind", "row"), ("falls", str(row.falls)), ("is", str(row.verdict)))
    shapes: list[Shape] = [Polyline(points=((MARGIN, y + _ROW), (width - MARGIN, y + _ROW)), width=1.5, facts=facts)]
    if is_recommended:
        frame = Rect(x=MARGIN - 9, y=y + 4, width=width - 2 * MARGIN + 18, height=_ROW - 8, stroke=6, facts=facts)
        shapes = [frame]
    middle = y + _ROW / 2
    shapes.append(Text(at=(MARGIN + 2, middle + 12), text=str(row.falls), size=32, is_bold=True))
    shapes += tag((_TAG_LEFT, middle - 18, _TAG_LEFT + _TAG_WIDTH, middle + 18), row.verdict)
    words = broken(row.governs.replace("_", " "), 18, width - MARGIN - _TEXT_LEFT)
    texts = [(line, False) for line in words] + [(line, True) for line in _use_words(row)]
    top = middle - 11.5 * len(texts)
    shapes += [
        Text(at=(_TEXT_LEFT, top + 17 + 23 * i), text=text, is_bold=is_bold) for i, (text, is_bold) in enumerate(texts)
    ]
    return shapes


def _use_words(row: Row) -> tuple[str, ...]:
    unknown = sum(limit.verdict is Verdict.UNKNOWN for limit in row.limits)
    if row.verdict is Verdict.UNKNOWN:
        known = max((limit.use for limit in row.limits if limit.use is not None), default=None)
        most = f", {percent(known)}" if known is not None else ""
        return (f"{unknown} unknown{most}",)
    use = next((limit.use for limit in row.limits if limit.name == row.governs), None)
    return (percent(use),) if use is not None else ()


def _uses(answer: FallsAnswer, y: float, width: float) -> tuple[list[Shape], float]:
    heading, y = lines(("Use of every limit, percent",), y, width, is_bold=True)
    shapes: list[Shape] = [*heading]
    y += 4
    for i, row in enumerate(answer.rows):
        shapes.append(Text(at=(_column(i), y + 20), text=str(row.falls), is_bold=True, anchor="middle"))
    y += 28
    names = [limit.name for limit in answer.rows[0].limits] if answer.rows else []
    for name in names:
        words = broken(name.replace("_", " "), 18, _NAMES - 8)
        height = max(_CELL_HEIGHT + 6, 21.0 * len(words) + 8)
        top = y + (height - 21 * len(words)) / 2
        shapes += [Text(at=(MARGIN, top + 16 + 21 * i), text=word) for i, word in enumerate(words)]
        for i, row in enumerate(answer.rows):
            shapes += _cell(row.limit(name), row.falls, _column(i), y + height / 2)
        y += height
        shapes.append(Polyline(points=((MARGIN, y), (width - MARGIN, y)), width=0.75))
    return shapes, y


def _column(index: int) -> float:
    return MARGIN + _NAMES + _CELL_WIDTH * (index + 0.5)


def _cell(limit: Limit, falls: int, x: float, y: float) -> list[Shape]:
    box = x - _CELL_WIDTH / 2 + 2, y - _CELL_HEIGHT / 2, x + _CELL_WIDTH / 2 - 2, y + _CELL_HEIGHT / 2
    facts = (("kind", "use"), ("limit", limit.name), ("falls", str(falls)), ("is", str(limit.verdict)))
    shapes: list[Shape] = [*plate(box, limit.verdict)]
    lift = 4 if limit.verdict is Verdict.UNKNOWN else 0
    if limit.use is None or limit.verdict is Verdict.UNKNOWN:
        return [*shapes, *sign((x, y - lift), limit.verdict)]
    text = percent(limit.use).replace(" %", "").replace(" times", "×")
    size = 18.0 if text_width(text, 18, True) <= _CELL_WIDTH - 6 else 15.0
    ink = PAPER if limit.verdict is Verdict.FAIL else INK
    return [
        *shapes,
        Text(at=(x, y + 6.5), text=text, size=size, is_bold=True, anchor="middle", ink=ink, facts=facts),
    ]


def _describe(answer: FallsAnswer) -> str:
    parts = []
    for row in answer.rows:
        use = " ".join(_use_words(row))
        parts.append(f"{row.falls}: {row.verdict}, {row.governs.replace('_', ' ')}{', ' + use if use else ''}")
    return f"{title_of(answer)} {'; '.join(parts)}."
