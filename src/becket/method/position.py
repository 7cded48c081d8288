"""Where the boom is put so that a person on the ground reaches the head.

In:    a crane book, two states, a site.
Out:   one of the positions that the manual permits, or the nearest miss and what would make it good.
Never: a length, sector or angle outside the permitted positions; a site figure in place of one not given.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import degrees

from becket.book.charts import Position as PermittedPosition
from becket.book.crane import Book
from becket.book.tackle import Override, State
from becket.method.hanging import Hanging, hanging_of, missing_figures
from becket.method.site import Site, ground_at_head, to_ask
from becket.method.stance import Stance, angle_of_head, at_length, head_height, head_radius, stance_of
from becket.settings.values import Settings
from becket.verdict import Verdict

OVERRIDE_STATES = ("block set down", "switch weight off")  # true on the way from the weight window to the low position
_NARROW = 1e-9  # a figure equal to its limit stays within it [m, rad, kg]


@dataclass(frozen=True, kw_only=True)
class BoomPosition:
    """A permitted position of the boom for re-reeving. Heights are above the ground at the head."""

    length: float  # [m]
    code: str
    angle: float  # lowest in the window [rad]
    sector: str
    radius: float  # head shaft from the slewing axis [m]
    head_height: float  # sag taken off [m]
    head_window: tuple[float, float]  # clear of the block, within reach [m]
    free_radius_needed: float  # [m]
    counterweight: float  # [kg]
    outriggers: str
    lowest: float  # of the row and of the sector [rad]
    highest: float  # of the row and of the boom [rad]
    rated: float  # [kg]
    load: float  # block and rope, the most of both states [kg]
    wind: float | None  # [m/s]
    page: str | None
    override: Override | None  # what the manual lets the key release on the last metres; None: not needed


@dataclass(frozen=True, kw_only=True)
class PositionAnswer:
    """A position, or why there is none. ``positions``: every good one, the one to take first."""

    verdict: Verdict
    position: BoomPosition | None
    why_no_position: str | None
    asked: tuple[str, ...]  # site figures not given: asked at the first hold point
    missing: tuple[str, ...]  # fields of the book that are not on file
    positions: tuple[BoomPosition, ...]


@dataclass(frozen=True, kw_only=True)
class Miss:
    """Why one permitted position does not do. ``short``: by how much; None: not a matter of length [m]."""

    why: str
    short: float | None = None
    missing: str | None = None


@dataclass(frozen=True, kw_only=True)
class _Case:
    """One question, read once."""

    book: Book
    settings: Settings
    site: Site
    hanging: tuple[Hanging, Hanging]  # now, next


def find_position(book: Book, settings: Settings, before: State, after: State, site: Site) -> PositionAnswer:
    """Return the shortest permitted boom whose head stands in the window, at its lowest angle, or why none [SI].

    Args:
        book: the crane book
        settings: hand height, work room, greatest slope
        before: what hangs now
        after: what is to hang
        site: counterweight, outriggers, room and ground

    Raises:
        NotOnFileError: a block is not in the book.

    Source: docs/theory/method.md, "Position".
    """
    asked = to_ask(site) + (("second line",) if book.second_line is None else ())
    missing = tuple(dict.fromkeys(missing_figures(book, before) + missing_figures(book, after)))
    if missing:
        why = f"{', '.join(missing)}: not on file; see the manual's pages on hook blocks, or measure"
        return _none(Verdict.UNKNOWN, why, asked, missing)
    refused = _set_up_refused(book, settings, site)
    if refused is not None:
        return _none(*refused, asked, ())
    case = _Case(book=book, settings=settings, site=site, hanging=(hanging_of(book, before), hanging_of(book, after)))
    judged = [_judge(case, row) for row in _rows_of(book, site) if site.sector in (None, row.sector)]
    good = sorted((p for p in judged if isinstance(p, BoomPosition)), key=lambda p: (p.length, p.angle))
    if good:
        return PositionAnswer(
            verdict=Verdict.PASS, position=good[0], why_no_position=None, asked=asked, missing=(), positions=tuple(good)
        )
    return _nearest_miss(case, [m for m in judged if isinstance(m, Miss)], asked)


def _none(verdict: Verdict, why: str, asked: tuple[str, ...], missing: tuple[str, ...]) -> PositionAnswer:
    return PositionAnswer(
        verdict=verdict, position=None, why_no_position=why, asked=asked, missing=missing, positions=()
    )


def _set_up_refused(book: Book, settings: Settings, site: Site) -> tuple[Verdict, str] | None:
    """Return why the set-up of the site permits no position before any boom is looked at [-]."""
    if not book.rereeve:
        return Verdict.UNKNOWN, "rereeve: no permitted position is on file; see the manual's page on re-reeving"
    if site.counterweight is None or site.outriggers is None:
        wanted = "counterweight" if site.counterweight is None else "outriggers"
        return Verdict.UNKNOWN, f"{wanted}: not given; the position depends on it. Permitted: {_set_ups(book)}"
    set_up = _set_up(site.counterweight, site.outriggers)
    return _too_steep(settings, site) or _not_permitted(book, set_up, _rows_of(book, site), site.sector)


def _too_steep(settings: Settings, site: Site) -> tuple[Verdict, str] | None:
    if site.slope is None or abs(site.slope) <= settings.slope_most + _NARROW:
        return None
    return Verdict.FAIL, (
        f"slope: {degrees(abs(site.slope)):.1f} deg; at most {degrees(settings.slope_most):.1f} deg holds a block "
        f"upright ({settings.named('slope_most')}); level ground at the head would help"
    )


def _not_permitted(
    book: Book, set_up: str, rows: tuple[PermittedPosition, ...], sector: str | None
) -> tuple[Verdict, str] | None:
    if not rows:
        return Verdict.FAIL, f"{set_up}: not a permitted position; the book lists {_set_ups(book)}"
    if sector is not None and all(row.sector != sector for row in rows):
        listed = ", ".join(sorted({row.sector for row in rows}))
        return Verdict.FAIL, f"sector {sector}: not a permitted position with this set-up; the book lists {listed}"
    return None


def _rows_of(book: Book, site: Site) -> tuple[PermittedPosition, ...]:
    return tuple(
        row
        for row in book.rereeve
        if site.counterweight is not None
        and abs(row.counterweight - site.counterweight) < 0.5
        and row.outriggers == site.outriggers
    )


def _set_ups(book: Book) -> str:
    every = dict.fromkeys(f"{_tonnes(row.counterweight)} with outriggers {row.outriggers}" for row in book.rereeve)
    return "; ".join(every)


def _set_up(counterweight: float, outriggers: str) -> str:
    return f"counterweight {_tonnes(counterweight)} with outriggers {outriggers}"


def _name(row: PermittedPosition) -> str:
    return f"{row.length:.1f} m over the {row.sector}"


def _tonnes(mass: float) -> str:
    return f"{mass / 1000:g} t"


def _judge(case: _Case, row: PermittedPosition) -> BoomPosition | Miss:
    """Return the position that a row of the book gives, or why it does not do [-]."""
    stance = _stance(case, row)
    if stance is None:
        return Miss(
            why=f"boom.sag for {row.length:.1f} m: not on file; measure once how much lower the level head hangs",
            missing="boom.sag",
        )
    low, high = _angles(case.book, row)
    if low is None:
        return Miss(why=f"boom.lowest: not on file for {_name(row)}", missing="boom.lowest")
    angle = _in_window(case, stance, (low, high), _name(row))
    if isinstance(angle, Miss):
        return angle
    room = _room(case, row, head_radius(stance, angle))
    if isinstance(room, Miss):
        return room
    code = _code(case.book, row)
    if isinstance(code, Miss):
        return code
    height = head_height(stance, angle)
    load = _permitted_load(case, row, height)
    if isinstance(load, Miss):
        return load
    override = _override(case, height)
    if isinstance(override, Miss):
        return override
    return BoomPosition(
        length=row.length,
        code=code,
        angle=angle,
        sector=row.sector,
        radius=head_radius(stance, angle),
        head_height=height,
        head_window=window_of(case.settings, case.hanging),
        free_radius_needed=room,
        counterweight=row.counterweight,
        outriggers=row.outriggers,
        lowest=low,
        highest=high,
        rated=load.rated,
        load=load.hangs,
        wind=row.wind,
        page=row.page,
        override=override,
    )


def _stance(case: _Case, row: PermittedPosition) -> Stance | None:
    sag = at_length(case.book.boom.sag or {}, row.length)
    return None if sag is None else stance_of(case.book, row.length, sag, ground_at_head(case.site))


def _angles(book: Book, row: PermittedPosition) -> tuple[float | None, float]:
    """Return lowest and highest angle: the row's within the boom's, the worst sector where none is given [rad]."""
    mechanical = book.boom.lowest.get(row.sector, max(book.boom.lowest.values(), default=None))
    lowest = None if mechanical is None else max(row.lowest, mechanical)
    return lowest, min(row.highest, book.boom.highest)


def window_of(settings: Settings, hanging: tuple[Hanging, Hanging]) -> tuple[float, float]:
    """Return the heights between which the head is clear of both blocks and within reach [m], shape (2,).

    Args:
        settings: hand height
        hanging: now and next

    Source: docs/theory/method.md, eq. 5.
    """
    return max(h.stands + h.clear for h in hanging), settings.hand_height


def _in_window(case: _Case, stance: Stance, angles: tuple[float, float], name: str) -> float | Miss:
    """Return the lowest angle at which the head stands in the window, or the miss [rad]."""
    clear, reach = window_of(case.settings, case.hanging)
    if clear > reach + _NARROW:
        return Miss(
            why=f"the head has to stand {clear:.2f} m up to clear the block and at most {reach:.2f} m to be reached; "
            f"{_centimetres(clear - reach)} missing; a stand for the rigger would help",
            short=clear - reach,
        )
    low, high = angles
    least = head_height(stance, low)
    if least > reach + _NARROW:
        return Miss(
            why=f"{name}: at its lowest angle {degrees(low):.1f} deg the head stands {least:.2f} m up, "
            f"{_centimetres(least - reach)} over reach ({reach:.2f} m)",
            short=least - reach,
        )
    if least >= clear - _NARROW:
        return low
    angle = angle_of_head(stance, clear)
    if angle is None or angle > high + _NARROW:
        return Miss(
            why=f"{name}: at its highest angle {degrees(high):.1f} deg the head stands "
            f"{head_height(stance, high):.2f} m up, {_centimetres(clear - head_height(stance, high))} "
            f"under what clears the block ({clear:.2f} m)",
            short=clear - head_height(stance, high),
        )
    return angle


def _room(case: _Case, row: PermittedPosition, radius: float) -> float | Miss:
    """Return the free radius that the head and room to work need, or the miss [m]."""
    room, free = radius + case.settings.work_room, case.site.free_radius
    if free is None or room <= free + _NARROW:
        return room
    return Miss(
        why=f"{_name(row)}: free radius {free:.1f} m; the head at {radius:.1f} m and room to work need {room:.1f} m, "
        f"{_centimetres(room - free)} are missing",
        short=room - free,
    )


def _code(book: Book, row: PermittedPosition) -> str | Miss:
    """Return the telescoping codes that give the boom length of a row, or the miss [-]."""
    code = " or ".join(one.code for one in book.boom.lengths if abs(one.length - row.length) < 1e-6)
    return code or Miss(why=f"boom.lengths: {row.length:.2f} m is not on file", missing="boom.lengths")


@dataclass(frozen=True, kw_only=True)
class _Load:
    """What a permitted position carries."""

    rated: float  # [kg]
    hangs: float  # block and rope, the most of both states [kg]


def _permitted_load(case: _Case, row: PermittedPosition, height: float) -> _Load | Miss:
    """Return block and rope under the head where the row permits them, or the miss [kg]."""
    load = _load(case, height)
    if load is None or row.rated is None:
        missing = "rope.mass" if load is None else "rereeve.rated"
        why = f"{_name(row)}: {missing} is not on file; see page {row.page or 'on re-reeving'}"
        return Miss(why=why, missing=missing)
    if load > row.rated + _NARROW:
        return Miss(
            why=f"{_name(row)}: block and rope are {load:.0f} kg, {row.rated:.0f} kg is permitted there (page "
            f"{row.page}); a lighter block, or another permitted position, would help"
        )
    return _Load(rated=row.rated, hangs=load)


def _load(case: _Case, height: float) -> float | None:
    """Return block and rope under the head, at most, and what hangs on a second line; None: rope mass unknown [kg]."""
    metre = case.book.rope.mass
    if metre is None:
        return None
    second = case.book.second_line.mass if case.book.second_line is not None else 0.0
    ropes = (h.falls * (height - h.stands) + h.arcs + case.settings.leave_slack_most for h in case.hanging)
    return second + max(h.mass + rope * metre for h, rope in zip(case.hanging, ropes, strict=True))


def _override(case: _Case, height: float) -> Override | Miss | None:
    """Return the override that the last metres down need, None where they need none [-]."""
    switch = case.book.switch
    if switch.trips is None:
        why = "switch.trips: not on file; see the manual's page on the hoist limit switch"
        return Miss(why=why, missing="switch.trips")
    weight_off = max(h.stands for h in case.hanging) + switch.trips + case.settings.weight_window_clear
    if height >= weight_off or (switch.stops and "derrick down" not in switch.stops):
        return None
    if not switch.stops:
        return Miss(why="switch.stops: the motions that the switch stops are not on file", missing="switch.stops")
    return _override_on_file(case.book) or Miss(
        why=f"below {weight_off:.2f} m the hoist limit switch stops `derrick down`, and the book lists no "
        f"override of it for {' and '.join(OVERRIDE_STATES)}; see the manual's page on the override key"
    )


def _override_on_file(book: Book) -> Override | None:
    """Return the first override of derricking down whose states are all true by then [-]."""
    of_derricking = (one for one in book.override if one.stops == "derrick down" and one.when)
    return next((one for one in of_derricking if set(one.when) <= set(OVERRIDE_STATES)), None)


def _nearest_miss(case: _Case, misses: list[Miss], asked: tuple[str, ...]) -> PositionAnswer:
    """Return the answer that names the nearest miss and what would make it good [-]."""
    missing = tuple(dict.fromkeys(m.missing for m in misses if m.missing is not None))
    by_length = sorted((m for m in misses if m.short is not None), key=lambda m: m.short or 0.0)
    room = [m for m in by_length if "free radius" in m.why][:1]
    window = [m for m in by_length if "free radius" not in m.why][:1]
    parts = [m.why for m in misses if m.missing is not None]
    parts += [m.why + "; " + _would_help(case, m) for m in room + window]
    parts += [m.why for m in misses if m.missing is None and m.short is None]
    verdict = Verdict.UNKNOWN if missing else Verdict.FAIL
    return _none(verdict, "; ".join(dict.fromkeys(parts)), asked, missing)


def _would_help(case: _Case, miss: Miss) -> str:
    """Return what would make the nearest miss good, of what the book permits and what a site can change [-]."""
    if "free radius" in miss.why:
        return "more room in front of the crane, or the change on another site or in the yard, would help"
    do = _others_that_do(case)
    helps = ["a permitted position that does: " + ", or ".join(do)] if do else []
    if "over reach" in miss.why:
        helps.append(f"ground at the head, or a firm stand for the rigger, {_centimetres(miss.short or 0.0)} higher")
    if "under what clears" in miss.why:
        helps.append(f"ground at the head {_centimetres(miss.short or 0.0)} lower")
    return "would help: " + "; ".join(helps) if helps else "the book lists no other position that would do"


def _others_that_do(case: _Case) -> list[str]:
    """Return the permitted positions that would do: over another side first, then with another set-up [-]."""
    rows = _rows_of(case.book, case.site)
    sides = [_name(row) for row in rows if case.site.sector not in (None, row.sector) and _does(case, row)]
    return sides + [
        f"{_set_up(row.counterweight, row.outriggers)}, {_name(row)}"
        for row in case.book.rereeve
        if row not in rows and _does(case, row)
    ]


def _does(case: _Case, row: PermittedPosition) -> bool:
    return isinstance(_judge(case, row), BoomPosition)


def _centimetres(metres: float) -> str:
    """In whole centimetres, upward; from a metre on in tenths of a metre, upward."""
    return f"{-int(-metres * 100 // 1)} cm" if metres < 1 else f"{-int(-metres * 10 // 1) / 10:.1f} m"
