"""Every operation of the interface, with what fits its description and what does not: no fault, no answer undescribed.

What is asked is aimed: where a crane, a photo or a person fits its description, one that is there is often put in its
place, so that events are kept and photos arrive. The chain is verified at the end.
"""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, Final

import pytest
import schemathesis
from jsonschema import Draft202012Validator
from schemathesis import Case
from schemathesis.config import SchemathesisConfig
from schemathesis.specs.openapi.checks import negative_data_rejection
from starlette.types import ASGIApp, Receive, Scope, Send

from becket.guide.event import Event
from becket.records.photo_file import hash_of
from becket.records.verify import verify
from becket.web.receive import MOST_EVENTS
from becket.web.sessions import COOKIE
from tests.records.test_photos import jpeg
from tests.web.asking import HOST, Phone, demo_folder, phone_at
from tests.web.run_answered import Writer, answered, people_events
from tests.web.test_openapi import SPEC
from tests.web.test_photos import photo_event
from tests.web.test_receive import deliver, script_at

EXAMPLES: Final = 40  # of each operation, besides what its edges need
MANY: Final = 130  # events that are kept at least, those of the change before among them
GOOD: Final = Draft202012Validator({"$ref": "#/components/schemas/Event", "components": SPEC["components"]})
PHOTO: Final = jpeg(60, 40)
TOLD: Final[Counter[str]] = Counter()
REACHED: Final = {
    "POST /api/events": {200, 401, 403, 409, 415},
    "PUT /api/photo/{crane}/{photo}": {200, 401, 403, 404, 409, 415},
    "GET /api/feed/{crane}": {200, 401, 404},
}
CALLED: Final[dict[str, Counter[int]]] = {}  # operation -> statuses


class Behind:
    """Stands for the application until there is one."""

    app: ASGIApp

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass the request on."""
        await self.app(scope, receive, send)


BEHIND: Final = Behind()


def described() -> Any:
    """Return the operations, the same cases each time."""
    config = SchemathesisConfig()
    project = config.projects.default
    project.generation.update(max_examples=EXAMPLES, deterministic=True)
    project.checks.negative_data_rejection.expected_statuses = [
        *project.checks.negative_data_rejection.expected_statuses,
        "413",
    ]
    found = schemathesis.openapi.from_dict(SPEC, config=config)
    found.app = BEHIND
    return found


@dataclass(frozen=True, kw_only=True)
class There:
    """A server with a whole change on file, a photo that is half there and one of which nothing is."""

    phone: Phone
    script: str
    photos: tuple[Event, ...]


@pytest.fixture(scope="module")
def there(tmp_path_factory: pytest.TempPathFactory) -> Iterator[There]:
    """Yield it; at the end what was kept of all that was asked is a whole chain."""
    phone = phone_at(demo_folder(tmp_path_factory.mktemp("described") / "data"))
    BEHIND.app = phone.app
    name, script = script_at(phone)
    writer = Writer()
    events = [*people_events(), *answered(script, writer, name)]
    photos = (photo_event(writer, PHOTO), photo_event(writer, jpeg(50, 30)))
    deliver(phone, [*events, *photos])
    found = There(phone=phone, script=name, photos=photos)
    yield found
    look_at_all(found)
    phone.house.close()


def aimed(case: Case[Any], there: There) -> None:
    """Put what is there in place of what only fits, for about three of four."""
    aim = hash_of(json.dumps([case.path_parameters, case.query], sort_keys=True, default=str).encode())
    turn = int(aim[:8], 16)
    photo = there.photos[turn % 2]
    known = {"crane": photo.crane, "photo": photo.entered["photo"], "id": there.script}
    if turn % 4:
        for name, value in known.items():
            if name in case.path_parameters and fits(case, name, case.path_parameters[name]):
                case.path_parameters[name] = value
        if "event" in case.query and fits(case, "event", case.query["event"]):
            case.query["event"] = photo.key
    if "Origin" in case.headers:
        case.headers["Origin"] = HOST
    body: Any = case.body
    if isinstance(body, dict) and isinstance(body.get("events"), list):
        body["events"] = [aimed_event(one) if GOOD.is_valid(one) else one for one in body["events"]]


def fits(case: Case[Any], name: str, value: object) -> bool:
    """Return whether a value is as its parameter says."""
    named = {**SPEC["components"]["parameters"], "id": SPEC["paths"]["/script/{id}.json"]["get"]["parameters"][0]}
    (schema,) = [one["schema"] for one in named.values() if one["name"] == name]
    return Draft202012Validator(schema).is_valid(value)


def aimed_event(found: dict[str, Any]) -> dict[str, Any]:
    """Return an event of a person on the list at a crane on file, as far forward as a phone is."""
    kind = found["kind"]
    run = "run-1" if found["run"] and kind != "person_added" else None
    key = hash_of(json.dumps(found, sort_keys=True).encode())[:32]
    tick = found["tick"] % 5000 + 1
    return {**found, "key": key, "crane": "hazel-70", "person": "p-op", "run": run, "tick": tick}


def ask(case: Case[Any], there: There) -> None:
    aimed(case, there)
    is_open = isinstance(case.cookies.get(COOKIE), str)  # else it is asked without
    session = {COOKIE: there.phone.cookies[COOKIE]} if is_open else {}
    other = {} if case.method == case.operation.method.upper() else {"origin": HOST}  # a method that is not taken
    by_item: Any = (
        [negative_data_rejection] if case.path == "/api/events" else []
    )  # each event has its own answer, below
    answer = case.call_and_validate(base_url=HOST, cookies=session, headers=other, excluded_checks=by_item)
    CALLED.setdefault(f"{case.method} {case.path}", Counter())[answer.status_code] += 1
    if case.method == "POST" and case.path == "/api/events" and answer.status_code in (200, 409):
        look_at_each(case.body, answer.status_code, answer.json())


def look_at_each(sent: object, status: int, told: dict[str, Any]) -> None:
    """Fail where a delivery is taken for none, or an event is kept that is none."""
    events = sent.get("events") if isinstance(sent, dict) else None
    assert (status == 200) == (isinstance(events, list) and len(events) <= MOST_EVENTS)
    for one, result in zip(events or (), told.get("results", ()), strict=status == 200):
        assert GOOD.is_valid(one) or result["refused"], "what is no event is not kept"
        TOLD["kept" if result["refused"] is None else "refused"] += 1


def look_at_all(there: There) -> None:
    """Fail where it did not reach further than the door, or where what was kept of it is no whole chain."""
    store = there.phone.house.store
    assert verify(store).is_whole
    assert CALLED
    for name, found in CALLED.items():
        if name.startswith(("DELETE", "TRACE")):
            assert set(found) == {405}, name
        assert REACHED.get(name, set()) <= set(found), (name, found)
    if "POST /api/events" in CALLED:
        assert store.head().number > MANY
        assert TOLD["refused"] > 0


# one test an operation, each with a name of its own: tests of one name are run once where they are shared out
schema = described()
test_deliver = schema.include(operation_id="deliver").parametrize()(ask)
test_feed = schema.include(operation_id="feed").parametrize()(ask)
test_kept = schema.include(operation_id="kept").parametrize()(ask)
test_photo = schema.include(operation_id="photo").parametrize()(ask)
test_photo_head = schema.include(operation_id="photoHead").parametrize()(ask)
test_photo_piece = schema.include(operation_id="photoPiece").parametrize()(ask)
test_script = schema.include(operation_id="script").parametrize()(ask)


def test_every_operation_is_asked() -> None:
    asked = {"deliver", "feed", "kept", "photo", "photoHead", "photoPiece", "script"}
    assert {
        way["operationId"] for path in SPEC["paths"].values() for name, way in path.items() if name != "parameters"
    } == asked
