"""What the server refuses of an event that is good in form: only what could never be right.

In:    an event, what is on file already, scripts by id.
Out:   why it is refused, in words; None: it is kept.
Never: an event refused because it is late, wrong, or out of turn: work done without signal is not lost.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import Final

from becket.guide.compare import COUNTERS
from becket.guide.crane_now import lock_out, open_run, runs_of
from becket.guide.event import FIRM, Event, order_of
from becket.guide.forms import odd_part
from becket.guide.photo import why_photo_refused
from becket.guide.run import in_order
from becket.guide.run_words import run_word
from becket.guide.script import Script

OF_A_RUN: Final = (
    "entered",
    "interrupted",
    "count_again",
    "followed_by_hand",
    "stopped",
    "resumed",
    "went_on_from_paper",
    "signed",
)
BY_ITSELF: Final = ("interrupted",)  # a phone writes it by itself when it finds a pause broken off
OF_A_CRANE: Final = ("trouble_entered", "inspection_entered", "photo_taken", "run_started", *OF_A_RUN)
OF_THE_SERVER: Final = ("pattern_compared", "file_taken", "photo_kept")  # becket's own word: no phone has it

MOST_LEAP: Final = 1_000_000  # events that one phone may be ahead


@dataclass(frozen=True, kw_only=True)
class Arrival:
    """An event that came in, beside what is on file."""

    event: Event
    on_file: tuple[Event, ...]  # of its crane and of the firm, in order
    scripts: Mapping[str, Script]


def why_refused(event: Event, events: Iterable[Event], scripts: Mapping[str, Script]) -> str | None:
    """Return why an event is refused, in words; None: it is kept [-].

    Args:
        event: good in form
        events: on file: those of its crane and of the firm, in any order
        scripts: by id

    Source: docs/theory/run.md, what is refused.
    """
    arrival = Arrival(event=event, on_file=in_order(events), scripts=scripts)
    return next((why for rule in REFUSALS if (why := rule(arrival)) is not None), None)


def _has_its_form(arrival: Arrival) -> str | None:
    odd = odd_part(arrival.event)
    return run_word("odd_part", {"part": odd[0], "form": odd[1]}) if odd is not None else None


def _is_of_a_crane(arrival: Arrival) -> str | None:
    event = arrival.event
    if event.kind in OF_A_CRANE and event.crane == FIRM:
        return run_word("no_crane", {})
    if event.kind in ("run_started", *OF_A_RUN) and event.run is None:
        return run_word("no_run", {})
    return None


def _is_of_a_known_run(arrival: Arrival) -> str | None:
    event = arrival.event
    if event.run is None or event.kind == "run_started":
        return None
    starts = [one for one in arrival.on_file if one.kind == "run_started" and one.run == event.run]
    if not starts:
        return run_word("unknown_run", {"run": event.run})
    return None if starts[0].crane == event.crane else run_word("other_crane", {"crane": starts[0].crane})


def _is_by_the_crew(arrival: Arrival) -> str | None:
    event = arrival.event
    if event.person is None:
        is_own = event.kind in BY_ITSELF and event.role == "becket"
        return run_word("nobody", {}) if event.kind in OF_A_CRANE and not is_own else None
    if event.kind == "person_added" and event.entered.get("id") == event.person:
        return None  # puts himself on the list
    return None if event.person in _crew(arrival) else run_word("not_on_list", {"person": event.person})


def _is_no_seal(arrival: Arrival) -> str | None:
    """A sealed entry is what others are shown; taken as an entry it would leave the count open for ever."""
    event = arrival.event
    is_sealed = event.kind == "entered" and "sealed" in event.entered
    return run_word("sealed_entry", {}) if is_sealed else None


def _is_no_leap(arrival: Arrival) -> str | None:
    """A tick far beyond all others would leave no room for those that come after."""
    last = max((one.tick for one in arrival.on_file), default=0)
    tick = arrival.event.tick
    return run_word("tick_leap", {"tick": str(tick)}) if tick > last + MOST_LEAP else None


def _is_of_a_phone(arrival: Arrival) -> str | None:
    kind = arrival.event.kind
    return run_word("of_the_server", {}) if kind in OF_THE_SERVER else None


def _is_a_photo(arrival: Arrival) -> str | None:
    return why_photo_refused(arrival.event, arrival.on_file)


def _is_a_start(arrival: Arrival) -> str | None:
    event = arrival.event
    if event.kind != "run_started":
        return None
    script = arrival.scripts.get(str(event.entered.get("script")))
    if script is None:
        return run_word("unknown_script", {"script": event.entered.get("script")})
    if script.crane != event.crane:
        return run_word("other_crane", {"crane": script.crane})
    if any(one.kind == "run_started" and one.run == event.run for one in arrival.on_file):
        return run_word("started_twice", {"run": event.run})
    return _two_persons(arrival) or _is_free(arrival)


def _two_persons(arrival: Arrival) -> str | None:
    named = [arrival.event.entered.get(role) for role in COUNTERS]
    for person in named:
        if not isinstance(person, str) or person not in _crew(arrival):
            return run_word("not_on_list", {"person": person})
    return run_word("one_person", {}) if named[0] == named[1] else None


def _is_free(arrival: Arrival) -> str | None:
    """The lock-out counts as it stood when the run began; an open run as it is known now."""
    event = arrival.event
    before = [one for one in arrival.on_file if order_of(one) < order_of(event)]
    locked = lock_out(before)
    if locked is not None:
        return run_word("locked_out", {"what": locked["what"]})
    now = open_run(arrival.on_file, runs_of(arrival.on_file, arrival.scripts))
    if now is None or now.start.entered.get("kind") == "count":
        return None
    return run_word("run_open", {"run": now.name})


def _crew(arrival: Arrival) -> set[object]:
    named = (one.entered.get("id") for one in arrival.on_file if one.kind == "person_added")
    return {name for name in named if isinstance(name, str)}


REFUSALS: Final[tuple[Callable[[Arrival], str | None], ...]] = (
    _has_its_form,
    _is_of_a_crane,
    _is_of_a_known_run,
    _is_by_the_crew,
    _is_no_seal,
    _is_no_leap,
    _is_of_a_phone,
    _is_a_photo,
    _is_a_start,
)
