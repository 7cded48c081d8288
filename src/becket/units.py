"""Text with a unit to SI, and SI to text.

In:    text as a manual or a crew writes it; SI floats.
Out:   SI floats, dates and moments; short text rounded toward the side that was asked for.
Never: a unit that is not written, files, limits of a single field.
"""

from __future__ import annotations

import re
from datetime import date, datetime, time
from decimal import Decimal
from math import ceil, floor, radians

from becket.errors import UnreadableTextError

# kind -> unit as it is written -> how many SI units it is, exactly as published (an angle: in degrees, see _size)
UNITS: dict[str, dict[str, str]] = {
    "length": {"m": "1", "mm": "0.001", "ft": "0.3048", "in": "0.0254"},
    "mass": {
        "kg": "1",
        "t": "1000",
        "lb": "0.45359237",
        "short ton": "907.18474",
        "short tons": "907.18474",
        "long ton": "1016.0469088",
        "long tons": "1016.0469088",
    },
    "force": {"N": "1", "kN": "1000", "lbf": "4.4482216152605"},
    "speed": {"m/s": "1", "m/min": "1/60", "ft/min": "0.3048/60"},
    "angle": {"deg": "1"},
    "angular speed": {"deg/min": "1/60"},
    "mass per length": {"kg/m": "1", "lb/ft": "0.45359237/0.3048"},
    "share": {"%": "0.01"},
    "time": {"min": "60", "h": "3600"},
    "rate": {"/h": "1/3600"},
    "size": {"byte": "1"},
}
NOUNS = {
    "length": "a length",
    "mass": "a mass",
    "force": "a force",
    "speed": "a speed",
    "angle": "an angle",
    "angular speed": "an angular speed",
    "mass per length": "a mass per length",
    "share": "a share",
    "time": "a time",
    "rate": "a rate",
    "size": "a size",
}
PLAIN = "a plain number without a unit, as 0.98"
TON = "short ton, long ton or t written in full: three different tons are in use"

_NUMBER = r"[+-]?(?:0|[1-9][0-9]{0,2}(?: [0-9]{3})+|[1-9][0-9]{0,11})(?:\.[0-9]{1,12})?"
_NUMBER_ALONE = re.compile(_NUMBER)
_QUANTITY = re.compile(rf"({_NUMBER}) ?([^0-9 .,+-].*)")
_FEET_AND_INCHES = re.compile(rf"({_NUMBER}) ?ft ([0-9]{{1,2}}(?:\.[0-9]{{1,12}})?) ?in")
_POINT_THOUSANDS = re.compile(
    r"[+-]?[1-9][0-9]{0,2}\.[0-9]{3}"
)  # 13.200 kg: meant as 13 200 where points part thousands
_WHOLE_UNITS = frozenset({"kg", "lb", "N", "lbf"})  # nobody reads these to the thousandth
_MINUSES = "\u2010\u2011\u2012\u2013\u2014\u2212"
_FRACTION = re.compile(r"[0-9]+ ?/ ?[0-9]+|[\u00bc-\u00be\u2150-\u215e]")
_AS_WRITTEN = {"force": {"lb": "lbf", "lbs": "lbf"}, "mass": {"lbs": "lb"}, "speed": {"fpm": "ft/min"}}
_OTHER_SPACES = str.maketrans(dict.fromkeys("\u00a0\u2009\u202f", " "))
_DATE = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
_CLOCK = re.compile(r"[0-9]{2}:[0-9]{2}")
_WHOLE = re.compile(r"0|[1-9][0-9]{0,8}")


def wanted_of(kind: str) -> str:
    """Return what a quantity of the kind looks like: its noun and its units [-].

    >>> wanted_of("length")
    'a length in m, mm, ft or in'
    >>> wanted_of("ratio")
    'a plain number without a unit, as 0.98'
    """
    if kind == "ratio":
        return PLAIN
    units = [unit for unit in UNITS[kind] if not unit.endswith("tons")]
    listed = units[0] if len(units) == 1 else ", ".join(units[:-1]) + " or " + units[-1]
    return f"{NOUNS[kind]} in {listed}"


def read_quantity(text: str, kind: str) -> float:
    """Return the quantity [SI unit of its kind; rad for an angle, 1 for a share or a ratio].

    Args:
        text: a number and a unit; a space may set thousands apart [-]
        kind: a key of ``UNITS``, or "ratio" for a plain number [-]

    Raises: UnreadableTextError with what stands there and what would be right.
    Source: docs/files.md, quantities; factors are the international pound and foot.

    >>> read_quantity("38 000 lb", "mass")
    17236.51006
    >>> read_quantity("12 ft 6 in", "length")
    3.81
    >>> read_quantity("0.98", "ratio")
    0.98
    >>> read_quantity("46", "mass")
    Traceback (most recent call last):
    becket.errors.UnreadableTextError: 46 has no unit; a mass in kg, t, lb, short ton or long ton
    """
    plain = _plain(text)
    if kind == "ratio":
        return _ratio(plain)
    match = _QUANTITY.fullmatch(plain)
    if kind == "length" and (feet := _FEET_AND_INCHES.fullmatch(plain)):
        return _feet_and_inches(plain, feet[1], feet[2])
    if match is None or match[2] not in UNITS[kind]:
        raise UnreadableTextError(_wrong_with(plain, kind), _right_for(plain, kind))
    if match[2] in _WHOLE_UNITS and _POINT_THOUSANDS.fullmatch(match[1]):
        raise UnreadableTextError(*_two_readings(plain, match[1], match[2]))
    return _size(match[1], UNITS[kind][match[2]], kind)


def read_range(text: str, kind: str) -> tuple[float, float]:
    """Return least and greatest of a range, twice the same for a single quantity [SI unit of its kind].

    Args:
        text: ``6 m to 14 m``, or one quantity [-]
        kind: a key of ``UNITS`` [-]

    Raises: UnreadableTextError, also where the second is less than the first.

    >>> read_range("6 m to 14 m", "length")
    (6.0, 14.0)
    >>> read_range("8 m", "length")
    (8.0, 8.0)
    """
    parts = _plain(text).split(" to ")
    if len(parts) > 2:
        raise UnreadableTextError(f"{shortened(text)} is more than one range", "one range, as A to B")
    values = [read_quantity(part, kind) for part in parts]
    if values[-1] < values[0]:
        raise UnreadableTextError(f"{shortened(text)} runs backward", "the lesser figure first")
    return values[0], values[-1]


def read_whole(text: str, least: int = 0) -> int:
    """Return a whole number: falls, a sheave, people [-].

    >>> read_whole("4")
    4
    >>> read_whole("010")
    Traceback (most recent call last):
    becket.errors.UnreadableTextError: 010; a whole number from 0 up, digits only, no zero in front
    """
    wanted = f"a whole number from {least} up, digits only, no zero in front"
    if not _WHOLE.fullmatch(text) or int(text) < least:
        raise UnreadableTextError(shortened(text), wanted)
    return int(text)


def read_yes_no(text: str) -> bool:
    """Return whether the word is yes [-].

    >>> read_yes_no("no")
    False
    """
    if text not in ("yes", "no"):
        raise UnreadableTextError(shortened(text), "yes or no")
    return text == "yes"


def read_date(text: str) -> str:
    """Return a day of the calendar, as it is written [-].

    >>> read_date("2025-03-11")
    '2025-03-11'
    """
    wanted = "a day as 2025-03-11, year first"
    try:
        if not _DATE.fullmatch(text):
            raise ValueError
        return date.fromisoformat(text).isoformat()
    except ValueError:
        raise UnreadableTextError(shortened(text), wanted) from None


def read_clock(text: str) -> time:
    """Return a time of day by the site's own clock [-].

    >>> read_clock("07:00")
    datetime.time(7, 0)
    """
    try:
        if not _CLOCK.fullmatch(text):
            raise ValueError
        return time.fromisoformat(text)
    except ValueError:
        raise UnreadableTextError(shortened(text), "a time of day as 07:00, from 00:00 to 23:59") from None


def read_clock_range(text: str) -> tuple[time, time]:
    """Return from when to when on one day [-].

    >>> read_clock_range("07:00 to 17:30")
    (datetime.time(7, 0), datetime.time(17, 30))
    """
    parts = text.split(" to ")
    if len(parts) != 2:
        raise UnreadableTextError(shortened(text), "two times of day, as 07:00 to 17:30")
    first, last = read_clock(parts[0]), read_clock(parts[1])
    if not first < last:
        raise UnreadableTextError(f"{shortened(text)} runs backward", "the earlier time first")
    return first, last


def read_moment(text: str) -> datetime:
    """Return a moment by the site's own clock [-].

    >>> read_moment("2026-11-30 07:00")
    datetime.datetime(2026, 11, 30, 7, 0)
    """
    try:
        day, clock = text.split(" ")
        return datetime.combine(date.fromisoformat(read_date(day)), read_clock(clock))
    except ValueError:
        raise UnreadableTextError(shortened(text), "a day and a time as 2026-11-30 07:00") from None


def shortened(text: str, most: int = 60) -> str:
    """Return the text as a message shows it: on one line, every odd character spelt out, not too long [-].

    >>> shortened("17 t" + chr(0))
    '17 t\\\\x00'
    """
    shown = "".join(c if c.isprintable() else c.encode("unicode_escape").decode("ascii") for c in text[: most + 1])
    return shown if len(shown) <= most else shown[: most - 3] + "..."


# ---- reading -------------------------------------------------------------------------------------------------------


def _plain(text: str) -> str:
    return text.translate(_OTHER_SPACES).strip(" ")


def _decimal(text: str) -> Decimal:
    return Decimal(text.replace(" ", ""))


def _size(number: str, factor: str, kind: str) -> float:
    above, _, under = factor.partition("/")
    value = _decimal(number) * Decimal(above)
    if under:
        value /= Decimal(under)
    # + 0.0: minus nought is nought
    return radians(float(value)) + 0.0 if kind in ("angle", "angular speed") else float(value) + 0.0


def _ratio(plain: str) -> float:
    if not _NUMBER_ALONE.fullmatch(plain):
        raise UnreadableTextError(_wrong_with(plain, "ratio"), PLAIN)
    return float(_decimal(plain)) + 0.0


def _feet_and_inches(plain: str, feet: str, inches: str) -> float:
    if "." in feet or Decimal(inches) >= 12:
        raise UnreadableTextError(shortened(plain), "whole feet and less than 12 in, as 12 ft 6 in")
    whole = abs(_decimal(feet)) * 12 + Decimal(inches)
    return float((-whole if feet.startswith("-") else whole) * Decimal("0.0254")) + 0.0


def _wrong_with(plain: str, kind: str) -> str:
    shown = shortened(plain)
    if not plain:
        return "nothing stands there"
    if kind != "ratio" and _NUMBER_ALONE.fullmatch(plain):
        return f"{shown} has no unit"
    if "," in plain and any(c.isdigit() for c in plain):
        return f"{shown} has a comma"
    if re.match(r"[+-]?[0-9.]+[eE][+-]?[0-9]", plain):
        return f"{shown} has an exponent"
    if re.match(r"[+-]?0[0-9]", plain):
        return f"{shown} has a zero in front"
    match = _QUANTITY.fullmatch(plain)
    if match and kind == "ratio":
        return f"{shown} has a unit"
    return f"{shown} is not {NOUNS[kind]}" if kind != "ratio" else f"{shown} is not a number"


def _two_readings(plain: str, number: str, unit: str) -> tuple[str, str]:
    """A point before three digits parts thousands in half of the world's papers: a thousandfold if misread."""
    whole, thousandths = number.split(".")
    decimals = f"{whole}.{thousandths.rstrip('0') or '0'}"
    found = f"{shortened(plain)} has a point before three digits: thousands or decimals"
    return found, f"{whole} {thousandths} {unit} for thousands, {decimals} {unit} for decimals"


def _right_for(plain: str, kind: str) -> str:
    unit = plain.lstrip("+-0123456789 .")
    if kind == "mass" and unit in ("ton", "tons"):
        return TON
    if unit in _AS_WRITTEN.get(kind, {}):
        return f"{wanted_of(kind)}; {unit} is written {_AS_WRITTEN[kind][unit]}"
    if plain.startswith(tuple(_MINUSES)):
        return f"{wanted_of(kind)}, with the minus of the keyboard: -"
    if _FRACTION.search(plain):
        return f"{wanted_of(kind)}, a fraction as decimals: 3/4 is 0.75"
    if "," in plain:
        return wanted_of(kind) + ", with a point for decimals and a space for thousands"
    return wanted_of(kind)


# ---- showing -------------------------------------------------------------------------------------------------------

# system -> kind -> (shown in this unit from this size on, unit, decimals), the largest first
SHOWN: dict[str, dict[str, tuple[tuple[float, str, int], ...]]] = {
    "metric": {
        "length": ((0.1, "m", 2), (0.0, "mm", 1)),
        "mass": ((1000.0, "t", 2), (0.0, "kg", 0)),
        "force": ((1000.0, "kN", 1), (0.0, "N", 0)),
        "speed": ((0.0, "m/min", 1),),
        "mass per length": ((0.0, "kg/m", 3),),
    },
    "us": {
        "length": ((0.3048, "ft", 2), (0.0, "in", 2)),
        "mass": ((0.0, "lb", 0),),
        "force": ((0.0, "lbf", 0),),
        "speed": ((0.0, "ft/min", 1),),
        "mass per length": ((0.0, "lb/ft", 3),),
    },
}
SHOWN_ALIKE: dict[str, tuple[tuple[float, str, int], ...]] = {
    "angle": ((0.0, "deg", 1),),
    "angular speed": ((0.0, "deg/min", 1),),
    "share": ((0.0, "%", 1),),
    "time": ((0.0, "min", 0),),
    "rate": ((0.0, "/h", 2),),
    "size": ((0.0, "byte", 0),),
}


def show_quantity(value: float, kind: str, *, system: str = "metric", toward: str = "nearest") -> str:
    """Return the quantity as text that ``read_quantity`` reads again [-].

    Args:
        value: in SI [SI unit of its kind]
        kind: a key of ``UNITS`` [-]
        system: "metric" or "us" [-]
        toward: "nearest"; "up" for what is required, "down" for what is there, in the shown unit [-]

    >>> show_quantity(5196.5, "mass", toward="down"), show_quantity(5196.5, "mass", toward="up")
    ('5.19 t', '5.20 t')
    >>> show_quantity(17236.51006, "mass", system="us")
    '38 000 lb'
    """
    sizes = SHOWN_ALIKE[kind] if kind in SHOWN_ALIKE else SHOWN[system][kind]
    unit, places = next((unit, places) for least, unit, places in sizes if abs(value) >= least * (1 - 1e-9))
    number = _rounded(value / _size("1", UNITS[kind][unit], kind), places, toward)
    return f"{number:,.{places}f} {unit}".replace(",", " ")


def _rounded(value: float, places: int, toward: str) -> float:
    steps = value * 10**places
    near = round(steps)
    # a float that stands on a step but for its last digits is that step
    if toward == "nearest" or abs(steps - near) <= 1e-9 * max(1.0, abs(steps)):
        whole = near
    else:
        whole = ceil(steps) if toward == "up" else floor(steps)
    return float(whole / 10**places) + 0.0
