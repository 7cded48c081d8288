"""What becket says of a second person's reading of a pattern.

In:    a reading, as the event that holds it.
Out:   an event of becket's own: sealed in the book; or both readings; or why it is refused.
Never: the typist's own reading as a confirmation; a second answer to the same reading.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from hashlib import sha256

from becket.book.tackle import Pattern
from becket.errors import BecketError, NotOnFileError
from becket.guide.event import Event
from becket.intake.confirm import confirm_pattern
from becket.reeving.pattern import find_pattern
from becket.reeving.words import path_words, read_dead_end, read_path, read_state
from becket.web.crane_files import CraneFile
from becket.web.house import House


def compare_reading(house: House, reading: Event) -> None:
    """Keep what becket says of a reading; once said it stays.

    Args:
        house: whose book it is about
        reading: a kept event ``pattern_read``

    Raises:
        CannotKeepError: the store does not take the answer; the reading is kept, and is compared when it comes again.
    """
    key = f"compared-{sha256(reading.key.encode()).hexdigest()[:32]}"
    if not house.store.find([key]):
        house.note("pattern_compared", reading.crane, {"about": reading.key, **_said(house, reading)}, key=key)


def _said(house: House, reading: Event) -> Mapping[str, object]:
    entered = {name: str(reading.entered.get(name, "")) for name in ("state", "path", "dead_end")}
    try:
        crane, name = house.crane(reading.crane), _name(house, reading)
        state = read_state(entered["state"])
        typed = _typed(crane, reading.crane, entered["state"])
        path, dead_end, today = entered["path"], entered["dead_end"], date.today().isoformat()
        answer = confirm_pattern(crane.path, state, name, path, dead_end, today)
    except BecketError as error:
        return {"state": entered["state"], "sealed": False, "why": str(error)}
    told: dict[str, object] = {"state": str(state), "sealed": answer.sealed, "name": name}
    if answer.sealed:
        return {**told, "seal": answer.seal}
    read = {"path": path_words(read_path(path)).split(", "), "dead_end": str(read_dead_end(dead_end))}
    return {**told, "typed": typed, "read": read}


def _typed(crane: CraneFile, name: str, state: str) -> dict[str, object]:
    pattern: Pattern | None = find_pattern(crane.book, read_state(state)) if crane.book is not None else None
    if pattern is None:
        raise NotOnFileError(f"pattern {state} of {name} is not on file; type it from the manual first")
    return {"path": path_words(pattern.path).split(", "), "dead_end": str(pattern.dead_end)}


def _name(house: House, reading: Event) -> str:
    """Return the name of who read, as the crew list has it."""
    for event in house.events(""):
        if event.kind == "person_added" and event.entered.get("id") == reading.person and reading.person:
            return str(event.entered.get("name", ""))
    raise NotOnFileError(f"{reading.person or 'nobody'} is not on the crew list; take the phone under your own name")
