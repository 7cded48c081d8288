"""Reading a load chart as it is printed."""

from __future__ import annotations

from dataclasses import replace

import pytest

from becket.book.charts import Chart, ChartRow
from becket.limits.chart import NotPermitted, rated_between, read_chart, rows_for
from tests.crane import invented_book

CHART = invented_book().charts[0]


def _row(length: float, sections: tuple[float, ...], **rated: float) -> ChartRow:
    radii = {float(radius[1:]): mass for radius, mass in rated.items()}
    return ChartRow(code="-".join(f"{s:g}" for s in sections), sections=sections, length=length, rated=radii)


@pytest.mark.parametrize(
    ("radii", "rated"),
    [
        ((5.0, 7.0), 12_500.0),
        ((5.0, 7.01), 9_200.0),  # the next longer radius, never between
        ((6.0, 6.0), 12_500.0),
        ((2.0, 2.5), 24_000.0),  # under the first printed: the first
        ((5.0, 12.0), 6_400.0),
    ],
)
def test_the_next_longer_radius_counts(radii: tuple[float, float], rated: float) -> None:
    assert read_chart(CHART, 17.0, (100.0, 0.0, 0.0), radii) == rated


def test_beyond_the_last_radius_nothing_is_permitted() -> None:
    assert read_chart(CHART, 17.0, (100.0, 0.0, 0.0), (5.0, 12.01)) == NotPermitted(
        "Chart full outriggers, 7 t, row 100-0-0 17.0 m: nothing is printed for a radius of 12.01 m or longer."
    )


def test_a_smaller_figure_at_a_shorter_radius_counts_too() -> None:
    row = _row(20.0, (50.0,), r4=9.0, r6=12.0, r8=10.0)
    assert rated_between(row, (4.0, 7.0)) == 9.0


def test_between_two_lengths_the_smaller_of_both_counts() -> None:
    # 20 m, 100-42-0, lies between 17.0 m (12.5 t at 7 m) and 24.2 m (9.8 t at 8 m)
    assert read_chart(CHART, 20.0, (100.0, 42.0, 0.0), (5.0, 7.0)) == 9_800.0
    # 30.8 m, 100-100-92: 24.2 m has 6.1 t at 12 m, 31.4 m has 5.5 t
    assert read_chart(CHART, 30.8, (100.0, 100.0, 92.0), (12.0, 12.0)) == 5_500.0


def test_between_two_lengths_each_is_read_at_its_own_next_longer_radius() -> None:
    # 13 m: 24.2 m is read at 16 m (3.9 t), 31.4 m at 18 m (3.0 t)
    assert read_chart(CHART, 30.8, (100.0, 100.0, 92.0), (13.0, 13.0)) == 3_000.0
    # a blank in one neighbour is a blank: 24.2 m ends at 20 m
    assert isinstance(read_chart(CHART, 30.8, (100.0, 100.0, 92.0), (21.0, 21.0)), NotPermitted)


@pytest.mark.parametrize(
    ("length", "sections"),
    [
        (17.0, (0.0, 100.0, 0.0)),  # the length is printed, the code is not
        (20.0, (50.0, 50.0, 0.0)),  # between two lengths, one section not between theirs
        (9.8, (0.0, 0.0, 0.0)),  # shorter than every printed row
        (33.0, (100.0, 100.0, 100.0)),  # longer
        (20.0, (100.0, 42.0)),  # another number of sections
    ],
)
def test_a_code_between_no_two_rows_is_not_permitted(length: float, sections: tuple[float, ...]) -> None:
    answer = read_chart(CHART, length, sections, (5.0, 7.0))
    assert isinstance(answer, NotPermitted)
    assert "is not printed and lies between no two printed rows" in answer.why


def test_the_nearest_pair_that_fits_the_code_counts() -> None:
    chart = replace(
        CHART,
        rows=(
            _row(10.0, (0.0, 0.0), r5=20.0),
            _row(14.0, (50.0, 0.0), r5=18.0),
            _row(15.0, (80.0, 0.0), r5=3.0),  # nearer, but the code is not between
            _row(18.0, (100.0, 0.0), r5=15.0),
        ),
    )
    assert [row.length for row in rows_for(chart, 16.0, (75.0, 0.0))] == [14.0, 18.0]
    assert read_chart(chart, 16.0, (75.0, 0.0), (5.0, 5.0)) == 15.0


def test_pairs_equally_near_all_count() -> None:
    chart = replace(
        CHART,
        rows=(_row(10.0, (0.0, 0.0), r5=20.0), _row(10.0, (0.0, 10.0), r5=9.0), _row(18.0, (100.0, 50.0), r5=15.0)),
    )
    assert read_chart(chart, 14.0, (50.0, 25.0), (5.0, 5.0)) == 9.0


def test_a_chart_without_rows_permits_nothing() -> None:
    empty: Chart = replace(CHART, rows=())
    assert isinstance(read_chart(empty, 17.0, (100.0, 0.0, 0.0), (5.0, 5.0)), NotPermitted)
