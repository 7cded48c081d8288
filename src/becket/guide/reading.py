"""One value that was entered, against the field that asked for it.

In:    a field of the script, a value as it came from a phone.
Out:   what is wrong with it, in words; whether two values say the same.
Never: a value put right; a value taken because it is near.
"""

from __future__ import annotations

import math
import re
import sys
from collections.abc import Callable, Mapping
from typing import Final, TypeGuard

from becket.guide.run_words import filled, run_word, said
from becket.guide.script import Field

ROUNDING: Final = 1e-9  # of a sum of decimals in binary; far below any tolerance of a reading
_TIME: Final = re.compile(r"([01][0-9]|2[0-3]):[0-5][0-9]")
_LARGEST: Final = 2**53


def is_whole(value: object) -> TypeGuard[int | float]:
    """Return whether a value is a whole number that a phone holds exactly [-].

    Args:
        value: any
    """
    return is_number(value) and value == int(value) and abs(value) < _LARGEST


def is_number(value: object) -> TypeGuard[int | float]:
    """Return whether a value is a finite number; true and false are not [-].

    Args:
        value: any
    """
    if isinstance(value, bool) or not isinstance(value, int | float):
        return False
    return abs(value) <= sys.float_info.max


def what_is_wrong(field: Field, value: object) -> str | None:
    """Return what is wrong with an entered value, in words; None: it is taken [-].

    Args:
        field: that asked
        value: that was entered; None: nothing was
    """
    if value is None:
        return None if is_free(field) else run_word("missing_value", {"prompt": field.prompt})
    if not is_readable(field, value):
        return run_word("unreadable", {"prompt": field.prompt})
    if field.kind == "choice" and value in field.stops:
        return filled(field.wrong, {"value": value}) if field.wrong else run_word("stops", {"value": value})
    if field.want is not None and not is_alike(field, value, field.want):
        return _not_wanted(field, value)
    if field.kind == "number" and not _is_in_range(field, value):
        return _out_of_range(field, value)
    return None


def is_free(field: Field) -> bool:
    """Return whether a field takes any words, or none: beside a choice, where there is nothing to say [-].

    Args:
        field: that asked
    """
    return field.kind == "text" and field.want is None


def is_readable(field: Field, value: object) -> bool:
    """Return whether a value is of the kind that the field asks for [-].

    Args:
        field: that asked
        value: that was entered
    """
    return _READABLE[field.kind](field, value)


def is_alike(field: Field, one: object, other: object) -> bool:
    """Return whether two values say the same: numbers within the tolerance, sheaves in any order [-].

    Args:
        field: that asked
        one: of the kind of the field
        other: of the kind of the field
    """
    if field.kind == "number" and is_number(one) and is_number(other):
        return abs(one - other) <= (field.tolerance or 0) + ROUNDING
    return is_same(one, other)


def is_same(one: object, other: object) -> bool:
    """Return whether two plain values are the same; lists in any order; a number is never a text [-].

    Args:
        one: any
        other: any
    """
    if isinstance(one, list | tuple) and isinstance(other, list | tuple):
        return sorted(map(said, one)) == sorted(map(said, other))
    if is_number(one) and is_number(other):
        return float(one) == float(other)
    return isinstance(one, str) and isinstance(other, str) and one == other


def _not_wanted(field: Field, value: object) -> str:
    return filled(field.wrong, {"value": value}) if field.wrong else run_word("not_wanted", {"value": value})


def _is_in_range(field: Field, value: object) -> bool:
    least = -math.inf if field.least is None else field.least - ROUNDING
    most = math.inf if field.most is None else field.most + ROUNDING
    return is_number(value) and least <= value <= most


def _out_of_range(field: Field, value: object) -> str:
    if field.wrong:
        return filled(field.wrong, {"value": value})
    code = "at_least" if field.most is None else "at_most" if field.least is None else "between"
    limits = run_word(code, {"least": field.least, "most": field.most})
    return run_word("out_of_range", {"value": value, "range": limits})


def _falls(field: Field, value: object) -> bool:
    return is_whole(value) and value >= 1


def _count(field: Field, value: object) -> bool:
    return is_whole(value) and value >= 0


def _number(field: Field, value: object) -> bool:
    return is_number(value)


def _sheave(field: Field, value: object) -> bool:
    return is_whole(value) and (not field.sheaves or value in field.sheaves)


def _sheaves(field: Field, value: object) -> bool:
    if not isinstance(value, list | tuple):
        return False
    return all(_sheave(field, one) for one in value) and len(set(value)) == len(value)


def _choice(field: Field, value: object) -> bool:
    return isinstance(value, str) and (value in field.choices or value in field.stops)


def _text(field: Field, value: object) -> bool:
    return isinstance(value, str)


def _name(field: Field, value: object) -> bool:
    return isinstance(value, str) and re.search(r"[^ \t\r\n]", value) is not None


def _time(field: Field, value: object) -> bool:
    return isinstance(value, str) and _TIME.fullmatch(value) is not None


_READABLE: Final[Mapping[str, Callable[[Field, object], bool]]] = {
    "falls": _falls,
    "count": _count,
    "number": _number,
    "sheave": _sheave,
    "sheaves": _sheaves,
    "choice": _choice,
    "text": _text,
    "name": _name,
    "time": _time,
}
