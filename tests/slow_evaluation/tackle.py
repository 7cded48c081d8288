"""Tensions of a tackle by solving the sheaves' equations, and overhaul by walking the rope.

In:    weight, falls, what one sheave passes on.
Out:   forces [N].
Never: closed forms.
"""

from __future__ import annotations

import numpy as np


def tensions(weight: float, falls: int, passed_on: float, guides: int = 0) -> tuple[float, list[float]]:
    """Return the pull at the drum and the tension of each fall, fall 1 first [N].

    ``passed_on`` is the ratio of the tension after a sheave to that before it, counted from the drum outward:
    eta raising, 1/eta lowering, 1 standing.
    """
    ropes = 1 + guides + falls
    matrix = np.zeros((ropes, ropes))
    right = np.zeros(ropes)
    for i in range(ropes - 1):
        matrix[i, i], matrix[i, i + 1] = passed_on, -1.0
    matrix[ropes - 1, ropes - falls :] = 1.0
    right[ropes - 1] = weight
    solved = np.linalg.solve(matrix, right)
    return float(solved[0]), [float(t) for t in solved[ropes - falls :]]


def block_that_comes_down(at_drum: float, ratio: float, falls: int, weight_of_fall: float) -> float:
    """Return the pull of all falls on the block when an empty block just turns the tackle [N].

    The walk starts on the drum side of the first head sheave and follows the rope to its dead end.
    """
    tension = at_drum * ratio
    pull = 0.0
    for fall in range(1, falls + 1):
        if fall % 2 == 1:
            tension -= weight_of_fall
            pull += tension
            tension *= ratio
        else:
            pull += tension
            tension += weight_of_fall
            tension *= ratio
    return pull
