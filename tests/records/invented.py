"""Events that nobody entered, for the tests of the store."""

from __future__ import annotations

from becket.guide.event import Event, read_event

NOON = "2026-11-30T12:00:00+01:00"
LATER = "2026-11-30T12:00:07.5Z"


def an_event(number: int, **other: object) -> Event:
    """Return an event; equal numbers give equal events."""
    plain: dict[str, object] = {
        "key": f"phone-1.{number}",
        "crane": "demo",
        "run": "run-1",
        "kind": "entered",
        "person": "p1",
        "role": "rigger",
        "device": "phone-1",
        "at": NOON,
        "tick": number,
        "shown": {"item": "s7", "text": "Which head sheave is it over? ½ ≠ 1"},
        "entered": {"item": "s7", "round": 1, "values": {"sheave": number % 5, "angle": 4.35, "word": 'a "b"\n\\c'}},
    }
    return read_event({**plain, **other})


def some(first: int, last: int) -> list[Event]:
    """Return events first to last."""
    return [an_event(number) for number in range(first, last + 1)]
