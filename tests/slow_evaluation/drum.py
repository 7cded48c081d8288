"""Rope on the drum, laid on turn by turn.

In:    the book's drum and rope, metres of rope on the drum.
Out:   layer of the last turn, number of turns.
Never: sums of layers in closed form.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import floor, pi, sqrt

from becket.book.crane import Book
from becket.settings.values import Settings
from tests.slow_evaluation.answer import BrokenError

NESTED_RISE = sqrt(3) / 2  # 0.866 of the rope's diameter: the next layer lies in the valleys of the one below


@dataclass(frozen=True, kw_only=True)
class Laid:
    """The rope on the drum. ``spare`` is the rope in the last turn's layer up to its nearer edge [m]."""

    layer: int
    turns: float
    spare: float


def lay(book: Book, settings: Settings, metres: float) -> Laid:
    """Return the layer and the number of turns of so much rope on the drum [-]."""
    drum, d = book.winch.drum, book.rope.diameter
    pitch = drum.pitch if drum.pitch is not None else settings.pitch_share * d
    in_a_layer = floor(drum.width / pitch)
    if in_a_layer < 1:
        raise BrokenError("not one turn fits between the flanges")
    layer, turns, in_this, left = 1, 0.0, 0, metres
    turn = pi * (drum.diameter + d)
    while left > 0:
        if in_this == in_a_layer:
            layer, in_this = layer + 1, 0
            turn = pi * (drum.diameter + d + 2 * (layer - 1) * NESTED_RISE * d)
        if left < turn:
            turns += left / turn
            break
        turns, in_this, left = turns + 1, in_this + 1, left - turn
    edge = min(abs(left), abs(turn - left)) if metres > 0 and in_this in (0, in_a_layer - 1, in_a_layer) else 1.0
    return Laid(layer=layer, turns=turns, spare=edge)


def of_layer(figures: tuple[float, ...], layer: int, book: Book, *, falls_with_radius: bool) -> float | None:
    """Return the figure of that layer; from layer 1 by the radius where only layer 1 is printed [its unit]."""
    if len(figures) == 1 and layer > 1:
        first = book.winch.drum.diameter / 2 + book.rope.diameter / 2
        radius = first
        for _ in range(layer - 1):
            radius += book.rope.diameter
        return figures[0] * (first / radius if falls_with_radius else radius / first)
    return figures[layer - 1] if layer <= len(figures) else None
