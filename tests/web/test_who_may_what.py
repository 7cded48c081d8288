"""Who may what on a shared server: every address by every role and by a stranger, every kind of event by every role."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import UTC, datetime
from pathlib import Path
from typing import Any, Final

import pytest

from becket.book.tackle import State
from becket.guide.event import KINDS, Event, event_as_dict
from becket.guide.event import ROLES as EVENT_ROLES
from becket.web.roles import ACTIONS, ADDRESSES, CARRIES, EVENTS, ROLES, may, may_carry
from becket.web.routes import routes
from tests.web.accounts_at import Shared
from tests.web.asking import OWN, Phone, demo_folder
from tests.web.pages.standing import change_begun, crew
from tests.web.run_answered import PEOPLE, Writer, people_events

OWN_CRANE, FOREIGN = "hazel-70", "rowan-30"
# what each role may, written down a second time and by hand: the table of the code has to say the same
TOLD: Final[Mapping[str, str]] = {
    "crew": "own read deliver steps digits trouble read_pattern photos notes",
    "supervisor": "own read deliver steps digits trouble read_pattern photos notes people files settings",
    "office": "own read deliver files",
    "inspector": "own read deliver trouble inspect photos notes",
    "administrator": "own read deliver files settings accounts",
}
# address -> what stands in its places; the query
PLACES: Final[Mapping[str, str]] = {
    "number": "1",
    "state": "main:4",
    "before": "main:2",
    "after": "main:4",
    "run": "run-1",
    "photo": "0" * 64,
    "token": "no-such-token",
    "id": "0000000000000000",
    "name": "no.js",
    "account": "no-such",
}
WRITES = {"POST", "PUT"}


@pytest.fixture(scope="module")
def shared(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Shared]:
    """Yield one server for every test of this file: none of them changes what another looks at."""
    found = Shared(demo_folder(tmp_path_factory.mktemp("may") / "data"))
    found.house.store.append(people_events(), "2026-11-30T08:00:00Z")
    yield found
    found.house.close()


@pytest.fixture(scope="module")
def phones(shared: Shared) -> Mapping[str, Phone]:
    """Return a phone in every role, each for one crane as far as its role lets it."""
    bound = {role: None if "accounts" in ROLES[role] else frozenset({OWN_CRANE}) for role in ROLES}
    return {role: shared.phone_in(role, cranes) for role, cranes in bound.items()}


def every_address() -> list[tuple[str, str]]:
    """Return every method and path of the server, HEAD with its GET."""
    return [(way, route.path) for route in routes() for way in sorted(route.methods or ()) if way != "HEAD"]


def path_of(path: str, crane: str = OWN_CRANE) -> str:
    """Return an address with its places filled in."""
    for name, value in {**PLACES, "crane": crane}.items():
        path = path.replace("{" + name + "}", value)
    return path


def asked(phone: Phone, method: str, path: str, **more: Any) -> int:
    """Return the status of an answer; a write is sent as one of our own pages does, with nothing in it."""
    if method not in WRITES:
        return phone.ask(method, path, **more).status_code
    if path.startswith("/api/events"):
        return phone.post(path, json={"events": []}).status_code
    if method == "PUT":
        return phone.ask("PUT", path, headers={**OWN, "content-type": "image/jpeg"}, content=b"x").status_code
    return phone.post(path, files={"none": b""}).status_code


def test_every_address_has_a_row_and_every_row_an_address() -> None:
    assert set(ADDRESSES) == set(every_address())
    assert set(ADDRESSES.values()) <= set(ACTIONS)


def test_every_kind_of_event_has_a_row_and_every_row_a_kind() -> None:
    assert set(EVENTS) == set(KINDS)
    assert set(EVENTS.values()) <= set(ACTIONS)


def test_the_roles_may_what_is_told_of_them() -> None:
    assert {role: set(actions) for role, actions in ROLES.items()} == {
        role: set(actions.split()) for role, actions in TOLD.items()
    }
    assert not any({"accounts", "steps"} <= set(actions) for actions in ROLES.values())
    assert {role for role in ROLES if may(role, "inspect") and may(role, "steps")} == set()
    assert set(CARRIES) == set(ROLES)


@pytest.mark.parametrize(("method", "path"), every_address())
def test_an_address_is_answered_to_whom_the_table_says(
    shared: Shared, phones: Mapping[str, Phone], method: str, path: str
) -> None:
    action = ADDRESSES[method, path]
    address = path_of(path)
    if path == "/sign-out":
        return  # ends the session that the other cases need; looked at in test_accounts.py
    stranger = asked(shared.stranger(), method, address)
    found = {role: asked(phone, method, address) for role, phone in phones.items()}
    if action == "nobody":
        assert {stranger, *found.values()} == {403}
        return
    if action == "anybody":
        assert 401 not in (stranger, *found.values())
        return
    assert stranger == 401
    refused = {role for role, status in found.items() if status in (401, 403)}
    assert refused == {role for role in ROLES if action not in TOLD[role].split()}
    assert all(status < 500 for status in found.values())


@pytest.mark.parametrize(("method", "path"), [one for one in every_address() if "{crane}" in one[1]])
def test_a_crane_of_others_is_as_one_that_is_not_there(phones: Mapping[str, Phone], method: str, path: str) -> None:
    for role, phone in phones.items():
        if role == "administrator":
            continue
        there, not_there = (phone.ask(*_write(method, path_of(path, crane))) for crane in (FOREIGN, "no-such-9"))
        assert there.status_code == not_there.status_code == 404
        assert there.text.replace(FOREIGN, "X") == not_there.text.replace("no-such-9", "X")


@pytest.mark.parametrize(
    "path",
    ["/c/rowan%2D30/now", "/c/rowan-30/now/", "/c/rowan-30/now?crane=hazel-70", "/c/hazel-70/now?crane=rowan-30",
     "/c/hazel-70/../rowan-30/now", "/c/./rowan-30/now", "//c/rowan-30/now", "/who?crane=hazel-70&crane=rowan-30",
     "/api/feed/rowan%2d30?crane=hazel-70", "/C/rowan-30/now", "/c/ROWAN-30/now", "/c/rowan-30%00/now"],
)  # fmt: skip
@pytest.mark.parametrize("method", ["GET", "HEAD"])
def test_no_way_of_writing_an_address_leads_round_it(phones: Mapping[str, Phone], method: str, path: str) -> None:
    answer = phones["crew"].ask(method, path, follow_redirects=True)
    assert answer.status_code == 404
    assert "Rowan" not in answer.text


def test_a_phone_keeps_only_pages_that_its_account_is_given(phones: Mapping[str, Phone]) -> None:
    for role in ("crew", "office"):
        told = phones[role].get(f"/api/kept/{OWN_CRANE}").json()
        assert set(told["seals"]) == set(told["pages"])
        assert {phones[role].get(page).status_code for page in told["pages"] if page != "/"} == {200}
        assert any(page.endswith("/confirm") for page in told["pages"]) == (role == "crew")
    crew, office = (phones[role].get(f"/api/kept/{OWN_CRANE}").json()["seals"] for role in ("crew", "office"))
    assert crew["/who"] != office["/who"]  # a page is of the account that it was made for


@pytest.mark.parametrize("path", ["/pages", "/who", "/kept", "/settings", "/files", "/account"])
def test_a_crane_of_others_in_a_query_is_as_one_that_is_not_there(phones: Mapping[str, Phone], path: str) -> None:
    phone = phones["crew"]
    there, not_there = (phone.get(f"{path}?crane={crane}") for crane in (FOREIGN, "no-such-9"))
    assert there.status_code == not_there.status_code == 404
    assert there.text.replace(FOREIGN, "X") == not_there.text.replace("no-such-9", "X")
    assert phone.get(f"{path}?crane={OWN_CRANE}").status_code == 200


def test_no_page_of_one_crane_names_the_other(shared: Shared, phones: Mapping[str, Phone]) -> None:
    name = shared.house.crane(FOREIGN).name
    every = shared.phone_in("office")
    assert every.get("/").text.count(name) > 0
    for path in ("/files", "/pages", "/settings", "/account", "/kept", f"/c/{OWN_CRANE}/now", f"/api/kept/{OWN_CRANE}"):
        text = phones["office"].get(path).text
        assert FOREIGN not in text, path
        assert name not in text, path
    home = phones["office"].get("/")
    assert home.headers["location"] == f"/c/{OWN_CRANE}/now"


def test_a_script_of_a_crane_of_others_is_as_one_that_is_not_kept(shared: Shared, phones: Mapping[str, Phone]) -> None:
    own, foreign = (shared.house.count_script_for(shared.house.crane(crane))[0] for crane in (OWN_CRANE, FOREIGN))
    phone = phones["crew"]
    assert phone.get(f"/script/{own}.json").status_code == 200
    there, not_there = phone.get(f"/script/{foreign}.json"), phone.get("/script/0000000000000000.json")
    assert there.status_code == not_there.status_code == 404
    assert there.text.replace(foreign, "X") == not_there.text.replace("0000000000000000", "X")
    assert phones["administrator"].get(f"/script/{foreign}.json").status_code == 200


def event_of(kind: str, role: str, by: str) -> Event:
    """Return an event of a kind that is good in form, by somebody on the list; ``by``: the account that brings it."""
    firm = kind in ("person_added", "digits_changed")
    person = None if role == "becket" else "p-op"
    entered = {**PEOPLE["p-op"], "id": "p-op"} if kind == "person_added" else {"text": "x"}
    more = {
        "key": f"{by}.{kind}.{role}",
        "crane": "" if firm else OWN_CRANE,
        "run": None if firm else "run-1",
        "person": person,
    }
    return Writer(device="other").write(kind, entered, role=role, **more)


def refusals(phone: Phone, events: list[Event]) -> list[str | None]:
    """Return what is said of each event of a delivery."""
    answer = phone.post("/api/events", json={"events": [event_as_dict(one) for one in events]})
    assert answer.status_code == 200, answer.text
    return [one["refused"] for one in answer.json()["results"]]


@pytest.mark.parametrize("account", ROLES)
def test_an_event_is_taken_from_whom_the_table_says(phones: Mapping[str, Phone], account: str) -> None:
    asked_of = [(kind, role) for kind in KINDS for role in EVENT_ROLES]
    said = refusals(phones[account], [event_of(kind, role, account) for kind, role in asked_of])
    for (kind, role), why in zip(asked_of, said, strict=True):
        is_of_account = why is not None and "The account " in why
        action = EVENTS[kind]
        if action == "nobody":
            assert why is not None
            assert not is_of_account  # of becket itself, whoever brings it
        elif action not in TOLD[account].split():
            assert is_of_account, (kind, role)
        else:
            assert is_of_account != may_carry(account, kind, role), (kind, role, why)


def test_the_roles_of_the_crane_are_carried_by_those_who_stand_there_alone() -> None:
    for account in ROLES:
        for role in ("operator", "rigger"):
            assert may_carry(account, "entered", role) == (account in ("crew", "supervisor"))
        assert not may_carry(account, "entered", "becket")
        assert not may_carry(account, "entered", "administrator")
        assert may_carry(account, "interrupted", "becket") == (account in ("crew", "supervisor", "inspector"))


def test_an_event_of_a_crane_of_others_is_refused_alone(phones: Mapping[str, Phone]) -> None:
    note = event_of("trouble_entered", "operator", "crew-alone")
    good = Event(**{**event_as_dict(note), "key": "good", "run": None, "entered": {"what": "shock", "note": "x"}})  # type: ignore[arg-type]
    for crane in (FOREIGN, "no-such-9"):
        other = Event(**{**event_as_dict(good), "key": f"on-{crane}", "crane": crane})  # type: ignore[arg-type]
        said = refusals(phones["crew"], [other, good])
        assert said[1] is None
        assert said[0] is not None
        assert f'Crane "{crane}" is not among the cranes of the account' in said[0]


def test_what_is_kept_already_has_its_number_whoever_brings_it_again(phones: Mapping[str, Phone]) -> None:
    first = people_events()[0]
    assert refusals(phones["office"], [first]) == [None]
    changed = Event(**{**event_as_dict(first), "device": "other"})  # type: ignore[arg-type]
    (why,) = refusals(phones["office"], [changed])
    assert why is not None


BOOK, SHEET, OTHER = "hazel-70.crane.yaml", "hazel-70.jobs.yaml", "rowan-30.crane.yaml"


@pytest.mark.parametrize(
    ("name", "content", "status"),
    [
        (BOOK, BOOK, 200),
        (SHEET, SHEET, 200),
        (OTHER, OTHER, 422),
        ("new-1.crane.yaml", BOOK, 422),
        ("rowan-30.jobs.yaml", SHEET, 422),
        ("hazel-70.jobs.csv", "rowan-30.jobs.csv", 422),
    ],
)
def test_files_come_in_for_the_own_cranes_alone(
    shared: Shared, phones: Mapping[str, Phone], name: str, content: str, status: int
) -> None:
    before = {path.name: path.read_bytes() for path in shared.folder.iterdir() if path.suffix in (".yaml", ".csv")}
    answer = phones["supervisor"].post("/files", files={"file": (name, before[content])})
    assert answer.status_code == status, answer.text
    assert "rowan-30.jobs" not in answer.text or name == "rowan-30.jobs.yaml"
    if status == 422:
        assert {path.name for path in shared.folder.iterdir() if path.suffix in (".yaml", ".csv")} == set(before)


def test_a_setting_of_the_method_is_changed_with_every_crane_alone(shared: Shared, phones: Mapping[str, Phone]) -> None:
    fields = {"height": (None, "1.62 m"), "source": (None, "Ada Quill, stretched hands")}
    address = f"/settings/hand-height?crane={OWN_CRANE}"
    bound = phones["supervisor"].post(address, files=fields)
    assert bound.status_code == 409
    assert "an account with some cranes cannot change them" in bound.text
    assert shared.house.settings().hand_height != 1.62
    assert 'name="height"' not in phones["supervisor"].get(f"/settings?crane={OWN_CRANE}").text
    assert 'name="height"' not in shared.phone_in("office").get("/settings").text
    whole = shared.phone_in("supervisor")
    assert 'name="height"' in whole.get("/settings").text
    assert whole.post(address, files=fields).status_code == 303
    assert shared.house.settings().hand_height == 1.62


def test_an_office_account_is_offered_no_step(phones: Mapping[str, Phone]) -> None:
    crew, office = (phones[role].get(f"/c/{OWN_CRANE}/now").text for role in ("crew", "office"))
    assert 'data-change="button"' in crew
    assert 'data-change="button"' not in office
    assert "these pages are for reading" in office
    assert "these pages are for reading" not in crew
    assert 'data-may="own read deliver files"' in office
    assert 'data-photos="take"' in phones["office"].get(f"/c/{OWN_CRANE}/pattern/main:4").text  # hidden by the style
    assert 'type="file"' not in phones["crew"].get("/files").text
    assert 'type="file"' in phones["office"].get("/files").text


def test_an_office_account_is_not_led_into_an_open_change(tmp_path: Path) -> None:
    shared = Shared(demo_folder(tmp_path / "open"))
    crew(shared.house)
    two, four = (State(block="main", falls=falls) for falls in (2, 4))
    change_begun(shared.house, two, four, datetime.now(UTC).astimezone())
    for page in ("now", "change", "change/main:2/main:4"):
        own, office = (shared.phone_in(role).get(f"/c/hazel-70/{page}").text for role in ("crew", "office"))
        assert 'href="/run/' in own, page
        assert 'href="/run/' not in office, page


def _write(method: str, address: str) -> tuple[str, str]:
    return ("GET" if method == "PUT" else method), address
