"""One event: something that a person entered on a device, as the device wrote it down.

In:    a plain object as it came from a phone.
Out:   a frozen record; its one canonical text.
Never: a change to what was entered; a judgement of what it means.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from becket.errors import UnreadableTextError

Plain = Mapping[str, object]

FIRM = ""  # the crane of an event that belongs to the whole firm

KINDS: Mapping[str, str] = {
    # of the firm
    "person_added": "somebody is on the crew list: name, role, licence, salt and check of the four digits",
    "digits_changed": "four new digits, vouched for by two others or set by the person",
    # of a crane
    "trouble_entered": "a wrong reeve, a two-block or a shock: the crane is locked out",
    "inspection_entered": "a competent person has inspected it after trouble: the lock-out ends",
    "pattern_read": "a second person's own reading of a page: path and dead end",
    "pattern_compared": "what becket said of a reading: sealed, or both one above the other",
    "file_taken": "a book or a job sheet came in: its name and fingerprint",
    # of a run: one change, or one count of what is rigged
    "run_started": "a change or a count begins: script, book, who leads, who helps, lot",
    "entered": "what a person read, at one item of the script, in one round",
    "phone_joined": "one of the two goes on with a phone of their own",
    "interrupted": "a pause was broken off: it starts again from its first item",
    "count_again": "the counts differ and both count again",
    "followed_by_hand": "the rope was followed by hand from drum to dead end, both together",
    "stopped": "left safe: what was done, who is told",
    "resumed": "what was found on coming back, before what was kept is shown",
    "went_on_from_paper": "the values of the paper sheet, typed in afterwards",
    "signed": "one person signs own values with own digits",
    "photo_taken": "a photo: the hash of the file as the phone took it, of which step or page",
    "photo_kept": "what becket keeps of it: hash, width, height; the file itself lies beside the records",
    "noted": "a note; a correction names the event that it is about",
}
ROLES = ("operator", "rigger", "supervisor", "office", "inspector", "administrator", "becket")
_NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9_.:-]{0,63}")
_MOMENT = re.compile(
    r"[1-9][0-9]{3}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])T([01][0-9]|2[0-3]):[0-5][0-9]:[0-5][0-9]"
    r"(\.[0-9]{1,6})?(Z|[+-]([01][0-9]|2[0-3]):[0-5][0-9])"
)
_LONGEST = 20_000  # characters of one event
_DEEPEST = 16  # lists and objects one in another
_LAST_TICK = 2**53  # beyond it a whole number is not the same on a phone
_GREATEST = 10**100  # of a whole number that is entered: what is beyond is no float, and no page works with it


@dataclass(frozen=True, kw_only=True)
class Event:
    """One event. ``key`` is made by the device: the same event, delivered twice, counts once.

    ``tick`` is one more than the greatest tick that the device had seen: events sort by (tick, key) whatever the clocks
    of the devices say.
    """

    key: str
    crane: str  # id of the crane; FIRM: of the whole firm
    run: str | None  # id of the run
    kind: str
    person: str | None  # id on the crew list
    role: str
    device: str
    at: str  # the device's own clock, ISO 8601 with offset; kept as it is, right or wrong
    tick: int
    shown: Plain  # what was on the screen: item, text, round, proof of the person
    entered: Plain  # what was entered


def order_of(event: Event) -> tuple[int, str]:
    """Return the place of an event among all events that anybody knows [-].

    Args:
        event: of any device
    """
    return event.tick, event.key


def event_as_dict(event: Event) -> dict[str, object]:
    """Return an event as the plain object that it came as [-].

    Args:
        event: any
    """
    return {name: getattr(event, name) for name in Event.__dataclass_fields__}


def canonical_text(event: Event) -> str:
    """Return the one text of an event that is kept and hashed: keys sorted, no spaces, as UTF-8 [-].

    Args:
        event: any
    """
    return json.dumps(event_as_dict(event), sort_keys=True, separators=(",", ":"), ensure_ascii=False, allow_nan=False)


def read_event(found: object) -> Event:
    """Return a plain object as an event [-].

    Args:
        found: as parsed from JSON

    Raises:
        UnreadableTextError: it is not an event; says which key and what would be right.
    """
    if not isinstance(found, Mapping):
        raise UnreadableTextError(str(type(found).__name__), "an event is an object with the keys of an event")
    names = set(Event.__dataclass_fields__)
    if set(found) != names:
        odd = ", ".join(sorted(map(ascii, set(found) ^ names)))
        raise UnreadableTextError(odd[:200], f"the keys of an event are {', '.join(sorted(names))}")
    for needed in (_need_names, _need_words, _need_numbers):
        needed(found)
    for name in ("shown", "entered"):
        _need(found, name, isinstance(found[name], Mapping), "an object")
        _need_plain(found[name], name, _DEEPEST)
    event = Event(**{str(name): value for name, value in found.items()})
    try:
        length = len(canonical_text(event))
    except (TypeError, ValueError) as error:
        raise UnreadableTextError(
            str(error), "an event holds text, whole and finite numbers, lists, objects"
        ) from error
    if length > _LONGEST:
        raise UnreadableTextError(f"{length} characters", f"an event has at most {_LONGEST} characters")
    return event


def _need_names(found: Mapping[object, object]) -> None:
    for name in ("key", "device"):
        _need(found, name, _is_name(found[name]), "letters, digits, dashes")
    for name in ("run", "person"):
        _need(found, name, found[name] is None or _is_name(found[name]), "letters, digits, dashes, or null")
    _need(found, "crane", found["crane"] == FIRM or _is_name(found["crane"]), "the id of a crane")


def _need_words(found: Mapping[object, object]) -> None:
    kind, role, at = found["kind"], found["role"], found["at"]
    _need(found, "kind", isinstance(kind, str) and kind in KINDS, f"one of {', '.join(KINDS)}")
    _need(found, "role", role in ROLES, f"one of {', '.join(ROLES)}")
    _need(found, "at", isinstance(at, str) and _is_moment(at), "a moment as 2026-11-30T15:31:00+01:00")


def _need_numbers(found: Mapping[object, object]) -> None:
    tick = found["tick"]
    is_good = isinstance(tick, int) and not isinstance(tick, bool) and 0 < tick < _LAST_TICK
    _need(found, "tick", is_good, "a whole number from 1")


def _is_name(value: object) -> bool:
    return isinstance(value, str) and _NAME.fullmatch(value) is not None


def _is_moment(text: str) -> bool:
    """Whether there is such a moment, and it is one in every zone: pages work with it."""
    if not _MOMENT.fullmatch(text) or text.startswith("9999"):
        return False
    try:
        datetime.fromisoformat(text)
    except ValueError:
        return False
    return True


def _need_plain(value: object, name: str, deep: int) -> None:
    """Refuse what a phone or a page falls over: nesting without end, a number that cannot be worked with."""
    if deep == 0 and isinstance(value, Mapping | list):
        raise UnreadableTextError(f"{name}: too deep", f"at most {_DEEPEST} lists and objects one in another")
    if isinstance(value, int) and abs(value) > _GREATEST:
        raise UnreadableTextError(f"{name}: a whole number of over 100 digits", "one that can be worked with")
    inner = value.values() if isinstance(value, Mapping) else value if isinstance(value, list) else ()
    for one in inner:
        _need_plain(one, name, deep - 1)


def _need(found: Mapping[object, object], name: str, is_good: bool, wanted: str) -> None:
    if not is_good:
        raise UnreadableTextError(f"{name}: {str(found[name])[:60]!r}", wanted)
