"""Layers of the drum between the lowest and the highest hook, pull and speed there.

In:    a winch, the rope on its drum.
Out:   layers, turns, permitted pull, speed; what the book does not print is carried as missing.
Never: a verdict, a layer's figure read between two others.
"""

from __future__ import annotations

from dataclasses import dataclass

from becket.book.hoist import Winch
from becket.limits.figures import Missing, missing
from becket.mechanics.drum import (
    layer_of,
    nested_rise,
    pull_at_layer,
    speed_at_layer,
    square_rise,
    turns_on_drum,
    turns_per_layer,
)


@dataclass(frozen=True, slots=True)
class Spool:
    """The drum with its rope: what does not change with the lift."""

    turns: int  # in a layer [-]
    diameter: float  # bare drum [m]
    rope: float  # rope diameter [m]
    nested: float  # rise of a layer for the number of layers [m]
    square: float  # rise of a layer for its radius, where the book has layer 1 only [m]


@dataclass(frozen=True, slots=True)
class Layers:
    """The layer of the last turn with the hook high and low."""

    highest: int  # hook at its highest: most rope on the drum [-]
    lowest: int  # hook at its lowest [-]


def spool_of(winch: Winch, rope_diameter: float, pitch_share: float) -> Spool:
    """Return the drum with its rope [-].

    Args:
        winch: with its drum
        rope_diameter: nominal [m]
        pitch_share: pitch over rope diameter, where the book gives no pitch [-]

    Source: docs/theory/drum.md, eq. 1 to 3.
    """
    pitch = winch.drum.pitch or pitch_share * rope_diameter
    return Spool(
        turns_per_layer(winch.drum.width, pitch),
        winch.drum.diameter,
        rope_diameter,
        nested_rise(rope_diameter),
        square_rise(rope_diameter),
    )


def layers_between(spool: Spool, rope: float, out_least: float, out_most: float) -> Layers:
    """Return the layers with the hook high and low [-].

    Args:
        spool: the drum with its rope
        rope: length of the rope now [m]
        out_least: rope out, hook at its highest [m]
        out_most: rope out, hook at its lowest [m]

    Source: nested layers, docs/theory/drum.md, eq. 6.
    """
    high, low = rope - out_least, rope - out_most
    return Layers(
        layer_of(high, spool.turns, spool.diameter, spool.rope, spool.nested),
        layer_of(low, spool.turns, spool.diameter, spool.rope, spool.nested),
    )


def turns_left(spool: Spool, rope: float, out_most: float) -> float:
    """Return the turns on the drum with the hook low; negative: the rope is too short [-].

    Args:
        spool: the drum with its rope
        rope: length of the rope now [m]
        out_most: rope out, hook at its lowest [m]

    Source: nested layers, docs/theory/drum.md, eq. 7.
    """
    return turns_on_drum(rope - out_most, spool.turns, spool.diameter, spool.rope, spool.nested)


def permitted_pull(winch: Winch, spool: Spool, layers: Layers) -> float | Missing:
    """Return the least pull that the maker permits in the layers of the lift [N].

    Args:
        winch: its pull by layer; one entry: layer 1 only
        spool: the drum with its rope
        layers: with the hook high and low

    Source: the lower of the layers; square radius where the book has layer 1 only; docs/theory/drum.md, eq. 9.
    """
    if len(winch.pull) == 1:
        return pull_at_layer(winch.pull[0], layers.highest, spool.diameter, spool.rope, spool.square)
    if layers.highest > len(winch.pull):
        return missing("winch.pull", str(layers.highest))
    return min(winch.pull[layers.lowest - 1 : layers.highest])


def slowest_speed(winch: Winch, spool: Spool, layers: Layers) -> float | Missing:
    """Return the least line speed in the layers of the lift [m/s].

    Args:
        winch: its speed by layer; one entry: layer 1 only
        spool: the drum with its rope
        layers: with the hook high and low

    Source: the lower of the layers; docs/theory/drum.md, eq. 10.
    """
    if len(winch.speed) == 1:
        return speed_at_layer(winch.speed[0], layers.lowest, spool.diameter, spool.rope, spool.square)
    if layers.highest > len(winch.speed):
        return missing("winch.speed", str(layers.highest))
    return min(winch.speed[layers.lowest - 1 : layers.highest])
