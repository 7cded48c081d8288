"""A server for tests of pages: the demo's cranes, and a crane on which something was counted.

In:    a folder.
Out:   a phone that asks; text of a page as a person reads it; runs kept in the store.
Never: a store that two tests share.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import replace
from datetime import datetime, timedelta
from html import unescape
from pathlib import Path

from becket.book.tackle import State
from becket.guide.event import Event
from becket.guide.script import Script
from becket.web.house import House
from tests.web.asking import Phone, demo_folder, phone_at
from tests.web.run_answered import START, Writer, answered, moved, people_events, started

_HIDDEN = re.compile(
    r"<(script|style|noscript|title|desc)\b.*?</\1>|<(p|a|button|section|div)\b[^>]* hidden>.*?</\2>", re.DOTALL
)
_TAG = re.compile(r"<[^>]+>")
_ANSWERED: dict[str, list[Event]] = {}
_BLANKS = re.compile(r"\s+")


def demo_phone(folder: Path) -> Phone:
    """Return a phone at a server with the demo's cranes."""
    return phone_at(demo_folder(folder))


def read(page: str) -> str:
    """Return the text of a page on one line, without what is not read."""
    body = page[page.index("<body") :]
    return (
        _BLANKS.sub(" ", unescape(_TAG.sub(" ", _HIDDEN.sub(" ", body)))).replace(" ,", ",").replace(" .", ".").strip()
    )


def get(phone: Phone, path: str, look: str = "") -> str:
    """Return a page that has to be there; ``look``: words of the cookie."""
    phone.cookies.delete("look") if "look" in phone.cookies else None
    if look:
        phone.cookies.set("look", look)
    answer = phone.get(path)
    assert answer.status_code == 200, (path, answer.status_code, read(answer.text)[:300])
    return answer.text


def keep(house: House, events: Iterable[Event]) -> None:
    """Keep events in the store as if phones had brought them; each has to be taken."""
    made = list(events)
    for outcome in house.store.append(made, made[-1].at):
        assert outcome.number is not None, outcome.refused


def crew(house: House) -> None:
    """Keep the crew list."""
    keep(house, people_events())


def start_of(now: datetime, hours: float) -> datetime:
    """Return a moment some hours ago."""
    return now - timedelta(hours=hours)


def change_done(house: House, before: State, after: State, at: datetime, run: str = "run-1") -> Script:
    """Keep a whole change of the first demo crane, begun at a moment, closed with both signatures."""
    script_id, script = _change_script(house, before, after)
    later = (at - START).total_seconds()
    keep(house, (moved(event, later, run=run, key=f"{run}-{event.key}") for event in _answered(script_id, script)))
    return script


def _answered(script_id: str, script: Script) -> list[Event]:
    """A whole run takes a second to answer: once for all tests."""
    if script_id not in _ANSWERED:
        _ANSWERED[script_id] = answered(script, Writer(step=4.0), script_id)
    return _ANSWERED[script_id]


def change_begun(house: House, before: State, after: State, at: datetime, run: str = "run-2") -> Script:
    """Keep the first event of a change."""
    script_id, script = _change_script(house, before, after)
    event = started(Writer(now=at), script, script_id)
    keep(house, [replace(event, run=run, key=f"{run}-start", tick=event.tick + 1000)])
    return script


def _change_script(house: House, before: State, after: State) -> tuple[str, Script]:
    found = house.script_for(house.crane("hazel-70"), before, after)
    assert isinstance(found, tuple), str(found)
    return found
