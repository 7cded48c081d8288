"""The JSON object of a plan."""

from __future__ import annotations

import json

from becket.planning.answer import plan_as_dict
from becket.planning.plan import plan_sheet
from tests.crane import invented_book, invented_settings
from tests.planning.jobs import sheet_of

BOOK, SETTINGS = invented_book(), invented_settings()


def test_a_plan_as_json() -> None:
    found = plan_sheet(BOOK, SETTINGS, sheet_of())
    data = json.loads(json.dumps(plan_as_dict(found)))
    assert set(data) == {"cost", "currency", "groups", "changes", "next_best", "why_no_plan", "notes", "model"}
    assert data["groups"][0] == {
        "job": "K-1",
        "lift": "rafters",
        "state": "main:2",
        "needed_falls": 2,
        "hours": found.groups[0].hours,
        "stopped_by": None,
        "why": None,
    }
    change = data["changes"][0]
    assert (change["from"], change["to"], change["where"]) == ("main:2", "main:3", "E")
    assert data["next_best"]["states"] == ["main:2", "main:4"]
    assert data["why_no_plan"] is None


def test_no_plan_as_json() -> None:
    data = plan_as_dict(plan_sheet(BOOK, SETTINGS, sheet_of(rigged=None)))
    assert (data["cost"], data["changes"], data["next_best"], data["model"]) == (None, [], None, None)
    assert data["groups"][0]["state"] is None
