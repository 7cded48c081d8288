"""Units: text to SI and back, pint as the independent table, every message in full."""

from __future__ import annotations

from datetime import datetime, time
from decimal import Decimal
from math import isclose, isfinite

import pint
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from becket import units
from becket.errors import UnreadableTextError

SI_OF_KIND = {
    "length": "meter",
    "mass": "kilogram",
    "force": "newton",
    "speed": "meter/second",
    "angle": "radian",
    "angular speed": "radian/second",
    "mass per length": "kilogram/meter",
    "share": "dimensionless",
    "time": "second",
    "rate": "1/second",
    "size": "byte",
}
# how the independent table writes our units where it differs
PINT_WORDS = {
    "t": "metric_ton",
    "lbf": "pound_force",
    "short ton": "short_ton",
    "short tons": "short_ton",
    "long ton": "long_ton",
    "long tons": "long_ton",
    "in": "inch",
    "%": "percent",
    "/h": "1/hour",
    "min": "minute",
    "h": "hour",
    "deg": "degree",
    "deg/min": "degree/minute",
    "m/min": "meter/minute",
    "ft/min": "foot/minute",
}
EVERY_UNIT = [(kind, unit) for kind, table in units.UNITS.items() for unit in table]


@pytest.fixture(scope="module")
def registry() -> pint.UnitRegistry[float]:
    return pint.UnitRegistry()


@pytest.mark.parametrize(("kind", "unit"), EVERY_UNIT)
def test_every_unit_agrees_with_an_independent_table(kind: str, unit: str, registry: pint.UnitRegistry[float]) -> None:
    """Checked against pint's definitions (NIST SP 811 factors), shares no code with becket."""
    other = registry.Quantity(7.25, PINT_WORDS.get(unit, unit)).to(SI_OF_KIND[kind]).magnitude
    assert isclose(units.read_quantity(f"7.25 {unit}", kind), other, rel_tol=1e-12)


@pytest.mark.parametrize(("kind", "unit"), EVERY_UNIT)
@settings(derandomize=True, deadline=None, max_examples=40)
@given(value=st.decimals(min_value=-99999, max_value=99999, places=4))
def test_every_unit_goes_to_si_and_back(kind: str, unit: str, value: Decimal) -> None:
    si = units.read_quantity(f"{value:f} {unit}", kind)
    one = units.read_quantity(f"1 {unit}", kind)
    assert isclose(si / one, float(value), rel_tol=1e-12, abs_tol=1e-12)


@pytest.mark.parametrize(
    ("text", "kind", "value"),
    [
        ("38 000 lb", "mass", 38000 * 0.45359237),
        ("1 234 567.5 kg", "mass", 1234567.5),
        ("38\u00a0000 lb", "mass", 38000 * 0.45359237),
        ("17t", "mass", 17000.0),
        ("2 short tons", "mass", 1814.36948),
        ("12 ft 6 in", "length", 3.81),
        ("-12 ft 6 in", "length", -3.81),
        ("0 ft 6.5 in", "length", 0.1651),
        ("+0.3 m", "length", 0.3),
        ("-0 m", "length", 0.0),
        ("380 mm", "length", 0.38),
        ("90 deg", "angle", 1.5707963267948966),
        ("2.5 %", "share", 0.025),
        ("490 /h", "rate", 490 / 3600),
        ("0.98", "ratio", 0.98),
        ("-3", "ratio", -3.0),
    ],
)
def test_reading(text: str, kind: str, value: float) -> None:
    read = units.read_quantity(text, kind)
    assert isclose(read, value, rel_tol=1e-15)
    assert str(read) != "-0.0"


MASS = "a mass in kg, t, lb, short ton or long ton"
LENGTH = "a length in m, mm, ft or in"
PLAIN = "a plain number without a unit, as 0.98"
TON = "short ton, long ton or t written in full: three different tons are in use"
COMMA = ", with a point for decimals and a space for thousands"


@pytest.mark.parametrize(
    ("text", "kind", "message"),
    [
        ("46", "mass", f"46 has no unit; {MASS}"),
        ("46", "length", f"46 has no unit; {LENGTH}"),
        ("", "mass", f"nothing stands there; {MASS}"),
        ("  ", "mass", f"nothing stands there; {MASS}"),
        ("5 ton", "mass", f"5 ton is not a mass; {TON}"),
        ("5 tons", "mass", f"5 tons is not a mass; {TON}"),
        ("5 m", "mass", f"5 m is not a mass; {MASS}"),
        ("5 KG", "mass", f"5 KG is not a mass; {MASS}"),
        ("5 kg kg", "mass", f"5 kg kg is not a mass; {MASS}"),
        ("kg", "mass", f"kg is not a mass; {MASS}"),
        ("nan kg", "mass", f"nan kg is not a mass; {MASS}"),
        ("inf kg", "mass", f"inf kg is not a mass; {MASS}"),
        ("-inf kg", "mass", f"-inf kg is not a mass; {MASS}"),
        ("1e3 kg", "mass", f"1e3 kg has an exponent; {MASS}"),
        ("1E+3 kg", "mass", f"1E+3 kg has an exponent; {MASS}"),
        ("1e999 kg", "mass", f"1e999 kg has an exponent; {MASS}"),
        ("010 kg", "mass", f"010 kg has a zero in front; {MASS}"),
        ("0x10 kg", "mass", f"0x10 kg is not a mass; {MASS}"),
        ("1_000 kg", "mass", f"1_000 kg is not a mass; {MASS}"),
        ("38,000 lb", "mass", f"38,000 lb has a comma; {MASS}{COMMA}"),
        ("1,5 t", "mass", f"1,5 t has a comma; {MASS}{COMMA}"),
        ("3 8000 lb", "mass", f"3 8000 lb is not a mass; {MASS}"),
        ("38 00 lb", "mass", f"38 00 lb is not a mass; {MASS}"),
        (".5 t", "mass", f".5 t is not a mass; {MASS}"),
        ("5. t", "mass", f"5. t is not a mass; {MASS}"),
        ("\u0665 kg", "mass", f"\u0665 kg is not a mass; {MASS}"),
        ("\u22125 m", "length", f"\u22125 m is not a length; {LENGTH}, with the minus of the keyboard: -"),
        ("\u20131.8 deg", "angle", "\u20131.8 deg is not an angle; an angle in deg, with the minus of the keyboard: -"),
        ("3/4 in", "length", f"3/4 in is not a length; {LENGTH}, a fraction as decimals: 3/4 is 0.75"),
        ("\u00be in", "length", f"\u00be in is not a length; {LENGTH}, a fraction as decimals: 3/4 is 0.75"),
        ("14 000 lbs", "force", "14 000 lbs is not a force; a force in N, kN or lbf; lbs is written lbf"),
        ("14 000 lbs", "mass", f"14 000 lbs is not a mass; {MASS}; lbs is written lb"),
        (
            "13.200 kg",
            "mass",
            "13.200 kg has a point before three digits: thousands or decimals; "
            "13 200 kg for thousands, 13.2 kg for decimals",
        ),
        (
            "-52.000 N",
            "force",
            "-52.000 N has a point before three digits: thousands or decimals; "
            "-52 000 N for thousands, -52.0 N for decimals",
        ),
        ("- 5 m", "length", f"- 5 m is not a length; {LENGTH}"),
        ("12 ft 14 in", "length", "12 ft 14 in; whole feet and less than 12 in, as 12 ft 6 in"),
        ("12.5 ft 6 in", "length", "12.5 ft 6 in; whole feet and less than 12 in, as 12 ft 6 in"),
        ("12 ft -6 in", "length", f"12 ft -6 in is not a length; {LENGTH}"),
        ("5 rad", "angle", "5 rad is not an angle; an angle in deg"),
        ("5 s", "time", "5 s is not a time; a time in min or h"),
        ("5 kg", "force", "5 kg is not a force; a force in N, kN or lbf"),
        ("5 km/h", "speed", "5 km/h is not a speed; a speed in m/s, m/min or ft/min"),
        ("5 kg", "mass per length", "5 kg is not a mass per length; a mass per length in kg/m or lb/ft"),
        ("0.5", "share", "0.5 has no unit; a share in %"),
        ("5", "rate", "5 has no unit; a rate in /h"),
        ("5", "size", "5 has no unit; a size in byte"),
        ("5", "angular speed", "5 has no unit; an angular speed in deg/min"),
        ("98 %", "ratio", f"98 % has a unit; {PLAIN}"),
        ("many", "ratio", f"many is not a number; {PLAIN}"),
        ("0,98", "ratio", f"0,98 has a comma; {PLAIN}"),
        ("x" * 80, "mass", f"{'x' * 57}... is not a mass; {MASS}"),
        ("5 k\x00g", "mass", f"5 k\\x00g is not a mass; {MASS}"),
        ("1" * 13 + " kg", "mass", f"{'1' * 13} kg is not a mass; {MASS}"),
    ],
)
def test_message_of_a_quantity(text: str, kind: str, message: str) -> None:
    with pytest.raises(UnreadableTextError) as caught:
        units.read_quantity(text, kind)
    assert str(caught.value) == message


def test_three_decimals_stand_where_they_can_mean_nothing_else() -> None:
    assert units.read_quantity("13.200 t", "mass") == 13200.0
    assert units.read_quantity("22.225 mm", "length") == pytest.approx(0.022225)
    assert units.read_quantity("0.125 kg", "mass") == 0.125
    assert units.read_quantity("1250.125 kg", "mass") == 1250.125


def test_a_missing_unit_is_never_proposed() -> None:
    """46 of what: the message lists every unit of the kind, so that none is suggested."""
    for kind, table in units.UNITS.items():
        with pytest.raises(UnreadableTextError) as caught:
            units.read_quantity("46", kind)
        assert all(unit.removesuffix("s") in caught.value.wanted or unit in caught.value.wanted for unit in table)


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("14 m to 6 m", "14 m to 6 m runs backward; the lesser figure first"),
        ("6 to 14 m", f"6 has no unit; {LENGTH}"),
        ("6 m to 7 m to 8 m", "6 m to 7 m to 8 m is more than one range; one range, as A to B"),
        ("6 m to", f"6 m to is not a length; {LENGTH}"),
        ("6 m - 14 m", f"6 m - 14 m is not a length; {LENGTH}"),
    ],
)
def test_message_of_a_range(text: str, message: str) -> None:
    with pytest.raises(UnreadableTextError) as caught:
        units.read_range(text, "length")
    assert str(caught.value) == message


def test_a_range() -> None:
    assert units.read_range("6 m to 14 m", "length") == (6.0, 14.0)
    assert units.read_range("20 ft 6 in to 14 m", "length") == pytest.approx((6.2484, 14.0))


@pytest.mark.parametrize("text", ["010", "+4", "-4", "4:1", "4.0", "1e1", "", " 4", "\u0664", "four", "9999999999"])
def test_message_of_a_whole_number(text: str) -> None:
    with pytest.raises(UnreadableTextError) as caught:
        units.read_whole(text)
    assert str(caught.value) == f"{text}; a whole number from 0 up, digits only, no zero in front"


def test_whole_numbers() -> None:
    assert (units.read_whole("0"), units.read_whole("16")) == (0, 16)
    with pytest.raises(UnreadableTextError, match=r"^0; a whole number from 1 up, digits only, no zero in front$"):
        units.read_whole("0", 1)


@pytest.mark.parametrize("text", ["Yes", "true", "on", "y", "1", ""])
def test_message_of_yes_and_no(text: str) -> None:
    with pytest.raises(UnreadableTextError) as caught:
        units.read_yes_no(text)
    assert str(caught.value) == f"{text}; yes or no"


@pytest.mark.parametrize("text", ["2025-02-30", "11.03.2025", "2025-3-1", "2025-W10-1", "20250311", "\u0662025-03-11"])
def test_message_of_a_date(text: str) -> None:
    with pytest.raises(UnreadableTextError) as caught:
        units.read_date(text)
    assert str(caught.value) == f"{text}; a day as 2025-03-11, year first"


@pytest.mark.parametrize("text", ["24:00", "7:00", "07:60", "0700", "07:00:00", "07:00+01:00"])
def test_message_of_a_time_of_day(text: str) -> None:
    with pytest.raises(UnreadableTextError) as caught:
        units.read_clock(text)
    assert str(caught.value) == f"{text}; a time of day as 07:00, from 00:00 to 23:59"


@pytest.mark.parametrize("text", ["2026-11-30", "2026-11-30T07:00", "2026-11-30  07:00", "30.11.2026 07:00", "07:00"])
def test_message_of_a_moment(text: str) -> None:
    with pytest.raises(UnreadableTextError) as caught:
        units.read_moment(text)
    assert str(caught.value) == f"{text}; a day and a time as 2026-11-30 07:00"


def test_messages_of_two_times_of_day() -> None:
    with pytest.raises(UnreadableTextError, match=r"^07:00; two times of day, as 07:00 to 17:30$"):
        units.read_clock_range("07:00")
    with pytest.raises(UnreadableTextError, match=r"^17:30 to 07:00 runs backward; the earlier time first$"):
        units.read_clock_range("17:30 to 07:00")


def test_clock_and_moment() -> None:
    assert units.read_moment("2026-11-30 07:00") == datetime(2026, 11, 30, 7, 0)
    assert units.read_clock_range("07:00 to 17:30") == (time(7, 0), time(17, 30))


# ---- showing -------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("value", "kind", "system", "toward", "text"),
    [
        (5196.5, "mass", "metric", "down", "5.19 t"),
        (5196.5, "mass", "metric", "up", "5.20 t"),
        (560.0, "mass", "metric", "up", "560 kg"),
        (560.2, "mass", "metric", "up", "561 kg"),
        (0.3 + 1e-17 + 0.1 - 0.1, "length", "metric", "up", "0.30 m"),
        (0.1 + 0.2, "length", "metric", "up", "0.30 m"),
        (-0.019, "length", "metric", "up", "-19.0 mm"),
        (-1.234, "length", "metric", "up", "-1.23 m"),
        (-1.234, "length", "metric", "down", "-1.24 m"),
        (0.0, "length", "metric", "nearest", "0.0 mm"),
        (52000.0, "force", "metric", "nearest", "52.0 kN"),
        (52000.0, "force", "us", "down", "11 690 lbf"),
        (3.81, "length", "us", "nearest", "12.50 ft"),
        (0.017, "length", "us", "nearest", "0.67 in"),
        (1.45, "mass per length", "metric", "nearest", "1.450 kg/m"),
        (0.4, "speed", "metric", "down", "24.0 m/min"),
        (0.9701, "share", "us", "up", "97.1 %"),
        (2700.0, "time", "metric", "nearest", "45 min"),
        (0.02617993877991494, "angle", "metric", "nearest", "1.5 deg"),
        (490 / 3600, "rate", "metric", "nearest", "490.00 /h"),
    ],
)
def test_showing(value: float, kind: str, system: str, toward: str, text: str) -> None:
    assert units.show_quantity(value, kind, system=system, toward=toward) == text


@settings(derandomize=True, deadline=None, max_examples=300)
@given(
    value=st.floats(min_value=-1e6, max_value=1e6),
    kind=st.sampled_from(sorted(units.UNITS)),
    system=st.sampled_from(["metric", "us"]),
)
def test_what_is_shown_is_never_on_the_unsafe_side(value: float, kind: str, system: str) -> None:
    up = units.read_quantity(units.show_quantity(value, kind, system=system, toward="up"), kind)
    down = units.read_quantity(units.show_quantity(value, kind, system=system, toward="down"), kind)
    noise = 2e-9 * max(1.0, abs(value))
    assert down - noise <= value <= up + noise


@settings(derandomize=True, deadline=None, max_examples=400)
@given(text=st.text(max_size=40) | st.from_regex(r"\A[+-]?[0-9 .,eE]{1,12} ?[a-zA-Z%/]{0,9}\Z"))
def test_any_text_is_a_finite_number_or_one_clear_refusal(text: str) -> None:
    for kind in (*units.UNITS, "ratio"):
        assert _is_finite_or_refused(text, kind)


def _is_finite_or_refused(text: str, kind: str) -> bool:
    try:
        return isfinite(units.read_quantity(text, kind))
    except UnreadableTextError as error:
        return bool(error.found and error.wanted)
