"""Fronts: no label covers another."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from becket.planning.labels import Front, best_labels, covers, every_label, front_of, merge

LABELS = st.lists(st.tuples(st.integers(0, 8), st.integers(0, 8), st.none()), max_size=12)


@settings(derandomize=True, deadline=None, max_examples=200)
@given(LABELS)
def test_a_front_keeps_exactly_what_nothing_covers(labels: list[tuple[int, int, None]]) -> None:
    front = front_of(labels)
    points = {(a, b) for a, b, _ in labels}
    uncovered = {p for p in points if not any(q != p and q[0] <= p[0] and q[1] <= p[1] for q in points)}
    assert [(a, b) for a, b, _ in front] == sorted(uncovered)


@settings(derandomize=True, deadline=None, max_examples=200)
@given(LABELS, LABELS)
def test_merging_is_the_front_of_both(first: Front, second: Front) -> None:
    merged = merge(front_of(first), front_of(second))
    assert [label[:2] for label in merged] == [label[:2] for label in front_of([*first, *second])]


@settings(derandomize=True, deadline=None, max_examples=200)
@given(LABELS, LABELS, st.integers(0, 4), st.integers(0, 4))
def test_covers_says_whether_a_front_is_as_good(first: Front, second: Front, minutes: int, extra: int) -> None:
    front = front_of(first)
    sources = every_label({0: second})
    expected = all(
        any(label[0] <= money + extra and label[1] <= m + minutes for label in front) for money, m, *_ in sources
    )
    assert covers(front, sources, minutes, extra) is expected


def test_best_labels_are_those_of_all_states_together() -> None:
    fronts: dict[int, Front] = {4: [(1, 9, None), (5, 2, None)], 7: [(2, 3, None)]}
    assert [source[:3] for source in best_labels(every_label(fronts))] == [(1, 9, 4), (2, 3, 7), (5, 2, 4)]
