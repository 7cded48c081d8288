"""Limit of the load chart less what it counts.

In:    one number of falls of a lift.
Out:   one limit.
Never: other limits; a chart of another configuration.
"""

from __future__ import annotations

from becket.book.charts import Chart
from becket.book.crane import Book
from becket.limits.answer import Limit
from becket.limits.case import Case
from becket.limits.chart import NotPermitted
from becket.limits.chart_page import ChartReading
from becket.limits.figures import Figure, missing, worked_out
from becket.limits.judging import judge, load_doubt, troubled, without_figures
from becket.limits.wording import mass_asked, mass_there
from becket.verdict import Verdict

NAME = "chart"
WHERE = "greatest radius"


def chart(case: Case) -> Limit:
    """Return whether the load chart permits what it counts as load [kg].

    There is the printed figure at the next longer radius of the greatest radius of the lift, in the row of the
    boom length and telescoping code; between two rows the smaller of both. Asked is what the chart says that it
    counts, what is stowed on the boom and what hangs on a second line. A chart that does not say what it counts is
    compared with the gross load and everything else that hangs.

    Fail: more hangs than is printed; nothing is printed there; the chart is for another counterweight, outriggers,
    sector or code; the boom angle is not permitted. Unknown: no chart is named; the chart is for one sector and
    the lift gives none; what is stowed or hangs on the second line is not said; a mass is missing; the load is an
    estimate and over the use that the settings allow.

    Args:
        case: one number of falls

    Source: docs/theory/limits.md, "Chart".
    """
    reading = case.shared.chart
    if isinstance(reading, NotPermitted):
        return without_figures(NAME, Verdict.FAIL, WHERE, reading.why)
    if not isinstance(reading, ChartReading):
        return troubled(NAME, "kg", WHERE, reading)
    need, have = _counted(case, reading.chart), reading.rated
    return judge(
        NAME,
        "kg",
        WHERE,
        need=need,
        have=have,
        said=lambda asked, there: (
            f"The chart {reading.chart.name} permits {mass_there(there)}; "
            f"counted as it counts {mass_asked(asked)} hang.{_not_said(case)}"
        ),
        doubt=load_doubt(case, need, have),
    )


def _not_said(case: Case) -> str:
    """What the crew must see to, because the lift leaves it to the chart that it names."""
    lift = case.shared.lift
    figures = (("counterweight", lift.counterweight), ("outriggers", lift.outriggers))
    unsaid = [name for name, figure in figures if figure is None]
    return f" The lift does not say its {' and '.join(unsaid)}: see that the chart's is fitted." if unsaid else ""


def _counted(case: Case, found: Chart) -> Figure:
    shared, counts = case.shared, found.counts
    if counts is None:
        return worked_out(_sum, case.gross, shared.second_line, shared.stowed)
    parts = [shared.load, shared.second_line, shared.stowed if counts.stowed else _left_out(shared.book)]
    if counts.rigging:
        parts.append(shared.rigging)
    if counts.block:
        parts.append(shared.figures.block_mass)
    if counts.rope == "falls beyond need" and case.falls == case.needed_falls:
        return worked_out(_sum, *parts)
    if counts.rope == "falls beyond need":
        parts.append(worked_out(lambda rope: rope * (case.falls - case.needed_falls) / case.falls, case.rope_mass))
    elif counts.rope != "no":
        parts.append(case.rope_mass)
    return worked_out(_sum, *parts)


def _sum(*masses: float) -> float:
    return sum(masses)


def _left_out(book: Book) -> Figure:
    """Nothing: the chart leaves out what is stowed, but whether anything is must be said."""
    return missing("stowed") if book.stowed is None else 0.0
