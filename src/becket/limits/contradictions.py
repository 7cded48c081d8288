"""Every contradiction between figures of a crane book.

In:    a crane book, settings.
Out:   contradictions, each with the paths of the fields concerned.
Never: faults of spelling or kind (the intake finds those); which of two figures is right.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from types import MappingProxyType

from becket.book.crane import Book
from becket.limits import figure_contradictions as figures
from becket.limits import path_contradictions as paths
from becket.limits import rule_contradictions as rules
from becket.limits.contradiction import Contradiction
from becket.settings.values import Settings

_Of = Callable[[Book, Settings], Iterator[Contradiction]]


def _of_book(find: Callable[[Book], Iterator[Contradiction]]) -> _Of:
    return lambda book, _: find(book)


# What is looked for, by name: the list in docs/contradictions.md is this list.
CONTRADICTIONS: Mapping[str, _Of] = MappingProxyType(
    {
        "rope_does_not_fit": rules.rope_does_not_fit,
        "below_rule_set": rules.below_rule_set,
        "table_above_pull": _of_book(figures.table_above_pull),
        "table_falls_with_falls": _of_book(figures.table_falls_with_falls),
        "pull_rises_with_layer": _of_book(figures.pull_rises_with_layer),
        "speed_falls_with_layer": _of_book(figures.speed_falls_with_layer),
        "drum_sizes": _of_book(figures.drum_sizes),
        "diameters_differ": _of_book(figures.diameters_differ),
        "sag_falls_with_length": _of_book(figures.sag_falls_with_length),
        "lowest_above_highest": _of_book(figures.lowest_above_highest),
        "position_beyond_boom": _of_book(figures.position_beyond_boom),
        "position_under_block": _of_book(figures.position_under_block),
        "block_heights": _of_book(figures.block_heights),
        "switch_trips_too_late": _of_book(figures.switch_trips_too_late),
        "switch_does_not_stop_hoist": _of_book(figures.switch_does_not_stop_hoist),
        "rated_rises_with_radius": _of_book(figures.rated_rises_with_radius),
        "chart_beyond_boom": _of_book(figures.chart_beyond_boom),
        "sheave_used_twice": _of_book(paths.sheave_used_twice),
        "path_against_falls": _of_book(paths.path_against_falls),
        "dead_end_against_falls": _of_book(paths.dead_end_against_falls),
        "more_falls_than_sheaves": _of_book(paths.more_falls_than_sheaves),
        "two_patterns_for_one_state": _of_book(paths.two_patterns_for_one_state),
        "seal_no_longer_matches": _of_book(paths.seal_no_longer_matches),
        "confirmed_before_typed": _of_book(paths.confirmed_before_typed),
        "sheaves_in_one_place": _of_book(paths.sheaves_in_one_place),
        "numbered_against_places": _of_book(paths.numbered_against_places),
        "keeper_holds_nothing": _of_book(paths.keeper_holds_nothing),
        "keeper_of_no_pattern": _of_book(paths.keeper_of_no_pattern),
        "pass_without_keeper": _of_book(paths.pass_without_keeper),
    }
)


def find_contradictions(book: Book, settings: Settings) -> tuple[Contradiction, ...]:
    """Return every pair of figures that cannot both be right, in the order of the registry [-].

    Args:
        book: the crane
        settings: in force, with the rule set named

    Source: docs/contradictions.md.
    """
    return tuple(found for find in CONTRADICTIONS.values() for found in find(book, settings))
