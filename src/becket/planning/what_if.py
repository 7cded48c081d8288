"""What a lighter load would do to the plan.

In:    a crane book, settings, the plan that was found.
Out:   a sentence for each of the first changes that a lift forces.
Never: a load that some limit does not pass; a plan.
"""

from __future__ import annotations

from dataclasses import replace

from becket.book.crane import Book
from becket.book.jobs import JobSheet, Lift
from becket.book.tackle import State
from becket.planning.build import Built, Entry, ModelBuilder
from becket.planning.feasible import Ability, lifting_minutes
from becket.planning.search import Move, Route, Search
from becket.planning.why import money_words
from becket.reeving.words import read_state
from becket.settings.values import Settings

# each sentence takes a search of its own and some twenty falls tables: kept to sheets where that is soon done
GROUPS_MOST = 60
SENTENCES_MOST = 3
_LOAD_STEP = 10.0  # [kg]


def what_lighter_loads_do(
    book: Book, settings: Settings, sheet: JobSheet, built: Built, route: Route
) -> tuple[str, ...]:
    """Return a sentence for each change that would not be needed if one load were lighter [-].

    Args:
        book: the crane
        settings: in force
        sheet: the coming jobs
        built: the model and the way back from it
        route: the plan
    """
    if len(built.entries) > GROUPS_MOST:
        return ()
    ability, sentences = Ability(book, settings), list[str]()
    forced = [move for move in route.moves if move.before not in built.model.groups[move.before_group].states]
    for move in forced[:SENTENCES_MOST]:
        lift = built.entries[built.kept[move.before_group]].lift
        state = read_state(move.before)
        load = greatest_load(ability, lift, state)
        if load is not None:
            builder = ModelBuilder(book, settings, sheet, read_state(built.model.start), built.unproved)
            sentence = _sentence(builder, ability, built, route, move, load)
            sentences.extend([sentence] if sentence else [])
    return tuple(sentences)


def greatest_load(ability: Ability, lift: Lift, state: State) -> float | None:
    """Return the greatest load, in whole steps of 10 kg, at which a state passes every limit; None: none [kg].

    Args:
        ability: asks the limits
        lift: with the load that is too much
        state: block and falls
    """
    if lift.load is None or state not in ability.able(replace(lift, load=0.0)).speeds:
        return None
    passes, fails = 0, int(lift.load // _LOAD_STEP) + 1
    while fails - passes > 1:
        middle = (passes + fails) // 2
        if state in ability.able(replace(lift, load=middle * _LOAD_STEP)).speeds:
            passes = middle
        else:
            fails = middle
    return passes * _LOAD_STEP if passes else None


def _sentence(
    builder: ModelBuilder, ability: Ability, built: Built, route: Route, move: Move, load: float
) -> str | None:
    number = built.kept[move.before_group]
    entry, state = built.entries[number], read_state(move.before)
    speed = ability.able(replace(entry.lift, load=load)).speeds[state]
    minutes = lifting_minutes(entry.lift, speed, ability.settings)
    if minutes is None or entry.lift.load is None:
        return None
    lighter = replace(entry, minutes={**entry.minutes, state: minutes})
    entries: tuple[Entry, ...] = tuple(lighter if i == number else e for i, e in enumerate(built.entries))
    other = Search(builder.build(entries).model).cheapest()
    if not isinstance(other, Route) or (other.cost, len(other.moves)) >= (route.cost, len(route.moves)):
        return None
    less = route.cost - other.cost
    saves = f"{money_words(less, builder.sheet.rates.currency)} less" if less else "the same cost"
    fewer = len(route.moves) - len(other.moves)
    changes = f" and {fewer} {'change' if fewer == 1 else 'changes'} fewer" if fewer > 0 else ""
    return (
        f"If {entry.lift.name} weighed {load / 1000:.2f} t or less instead of {entry.lift.load / 1000:.2f} t, "
        f"{state} would do for it: {saves}{changes}."
    )
