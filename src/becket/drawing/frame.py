"""What stands around a picture: title above, legend below, and the bands of a pattern that is not confirmed.

In:    shapes, words.
Out:   a picture, every word of it inside.
Never: a band or a hatch over the shapes, a word cut off.
"""

from __future__ import annotations

from becket.drawing.hatch import SIDE, band_height, confirm_band, hatch
from becket.drawing.lettering import broken
from becket.drawing.picture import Picture, Shape, Text, moved

MARGIN = 20.0
TEXT = 18.0
_TITLE = 21.0


def framed(
    shapes: tuple[Shape, ...],
    height: float,
    title: tuple[str, str],
    description: str,
    feet: tuple[str, ...],
    *,
    width: float,
    is_confirmed: bool,
    top: float = 0.0,
) -> Picture:
    """Return a picture with title and legend, and with bands where it is not confirmed [px].

    Args:
        shapes: heights counted as in ``top``
        height: of the shapes [px]
        title: the heavy line, the line under it
        description: the picture in words
        feet: legend, each entry on lines of its own
        width: of the picture [px]
        is_confirmed: by a second person
        top: upper edge of the shapes [px]
    """
    upper = 0.0 if is_confirmed else band_height(width)
    head, y = lines(title[:1], upper + 8, width, size=_TITLE, is_bold=True)
    state, y = lines(title[1:], y, width)
    y += 10
    body = tuple(moved(shape, 0, y - top) for shape in shapes)
    foot, end = lines(feet, y + height, width)
    inside = (*head, *state, *body, *foot)
    name = f"{title[1]}. {title[0]}"
    if is_confirmed:
        return Picture(width=width, height=end + 8, title=name, description=description, shapes=inside)
    end += 8
    bands = (
        *confirm_band(width, 0),
        *hatch((0, upper, SIDE, end)),
        *hatch((width - SIDE, upper, width, end)),
        *confirm_band(width, end),
    )
    return Picture(
        width=width,
        height=end + upper,
        title=f"{name}. Not confirmed against the manual",
        description=description,
        shapes=(*inside, *bands),
    )


def lines(
    texts: tuple[str, ...],
    top: float,
    width: float,
    *,
    size: float = TEXT,
    is_bold: bool = False,
    margin: float = MARGIN,
) -> tuple[tuple[Text, ...], float]:
    """Return texts broken into lines, and the height under them [px].

    Args:
        texts: each begins a line
        top: upper edge [px]
        width: of the picture [px]
        size: of the font [px]
        is_bold: set in bold
        margin: at both sides [px]
    """
    step = size * 1.3
    made: list[Text] = []
    for text in texts:
        for line in broken(text, size, width - 2 * margin, is_bold):
            made.append(Text(at=(margin, top + len(made) * step + size), text=line, size=size, is_bold=is_bold))
    return tuple(made), top + len(made) * step
