"""The description of the interface names the routes that run, and says of them what the code says."""

from __future__ import annotations

import json
from dataclasses import fields
from importlib.resources import files
from typing import Any

import pytest
from jsonschema import Draft202012Validator
from starlette.routing import Route

from becket.guide import event, photo
from becket.guide.event import Event, event_as_dict
from becket.guide.script import FIELD_KINDS, Field, Group, Item, Reeving, Script
from becket.records.photo_shelf import MOST_PIECE
from becket.web.receive import MOST_EVENTS
from becket.web.routes import routes
from tests.web.asking import Phone
from tests.web.run_answered import Writer, answered, people_events
from tests.web.test_receive import deliver, script_at

SPEC: dict[str, Any] = json.loads((files("becket.web") / "openapi.json").read_text(encoding="utf-8"))
SCHEMAS = SPEC["components"]["schemas"]
METHODS = {"GET", "POST", "PUT", "PATCH", "DELETE"}  # HEAD goes with GET, as HTTP has it


def says(name: str, value: object) -> list[str]:
    """Return what a value breaks of a named schema."""
    schema = {"$ref": f"#/components/schemas/{name}", "components": SPEC["components"]}
    return [error.message for error in Draft202012Validator(schema).iter_errors(value)]


def test_it_names_exactly_the_routes_for_programs() -> None:
    described = {
        (path, method.upper()) for path, ways in SPEC["paths"].items() for method in ways if method.upper() in METHODS
    }
    ours = [route for route in routes() if isinstance(route, Route) and route.path.startswith(("/api/", "/script/"))]
    assert described == {(route.path, way) for route in ours for way in (route.methods or ()) if way in METHODS}
    assert "head" in SPEC["paths"]["/api/photo/{crane}/{photo}"]


def test_an_event_is_what_the_code_takes() -> None:
    said = SCHEMAS["Event"]["properties"]
    assert list(said) == [field.name for field in fields(Event)]
    assert said["kind"]["enum"] == list(event.KINDS)
    assert said["role"]["enum"] == list(event.ROLES)
    assert said["key"]["pattern"] == f"^{event._NAME.pattern}$"
    assert said["at"]["pattern"] == f"^{event._MOMENT.pattern}$"
    assert f"{event._LONGEST:,}".replace(",", " ") in SCHEMAS["Event"]["description"]


def test_a_script_has_the_keys_that_the_code_has() -> None:
    for kind in (Field, Item, Group, Reeving, Script):
        assert list(SCHEMAS[kind.__name__]["properties"]) == [field.name for field in fields(kind)], kind
    assert SCHEMAS["Field"]["properties"]["kind"]["enum"] == list(FIELD_KINDS)


def test_the_bounds_are_those_of_the_code() -> None:
    put = SPEC["paths"]["/api/photo/{crane}/{photo}"]["put"]
    assert put["requestBody"]["content"]["image/jpeg"]["schema"]["maxLength"] == MOST_PIECE
    assert SCHEMAS["Progress"]["properties"]["offset"]["maximum"] == photo.MOST_BYTES
    assert SCHEMAS["Delivery"]["properties"]["events"]["maxItems"] == MOST_EVENTS


def test_every_answer_to_a_whole_change_is_as_described(phone: Phone) -> None:
    name, script = script_at(phone)
    events = [*people_events(), *answered(script, Writer(), name)]
    assert [says("Event", event_as_dict(one)) for one in events] == [[]] * len(events)
    assert says("Delivered", deliver(phone, [*events, events[0]])) == []
    assert says("Feed", phone.get("/api/feed/hazel-70").json()) == []
    kept = phone.get("/api/kept/rowan-30").json()
    assert says("KeptPages", kept) == []
    for one in kept["scripts"][:3]:  # a count, two changes
        assert says("Script", phone.get(one["url"]).json()) == []
    assert len(kept["scripts"]) > 1


@pytest.mark.parametrize(
    "answer",
    [
        {"key": None, "number": None, "refused": None},
        {"key": "a", "number": 1, "refused": "no"},
        {"key": "a", "number": 0, "refused": None},
    ],
)
def test_an_answer_is_a_number_or_a_reason(answer: dict[str, object]) -> None:
    assert says("Answer", answer)
    assert says("Answer", {"key": "a", "number": 1, "refused": None}) == []


def test_it_is_sound_itself() -> None:
    Draft202012Validator.check_schema({"$defs": SCHEMAS})
    text = json.dumps(SPEC)
    named = {part.split('"')[0] for part in text.split('"$ref": "#/components/')[1:]}
    there = {
        f"{kind}/{name}" for kind, ones in SPEC["components"].items() for name in ones if kind != "securitySchemes"
    }
    assert named <= there
    assert there - named <= {"schemas/Event"}
