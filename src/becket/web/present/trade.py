"""States, limits, days and figures as a crew reads them on a page.

In:    records of the core; the words of the catalogue.
Out:   short texts.
Never: computing, rounding of its own.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import datetime
from math import ceil

from becket.book.tackle import State
from becket.figures import said, shown

Word = Callable[..., str]
_STATE = re.compile(r"\b([\w-]+):([1-9][0-9]{0,2})\b")
_DEGREES = re.compile(r"(?<=\d) deg\b")
_MINUS = re.compile(r"(?<![\w.])-(?=\d)")
# what a page has a button for
_COMMAND = re.compile(r" with: becket confirm BOOK (?:'[^']*'|[^\s']+)(?=\.(?:\s|$))")


def state_words(state: State) -> str:
    """Return a state as it stands on a plate [-].

    >>> state_words(State(block="main", falls=4))
    'main 4'
    """
    return f"{state.block} {state.falls}"


def limit_words(name: str) -> str:
    """Return the name of a limit, a rule or a finding in words [-].

    >>> limit_words("lead_line_pull")
    'lead line pull'
    """
    return name.replace("_", " ")


def typeset(text: str) -> str:
    """Return a text with the signs of a page: the degree sign, the true minus [-].

    >>> typeset("-1.5 deg, 0.0 deg")
    '−1.5°, 0.0°'
    """
    return _MINUS.sub("\u2212", _DEGREES.sub("\u00b0", text))


def sentence(text: str, system: str) -> str:
    """Return a sentence of the core for a page: figures in its units, no command of the command line [-].

    Args:
        text: as the core says it
        system: "metric" or "us"

    >>> sentence("pump: main:2 does not do (fail at lead line pull).", "metric")
    'pump: main 2 does not do (fail at lead line pull).'
    >>> sentence("A second person reads page 7-15 with: becket confirm BOOK main:5.", "metric")
    'A second person reads page 7-15.'
    """
    return typeset(_STATE.sub(r"\1 \2", said(_COMMAND.sub("", text), system)))


def figure(value: float | None, kind: str, system: str, toward: str = "nearest") -> str:
    """Return a quantity with its unit, as on a page; ``?`` where it is not known [-].

    Args:
        value: in SI
        kind: "length", "mass", "force", "speed", "angle", "time"
        system: "metric" or "us"
        toward: "nearest"; "up" for what is asked for, "down" for what is there

    >>> figure(-0.0261799, "angle", "metric")
    '−1.5°'
    """
    return typeset(shown(value, kind, system, toward))


def minutes_up(minutes: float) -> int:
    """Return minutes in whole ones, rounded up [min].

    >>> minutes_up(45.692)
    46
    """
    return ceil(minutes - 1e-6)


def day_of(moment: datetime, word: Word) -> str:
    """Return a day as on a page: ``Mon 30 Nov`` [-].

    Args:
        moment: of any clock
        word: the catalogue
    """
    days, months = word("base.days").split(), word("base.months").split()
    return f"{days[moment.weekday()]} {moment.day} {months[moment.month - 1]}"


def clock_of(moment: datetime) -> str:
    """Return hours and minutes, 24 h; a part of a minute counts as a whole one [-].

    >>> clock_of(datetime(2026, 11, 30, 14, 39, 30))
    '14:40'
    """
    whole = moment.hour * 60 + moment.minute + (1 if moment.second or moment.microsecond else 0)
    return f"{whole // 60 % 24:02d}:{whole % 60:02d}"


def was_at(moment: datetime) -> datetime:
    """Return the minute in which something was: what is past is not rounded up, or it would lie ahead [-].

    Args:
        moment: of any clock

    >>> clock_of(was_at(datetime(2026, 11, 30, 14, 39, 30)))
    '14:39'
    """
    return moment.replace(second=0, microsecond=0)


def moment_of(moment: datetime, word: Word) -> str:
    """Return a day and a time: ``Mon 30 Nov 14:40`` [-].

    Args:
        moment: of any clock
        word: the catalogue
    """
    return f"{day_of(moment, word)} {clock_of(moment)}"
