"""Where each fall hangs, and how near falls come: by walking the path and by sampling.

In:    the book, one of its patterns.
Out:   places in plan [m], distances [m], angles [rad].
Never: closed forms of turning or of nearest points.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, pi, sin

import numpy as np
import numpy.typing as npt

from becket.book.boom import Anchor
from becket.book.crane import Book
from becket.book.tackle import Pattern
from tests.slow_evaluation.answer import MissingError, need

Points = npt.NDArray[np.float64]


@dataclass(frozen=True, kw_only=True)
class Place:
    """One end of a fall. ``along`` None: not on file."""

    side: float
    along: float | None


def faults_of(book: Book, pattern: Pattern) -> list[str]:
    """Return what is wrong with the path as it is written [-]."""
    faults = []
    block = book.blocks[pattern.block]
    if len(pattern.path) != pattern.falls:
        faults.append("passes and falls differ")
    for number, one in enumerate(pattern.path):
        if one.place != ("head" if number % 2 == 0 else "block"):
            faults.append(f"pass {number + 1} is at the wrong side")
        if one.sheave not in (book.head.sheaves if one.place == "head" else block.sheaves):
            faults.append(f"no sheave {one}")
        if one in pattern.path[:number]:
            faults.append(f"{one} twice")
    if (pattern.dead_end == "block") != (pattern.falls % 2 == 1):
        faults.append("dead end at the wrong side")
    if pattern.dead_end != "block" and pattern.dead_end.removeprefix("head ") not in book.head.anchors:
        faults.append("no such anchor")
    return faults


def dead_end_of(book: Book, pattern: Pattern) -> Anchor:
    """Return the place of the dead end [-]."""
    if pattern.dead_end == "block":
        found = book.blocks[pattern.block].becket
    else:
        found = book.head.anchors.get(pattern.dead_end.removeprefix("head "))
    if found is None:
        raise MissingError("place of the dead end")
    return found


def falls_of(book: Book, pattern: Pattern) -> list[tuple[Place, Place]]:
    """Return top and lower end of every fall, walked along the rope from the drum [m]."""
    if [f for f in faults_of(book, pattern) if "twice" not in f]:
        raise MissingError("a path that can be followed")
    block = book.blocks[pattern.block]
    front = {"over": 1.0, "under": -1.0}.get(book.head.lead or "")
    anchor = dead_end_of(book, pattern)
    stations = [*pattern.path, None]
    falls = []
    for fall in range(1, pattern.falls + 1):
        facing = None if front is None else front * (1.0 if fall % 2 == 1 else -1.0)
        at = {}
        for station in (stations[fall - 1], stations[fall]):
            if station is None:
                at["head" if pattern.falls % 2 == 0 else "block"] = Place(side=anchor.side, along=anchor.along)
                continue
            diameter = book.head.sheave_diameter if station.place == "head" else block.sheave_diameter
            offset = (book.head.sheaves if station.place == "head" else block.sheaves)[station.sheave]
            along = None if facing is None or diameter is None else facing * diameter / 2
            at[station.place] = Place(side=offset, along=along)
        falls.append((at["head"], at["block"]))
    return falls


def plan_of(falls: list[tuple[Place, Place]]) -> tuple[Points, Points]:
    """Return tops and lower ends in plan, each about its own centroid [m]."""
    tops = np.array([[t.side, need(t.along, "along of a top")] for t, _ in falls])
    lows = np.array([[b.side, need(b.along, "along of a lower end")] for _, b in falls])
    return tops - tops.mean(axis=0), lows - lows.mean(axis=0)


def turned(points: Points, angle: float) -> Points:
    """Return the points turned about the origin [m]."""
    moved: Points = points @ np.array([[cos(angle), sin(angle)], [-sin(angle), cos(angle)]])
    return moved


def hanging_turn(tops: Points, lows: Points) -> float:
    """Return the turn at which the block hangs lowest: the falls' plan lengths squared are least, by search [rad]."""
    low, high, samples = 0.0, 2 * pi, 181
    while high - low > 1e-12:
        turns = np.linspace(low, high, samples)
        c, s = np.cos(turns)[:, None], np.sin(turns)[:, None]
        across = lows[None, :, 0] * c - lows[None, :, 1] * s - tops[None, :, 0]
        along = lows[None, :, 0] * s + lows[None, :, 1] * c - tops[None, :, 1]
        best = float(turns[(across**2 + along**2).sum(axis=1).argmin()])
        step = (high - low) / (samples - 1)
        if step < 1e-7:
            return best
        low, high, samples = best - 2 * step, best + 2 * step, 81
    return low


def twisting_turn(tops: Points, lows: Points, height: float, torque: float) -> float | None:
    """Return how far the rope's torque turns the block from where it hangs, None where nothing holds it [rad].

    Torque is per newton on the hook [m]. Every fall carries an equal part of it and leans by its plan distance
    over its height; the moment of these leans about the middle is what holds the block.
    """
    start = hanging_turn(tops, lows)
    pairs = [(*top, *low) for top, low in zip(tops.tolist(), lows.tolist(), strict=True)]

    def holds(turn: float) -> float:
        c, s = cos(start + turn), sin(start + turn)
        moment = 0.0
        for top_side, top_along, low_side, low_along in pairs:
            side, along = low_side * c - low_along * s, low_side * s + low_along * c
            moment += side * (along - top_along) - along * (side - top_side)
        return abs(moment) / height / len(pairs)

    if holds(pi / 2) < torque:
        return None
    low, high = 0.0, pi / 2
    for _ in range(40):
        middle = (low + high) / 2
        low, high = (middle, high) if holds(middle) < torque else (low, middle)
    return (low + high) / 2


def nearest_falls(tops: Points, at: Points, height: float, threshold: float) -> float:
    """Return the least distance of two falls' centre lines, sampled; fine only near the threshold [m].

    ``at`` are the lower ends with the block turned as it hangs.
    """
    first, second = np.triu_indices(len(tops), 1)
    high = np.column_stack([tops, np.full(len(tops), height)])
    low = np.column_stack([at, np.zeros(len(tops))])
    from_shares, to_shares = np.zeros(len(first)), np.ones(len(first))
    nearest = float("inf")
    for samples in (25, 25, 25, 25, 25):
        shares = from_shares[:, None] + (to_shares - from_shares)[:, None] * np.linspace(0, 1, samples)[None, :]
        distances = _to_segment(high[first], low[first], high[second], low[second], shares)
        best = distances.argmin(axis=1)
        nearest = float(distances.min())
        step = (to_shares - from_shares) / (samples - 1)
        middle = np.take_along_axis(shares, best[:, None], axis=1)[:, 0]
        from_shares, to_shares = np.maximum(middle - step, 0.0), np.minimum(middle + step, 1.0)
        reach = float((np.linalg.norm((low - high)[:, :2], axis=1).max()) * 2 * step.max())
        if abs(nearest - threshold) > reach + 1e-9:
            break
    return nearest


def _to_segment(a: Points, b: Points, c: Points, d: Points, shares: Points) -> Points:
    """Return for points spread along a-b their distances from the segment c-d [m]."""
    points = a[:, None, :] + shares[:, :, None] * (b - a)[:, None, :]
    along = (d - c)[:, None, :]
    foot = ((points - c[:, None, :]) * along).sum(axis=2) / (along**2).sum(axis=2)
    nearest = c[:, None, :] + np.clip(foot, 0.0, 1.0)[:, :, None] * along
    distances: Points = np.linalg.norm(points - nearest, axis=2)
    return distances
