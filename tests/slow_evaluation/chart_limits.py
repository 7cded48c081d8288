"""The load chart and the maker's falls table, read by brute force.

In:    one situation.
Out:   one slow limit each.
Never: interpolation; the product's limits.
"""

from __future__ import annotations

from dataclasses import replace

from becket.book.charts import Chart, ChartRow
from becket.verdict import Verdict
from tests.slow_evaluation.answer import BrokenError, MissingError, SlowLimit, harshest, need
from tests.slow_evaluation.situation import Situation


def makers_table(s: Situation) -> SlowLimit:
    table = s.book.falls_table
    if table is None:
        raise MissingError("the maker's falls table")
    if not table.printed:
        return SlowLimit(verdict=Verdict.PASS)
    if s.falls not in table.loads:
        return SlowLimit(verdict=Verdict.FAIL, why="not in the table")
    if table.counts is None:
        hangs = s.gross()
    else:
        hangs = 0.0
        for part in table.counts:
            if part == "load":
                hangs += s.load()
            elif part == "rigging":
                hangs += s.rigging()
            elif part == "block":
                hangs += need(s.block.mass, "block mass")
            elif part == "rope":
                hangs += s.rope_in(s.falls)
    return s.judged((hangs + s.hangs_besides()) / table.loads[s.falls], counts_load=True)


def _named_chart(s: Situation) -> Chart:
    named = [chart for chart in s.book.charts if chart.name == s.lift.chart]
    if not named:
        raise MissingError("a chart of this name")
    return named[0]


def _configured(s: Situation) -> SlowLimit:
    """Return whether the chart is the one for the crane as it stands [-].

    A lift that does not say counterweight or outriggers names them by its chart.
    """
    chart = _named_chart(s)

    def same(has: object, wants: object, name: str) -> SlowLimit:
        if has is None:
            raise MissingError(f"{name} of the chart")
        if wants is not None and has != wants:
            raise BrokenError(f"chart of another {name}")
        return SlowLimit(verdict=Verdict.PASS)

    def sector() -> SlowLimit:
        if chart.sector == "all round":
            return SlowLimit(verdict=Verdict.PASS)
        if s.lift.sector is None:
            raise MissingError("sector")
        return same(chart.sector, s.lift.sector, "sector")

    return harshest(
        [
            lambda: same(chart.counterweight, s.lift.counterweight, "counterweight"),
            lambda: same(chart.outriggers, s.lift.outriggers, "outriggers"),
            sector,
        ]
    )


def _dialled(s: Situation) -> tuple[str, tuple[float, ...]]:
    """Return code and sections of the lift's boom [-]."""
    length = need(s.lift.boom, "boom length")
    listed = [one for one in s.book.boom.lengths if one.length == length]
    if s.lift.code is not None:
        listed = [one for one in listed if one.code == s.lift.code]
        if not listed:
            raise BrokenError("the code is not one of this boom length")
    if not listed:
        raise MissingError("a length that can be dialled")
    if len(listed) > 1:
        raise MissingError("telescoping code")
    return listed[0].code, listed[0].sections


def _next_longer(row: ChartRow, radius: float) -> float:
    for printed in sorted(row.rated):
        if printed >= radius:
            return row.rated[printed]
    raise BrokenError("beyond the last radius")


def _between(one: tuple[float, ...], low: tuple[float, ...], high: tuple[float, ...]) -> bool:
    if not len(one) == len(low) == len(high):
        return False
    return all(min(a, b) <= x <= max(a, b) for x, a, b in zip(one, low, high, strict=True))


def rated(s: Situation, chart: Chart) -> float:
    """Return the figure that the chart permits [kg]."""
    code, sections = _dialled(s)
    length = need(s.lift.boom, "boom length")
    if s.lift.radius is None:
        raise MissingError("radius")
    radius = max(s.lift.radius)
    for row in chart.rows:
        if row.code == code and row.length == length:
            return _next_longer(row, radius)
    pairs = [
        (high.length - low.length, low, high)
        for low in chart.rows
        for high in chart.rows
        if low.length < length < high.length and _between(sections, low.sections, high.sections)
    ]
    if not pairs:
        raise BrokenError("the code lies between no two rows")
    closest = min(gap for gap, _, _ in pairs)
    figures = []
    for gap, low, high in pairs:
        if gap == closest:
            figures += [_next_longer(low, radius), _next_longer(high, radius)]
    return min(figures)


def _carried(s: Situation) -> SlowLimit:
    """Return whether the chart permits what hangs, counted as the chart counts [-]."""
    counts = _named_chart(s).counts
    if counts is None:
        hangs = s.gross() + s.hangs_besides()
    else:
        hangs = s.load() + s.hangs_besides(stowed=counts.stowed)
        hangs += s.rigging() if counts.rigging else 0.0
        hangs += need(s.block.mass, "block mass") if counts.block else 0.0
        hangs += s.rope_in(s.falls) if counts.rope == "yes" else 0.0
    permitted = _printed(s)
    if counts is not None and counts.rope == "falls beyond need":
        return _with_rope_beyond_need(s, hangs, permitted)
    return s.judged(hangs / permitted, counts_load=True)


def _printed(s: Situation) -> float:
    permitted = rated(s, _named_chart(s))
    if permitted <= 0:
        raise BrokenError("a blank")
    return permitted


def _is_printed(s: Situation) -> SlowLimit:
    _ = _printed(s)
    return SlowLimit(verdict=Verdict.PASS)


def _with_rope_beyond_need(s: Situation, hangs: float, permitted: float) -> SlowLimit:
    """Return the verdict with the rope in falls beyond the fewest whose line pull passes counted [-].

    Where the line pull of fewer falls is unknown the number needed lies between two; both must say the same.
    """

    def beyond(needed: int | None) -> SlowLimit:
        falls = 0 if needed is None else s.falls - needed
        rope = s.rope_in(falls) if falls > 0 else 0.0
        return s.judged((hangs + rope) / permitted, counts_load=True)

    least = beyond(s.will_do)
    if s.may_do == s.will_do:
        return least
    greatest = harshest([lambda: beyond(s.may_do)])
    if least.verdict is greatest.verdict:
        return replace(greatest, use=None)
    return SlowLimit(verdict=Verdict.UNKNOWN, why="falls needed are not known", either=True)


def _reached(s: Situation) -> SlowLimit:
    _ = s.ends
    return SlowLimit(verdict=Verdict.PASS)


def chart(s: Situation) -> SlowLimit:
    return harshest([lambda: _configured(s), lambda: _reached(s), lambda: _is_printed(s), lambda: _carried(s)])
