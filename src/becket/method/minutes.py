"""How long a change takes.

In:    what is done (a tally), the settings, the crew's own records.
Out:   seconds, part by part.
Never: money, a published time (there is none), a time for what is not done.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from statistics import median

from becket.book.tackle import Keeper, Pass
from becket.method.hanging import Hanging
from becket.method.leave import Way
from becket.method.stance import head_height
from becket.settings.values import Settings


@dataclass(frozen=True, kw_only=True)
class Tally:
    """What one change takes: counts, metres, radians."""

    telescoped: float = 0.0  # boom sections moving, both ways [m]
    derricked: float = 0.0  # both ways [rad]
    keepers: int = 0  # out and in again
    passes_out: int = 0
    passes_in: int = 0
    metres: float = 0.0  # rope pulled through, pass by pass [m]
    block_changes: bool = False
    from_lorry: bool = False  # a block is fetched from its lorry or put there


@dataclass(frozen=True, kw_only=True)
class Minutes:
    """Time of a change. ``parts`` add up to ``by_settings``; ``records`` own records replace it where enough."""

    total: float  # [s]
    by_settings: float  # [s]
    parts: Mapping[str, float]  # [s]
    records: int
    from_records: bool
    not_counted: tuple[str, ...] = ()  # what was not given and is therefore not in it


def count_minutes(
    settings: Settings, tally: Tally, records: Sequence[float] = (), not_counted: tuple[str, ...] = ()
) -> Minutes:
    """Return how long a change takes, part by part [s].

    Args:
        settings: time of each part
        tally: what is done
        records: how long the crew took for this change before, each [s]
        not_counted: what was not given and is not in the tally

    Source: docs/theory/method.md, eq. 14 and 15.
    """
    parts = _parts(settings, tally)
    summed = sum(parts.values())
    enough = len(records) > 0 and len(records) >= settings.records_needed
    return Minutes(
        total=median(records) if enough else summed,
        by_settings=summed,
        parts=parts,
        records=len(records),
        from_records=enough,
        not_counted=not_counted,
    )


def _parts(settings: Settings, tally: Tally) -> Mapping[str, float]:
    parts = {
        "prepare": settings.prepare,
        "telescope": tally.telescoped / settings.telescope_speed,
        "derrick": tally.derricked / settings.derrick_speed,
        "stops": settings.stops * settings.stop,
        "keepers": tally.keepers * (settings.keeper_out + settings.keeper_in),
        "passes out": tally.passes_out * settings.pass_out,
        "passes in": tally.passes_in * settings.pass_in,
        "rope": tally.metres * settings.metre,
        "dead end": settings.dead_end_make,
        "switch weight": settings.switch_weight,
        "inspection": settings.inspection,
        "counts": settings.counts,
        "indicator": settings.indicator,
        "limit test": settings.limit_test,
        "spooling": settings.spooling,
    }
    if tally.block_changes:
        parts["block exchange"] = settings.block_exchange
    if tally.block_changes and tally.from_lorry:
        parts["block from its lorry"] = settings.block_from_lorry
    return parts


def telescoped(before: float | None, position: float, after: float | None) -> tuple[float, tuple[str, ...]]:
    """Return the metres that the sections move to the position and on from it, and what was not given [m].

    Args:
        before: boom length of the lift before; None: not given, not counted [m]
        position: boom length for re-reeving [m]
        after: boom length of the lift after; None: not given, not counted [m]

    Source: docs/theory/method.md, eq. 14.

    >>> telescoped(26.0, 33.5, 18.5)
    (22.5, ())
    >>> telescoped(None, 33.5, 18.5)
    (15.0, ('telescoping from the boom of the lift before',))
    """
    missing = tuple(
        name
        for name, value in (
            ("telescoping from the boom of the lift before", before),
            ("telescoping to the boom of the lift after", after),
        )
        if value is None
    )
    return sum(abs(position - length) for length in (before, after) if length is not None), missing


def derricked(way: Way) -> float:
    """Return the angle that the boom moves, from where the hook is set to the low position and back [rad].

    Args:
        way: boom, blocks, switch

    Source: docs/theory/method.md, eq. 14.
    """
    return 2 * (way.start - way.low)


@dataclass(frozen=True, kw_only=True)
class PulledThrough:
    """Rope pulled through one sheave: all of it that lies beyond."""

    place: Pass
    out: bool  # drawn out; else threaded
    metres: float  # [m]


def rope_pulled(
    way: Way, paths: tuple[Sequence[Pass], Sequence[Pass]], kept: int, tail: float
) -> tuple[PulledThrough, ...]:
    """Return the metres pulled through at each pass, in the order of the work [m].

    Args:
        way: boom, blocks, switch; head over the block at the low position
        paths: the whole path before and after, rope from the drum outward
        kept: passes that stay rigged, counted from the drum [-]
        tail: behind the dead end [m]

    Source: docs/theory/method.md, eq. 16.
    """
    before, after = paths
    out = [
        PulledThrough(place=before[i], out=True, metres=_beyond(way, way.now, len(before) - i) + tail)
        for i in reversed(range(kept, len(before)))
    ]
    into = [
        PulledThrough(place=after[i], out=False, metres=_beyond(way, way.after, len(after) - i) + tail)
        for i in range(kept, len(after))
    ]
    return tuple(out + into)


def _beyond(way: Way, hanging: Hanging, falls_beyond: int) -> float:
    """Return the rope beyond a pass, to the dead end, at the low position [m]."""
    arc = hanging.arcs / max(hanging.falls - 1, 1)
    return falls_beyond * (head_height(way.stance, way.low) - hanging.stands) + (falls_beyond - 1) * arc


def keepers_moved(keepers: Sequence[Keeper]) -> int:
    """Return how many keepers come out and go in again, each once [-].

    Args:
        keepers: that the passes touch

    Source: docs/theory/method.md, eq. 14.
    """
    return len(dict.fromkeys(k.name for k in keepers))
