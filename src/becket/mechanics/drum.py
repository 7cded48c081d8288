"""Rope on the drum: turns, layers, pull and speed by layer.

In:    sizes of drum and rope, metres of rope on it, the rise of a layer.
Out:   counts, radii, lengths, forces, speeds. Every float is SI. Layer 1 lies on the bare drum.
Never: files, a crane book, choosing between nested and square.
"""

from __future__ import annotations

from math import ceil, floor, pi, sqrt

from becket.errors import OutOfRangeError


def square_rise(rope_diameter: float) -> float:
    """Return how much a layer rises where turns lie on top of turns [m].

    Args:
        rope_diameter: nominal [m]

    Source: handbook drum formula, square stacking; docs/theory/drum.md, eq. 1.

    >>> square_rise(0.02)
    0.02
    """
    return rope_diameter


def nested_rise(rope_diameter: float) -> float:
    """Return how much a layer rises where turns lie in the grooves of the layer below [m].

    Args:
        rope_diameter: nominal [m]

    Source: three circles that touch, height sqrt(3)/2 d; docs/theory/drum.md, eq. 2.

    >>> round(nested_rise(0.02), 5)
    0.01732
    """
    return rope_diameter * sqrt(3) / 2


def turns_per_layer(width: float, pitch: float) -> int:
    """Return the turns that fit between the flanges [-].

    Args:
        width: between the flanges [m]
        pitch: between turns side by side [m]

    Raises:
        OutOfRangeError: not one turn fits.

    Source: docs/theory/drum.md, eq. 3.

    >>> turns_per_layer(0.52, 0.0176)
    29
    """
    if not (width > 0 and pitch > 0 and width >= pitch):
        raise OutOfRangeError("drum.width", width, "at least one pitch is wanted")
    return floor(width / pitch + 1e-9)


def layer_radius(layer: int, drum_diameter: float, rope_diameter: float, rise: float) -> float:
    """Return the radius of the rope's centre in a layer [m].

    Args:
        layer: 1 on the bare drum [-]
        drum_diameter: bare [m]
        rope_diameter: nominal [m]
        rise: of one layer over the one below [m]

    Raises:
        OutOfRangeError: a layer under 1.

    Source: r(j) = (D + d)/2 + (j - 1) rise; docs/theory/drum.md, eq. 4.

    >>> round(layer_radius(2, 0.36, 0.017, 0.017), 4)
    0.2055
    """
    if layer < 1:
        raise OutOfRangeError("layer", layer, "1 or more is wanted")
    return (drum_diameter + rope_diameter) / 2 + (layer - 1) * rise


def rope_in_layers(layers: int, turns: int, drum_diameter: float, rope_diameter: float, rise: float) -> float:
    """Return the rope that full layers hold [m].

    Args:
        layers: full layers [-]
        turns: in a layer [-]
        drum_diameter: bare [m]
        rope_diameter: nominal [m]
        rise: of one layer over the one below [m]

    Source: sum of 2 pi r(j) turns; docs/theory/drum.md, eq. 5.

    >>> round(rope_in_layers(1, 29, 0.36, 0.017, 0.017), 2)
    34.35
    """
    return pi * turns * layers * (drum_diameter + rope_diameter + (layers - 1) * rise)


def layer_of(rope: float, turns: int, drum_diameter: float, rope_diameter: float, rise: float) -> int:
    """Return the layer of the last turn on the drum, 1 for an empty drum [-].

    Args:
        rope: metres on the drum [m]
        turns: in a layer [-]
        drum_diameter: bare [m]
        rope_diameter: nominal [m]
        rise: of one layer over the one below [m]

    Source: eq. 5 solved for the number of layers, rounded up; docs/theory/drum.md, eq. 6.

    >>> layer_of(100.0, 29, 0.36, 0.017, nested_rise(0.017))
    3
    """
    if rope <= 0:
        return 1
    first = drum_diameter + rope_diameter
    if rise == 0:
        return max(1, ceil(rope / (pi * turns * first) - 1e-9))
    half = (first - rise) / (2 * rise)
    return max(1, ceil(sqrt(half * half + rope / (pi * turns * rise)) - half - 1e-9))


def turns_on_drum(rope: float, turns: int, drum_diameter: float, rope_diameter: float, rise: float) -> float:
    """Return the turns that lie on the drum, counted through the layers [-].

    Args:
        rope: metres on the drum; negative: that many metres are missing [m]
        turns: in a layer [-]
        drum_diameter: bare [m]
        rope_diameter: nominal [m]
        rise: of one layer over the one below [m]

    Source: full layers of eq. 5, the rest at the radius of the last; docs/theory/drum.md, eq. 7.

    >>> round(turns_on_drum(34.35, 29, 0.36, 0.017, 0.017), 1)
    29.0
    """
    layer = layer_of(rope, turns, drum_diameter, rope_diameter, rise)
    below = rope_in_layers(layer - 1, turns, drum_diameter, rope_diameter, rise) if layer > 1 else 0.0
    return (layer - 1) * turns + (rope - below) / (2 * pi * layer_radius(layer, drum_diameter, rope_diameter, rise))


def layers_under_flange(
    flange_diameter: float, drum_diameter: float, rope_diameter: float, rise: float, freeboard: float
) -> int:
    """Return the layers that stay under the flange with the freeboard asked for [-].

    Args:
        flange_diameter: [m]
        drum_diameter: bare [m]
        rope_diameter: nominal [m]
        rise: of one layer over the one below [m]
        freeboard: flange above the top of the outer layer [m]

    Raises:
        OutOfRangeError: a rise that is not more than 0.

    Source: outer rope top at D/2 + d + (n - 1) rise; docs/theory/drum.md, eq. 8.

    >>> layers_under_flange(0.62, 0.36, 0.017, 0.017, 0.013)
    6
    """
    if not rise > 0:
        raise OutOfRangeError("rise", rise, "more than 0 is wanted")
    room = (flange_diameter - drum_diameter) / 2 - freeboard - rope_diameter
    return 0 if room < -1e-12 else floor(room / rise + 1e-9) + 1


def pull_at_layer(first_pull: float, layer: int, drum_diameter: float, rope_diameter: float, rise: float) -> float:
    """Return the pull at a layer that takes the same torque as layer 1; where the book has layer 1 only [N].

    Args:
        first_pull: permitted at layer 1 [N]
        layer: 1 on the bare drum [-]
        drum_diameter: bare [m]
        rope_diameter: nominal [m]
        rise: of one layer over the one below [m]

    Raises:
        OutOfRangeError: a layer under 1.

    Source: derived, P(j) = P(1) r(1)/r(j); docs/theory/drum.md, eq. 9.

    >>> round(pull_at_layer(52e3, 3, 0.36, 0.017, 0.017))
    44054
    """
    first = layer_radius(1, drum_diameter, rope_diameter, rise)
    return first_pull * first / layer_radius(layer, drum_diameter, rope_diameter, rise)


def speed_at_layer(first_speed: float, layer: int, drum_diameter: float, rope_diameter: float, rise: float) -> float:
    """Return the line speed at a layer at the drum speed of layer 1; where the book has layer 1 only [m/s].

    Args:
        first_speed: at layer 1 [m/s]
        layer: 1 on the bare drum [-]
        drum_diameter: bare [m]
        rope_diameter: nominal [m]
        rise: of one layer over the one below [m]

    Raises:
        OutOfRangeError: a layer under 1.

    Source: derived, v(j) = v(1) r(j)/r(1); docs/theory/drum.md, eq. 10.

    >>> round(speed_at_layer(1.0, 3, 0.36, 0.017, 0.017), 3)
    1.18
    """
    first = layer_radius(1, drum_diameter, rope_diameter, rise)
    return first_speed * layer_radius(layer, drum_diameter, rope_diameter, rise) / first


def handbook_capacity(barrel: float, width: float, depth: float, rope_diameter: float, oversize: float) -> float:
    """Return the rope that a drum holds by the handbook formula [m].

    Args:
        barrel: bare drum diameter [m]
        width: between the flanges [m]
        depth: of rope on the barrel [m]
        rope_diameter: nominal [m]
        oversize: share by which rope is thicker than nominal [-]

    Source: (A + D) A B K, square stacking, reel capacity page of a rope supplier; docs/theory/drum.md, eq. 11.

    >>> round(handbook_capacity(0.4572, 0.508, 0.254, 0.0127, 0.064) / 0.3048)
    5180
    """
    return pi * (depth + barrel) * depth * width / (rope_diameter * (1 + oversize)) ** 2
