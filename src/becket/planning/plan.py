"""The plan of one crane: which reeving for which lift, where to change, what it costs and why.

In:    a crane book, settings, a job sheet.
Out:   a plan, or why there is none.
Never: files, printing, a state with anything unknown.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from becket.book.crane import Book
from becket.book.jobs import JobSheet
from becket.book.tackle import State
from becket.planning.answer import NextBest, Plan, PlannedChange, PlannedGroup
from becket.planning.build import Built, Entry, ModelBuilder, enter_lifts, missing_for_plan
from becket.planning.crew_records import CrewRecords, records_note
from becket.planning.feasible import what_stops
from becket.planning.places import Pair
from becket.planning.pricing import RoutePrice
from becket.planning.proof import unproved_changes
from becket.planning.search import Blocked, Move, Route, Search
from becket.planning.what_if import what_lighter_loads_do
from becket.planning.why import why_blocked, why_change
from becket.reeving.words import read_state
from becket.settings.values import Settings


def plan_sheet(book: Book, settings: Settings, sheet: JobSheet, records: CrewRecords | None = None) -> Plan:
    """Return the cheapest plan of the coming jobs, or why there is none [money, h, min].

    Args:
        book: the crane
        settings: in force
        sheet: the coming jobs of that crane
        records: how long this crew took for the changes that it closed; None: not known

    Source: docs/theory/planning.md.
    """
    entries = enter_lifts(book, settings, sheet)
    if sheet.rigged is None:
        why = "No plan: rigged is not stated. Count the falls at the block and write down which block hangs on them."
        return _no_plan(sheet, entries, why)
    if missing := missing_for_plan(sheet):
        return _no_plan(sheet, entries, f"No plan: {', '.join(missing)}: not stated, so the cost is unknown.")
    start = _Start(rigged=sheet.rigged, records=records or {})
    built, search, best = _proved(book, settings, sheet, start, entries)
    if isinstance(best, Blocked):
        return _no_plan(sheet, entries, why_blocked(built, sheet, best), built)
    price = RoutePrice(built.model, best.states, best.moves)
    said = _crew_notes(settings, start.records, best)
    return Plan(
        cost=_money(best.cost),
        currency=sheet.rates.currency,
        groups=_groups(sheet, built.entries, dict(zip(built.kept, map(read_state, best.states), strict=True))),
        changes=tuple(
            _change(built, sheet, price, move, _what_stops_before(book, settings, built, move)) for move in best.moves
        ),
        next_best=_next_best(built, search.next_best(best)),
        why_no_plan=None,
        model=built.model,
        notes=(*built.notes, *said, *what_lighter_loads_do(book, settings, sheet, built, best)),
    )


@dataclass(frozen=True, kw_only=True)
class _Start:
    """What the crane starts with: what hangs, and what its crew has shown so far."""

    rigged: State
    records: CrewRecords


def _crew_notes(settings: Settings, records: CrewRecords, route: Route) -> list[str]:
    """Return what the crew's own records say of the changes that are planned [min]."""
    pairs = dict.fromkeys((read_state(move.before), read_state(move.after)) for move in route.moves)
    return [note for pair in pairs if (note := records_note(settings, pair, records)) is not None]


def _proved(
    book: Book, settings: Settings, sheet: JobSheet, start: _Start, entries: tuple[Entry, ...]
) -> tuple[Built, Search, Route | Blocked]:
    """Return the cheapest plan of which every change has a method that passes every rule; others are left out."""
    unproved: dict[Pair, str] = {}
    while True:
        built = ModelBuilder(book, settings, sheet, start.rigged, unproved, start.records).build(entries)
        search = Search(built.model)
        best = search.cheapest()
        found = {} if isinstance(best, Blocked) else unproved_changes(book, settings, sheet, built.model, best.moves)
        if not found:
            return built, search, best
        unproved |= found


def _no_plan(sheet: JobSheet, entries: tuple[Entry, ...], why: str, built: Built | None = None) -> Plan:
    return Plan(
        cost=None,
        currency=sheet.rates.currency,
        groups=_groups(sheet, entries, {}),
        changes=(),
        next_best=None,
        why_no_plan=why,
        model=built.model if built else None,
        notes=built.notes if built else (),
    )


def _groups(sheet: JobSheet, entries: tuple[Entry, ...], states: dict[int, State]) -> tuple[PlannedGroup, ...]:
    return tuple(_group(sheet, entry, states.get(i)) for i, entry in enumerate(entries))


def _group(sheet: JobSheet, entry: Entry, state: State | None) -> PlannedGroup:
    falls = [able.falls for able in entry.minutes if state is None or able.block == state.block]
    return PlannedGroup(
        job=sheet.jobs[entry.job].name,
        lift=entry.lift.name,
        state=state,
        needed_falls=min(falls, default=None),
        hours=None if state is None else entry.minutes[state] / 60,
        stopped_by=entry.stopped_by,
        why=entry.why,
    )


def _change(built: Built, sheet: JobSheet, price: RoutePrice, move: Move, stopped: str | None) -> PlannedChange:
    place = built.model.changes[move.before_group][move.place]
    left, shares = None, price.shares_of(move)
    if place.job is not None:
        left = float(Fraction(built.model.jobs[place.job].booked) - price.minutes[place.job])
    return PlannedChange(
        before_group=built.kept[move.before_group],
        before=read_state(move.before),
        after=read_state(move.after),
        where=place.where,
        job=None if place.job is None else sheet.jobs[place.job].name,
        minutes=float(move.minutes),
        minutes_left_in_job=left,
        customer_pays=_money(shares.customer),
        we_pay=_money(shares.own),
        why=why_change(built, sheet, price, move, stopped),
    )


def _what_stops_before(book: Book, settings: Settings, built: Built, move: Move) -> str | None:
    entry = built.entries[built.kept[move.before_group]]
    before = read_state(move.before)
    return None if before in entry.minutes else what_stops(book, settings, entry.lift, before)


def _next_best(built: Built, route: Route | None) -> NextBest | None:
    if route is None:
        return None
    states = dict(zip(built.kept, map(read_state, route.states), strict=True))
    return NextBest(cost=_money(route.cost), states=tuple(states.get(i) for i in range(len(built.entries))))


def _money(exact: Fraction) -> float:
    """Return money to a millionth: rates per minute are not whole in binary [money]."""
    return round(float(exact), 6)
