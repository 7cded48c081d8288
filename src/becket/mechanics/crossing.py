"""How near two falls come to each other.

In:    the two ends of each fall in space.
Out:   distances. Every float is SI. A point is (sideways, forward, up).
Never: files, a crane book, limits.
"""

from __future__ import annotations

from math import sqrt

Point = tuple[float, float, float]


def least_distance(a: tuple[Point, Point], b: tuple[Point, Point]) -> float:
    """Return the least distance between the centre lines of two falls [m].

    Args:
        a: top and lower end of one fall [m], shape (2, 3)
        b: top and lower end of the other [m], shape (2, 3)

    Source: closest points of two segments; docs/theory/crossing.md, eq. 1 to 3.

    >>> least_distance(((0, 0, 0), (0, 0, -1)), ((0.1, 0, 0), (0.1, 0, -1)))
    0.1
    """
    u, v, w = _minus(a[1], a[0]), _minus(b[1], b[0]), _minus(a[0], b[0])
    uu, uv, vv, uw, vw = _dot(u, u), _dot(u, v), _dot(v, v), _dot(u, w), _dot(v, w)
    denominator = uu * vv - uv * uv
    s = _clamp((uv * vw - vv * uw) / denominator) if denominator > 1e-12 * max(uu * vv, 1e-30) else 0.0
    t = _clamp((uv * s + vw) / vv) if vv > 0 else 0.0
    s = _clamp((uv * t - uw) / uu) if uu > 0 else 0.0
    gap = tuple(w[i] + s * u[i] - t * v[i] for i in range(3))
    return sqrt(sum(g * g for g in gap))


def crosses_in_front_view(a: tuple[Point, Point], b: tuple[Point, Point]) -> bool:
    """Return whether two falls change sides between head and block, seen from the front [-].

    Args:
        a: top and lower end of one fall [m], shape (2, 3)
        b: top and lower end of the other [m], shape (2, 3)

    Source: the sideways order at the top is not that at the bottom; docs/theory/crossing.md, eq. 4.

    >>> crosses_in_front_view(((0, 0, 0), (1, 0, -1)), ((1, 0, 0), (0, 0, -1)))
    True
    """
    top, low = a[0][0] - b[0][0], a[1][0] - b[1][0]
    return top * low < -1e-12


def _minus(p: Point, q: Point) -> Point:
    return (p[0] - q[0], p[1] - q[1], p[2] - q[2])


def _dot(p: Point, q: Point) -> float:
    return p[0] * q[0] + p[1] * q[1] + p[2] * q[2]


def _clamp(value: float) -> float:
    return min(1.0, max(0.0, value))
