"""Writes of other sites' pages are refused, and so is what is not of the kind that is taken."""

from __future__ import annotations

import pytest

from tests.web.asking import HOST, OWN, Phone

JSON = {"content-type": "application/json"}
FOREIGN: tuple[dict[str, str], ...] = (
    {},
    {"origin": "http://evil.example"},
    {"origin": "null"},
    {"origin": "http://localhost.evil.example"},
    {"origin": "http://localhost:9999"},
    {"sec-fetch-site": "cross-site"},
    {"sec-fetch-site": "same-site"},
    {"sec-fetch-site": "none"},
    {"origin": HOST, "sec-fetch-site": "cross-site"},
    {"origin": "http://evil.example", "sec-fetch-site": "same-origin"},
)


@pytest.mark.parametrize("headers", FOREIGN)
@pytest.mark.parametrize("path", ["/api/events", "/files", "/link", "/settings"])
def test_a_foreign_write_changes_nothing(phone: Phone, path: str, headers: dict[str, str]) -> None:
    answer = phone.post(path, headers={**JSON, **headers}, content=b'{"events": []}')
    assert answer.status_code == 403
    assert "Another site asked this phone to write here. Nothing is changed." in answer.text
    assert phone.house.store.head().number == 0


@pytest.mark.parametrize("headers", [{"origin": HOST}, {"sec-fetch-site": "same-origin"}, OWN])
def test_a_write_of_our_own_page_is_taken(phone: Phone, headers: dict[str, str]) -> None:
    assert phone.post("/api/events", headers=headers, json={"events": []}).status_code == 200


@pytest.mark.parametrize("kind", ["text/plain", "application/x-www-form-urlencoded", "multipart/form-data", ""])
def test_events_come_as_json_alone(phone: Phone, kind: str) -> None:
    answer = phone.post("/api/events", headers={**OWN, "content-type": kind}, content=b'{"events": []}')
    assert answer.status_code == 415
    assert "Entries come as JSON" in answer.json()["refused"]


@pytest.mark.parametrize("kind", ["application/json", "text/plain", ""])
def test_files_come_as_a_form_alone(phone: Phone, kind: str) -> None:
    assert phone.post("/files", headers={**OWN, "content-type": kind}, content=b"{}").status_code == 415


@pytest.mark.parametrize("method", ["PUT", "DELETE", "PATCH"])
def test_other_ways_to_write_are_not_taken(phone: Phone, method: str) -> None:
    answer = phone.ask(method, "/c/hazel-70/now", headers={**OWN, "content-type": "multipart/form-data"})
    assert answer.status_code == 405
    assert "takes only GET, HEAD. Nothing is changed." in answer.text
    assert answer.headers["allow"] == "GET, HEAD"


@pytest.mark.parametrize(
    ("method", "path", "allowed"),
    [
        ("PUT", "/api/feed/hazel-70", "GET, HEAD"),
        ("POST", "/api/photo/hazel-70/abc", "GET, HEAD, PUT"),
        ("DELETE", "/api/events", "POST"),
        ("GET", "/api/events", "POST"),
    ],
)
def test_a_program_is_told_the_methods_of_an_address(phone: Phone, method: str, path: str, allowed: str) -> None:
    answer = phone.ask(method, path, headers=OWN)
    assert (answer.status_code, answer.headers["allow"]) == (405, allowed)
    assert answer.json()["refused"] == f"{path} takes only {allowed}. Nothing is changed."
