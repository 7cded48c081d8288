"""The page of the load chart that a lift names, and what it permits there.

In:    a book and a lift with its geometry.
Out:   the chart and its rated mass, or why there is none.
Never: a chart that nobody named; one of another configuration; the load.
"""

from __future__ import annotations

from dataclasses import dataclass

from becket.book.charts import Chart
from becket.book.crane import Book
from becket.book.jobs import Lift
from becket.limits.chart import NotPermitted, read_chart
from becket.limits.figures import Impossible, Missing, missing, on_file, worked_out
from becket.limits.geometry import LENGTH_SLACK, Geometry
from becket.limits.wording import mass_there

SAME_MASS = 0.5  # two counterweights nearer than this are one, whatever unit they were typed in [kg]


@dataclass(frozen=True, slots=True)
class ChartReading:
    """A chart of the right configuration, and the least that it prints for the radii of the lift."""

    chart: Chart
    rated: float  # [kg]


def chart_reading(book: Book, lift: Lift, geometry: Geometry) -> ChartReading | NotPermitted | Missing | Impossible:
    """Return what the chart of a lift permits [-].

    Args:
        book: the crane
        lift: with the name of its chart
        geometry: of the lift: a boom angle that is not permitted goes before the chart

    Source: docs/theory/limits.md, "Chart".
    """
    if isinstance(geometry.flat, Impossible):
        return geometry.flat
    if lift.chart is None:
        return missing("lift.chart")
    found = next((chart for chart in book.charts if chart.name == lift.chart), None)
    if found is None:
        return missing("charts", lift.chart)
    refusal = _refusal(found, lift)
    if refusal is not None:
        return refusal
    sections = _sections(book, lift)
    if isinstance(sections, NotPermitted):
        return sections
    rated = worked_out(
        lambda boom, radii, out: read_chart(found, boom, out, radii),
        on_file(lift.boom, "lift.boom"),
        on_file(lift.radius, "lift.radius"),
        sections,
    )
    if isinstance(rated, NotPermitted | Missing | Impossible):
        return rated
    return geometry.flat if isinstance(geometry.flat, Missing) else ChartReading(found, rated)


def _refusal(found: Chart, lift: Lift) -> NotPermitted | Missing | None:
    """Why the chart is not, or may not be, that of the lift."""
    return _another_set_up(found, lift) or _set_up_not_told(found, lift)


def _another_set_up(found: Chart, lift: Lift) -> NotPermitted | None:
    weight, printed = lift.counterweight, found.counterweight
    if weight is not None and printed is not None and abs(weight - printed) >= SAME_MASS:
        return _other(found, f"counterweight {mass_there(printed)}", f"has {mass_there(weight)}")
    if lift.outriggers is not None and found.outriggers is not None and lift.outriggers != found.outriggers:
        return _other(found, f"outriggers {found.outriggers}", f"has them {lift.outriggers}")
    if found.sector not in (None, "all round") and lift.sector is not None and found.sector != lift.sector:
        return _other(found, f"the sector {found.sector}", f"is in the sector {lift.sector}")
    return None


def _set_up_not_told(found: Chart, lift: Lift) -> Missing | None:
    untold = [field for field in ("counterweight", "outriggers", "sector") if getattr(found, field) is None]
    if untold:
        return Missing(tuple(one for field in untold for one in missing(f"charts.*.{field}", found.name).figures))
    return missing("lift.sector") if found.sector != "all round" and lift.sector is None else None


def _other(found: Chart, printed: str, there: str) -> NotPermitted:
    return NotPermitted(f"The chart {found.name} is for {printed}; the lift {there}.")


def _sections(book: Book, lift: Lift) -> tuple[float, ...] | Missing | NotPermitted:
    """How far each section is out: by the code of the lift, which must be one of the book's for the length."""
    if lift.boom is None:
        return missing("lift.boom")
    codes = {row.code: row.sections for row in book.boom.lengths if abs(row.length - lift.boom) <= LENGTH_SLACK}
    if lift.code is None:
        return next(iter(codes.values())) if len(codes) == 1 else missing("lift.code")
    if lift.code in codes:
        return codes[lift.code]
    known = ", ".join(codes) or "no boom of this length"
    return NotPermitted(f"The code {lift.code} is not one of the {lift.boom:.1f} m boom; the book has {known}.")
