"""Limit of the load chart less what it counts.

In:    one number of falls of a lift.
Out:   one limit.
Never: other limits; a chart of another configuration.
"""

from __future__ import annotations

from becket.book.charts import Chart
from becket.limits.answer import Limit
from becket.limits.case import Case, Figure
from becket.limits.chart import NotPermitted, read_chart, sections_of
from becket.limits.counted import hung_aside
from becket.limits.figures import Impossible, Missing, missing, on_file, worked_out
from becket.limits.geometry import LENGTH_SLACK
from becket.limits.judging import judge, load_doubt, plain, troubled
from becket.limits.wording import mass_asked, mass_there
from becket.verdict import Verdict

NAME = "chart"
WHERE = "greatest radius"
SAME_MASS = 0.5  # two counterweights nearer than this are one, whatever unit they were typed in [kg]


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
    shared = case.shared
    if isinstance(shared.geometry.flat, Impossible):
        return troubled(NAME, "kg", WHERE, shared.geometry.flat)
    found = _chart_of(case)
    if isinstance(found, Missing):
        return troubled(NAME, "kg", WHERE, found)
    other = _other_configuration(case, found)
    if other is not None:
        return other
    have = _rated(case, found)
    if isinstance(have, NotPermitted):
        return plain(NAME, Verdict.FAIL, WHERE, have.why)
    need = _counted(case, found)
    return judge(
        NAME,
        "kg",
        WHERE,
        need=need,
        have=have,
        said=lambda asked, there: (
            f"The chart {found.name} permits {mass_there(there)}; counted as it counts {mass_asked(asked)} hang."
        ),
        doubt=load_doubt(case, need, have),
    )


def _chart_of(case: Case) -> Chart | Missing:
    name = case.shared.lift.chart
    if name is None:
        return missing("lift.chart")
    found = next((chart for chart in case.shared.book.charts if chart.name == name), None)
    return found if found is not None else missing("charts", name)


def _other_configuration(case: Case, found: Chart) -> Limit | None:
    """A fail or an unknown where the chart is not, or may not be, that of the lift."""
    lift = case.shared.lift
    fitted = (
        ("counterweight", lift.counterweight, found.counterweight, mass_there),
        ("outriggers", lift.outriggers, found.outriggers, str),
    )
    unsaid = [words for words, _, printed, _ in fitted if printed is None]
    unsaid += ["sector"] if found.sector is None else []
    for words, there, printed, show in fitted:
        if there is not None and printed is not None and not _is_same(there, printed):
            return plain(
                NAME, Verdict.FAIL, WHERE,
                f"The chart {found.name} is for {words} {show(printed)}; the lift has {show(there)}.",
            )
    if found.sector not in (None, "all round", lift.sector) and lift.sector is not None:
        return plain(
            NAME, Verdict.FAIL, WHERE,
            f"The chart {found.name} is for the sector {found.sector}; the lift is in the sector {lift.sector}.",
        )
    if unsaid:
        return plain(
            NAME, Verdict.UNKNOWN, WHERE,
            f"The chart {found.name} does not say its {' and '.join(unsaid)}; charts print it at the top of the page.",
        )
    if found.sector != "all round" and lift.sector is None:
        return troubled(NAME, "kg", WHERE, missing("lift.sector"))
    return None


def _is_same(there: object, printed: object) -> bool:
    if isinstance(there, float | int) and isinstance(printed, float | int):
        return abs(there - printed) < SAME_MASS
    return there == printed


def _rated(case: Case, found: Chart) -> float | Missing | NotPermitted:
    lift = case.shared.lift
    return worked_out(
        lambda boom, radii, sections: read_chart(found, boom, sections, radii),
        on_file(lift.boom, "lift.boom"),
        on_file(lift.radius, "lift.radius"),
        _sections(case),
    )


def _sections(case: Case) -> tuple[float, ...] | Missing:
    lift, boom = case.shared.lift, case.shared.book.boom
    if lift.code is not None:
        return on_file(sections_of(lift.code), "lift.code")
    if lift.boom is None:
        return missing("lift.boom")
    codes = {row.sections for row in boom.lengths if abs(row.length - lift.boom) <= LENGTH_SLACK}
    return codes.pop() if len(codes) == 1 else missing("lift.code")


def _counted(case: Case, found: Chart) -> Figure:
    shared, counts = case.shared, found.counts
    if counts is None:
        return worked_out(lambda gross, aside: gross + aside, case.gross, hung_aside(shared, is_stowed_counted=True))
    parts = [shared.load, hung_aside(shared, counts.stowed)]
    if counts.rigging:
        parts.append(on_file(shared.lift.rigging, "lift.rigging"))
    if counts.block:
        parts.append(on_file(shared.block.mass, "blocks.*.mass", shared.block.name))
    if counts.rope == "yes":
        parts.append(case.rope_mass)
    elif counts.rope == "falls beyond need":
        beyond = (case.falls - case.needed_falls) / case.falls
        parts.append(worked_out(lambda rope: rope * beyond, case.rope_mass))
    return worked_out(lambda *masses: sum(masses), *parts)
