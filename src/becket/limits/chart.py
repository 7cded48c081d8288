"""Reading a load chart as it is printed.

In:    a chart, boom length and telescoping code, radii.
Out:   a rated mass, or why the chart permits nothing there.
Never: a figure between two that are printed; a shorter radius; another code.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from becket.book.charts import Chart, ChartRow
from becket.limits.geometry import LENGTH_SLACK

SAME = 1e-6  # two radii or percentages nearer than this are one


@dataclass(frozen=True, slots=True)
class NotPermitted:
    """The chart permits nothing there."""

    why: str


def read_chart(
    chart: Chart, length: float, sections: Sequence[float], radii: tuple[float, float]
) -> float | NotPermitted:
    """Return the rated mass over a range of radii, the least that is printed for it [kg].

    A printed boom length with this code is read in its row. A length between two printed ones, each section out
    between theirs, takes the smaller figure of both. The figure of a radius is that of the next longer printed
    one, in each row for itself.

    Args:
        chart: of the configuration that is fitted
        length: of the boom [m]
        sections: how far each is out [%]
        radii: least and greatest [m]

    Source: docs/theory/limits.md, "Chart".
    """
    rows = rows_for(chart, length, sections)
    code = "-".join(f"{section:g}" for section in sections)
    if not rows:
        return NotPermitted(
            f"Chart {chart.name}: {length:.1f} m with code {code} is not printed and lies between no two printed rows."
        )
    figures = []
    for row in rows:
        figure = rated_between(row, radii)
        if figure is None:
            return NotPermitted(
                f"Chart {chart.name}, row {row.code} {row.length:.1f} m: nothing is printed for a radius of "
                f"{max(radii):.2f} m or longer."
            )
        figures.append(figure)
    return min(figures)


def rows_for(chart: Chart, length: float, sections: Sequence[float]) -> tuple[ChartRow, ...]:
    """Return the rows that count for a boom: its own, or the two neighbours that it lies between, or none.

    Of several pairs of rows that it lies between, those nearest in length count; equally near ones all count.

    Args:
        chart: of the configuration that is fitted
        length: of the boom [m]
        sections: how far each is out [%]
    """
    own = tuple(row for row in chart.rows if _is_same(row, length, sections))
    if own:
        return own
    pairs = [
        (longer.length - shorter.length, shorter, longer)
        for shorter in chart.rows
        for longer in chart.rows
        if shorter.length < length - LENGTH_SLACK
        and longer.length > length + LENGTH_SLACK
        and _is_between(sections, shorter.sections, longer.sections)
    ]
    nearest = min((gap for gap, _, _ in pairs), default=0.0)
    return tuple(row for gap, *pair in pairs if gap <= nearest + LENGTH_SLACK for row in pair)


def rated_between(row: ChartRow, radii: tuple[float, float]) -> float | None:
    """Return the least figure of a row from the first radius to the next longer of the last; None: a blank [kg].

    >>> row = ChartRow(code="100-0-0", sections=(100.0, 0.0, 0.0), length=18.0, rated={4.0: 30.0, 6.0: 20.0, 8.0: 16.0})
    >>> rated_between(row, (3.0, 5.0)), rated_between(row, (7.0, 8.0)), rated_between(row, (8.1, 8.1))
    (20.0, 16.0, None)
    """
    printed = sorted(row.rated)
    first = next((radius for radius in printed if radius >= min(radii) - SAME), None)
    last = next((radius for radius in printed if radius >= max(radii) - SAME), None)
    if first is None or last is None:
        return None
    return min(row.rated[radius] for radius in printed if first <= radius <= last)


def _is_same(row: ChartRow, length: float, sections: Sequence[float]) -> bool:
    return (
        abs(row.length - length) <= LENGTH_SLACK
        and len(row.sections) == len(sections)
        and all(abs(a - b) <= SAME for a, b in zip(row.sections, sections, strict=True))
    )


def _is_between(sections: Sequence[float], one: Sequence[float], other: Sequence[float]) -> bool:
    return len(sections) == len(one) == len(other) and all(
        min(a, b) - SAME <= section <= max(a, b) + SAME for section, a, b in zip(sections, one, other, strict=True)
    )
