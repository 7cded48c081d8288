"""A picture as SVG text: one number format, so equal pictures are equal text.

In:    a picture.
Out:   SVG text with title, description and role; colours as attributes with a class beside each, to be restyled.
Never: files, scripts, identifiers that could meet on one page, text turned into outlines.
"""

from __future__ import annotations

from collections.abc import Iterable
from xml.etree import ElementTree as ET

from becket.drawing.picture import Circle, Facts, Picture, Point, Polygon, Polyline, Rect, Shape, Text

COLOURS = {
    "ink": "#0a0a0a",
    "paper": "#ffffff",
    "soft": "#434343",
    "fill": "#ececec",
    "mark": "#7a0b4a",
    "on-mark": "#ffffff",
}
FONT = "DejaVu Sans, Verdana, Arial, sans-serif"


def as_svg(picture: Picture, *, font: str = FONT) -> str:
    """Return a picture as SVG text, the same text for the same picture [-].

    Args:
        picture: records
        font: families, best first
    """
    return as_text(svg_root(picture, font=font))


def svg_root(picture: Picture, *, font: str = FONT) -> ET.Element:
    """Return a picture as an element tree [-].

    Args:
        picture: records
        font: families, best first
    """
    root = ET.Element(
        "svg",
        {
            "xmlns": "http://www.w3.org/2000/svg",
            "viewBox": f"0 0 {number(picture.width)} {number(picture.height)}",
            "width": number(picture.width),
            "height": number(picture.height),
            "role": "img",
            "aria-label": f"{picture.title}. {picture.description}",
            "font-family": font,
        },
    )
    ET.SubElement(root, "title").text = picture.title
    ET.SubElement(root, "desc").text = picture.description
    paper = Rect(x=0, y=0, width=picture.width, height=picture.height, ink="paper", outline=None)
    root.append(element(paper))
    root.extend(element(shape) for shape in picture.shapes)
    return root


def as_text(root: ET.Element) -> str:
    """Return an element tree as text, an element a line [-].

    Args:
        root: of the SVG
    """
    ET.indent(root, space=" ")
    return ET.tostring(root, encoding="unicode") + "\n"


def element(shape: Shape) -> ET.Element:
    """Return the SVG element of one shape [-].

    Args:
        shape: a record
    """
    if isinstance(shape, Polyline):
        return ET.Element("polyline", _polyline(shape))
    if isinstance(shape, Polygon):
        return ET.Element("polygon", _polygon(shape))
    if isinstance(shape, Rect):
        return ET.Element("rect", _rect(shape))
    if isinstance(shape, Circle):
        return ET.Element("circle", _circle(shape))
    made = ET.Element("text", _text(shape))
    made.text = shape.text
    return made


def number(value: float) -> str:
    """Return a number as it stands in the SVG: at most two places, no minus zero [-].

    Args:
        value: any unit

    >>> number(3.10001), number(-0.001), number(12)
    ('3.1', '0', '12')
    """
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def _polyline(shape: Polyline) -> dict[str, str]:
    return {
        "points": _points(shape.points),
        **_paint(None, shape.ink),
        "stroke-width": number(shape.width),
        **_dash(shape.dash),
        "stroke-linejoin": "round",
        "stroke-linecap": "butt" if shape.is_butt else "round",
        **_data(shape.facts),
    }


def _polygon(shape: Polygon) -> dict[str, str]:
    stroke = {"stroke-width": number(shape.width), **_dash(shape.dash)} if shape.outline else {}
    return {"points": _points(shape.points), **_paint(shape.ink, shape.outline), **stroke, **_data(shape.facts)}


def _rect(shape: Rect) -> dict[str, str]:
    place = {"x": shape.x, "y": shape.y, "width": shape.width, "height": shape.height}
    corners = {"rx": number(shape.round)} if shape.round else {}
    stroke = {"stroke-width": number(shape.stroke), **_dash(shape.dash)} if shape.outline else {}
    return {
        **{name: number(value) for name, value in place.items()},
        **corners,
        **_paint(shape.ink, shape.outline),
        **stroke,
        **_data(shape.facts),
    }


def _circle(shape: Circle) -> dict[str, str]:
    stroke = {"stroke-width": number(shape.stroke)} if shape.outline else {}
    x, y = shape.centre
    place = {"cx": number(x), "cy": number(y), "r": number(shape.radius)}
    return {**place, **_paint(shape.ink, shape.outline), **stroke, **_data(shape.facts)}


def _text(shape: Text) -> dict[str, str]:
    x, y = shape.at
    return {
        "x": number(x),
        "y": number(y),
        "font-size": number(shape.size),
        **({"font-weight": "700"} if shape.is_bold else {}),
        **({"text-anchor": shape.anchor} if shape.anchor != "start" else {}),
        **_paint(shape.ink, None),
        **_data(shape.facts),
    }


def _paint(fill: str | None, stroke: str | None) -> dict[str, str]:
    classes = [f"{kind}-{ink}" for kind, ink in (("fill", fill), ("stroke", stroke)) if ink]
    return {
        "class": " ".join(classes),
        "fill": COLOURS[fill] if fill else "none",
        **({"stroke": COLOURS[stroke]} if stroke else {}),
    }


def _dash(dash: tuple[float, ...]) -> dict[str, str]:
    return {"stroke-dasharray": " ".join(map(number, dash))} if dash else {}


def _data(facts: Facts) -> dict[str, str]:
    return {f"data-{name}": value for name, value in facts}


def _points(points: Iterable[Point]) -> str:
    return " ".join(f"{number(x)},{number(y)}" for x, y in points)
