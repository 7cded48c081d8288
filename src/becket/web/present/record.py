"""The record of one run: who did and saw what, when, and whether the counts were independent.

In:    what a record is told from.
Out:   the whole record in words, for the page and for paper alike.
Never: a score of a person; a value that is still hidden; a record that is open told as closed.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from becket.cards.record_told import Line, RecordTold, Section, Signer
from becket.errors import UnreadableTextError
from becket.reeving.words import read_state
from becket.web.present.record_counts import tell_counts
from becket.web.present.record_entries import tell_entries, tell_wrong
from becket.web.present.record_kept import SERVER, RunKept, Word, clock_words, day_words
from becket.web.present.record_minutes import tell_minutes
from becket.web.present.record_photos import tell_photos
from becket.web.present.record_story import tell_all, tell_differences, tell_notes, tell_stops
from becket.web.present.record_times import tell_times

ROLES = ("operator", "rigger")
HOOKS = ("block", "ball", "hook")  # a name with one of these says by itself what hangs


def tell_record(run_id: str, run: RunKept) -> RecordTold:
    """Return a record in words [-].

    Args:
        run_id: of the run
        run: what it is told from
    """
    settings, keepers, path, position = tell_entries(run)
    counts = tell_counts(run)
    times = tell_times(run)
    sections = (
        *counts,
        Section(
            name="times",
            title=run.word("record.times"),
            says=times or (run.word("record.times_none"),),
            is_empty=not times,
        ),
        *(settings, keepers, path, tell_differences(run), tell_wrong(run), tell_stops(run), tell_photos(run), position),
        *(_planned(run), tell_minutes(run), _book(run), _chain(run)),
        *tell_notes(run),
        tell_all(run),
    )
    last = run.last_shown
    return RecordTold(
        run=run_id,
        crane=run.script.crane_name,
        manual=_manual(run),
        book=run.script.book,
        status=run.state.status,
        title=title_of(run),
        what=change_words(run),
        state=run.word(f"record.status.{run.state.status}"),
        signers=tuple(_signer(run, role) for role in ROLES),
        closing=_closing(run),
        broken="" if run.broken is None else run.word("record.broken", what=run.broken),
        sections=sections,
        head_hash=last.hash if last else "",
        last_number=last.number if last else 0,
    )


@dataclass(frozen=True, kw_only=True)
class ListRow:
    """A record in the list of records."""

    run: str
    status: str
    state: str
    title: str
    what: str
    people: str
    one_device: bool


def list_row(run_id: str, run: RunKept) -> ListRow:
    """Return a record as the list shows it [-].

    Args:
        run_id: of the run
        run: what it is told from
    """
    names = {role: run.name_of(run.state.people.get(role)) for role in ROLES}
    return ListRow(
        run=run_id,
        status=run.state.status,
        state=run.word(f"record.listed_{run.state.status}"),
        title=title_of(run),
        what=change_words(run),
        people=run.word("record.listed_people", **names),
        one_device=run.state.one_device,
    )


def title_of(run: RunKept) -> str:
    """Return what a run is called: what is rigged since when, or what was to be changed [-].

    Args:
        run: what it is told from
    """
    state, word = run.state, run.word
    started = state.started or run.kept[0].event.at
    if state.status == "closed" and state.result:
        words = {"state": state_words(state.result, word), "since": moment_to_minute(state.ended or started)}
        return word("record.title_closed", **words)
    what = change_words(run)
    return word("record.title_open", what=what, started=moment_to_minute(started))


def change_words(run: RunKept) -> str:
    """Return from what to what, or that it was a count [-].

    Args:
        run: what it is told from
    """
    before, after = run.script.before, run.script.after
    if before is None or after is None:
        return run.word("record.count_now")
    return run.word("record.change", before=state_words(before, run.word), after=state_words(after, run.word))


def state_words(state: str, word: Word) -> str:
    """Return a state as people say it: 4 falls, main block [-].

    Args:
        state: as "main:4"; another text comes back as it is
        word: the catalogue
    """
    try:
        read = read_state(state)
    except UnreadableTextError:
        return state
    block = read.block if any(part in read.block.lower() for part in HOOKS) else f"{read.block} block"
    return word("record.falls_one" if read.falls == 1 else "record.falls", falls=read.falls, block=block)


def moment_to_minute(moment: str) -> str:
    """Return day, hour and minute [-].

    Args:
        moment: ISO 8601

    >>> moment_to_minute("2026-11-30T15:31:20+01:00")
    'Mon 30 Nov 15:31'
    """
    return f"{day_words(moment)} {datetime.fromisoformat(moment).strftime('%H:%M')}"


def _manual(run: RunKept) -> str:
    issue = run.script.issue or run.word("record.issue_none")
    return run.word("record.manual_issue", manual=run.script.manual, issue=issue)


def _signer(run: RunKept, role: str) -> Signer:
    person, signed = run.state.people.get(role), run.state.signed.get(role)
    known = run.people.get(str(person))
    licence = known.licence if known and known.licence else run.word("record.licence_none")
    words = run.word("record.signed_at", at=run.at(signed.at)) if signed else run.word("record.not_signed")
    return Signer(role=run.word(f"record.role.{role}"), name=run.name_of(person), licence=licence, signed=words)


def _closing(run: RunKept) -> str:
    state = run.state
    if run.is_given_up:
        return run.word("record.given_up")
    if state.status == "closed" and state.ended:
        return run.word("record.closing", at=clock_words(state.ended)[:5])
    missing = [one.rstrip(".") for one in state.missing]
    if not missing:
        return run.word("record.not_closed")
    return run.word("record.not_closed_missing", missing="; ".join(missing))


def _planned(run: RunKept) -> Section:
    lines = tuple(Line(label=label, value=value) for label, value in run.script.facts)
    says = () if lines else (run.word("record.planned_none"),)
    title, folded = run.word("record.planned"), bool(lines)
    return Section(name="planned", title=title, says=says, lines=lines, is_empty=not lines, is_folded=folded)


def _book(run: RunKept) -> Section:
    script = run.script
    issue = script.issue or run.word("record.issue_none")
    lines = (
        Line(label=run.word("record.manual"), value=script.manual),
        Line(label=run.word("record.issue"), value=issue),
        Line(label=run.word("record.fingerprint"), value=script.book),
        Line(label=run.word("record.script"), value=_script_id(run)),
    )
    return Section(name="book", title=run.word("record.book"), lines=lines)


def _script_id(run: RunKept) -> str:
    started = run.of_kind("run_started")
    return str(started[0].event.entered.get("script")) if started else run.word("record.issue_none")


def _chain(run: RunKept) -> Section:
    numbers = [one.number for one in run.kept]
    last = run.last_shown
    hashed = f"{last.hash} ({last.number})" if last else run.word("record.hash_hidden")
    below = () if last is None or last.number == max(numbers) else (run.word("record.hash_hidden"),)
    lines = [
        Line(label=run.word("record.numbers"), value=f"{min(numbers)} – {max(numbers)}"),
        Line(label=run.word("record.head_hash"), value=hashed, below=below),
        *(Line(label=letter, value=device) for device, letter in run.devices.items() if device != SERVER),
    ]
    says = (run.word("record.chain_says") if run.broken is None else run.broken,)
    return Section(name="chain", title=run.word("record.chain"), says=says, lines=tuple(lines))
