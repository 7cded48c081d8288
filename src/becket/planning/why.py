"""Why a change stands where it stands, and why there is no plan: in a crew's words.

In:    what was built, the route that was found.
Out:   sentences.
Never: deciding anything.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from becket.book.jobs import JobSheet
from becket.planning.build import Built
from becket.planning.model import ChangePlace
from becket.planning.pricing import RoutePrice, Shares
from becket.planning.search import Blocked, Move
from becket.reeving.words import read_state

WHERE = {
    "E": "at the end of {}",
    "I": "between the lifts of {}",
    "S": "at the start of {}",
    "Y": "in the yard before {}",
}


def words_for_place(where: str, job: str) -> str:
    """Return a place in words [-].

    >>> words_for_place("E", "K-7")
    'at the end of K-7'
    """
    return WHERE[where].format(job)


def time_words(minutes: Fraction | float) -> str:
    """Return minutes in words, rounded down [-].

    >>> time_words(130.9)
    '2 h 10 min'
    """
    hours, rest = divmod(int(minutes), 60)
    return f"{hours} h {rest} min" if hours else f"{rest} min"


def money_words(sum_of_money: Fraction, currency: str) -> str:
    """Return money in words [-].

    >>> money_words(Fraction(245, 2), "EUR")
    '122.50 EUR'
    """
    return f"{float(sum_of_money):.2f} {currency}".strip()


def why_change(built: Built, sheet: JobSheet, price: RoutePrice, move: Move, stopped: str | None) -> str:
    """Return why a change is made, what it costs there, and what it would cost or lack elsewhere [-].

    Args:
        built: the model and the way back from it
        sheet: the coming jobs
        price: of the plan
        move: one of its changes
        stopped: which limit stops the state before from doing the lift; None: it could do it
    """
    entry = built.entries[built.kept[move.before_group]]
    sentences = [_why_at_all(entry.lift.name, move, stopped), _what_it_costs(built, sheet, price, move)]
    place = built.model.changes[move.before_group][move.place]
    here = (place.where, place.job)
    for number, other in enumerate(built.model.changes[move.before_group]):
        if (other.where, other.job) != here and (move.before, move.after) in other.options:
            sentences.append(_elsewhere(built, sheet, price, move, number))
    sentences.extend(_refused(built, sheet, move.before_group, (move.before, move.after)))
    return " ".join(sentences)


def _why_at_all(lift: str, move: Move, stopped: str | None) -> str:
    if stopped is not None:
        return f"{lift}: {move.before} does not do ({stopped}); {move.after} passes every limit."
    return f"{lift}: {move.before} would do for it; {move.after} is better for the plan as a whole."


def _what_it_costs(built: Built, sheet: JobSheet, price: RoutePrice, move: Move) -> str:
    model = built.model
    place = model.changes[move.before_group][move.place]
    where = _capital(_words(built, sheet, move.before_group, place))
    if price.cost is None:
        return f"{where}."
    shares, currency = price.shares_of(move), sheet.rates.currency
    money, pays = money_words(shares.whole, currency), _who_pays(shares, currency)
    if place.job is None:
        return f"{where} it costs {money} at our own rate, setting up and packing up included{pays}."
    left = Fraction(model.jobs[place.job].booked) - price.minutes[place.job]
    over = f"{time_words(-left)} over" if left < 0 else f"{time_words(left)} left of"
    if shares.whole:
        return f"{where} it costs {money}{pays}: {model.jobs[place.job].job} is then {over} the booked hours."
    if left >= 0:
        return f"{where} it costs nothing: {time_words(left)} of the booked hours are left after it."
    return f"{where} it costs nothing more: the hours that are charged anyway have room for it."


def _who_pays(shares: Shares, currency: str) -> str:
    """Return who pays what a change costs, to stand behind the sum; "" where it costs nothing."""
    if shares.customer and shares.own:
        customer, own = money_words(shares.customer, currency), money_words(shares.own, currency)
        return f", of which the customer pays {customer} and we {own}"
    return ", which the customer pays" if shares.customer else ", which we pay" if shares.own else ""


def _elsewhere(built: Built, sheet: JobSheet, price: RoutePrice, move: Move, number: int) -> str:
    model = built.model
    other = model.changes[move.before_group][number]
    effort = other.options[move.before, move.after]
    moved = replace(move, place=number, minutes=Fraction(effort.minutes), cost=Fraction(effort.cost))
    elsewhere = price.cost_with(moved)
    where = _capital(_words(built, sheet, move.before_group, other))
    if elsewhere is None or price.cost is None:
        return f"{where}: not in the time that there is."
    more = elsewhere - price.cost
    return f"{where}: {money_words(more, sheet.rates.currency)} more." if more else f"{where}: at the same cost."


def why_blocked(built: Built, sheet: JobSheet, blocked: Blocked) -> str:
    """Return why there is no plan: which change has no place, or which job has no time [-].

    Args:
        built: the model and the way back from it
        sheet: the coming jobs
        blocked: where the search ended
    """
    model, g = built.model, blocked.group
    entry = built.entries[built.kept[g]]
    job = sheet.jobs[entry.job].name
    if blocked.because == "time":
        limit = time_words(model.jobs[entry.job].leave_by)
        return f"No plan: {job} cannot be done by its leave_by, {limit} after its start, with {entry.lift.name} in it."
    before, after = _nearest(blocked.reached, tuple(model.groups[g].states))
    sentences = [f"No plan: before {entry.lift.name} ({job}) the change from {before} to {after} has no place."]
    for place in model.changes[g]:
        if (before, after) in place.options:
            sentences.append(f"{_capital(_words(built, sheet, g, place))}: not in the time that there is.")
    sentences.extend(_refused(built, sheet, g, (before, after)))
    return " ".join(sentences)


def _nearest(before: tuple[str, ...], after: tuple[str, ...]) -> tuple[str, str]:
    """Return the change with the same block and the fewest falls between, of all that would do."""

    def distance(pair: tuple[str, str]) -> tuple[bool, int]:
        (block, _, falls), (next_block, _, next_falls) = pair[0].rpartition(":"), pair[1].rpartition(":")
        return block != next_block, abs(int(falls) - int(next_falls))

    return min(((a, b) for a in before for b in after), key=distance)


def _refused(built: Built, sheet: JobSheet, g: int, change: tuple[str, str]) -> list[str]:
    """Return a sentence for each place before a group where this change cannot be made."""
    pair = (read_state(change[0]), read_state(change[1]))
    sentences: list[str] = []
    for refusal in built.refusals[g]:
        why = refusal.why_not(pair)
        if why is not None:
            place = _capital(words_for_place(refusal.where, sheet.jobs[refusal.job].name))
            sentences.append(f"{place}: not possible: {why.rstrip('.')}.")
    return sentences


def _words(built: Built, sheet: JobSheet, g: int, place: ChangePlace) -> str:
    job = built.model.groups[g].job if place.job is None else place.job
    return words_for_place(place.where, sheet.jobs[job].name)


def _capital(text: str) -> str:
    return text[0].upper() + text[1:]
