"""Figures of a crane book that lie below a rule set, and rope that does not fit on its drum.

In:    a crane book, settings that name a rule set.
Out:   contradictions.
Never: choosing a rule set; a figure that is missing.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from becket.book.crane import Book
from becket.limits.contradiction import Contradiction, number
from becket.mechanics.drum import layers_under_flange, rope_in_layers, square_rise, turns_per_layer
from becket.settings.rules import (
    RuleFigure,
    block_sheave_ratio,
    design_factor_wanted,
    drum_ratio,
    flange_freeboard,
    greatest_flange_freeboard,
    head_sheave_ratio,
    least_wraps,
)
from becket.settings.values import Settings

_RATIO_SLACK = 1e-9  # [-]


def rope_does_not_fit(book: Book, settings: Settings) -> Iterator[Contradiction]:
    """Yield a rope that is longer than what fits under the flange, turns lying square on turns [-].

    The freeboard is that of the rule set named, else the greatest published.

    Source: docs/theory/drum.md, eq. 5 and 8.
    """
    drum, rope = book.winch.drum, book.rope
    if drum.flange is None or rope.length is None or drum.width < (drum.pitch or rope.diameter):
        return
    named = flange_freeboard(settings.rules, rope.diameter) if settings.rules else None
    freeboard = named or greatest_flange_freeboard(rope.diameter)
    rise = square_rise(rope.diameter)
    turns = turns_per_layer(drum.width, drum.pitch or settings.pitch_share * rope.diameter)
    layers = layers_under_flange(drum.flange, drum.diameter, rope.diameter, rise, freeboard.value)
    room = rope_in_layers(layers, turns, drum.diameter, rope.diameter, rise) if layers else 0.0
    if room < rope.length:
        why = (
            f"{number(rope.length)} m of rope; {layers} layers of {turns} turns under the flange hold {number(room)} "
            f"m, with {number(1000 * freeboard.value)} mm of flange over them ({freeboard.cited})"
        )
        yield Contradiction(
            name="rope_does_not_fit", why=why, fields=("rope.length", "winch.drum.flange", "winch.drum.width")
        )


def below_rule_set(book: Book, settings: Settings) -> Iterator[Contradiction]:
    """Yield figures of the book that are below the rule set that the settings name [-].

    Diameters over the rope's: drum and sheaves at the middle of the rope, as the rule sets count.

    Source: docs/contradictions.md, "Below the rule set".
    """
    rules = settings.rules
    if rules is None:
        return
    for one in (*_of_hoist(book, rules), *_of_sheaves(book, rules)):
        if one.have is not None and one.need is not None and one.have < one.need.value - _RATIO_SLACK:
            why = f"{one.what} is {number(one.have)}; {rules} asks for {number(one.need.value)} ({one.need.cited})"
            yield Contradiction(name="below_rule_set", why=why, fields=one.fields)


@dataclass(frozen=True, slots=True)
class _Asked:
    """A figure of the book beside what the rule set asks for; None: not on file, or the rule set asks for nothing."""

    fields: tuple[str, ...]
    what: str
    have: float | None  # [-]
    need: RuleFigure | None


def _of_hoist(book: Book, rules: str) -> Iterator[_Asked]:
    rope, winch = book.rope, book.winch
    factor = design_factor_wanted(rules, rope.rotation_resistant, rope.type)
    yield _Asked(("rope.design_factor",), "the design factor", rope.design_factor, factor)
    yield _Asked(("winch.least_wraps",), "least wraps", winch.least_wraps, least_wraps(rules))
    fields = ("winch.drum.diameter", "rope.diameter")
    # the rope's middle on the first layer is half a rope outside the bare drum, on both sides
    yield _Asked(fields, "the drum in rope diameters", winch.drum.diameter / rope.diameter + 1, drum_ratio(rules))


def _of_sheaves(book: Book, rules: str) -> Iterator[_Asked]:
    rope = book.rope.diameter
    sheaves: list[tuple[str, str, float | None, RuleFigure | None]] = [
        ("head", "a head sheave", book.head.sheave_diameter, head_sheave_ratio(rules))
    ]
    sheaves += [
        (f"blocks.{one.name}", f"a sheave of the block {one.name}", one.sheave_diameter, block_sheave_ratio(rules))
        for one in book.blocks.values()
        if one.sheaves
    ]
    for field, what, diameter, need in sheaves:
        have = diameter / rope if diameter is not None else None
        yield _Asked((f"{field}.sheave_diameter", "rope.diameter"), f"{what} in rope diameters", have, need)
