"""What the record says hangs on a crane, ready for a page.

In:    what the events of the crane amount to; the crew list.
Out:   one record: state, who, when, indicator, limit, the run that is open, the lock-out.
Never: what a job sheet claims; a state that nobody counted.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import datetime

from becket.book.tackle import State
from becket.errors import UnreadableTextError
from becket.guide.crane_now import crane_now, runs_of
from becket.guide.event import Event, Plain
from becket.guide.run import in_order
from becket.guide.script import Script
from becket.reeving.words import read_state


@dataclass(frozen=True, kw_only=True)
class Rigged:
    """What hangs, as far as the record says. Everything None: nothing is recorded."""

    state: State | None = None
    since: datetime | None = None  # with its offset
    by: tuple[str, ...] = ()  # names
    indicator_words: str | None = None  # what is set: "4"; with the block where that differs
    limit_at: datetime | None = None  # limit switch tried
    differs: bool = False  # the setting is not what hangs
    locked_what: str | None = None  # "wrong reeve", "two-block", "shock"
    locked_at: datetime | None = None
    locked_by: str = ""
    open_run: str | None = None
    open_kind: str = "change"
    open_before: State | None = None
    open_after: State | None = None
    open_step: int | None = None  # number of the step that is asked
    open_pause: int | None = None
    open_is_signing: bool = False
    open_is_stopped: bool = False
    counts_differ: bool = False  # of the run that is open


def rigged_of(events: Iterable[Event], scripts: Mapping[str, Script]) -> Rigged:
    """Return what hangs on a crane, as its record says [-].

    Args:
        events: of the crane and of the firm, in any order
        scripts: of its runs, by id
    """
    ordered = in_order(events)
    now, names = crane_now(ordered, scripts), names_of(ordered)
    state = _state(now.state)
    limit, locked = now.limit_tried or {}, now.locked or {}
    rigged = Rigged(
        state=state,
        since=_moment(now.since),
        by=tuple(names.get(one, one) for one in now.by),
        indicator_words=_indicator(now.indicator, state),
        limit_at=_moment(limit.get("at")),
        differs=_unlike(now.indicator, state),
        locked_what=str(locked.get("what")) if locked else None,
        locked_at=_moment(locked.get("at")),
        locked_by=names.get(str(locked.get("by")), str(locked.get("by") or "?")),
        counts_differ=now.differs,
    )
    return rigged if now.open_run is None else _with_open(rigged, now.open_run, ordered, scripts)


def names_of(events: Iterable[Event]) -> dict[str, str]:
    """Return the name of everybody on the crew list by id; the last entry of an id counts [-].

    Args:
        events: of the firm, in order
    """
    people = (event.entered for event in events if event.kind == "person_added")
    return {str(one.get("id")): str(one.get("name")) for one in people if one.get("name")}


def _with_open(rigged: Rigged, name: str, ordered: tuple[Event, ...], scripts: Mapping[str, Script]) -> Rigged:
    run = next(one for one in runs_of(ordered, scripts) if one.name == name)
    told = run.start.entered
    opened = replace(
        rigged,
        open_run=name,
        open_kind=str(told.get("kind")),
        open_before=_state(told.get("before")),
        open_after=_state(told.get("after")),
    )
    if run.course is None:
        return opened
    state = run.course.state()
    opened = replace(opened, open_is_stopped=state.screen == "stopped")
    if state.at is None:
        return replace(opened, open_is_signing=state.screen == "sign")
    item = run.course.script.item(state.at)
    pause = item.part.removeprefix("pause-") if item.part.startswith("pause-") else ""
    return replace(opened, open_step=item.number, open_pause=int(pause) if pause.isdigit() else None)


def _state(text: object) -> State | None:
    try:
        return read_state(text) if isinstance(text, str) else None
    except UnreadableTextError:
        return None


def _moment(text: object) -> datetime | None:
    try:
        return datetime.fromisoformat(text) if isinstance(text, str) else None
    except ValueError:
        return None


def _indicator(setting: Plain | None, state: State | None) -> str | None:
    if setting is None:
        return None
    falls, block = setting.get("falls"), setting.get("block")
    return str(falls) if state is None or block in (None, state.block) else f"{falls}, {block}"


def _unlike(setting: Plain | None, state: State | None) -> bool:
    if setting is None or state is None:
        return False
    return setting.get("falls") != state.falls or setting.get("block") not in (None, state.block)
