"""The time between two moments, as the clocks of the devices tell it.

In:    moments as a device wrote them down, ISO 8601 with offset.
Out:   seconds.
Never: the time now; a clock put right.
"""

from __future__ import annotations

import re
from datetime import date
from typing import Final

_MOMENT: Final = re.compile(
    r"([0-9]{4})-([0-9]{2})-([0-9]{2})T([0-9]{2}):([0-9]{2}):([0-9]{2})(?:\.[0-9]{1,6})?(Z|[+-][0-9]{2}:[0-9]{2})"
)


def seconds_between(first: str, second: str) -> int | None:
    """Return the time from the first moment to the second, whole seconds; None: one of them is no moment [s].

    Args:
        first: as 2026-11-30T15:31:00+01:00
        second: in the same form; before the first gives less than 0
    """
    one, other = _seconds(first), _seconds(second)
    return None if one is None or other is None else other - one


def _seconds(text: str) -> int | None:
    found = _MOMENT.fullmatch(text)
    if found is None:
        return None
    year, month, day, hour, minute, second = (int(found[number]) for number in range(1, 7))
    if year < 1000 or not 1 <= month <= 12:
        return None
    days = date(year, month, 1).toordinal() + day - 1
    return days * 86400 + hour * 3600 + minute * 60 + second - _offset(found[7])


def _offset(text: str) -> int:
    if text == "Z":
        return 0
    size = int(text[1:3]) * 3600 + int(text[4:6]) * 60
    return -size if text[0] == "-" else size
