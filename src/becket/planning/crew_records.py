"""How long this crew really takes for a change, from its own closed records.

In:    the time of each closed change of one crane, by its states before and after; settings.
Out:   median, count and spread; the minutes that replace the settings' sum.
Never: a median of fewer records than the settings ask for; a record of another change or another crane.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import ceil
from statistics import median

from becket.book.tackle import State
from becket.settings.values import Settings

Kind = tuple[State, State]


@dataclass(frozen=True, kw_only=True)
class Taken:
    """One closed change. ``interrupted``: between a stop and going on; it is not in ``worked``."""

    worked: float  # [s]
    interrupted: float  # [s]
    stops: int = 0  # how often it was interrupted [-]
    run: str = ""  # id; "" where nobody asks which run it was


CrewRecords = Mapping[Kind, Sequence[Taken]]


@dataclass(frozen=True, kw_only=True)
class CrewTime:
    """What the records of one kind of change say."""

    median: float  # [s]
    count: int
    least: float  # [s]
    greatest: float  # [s]
    interrupted: float  # in all records together, taken out [s]
    is_enough: bool  # the median replaces the sum of the settings


def crew_time(settings: Settings, records: Sequence[Taken]) -> CrewTime | None:
    """Return what the records of one kind of change say; None: there are none [s].

    Args:
        settings: how many records are needed before they replace the sum
        records: closed changes of this crane from and to the same states

    Source: docs/theory/method.md, "Minutes".
    """
    if not records:
        return None
    worked = [one.worked for one in records]
    return CrewTime(
        median=median(worked),
        count=len(worked),
        least=min(worked),
        greatest=max(worked),
        interrupted=sum(one.interrupted for one in records),
        is_enough=len(worked) >= settings.records_needed,
    )


def crew_words(time: CrewTime) -> str:
    """Return what the records say, in words; each time rounded up, as the minutes of a plan are [min].

    Args:
        time: of one kind of change
    """
    spread = f"{minutes_up(time.least)} to {minutes_up(time.greatest)} min"
    basis = "the only own record" if time.count == 1 else f"the median of {time.count} own records ({spread})"
    words = f"{minutes_up(time.median)} min, {basis}"
    if time.interrupted > 0:
        words += f"; interruption, on average {minutes_up(time.interrupted / time.count)} min a change, is taken out"
    return words


def records_said(settings: Settings, records: Sequence[Taken]) -> str | None:
    """Return what the records of one kind of change say, and whether they count yet; None: there are none [min].

    Args:
        settings: how many records are needed before they replace the sum
        records: closed changes of this crane from and to the same states
    """
    time = crew_time(settings, records)
    if time is None:
        return None
    used = "" if time.is_enough else f"; counted from {settings.records_needed:.0f} on, until then the settings"
    return f"{crew_words(time)}{used}."


def records_note(settings: Settings, kind: Kind, records: CrewRecords) -> str | None:
    """Return the note of a plan on one kind of change; None: there are no records of it [min].

    Args:
        settings: how many records are needed before they replace the sum
        kind: states before and after
        records: of this crane
    """
    said = records_said(settings, records.get(kind, ()))
    return None if said is None else f"{kind[0]} to {kind[1]}: {said}"


def minutes_up(seconds: float) -> int:
    """Return a time in whole minutes, rounded up [min].

    Args:
        seconds: the time [s]

    >>> minutes_up(2741.5)
    46
    """
    return ceil(seconds / 60 - 1e-6)
