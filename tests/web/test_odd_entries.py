"""Entries that no phone of ours writes: kept or refused, each by itself; no page or feed falls over what is kept."""

from __future__ import annotations

import random
from collections.abc import Iterator
from pathlib import Path
from typing import Any, Final

import pytest

from becket.guide.event import KINDS, event_as_dict
from becket.guide.forms import FORMS
from becket.records.verify import verify
from tests.web.asking import Phone, phone_at
from tests.web.run_answered import RUN, Writer, answered, people_events
from tests.web.test_receive import script_at

VALUES: Final[tuple[Any, ...]] = (
    *("", "x", "\u202e", "a\nb", "<b>", "9" * 500, "main:4", "p-op", "operator", "2026-11-30T00:00:00Z", "24:99"),
    *(0, -1, 3, 1.5, 10**99, 1e308, -1e-308, True, None),
    *([], ["x"], [1, 2], [None], {}, {"a": 1}),
)
MOMENTS: Final = ("1000-01-01T00:00:00+23:59", "9998-12-31T23:59:59-23:59", "2026-11-30T14:40:00Z")
PAGES: Final = (
    *("/", "/who", "/files", "/settings?crane=hazel-70", "/pages?crane=hazel-70"),
    *(f"/c/hazel-70/{name}" for name in ("now", "week", "change", "trouble", "record", f"record/{RUN}", "pattern")),
    *("/c/hazel-70/pattern/main:4", "/c/hazel-70/pattern/main:5", "/api/feed/hazel-70", "/api/feed/hazel-70?after=20"),
    "/api/feed/rowan-30",
)
AT_ONCE: Final = 10


def odd_ones(base: list[dict[str, Any]], draw: random.Random) -> Iterator[dict[str, Any]]:
    """Yield a whole change, odd entries between: its own with a part changed, and any kind with any parts."""
    for number, plain in enumerate(base):
        if draw.random() < 0.12:
            yield changed(plain, draw) | {"key": f"odd-{number}"}
        if draw.random() < 0.95 or plain["kind"] in ("person_added", "run_started"):
            yield plain
        if draw.random() < 0.25:
            kind = draw.choice(list(KINDS))
            entered = {name: draw.choice(VALUES) for name in FORMS.get(kind, {}) if draw.random() < 0.8}
            run, role = draw.choice((RUN, None, "run-2")), draw.choice(("operator", "rigger"))
            event = Writer(number=draw.randrange(200)).write(kind, entered, role=role, run=run, key=f"any-{number}")
            yield event_as_dict(event)


def changed(plain: dict[str, Any], draw: random.Random) -> dict[str, Any]:
    """Return an event with odd parts."""
    entered = dict(plain["entered"])
    name = draw.choice(list(entered))
    if isinstance(entered.get("values"), dict) and entered["values"] and draw.random() < 0.6:
        entered["values"] = entered["values"] | {draw.choice(list(entered["values"])): draw.choice(VALUES)}
    elif draw.random() < 0.7:
        entered[name] = draw.choice(VALUES)
    else:
        del entered[name]
    shown = {part: draw.choice(VALUES) for part in ("item", "round", "text") if draw.random() < 0.3}
    return {**plain, "entered": entered, "shown": shown, "at": draw.choice((plain["at"], *MOMENTS))}


def test_the_record_of_a_run_has_a_word_for_every_kind(phone: Phone) -> None:
    """An event of any kind may name a run: a trouble that did held the whole record back."""
    assert all(phone.app.state.templates.words.word(f"record.kind.{kind}") for kind in KINDS)


@pytest.mark.parametrize("seed", range(3))
def test_no_page_falls_over_what_was_kept(phone: Phone, folder: Path, seed: int) -> None:
    name, script = script_at(phone)
    people = [event_as_dict(one) for one in people_events()]
    base = [event_as_dict(one) for one in answered(script, Writer(), name)]
    sent = [*people, *odd_ones(base, random.Random(seed))]
    kept = 0
    for start in range(0, len(sent), AT_ONCE):
        answer = phone.post("/api/events", json={"events": sent[start : start + AT_ONCE]})
        assert answer.status_code == 200
        kept += sum(one["number"] is not None for one in answer.json()["results"])
    assert len(base) < kept < len(sent)
    assert {path: status for path in PAGES if (status := phone.get(path).status_code) != 200} == {}
    assert verify(phone.house.store).is_whole
    again = phone_at(folder)  # read anew from what is kept
    assert again.get("/api/feed/hazel-70").json()["events"] == phone.get("/api/feed/hazel-70").json()["events"]
    again.house.close()
