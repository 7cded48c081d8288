"""The plan of one crane: which reeving for which lift, where to change, what it costs and why.

In:    a crane book, settings, a job sheet.
Out:   a plan, or why there is none.
Never: files, printing, a state with anything unknown.
"""

from __future__ import annotations

from fractions import Fraction

from becket.book.crane import Book
from becket.book.jobs import JobSheet
from becket.book.tackle import State
from becket.planning.answer import NextBest, Plan, PlannedChange, PlannedGroup
from becket.planning.build import Built, Entry, ModelBuilder, enter_lifts, missing_for_plan
from becket.planning.feasible import what_stops
from becket.planning.places import Pair
from becket.planning.pricing import RoutePrice
from becket.planning.proof import unproved_changes
from becket.planning.search import Blocked, Move, Route, Search
from becket.planning.what_if import what_lighter_loads_do
from becket.planning.why import why_blocked, why_change
from becket.reeving.words import read_state
from becket.settings.values import Settings


def plan_sheet(book: Book, settings: Settings, sheet: JobSheet) -> Plan:
    """Return the cheapest plan of the coming jobs, or why there is none [money, h, min].

    Args:
        book: the crane
        settings: in force
        sheet: the coming jobs of that crane

    Source: docs/theory/planning.md.
    """
    entries = enter_lifts(book, settings, sheet)
    if sheet.rigged is None:
        why = "No plan: rigged is not stated. Count the falls at the block and write down which block hangs on them."
        return _no_plan(sheet, entries, why)
    if missing := missing_for_plan(sheet):
        return _no_plan(sheet, entries, f"No plan: {', '.join(missing)}: not stated, so the cost is unknown.")
    built, search, best = _proved(book, settings, sheet, sheet.rigged, entries)
    if isinstance(best, Blocked):
        return _no_plan(sheet, entries, why_blocked(built, sheet, best), built)
    price = RoutePrice(built.model, best.states, best.moves)
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
        notes=(*built.notes, *what_lighter_loads_do(book, settings, sheet, built, best)),
    )


def _proved(
    book: Book, settings: Settings, sheet: JobSheet, rigged: State, entries: tuple[Entry, ...]
) -> tuple[Built, Search, Route | Blocked]:
    """Return the cheapest plan of which every change has a method that passes every rule; others are left out."""
    unproved: dict[Pair, str] = {}
    while True:
        built = ModelBuilder(book, settings, sheet, rigged, unproved).build(entries)
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
    left = None
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
        cost=_money(move.cost),
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
