"""An entry of another form than pages and rules work with is refused; what phones write is not."""

from __future__ import annotations

from typing import Any

import pytest

from becket.guide.event import KINDS
from becket.guide.forms import FORMS, NEEDED, odd_part
from becket.guide.legal import OF_THE_SERVER, why_refused
from tests.guide.test_crane_now import crew
from tests.records.invented import an_event
from tests.web.run_answered import Writer, people_events

ODD: tuple[Any, ...] = ({}, {"a": {"b": 1}}, [[1]], [{}], "x" * 5001)


def test_every_kind_of_a_phone_has_its_form() -> None:
    own_rule = {"photo_taken"}  # guide/photo.py
    assert set(FORMS) == set(KINDS) - set(OF_THE_SERVER) - own_rule
    assert all(name in FORMS[kind] for kind, names in NEEDED.items() if kind in FORMS for name in names)


@pytest.mark.parametrize(("kind", "part"), [(kind, part) for kind, parts in FORMS.items() for part in parts])
def test_no_part_takes_every_value(kind: str, part: str) -> None:
    """A page that shows a part may rely on its form."""
    plain = {name: {"id": "p", "role": "rigger", "round": 1}.get(name, "x") for name in NEEDED.get(kind, ())}
    found = [odd_part(an_event(1, kind=kind, entered={**plain, part: value})) for value in ODD]
    refused = [one for one in found if one is not None]
    assert len(refused) >= 4 if part != "values" else 3
    assert {one[0] for one in refused} == {part}


def test_what_a_phone_writes_when_a_person_signs_is_good() -> None:
    values = {"s41": {"ropes": 4, "sheaves": [1, 3], "clear": "yes"}, "p2.3": {}, "p3.1": {"angle": 1.5, "note": None}}
    assert odd_part(an_event(1, kind="signed", entered={"role": "rigger", "values": values})) is None


def test_what_is_needed_is_told_by_name() -> None:
    for kind, names in NEEDED.items():
        assert odd_part(an_event(1, kind=kind, entered={})) == (names[0], odd_part_form(kind, names[0]))


def odd_part_form(kind: str, name: str) -> str:
    """Return the words of the form."""
    return FORMS[kind][name].told if kind in FORMS else "there"


def test_an_odd_entry_is_refused_in_words_that_say_which_part() -> None:
    odd = Writer().write("entered", {"round": 1, "values": {}}, run=None)
    assert why_refused(odd, crew(), {}) == (
        "The entry cannot be read: item has to be text. Reload the page, then enter it again."
    )
    assert [why_refused(one, (), {}) for one in people_events()] == [None, None]


def test_a_person_of_another_form_on_file_holds_up_nobody() -> None:
    """As an import could bring it."""
    odd = an_event(1, kind="person_added", crane="", run=None, entered={"id": {"a": 1}, "name": 3})
    assert [why_refused(one, [odd], {}) for one in people_events()] == [None, None]
