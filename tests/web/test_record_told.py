"""A record in words: who entered what, when, on what device, and whether the counts were independent."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from becket.cards.record_card import record_card, record_identity
from becket.cards.record_told import RecordTold, Section
from becket.errors import UnreadableTextError
from becket.guide.event import Event
from becket.guide.run import fold_run
from becket.guide.script import Script
from becket.guide.sealed import sealed_keys
from becket.web.present.record import list_row, tell_record
from becket.web.present.record_kept import RunKept, people_of, run_kept
from becket.web.present.record_times import bunches
from becket.web.words import Words
from tests.cards.reading import page_sizes, qr_text, whole_text
from tests.guide.sample import hazel_change
from tests.web.run_answered import RUN, Writer, answered, chained, entry, moved, people_events, started

FALLS = ("s53", "s62")  # operator at the head, rigger at the block


def script() -> Script:
    """Return the change 2 -> 4 of the demo crane."""
    return hazel_change()


@cache
def whole() -> tuple[Event, ...]:
    """Return every event of a change that went well."""
    return tuple(answered(script(), Writer()))


def kept(events: Iterable[Event], later: float = 1200.0) -> RunKept:
    """Return what a record of these events is told from."""
    every = tuple(events)
    state = fold_run(script(), every)
    sealed = sealed_keys(script(), every)
    people = people_of(people_events())
    return run_kept(script(), state, chained(every, later=later), people=people, sealed=sealed, word=Words().word)


def told(events: Iterable[Event], later: float = 1200.0) -> RecordTold:
    """Return a record in words."""
    return tell_record(RUN, kept(events, later))


def part(record: RecordTold, title: str) -> Section:
    """Return a section by its title."""
    return next(one for one in record.sections if one.title.startswith(title))


def all_words(record: RecordTold) -> str:
    """Return every word of a record."""
    lines = [text for one in record.sections for line in one.lines for text in (line.label, line.value, *line.below)]
    says = [text for one in record.sections for text in (one.title, *one.says)]
    return "\n".join([record.title, record.state, record.closing, *says, *lines])


def with_count(events: Iterable[Event], item: str, **values: object) -> list[Event]:
    """Return the events up to and with the first entry of an item, its values replaced."""
    found = []
    for event in events:
        if event.entered.get("item") != item:
            found.append(event)
            continue
        entered = {**event.entered, "values": {**event.entered["values"], **values}}  # type: ignore[dict-item]
        return [*found, replace(event, entered=entered)]
    raise AssertionError(f"no entry of {item}")


def answered_on(events: list[Event], writer: Writer) -> list[Event]:
    """Return the events with the next items answered right, until something else than an item stands."""
    for _ in script().items:
        state = fold_run(script(), events)
        if state.screen != "item" or state.at is None:
            break
        events = [*events, entry(script(), writer, script().item(state.at), round_number=state.round or 1)]
    return events


def test_a_closed_record_begins_with_the_state_and_the_two_who_signed() -> None:
    record = told(whole())
    assert (record.status, record.state) == ("closed", "Closed")
    assert record.title == "4 falls, main block, since Mon 30 Nov 15:53"
    assert record.what == "2 falls, main block → 4 falls, main block"
    assert [(one.role, one.name, one.licence, one.signed) for one in record.signers] == [
        ("Operator", "Ada Quill", "OP 4471", "signed 15:52:40"),
        ("Rigger", "Bo Fenn", "RG 208", "signed 15:53:20"),
    ]
    assert record.closing == "Signed 15:53. It cannot be changed. Add a note."


def test_the_first_section_says_whether_the_counts_were_independent() -> None:
    counts = told(whole()).sections[0]
    assert counts.title == "Were the counts independent?"
    assert counts.says == (
        "Yes: two persons, and no answer was shown before both were given.",
        "One device was used for both: phone A.",
    )


def test_each_count_says_when_by_both_clocks_and_until_when_the_other_was_hidden() -> None:
    falls = part(told(whole()), "Count: Falls, round 1")
    operator, rigger = falls.lines
    assert falls.says == ("Both agree with each other and with what is wanted.",)
    assert operator.value == "Head sheaves with rope: head 2, 3; On what does the rope end: head"
    assert operator.below == (
        "Ada Quill, 15:29:20, phone A; server 15:49:20",
        "The rigger's answer was hidden until 15:35:20 (phone A), after the operator's own.",
    )
    assert rigger.value == "Ropes that carry the block, dead end counted: 4; Block sheaves with rope: block 1, 3"
    assert rigger.below[1] == "The operator's answer was hidden until 15:35:20 (phone A), after the rigger's own."


def test_two_devices_are_told_apart_by_letters_and_named_in_the_chain() -> None:
    events = [replace(one, device="phone-2") if one.person == "p-ri" else one for one in whole()]
    record = told(events)
    assert "Devices used for the counts: phone A, phone B." in record.sections[0].says
    assert [(line.label, line.value) for line in part(record, "Chain").lines[-2:]] == [
        ("phone A", "phone-1"),
        ("phone B", "phone-2"),
    ]


def test_a_count_that_waits_for_the_other_is_nowhere_in_an_open_record() -> None:
    events = with_count(whole(), "s53", sheaves=[2, 3, 5])
    run = kept(events)
    assert {one.event.key for one in run.kept if one.event.key in run.sealed} == {events[-1].key}
    words = all_words(tell_record(RUN, run))
    assert "2, 3, 5" not in words
    assert "Hidden until both have entered." in words
    assert "NOT CLOSED" in words
    assert run.kept[-1].hash not in words  # a hash would let the value be tried out
    record = tell_record(RUN, run)
    assert record.last_number == run.kept[-2].number
    assert record.sections[0].says[0] == "Not known yet: a count is not complete, its answers are hidden."


def test_counts_that_differ_stand_with_both_values_and_how_they_ended() -> None:
    writer = Writer(number=500)
    events = answered_on(with_count(whole(), "s62", ropes=3), writer)
    state = fold_run(script(), events)
    assert state.screen == "differ"
    assert state.differ is not None
    again = {"group": state.differ.group, "round": state.differ.round}
    record = told(answered_on([*events, writer.write("count_again", again)], writer))
    first, second = part(record, "Count: Falls, round 1"), part(record, "Count: Falls, round 2")
    assert first.says == ("DIFFER: The counts differ. Falls: operator 4, rigger 3.",)
    assert second.says == ("Both agree with each other and with what is wanted.",)
    assert record.sections[0].says[0] == (
        "In the first round: two persons, and no answer was shown before both were given. "
        "Not after it: Falls counted again when both answers had been shown."
    )
    assert "Falls, round 2: both had seen the answers of round 1 before." in record.sections[0].says
    ended = part(record, "Differences and how they ended").lines
    assert (ended[0].value, ended[0].below) == (
        "The counts differ. Falls: operator 4, rigger 3.",
        ("Ended: both agreed in round 2.",),
    )
    assert ended[1].label == "Both count again"


def test_what_was_not_as_kept_on_coming_back_stays_on_the_record_after_the_work_went_on() -> None:
    """Three keepers lie out when the work is left; one is seen on coming back: both numbers stand, and who saw it."""
    place = next(at for at, one in enumerate(whole()) if one.entered.get("item") == "s36")
    writer = Writer(number=500)
    left = writer.write("stopped", {"item": "s36", "left": ["Winch locked."], "told": "the office"})
    for seen, said in ((1, ["Kept: 3 keepers out. You saw 1."]), (3, [])):
        back = writer.write("resumed", {"keepers_out": seen, "last_sheave": "none", "block": "ground"})
        events = answered_on([*whole()[:place], left, back], writer)
        stops = part(told(events), "Stops and going on")
        assert [text for text in stops.lines[1].below if "keepers" in text] == said, stops


def test_an_entry_made_for_the_other_one_says_so() -> None:
    """The phone lay in the rigger's hands: the operator's wraps are the rigger's entry, and are told as such."""
    events = [replace(one, person="p-ri") if one.entered.get("item") == "s78" else one for one in whole()]
    for made, wanted in ((whole(), False), (events, True)):
        lines = [line for line in part(told(made), "Setting").lines if line.label.startswith("Step 78")]
        assert lines
        assert all(("for the operator, whose step it is" in line.below) is wanted for line in lines)


def test_a_phone_that_nobody_can_have_handed_over_is_named() -> None:
    at = {one.entered.get("item"): one for one in whole()}
    gap = 6.0 - (120 + 240)
    near = [moved(one, gap) if one.entered.get("item") == FALLS[1] else one for one in whole()]
    assert at[FALLS[0]].person != at[FALLS[1]].person
    says = told(near).sections[0].says
    assert "Falls, round 1: 6 s between the two on one device. Was the phone handed over?" in says


def test_a_far_gap_is_no_reproach() -> None:
    assert not any("handed over" in says for says in told(whole()).sections[0].says)


def test_entries_made_faster_than_the_work_are_named_as_entered_afterwards() -> None:
    record = told(answered(script(), Writer(step=2.0)))
    entered = sum(one.kind == "entered" for one in whole())
    (says,) = part(record, "Entry times").says
    seconds = 2 * (entered - 1)
    assert says == f"{entered} entries within {seconds} s from 14:40:04: Step 1 to Step 79. Entered afterwards?"
    assert bunches(kept(whole())) == ()


def test_a_pause_gone_through_briskly_is_not_called_entered_afterwards() -> None:
    pause = {item.id for item in script().items if item.part == "pause-1"}
    shift, events = 0.0, []
    for event in whole():
        shift -= 32.0 if event.entered.get("item") in pause else 0.0  # 8 s an item
        events.append(moved(event, shift))
    assert bunches(kept(events)) == ()


def test_a_clock_that_went_back_or_runs_ahead_is_told() -> None:
    events = [moved(one, -7200) if number >= 60 else one for number, one in enumerate(whole())]
    says = part(told(events), "Entry times").says
    assert any(text.startswith("The clock of phone A went back: from 15:20:00 to 13:20:40.") for text in says)
    ahead = part(told(whole(), later=-600.0), "Entry times").says
    assert ahead == ("The clock of phone A ran ahead: 14:40:40 there was 14:30:40 on the server.",)


def test_path_keepers_setting_limit_and_wraps_each_stand_with_who_and_when() -> None:
    record = told(whole())
    path = [(line.label, line.value) for line in part(record, "Path passed").lines]
    assert path[2:] == [
        ("Step 41. Thread head 2. Pull it tight", "head 2"),
        ("Step 42. Thread block 1. Pull it tight", "block 1"),
        ("Step 43. Thread head 3. Pull it tight", "head 3"),
        ("Step 44. Thread block 3. Pull it tight", "block 3"),
    ]
    keepers = {line.label: line.value for line in part(record, "Keepers").lines}
    assert (keepers["Step 33. Keepers drawn"], keepers["Step 51. Keepers put back"]) == ("2", "2")
    settings = {line.label: line.value for line in part(record, "Setting").lines}
    assert [settings[f"Step {step}. Falls set on the indicator"] for step in (68, 69)] == ["4", "4"]
    assert settings["Step 76. Where it stopped: shaft to shaft"] == "1.1 m"
    assert all(line.below for line in part(record, "Path passed").lines)


def test_every_value_that_was_entered_stands_in_some_section() -> None:
    record = told(whole())
    lines = [line for one in record.sections if not one.is_long for line in one.lines]
    said = " ".join(f"{line.label} {line.value}" for line in lines)
    for item in script().items:
        if item.fields and not item.blind:
            assert f"Step {item.number}." in said or item.part.replace("-", " ") in said, item.id
    by_time = part(record, "What each person saw")
    assert len(by_time.lines) == len(whole())


def test_a_wrong_entry_stays_with_what_was_said_to_it() -> None:
    writer = Writer(number=500)
    events = with_count(whole(), "s14", angle=9.0)
    record = told(answered_on(events, writer))
    (wrong,) = part(record, "Wrong entries").lines
    (attempt,) = fold_run(script(), events).items["s14"].attempts
    assert wrong.label == "Step 14"
    assert wrong.value.endswith(": 9°")
    assert wrong.below == ("Ada Quill, 14:50:00", attempt.why)
    position = [line for line in part(record, "Position").lines if line.label.startswith("Step 14")]
    assert [line.value for line in position] == ["5.3°"]


def test_a_note_stands_below_and_an_entry_after_the_close_is_late_and_without_effect() -> None:
    writer = Writer(number=900)
    note = writer.write("noted", {"text": "Count B was entered for me.", "about": whole()[5].key}, role="rigger")
    late = writer.write("entered", {"item": "s14", "round": 1, "values": {"angle": 3.0}})
    record = told([*whole(), note, late])
    (noted,) = part(record, "Notes").lines
    assert noted.label == "Count B was entered for me."
    assert noted.below[1] == "About entry 8."
    assert record.title == told(whole()).title
    assert len(part(record, "Came after the close").lines) == 1


def test_the_list_shows_what_is_open_as_not_closed() -> None:
    row = list_row(RUN, kept(whole()[:9]))
    assert (row.state, row.people) == ("NOT CLOSED", "Ada Quill, Bo Fenn")
    assert row.title == "2 falls, main block → 4 falls, main block, begun Mon 30 Nov 14:40"
    assert list_row(RUN, kept(whole())).state == "closed"


def test_the_paper_holds_the_words_of_the_page_in_black_on_a4() -> None:
    record = told(whole())
    pdf = record_card(record, printed="2026-12-01")
    text = whole_text(pdf).replace(" ", "")
    missing = [one for one in all_words(record).split("\n") if one.replace(" ", "") not in text]
    assert missing == []
    assert set(page_sizes(pdf)) == {(210, 297)}
    assert "competentpersonsonsitegovern" in text
    assert pdf == record_card(record, printed="2026-12-01")


def test_the_paper_of_an_open_record_says_on_every_page_that_it_is_not_closed() -> None:
    pdf = record_card(told(whole()[:60]), printed="2026-12-01")
    pages = page_sizes(pdf)
    assert whole_text(pdf).count("NOT CLOSED") >= 2 * len(pages)


def test_a_date_that_is_none_is_refused() -> None:
    with pytest.raises(UnreadableTextError, match=r"date 1\.12\.2026; a day as 2026-11-30 is wanted"):
        record_card(told(whole()), printed="1.12.2026")


@pytest.mark.browser
def test_the_code_on_paper_names_the_run_and_the_hash_of_its_last_entry(tmp_path: Path) -> None:
    record = told(whole())
    assert record_identity(record) == f"BECKET/1/RECORD/RUN-1/{record.head_hash[:16].upper()}"
    assert qr_text(record_card(record, printed="2026-12-01"), tmp_path) == record_identity(record)


def test_a_run_that_has_only_begun_has_a_record() -> None:
    record = told([started(Writer(), script(), "script-1")])
    assert record.sections[0].says == ("No count was entered.",)
    assert record.closing.startswith("Not closed. Missing: ")


def test_a_photo_stands_on_the_record_but_not_while_a_count_is_hidden() -> None:
    """One of two has counted: a photo could show the other one what to count."""
    blind = next(
        n
        for n, event in enumerate(whole())
        if event.kind == "entered" and script().item(str(event.entered["item"])).blind
    )
    taken = Writer(number=900).write(
        "photo_taken",
        {"photo": "ab" * 32, "bytes": 9, "item": script().items[0].id, "pattern": None, "note": "the wedge"},
        key="photo-1",
        at=whole()[0].at,
    )
    picture = {"ab" * 32: b"\xff\xd8\xff"}
    open_record = tell_record(RUN, replace(kept([*whole(), taken]), pictures=picture))
    hidden = tell_record(RUN, replace(kept([*whole()[: blind + 1], taken]), pictures=picture))
    (shown,), (not_shown,) = part(open_record, "Photos").photos, part(hidden, "Photos").photos
    assert (shown.data, shown.missing, shown.note) == (b"\xff\xd8\xff", "", "the wedge")
    assert (not_shown.data, not_shown.missing) == (None, "Shown when no count is hidden any more.")
    assert "ab" * 32 in " ".join(shown.below)


def test_it_says_where_the_plan_had_the_change_and_who_pays() -> None:
    events = list(whole())
    assert "the transformer needs 4 falls" in all_words(told(events))
    events[0] = replace(events[0], entered={**events[0].entered, "why": "S;customer;J-9;Quay"})
    words = "Before the first lift of J-9, Quay. The customer pays."
    minutes = part(told(events), "Minutes and who pays")
    assert [one.value for one in minutes.lines if one.label == "The plan when it began"] == [words]
    assert all_words(told(events)).count(words) == 2, "in the minutes, and where the event is told"
    events[0] = replace(events[0], entered={**events[0].entered, "why": None})
    assert "Not noted. Who pays: ask the office." in all_words(told(events))
