"""The grid of the falls card."""

from __future__ import annotations

from dataclasses import replace

from becket.cards.falls_grid import falls_grids, grid_lift, states_with_patterns
from becket.limits.rigged import rigged_limits
from tests.crane import invented_book, invented_settings


def test_every_printed_boom_and_radius_of_every_chart_has_a_row_of_every_state_on_file() -> None:
    book = invented_book()
    book = replace(book, charts=tuple(replace(chart, rows=chart.rows[:1]) for chart in book.charts[:2]))
    seen: list[tuple[int, int]] = []
    grids = falls_grids(book, invented_settings(), "main", lambda done, whole: seen.append((done, whole)))
    places = [(chart.name, row.length, radius) for chart in book.charts for row in chart.rows for radius in row.rated]
    assert [(grid.chart.name, row.boom, row.radius) for grid in grids for row in grid.rows] == sorted(
        places, key=lambda place: ([c.name for c in book.charts].index(place[0]), place[1], place[2])
    )
    assert seen == [(number, len(places)) for number in range(1, len(places) + 1)]
    states = states_with_patterns(book, "main")
    assert [state.falls for state in states] == sorted(p.falls for p in book.patterns if p.block == "main")
    for grid in grids:
        assert grid.states == states
        for row in grid.rows:
            lift = grid_lift(grid.chart, grid.chart.rows[0], row.radius)
            assert row.answers == tuple(rigged_limits(book, invented_settings(), state, lift) for state in states)


def test_the_lift_of_a_row_is_under_the_conditions_of_its_chart() -> None:
    chart = invented_book().charts[0]
    row = chart.rows[0]
    lift = grid_lift(chart, row, 5.0)
    assert (lift.counterweight, lift.outriggers, lift.chart) == (chart.counterweight, chart.outriggers, chart.name)
    assert (lift.boom, lift.radius, lift.bottom, lift.top) == (row.length, (5.0, 5.0), 0.0, float(row.length // 3))
    assert lift.sector is None
    assert grid_lift(replace(chart, sector="rear"), row, 5.0).sector == "rear"
