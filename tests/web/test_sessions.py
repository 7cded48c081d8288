"""A link that opens once, a session that stays."""

from __future__ import annotations

import sqlite3
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from becket.errors import CannotWriteError
from becket.web.sessions import FILE, Sessions
from tests.web.asking import OWN, Phone, phone_at


def test_a_link_opens_a_phone_once_and_the_phone_stays_open(folder: Path) -> None:
    phone = phone_at(folder, is_open=False)
    token = phone.house.sessions.new_link()
    opened = phone.get(f"/open/{token}")
    cookie = opened.headers["set-cookie"]
    assert opened.status_code == 200
    assert 'content="0; url=/"' in opened.text
    assert {"HttpOnly", "SameSite=strict", "Path=/", "Max-Age=7776000"} <= {part.strip() for part in cookie.split(";")}
    assert phone.get("/c/hazel-70/now").status_code == 200
    other = phone_at(folder, is_open=False)
    again = other.get(f"/open/{token}")
    assert again.status_code == 401
    assert "This link was used" in again.text
    assert other.get("/c/hazel-70/now").status_code == 401


def test_without_a_session_a_page_says_what_to_do_and_a_program_gets_json(folder: Path) -> None:
    phone = phone_at(folder, is_open=False)
    for path in ("/", "/c/hazel-70/now", "/run/kept", "/who", "/link", "/no-such"):
        answer = phone.get(path)
        assert answer.status_code == 401
        assert "Open the link that becket serve printed" in answer.text
    for path in ("/api/feed/hazel-70", "/api/kept/hazel-70", "/script/0000000000000000.json"):
        answer = phone.get(path)
        assert answer.status_code == 401
        assert "Open the link" in answer.json()["refused"]
    answer = phone.post("/api/events", json={"events": []})
    assert answer.status_code == 401


@pytest.mark.parametrize("token", ["x", "0" * 22, "../../etc", "%00", "a" * 5000])
def test_a_link_that_was_never_made_opens_nothing(folder: Path, token: str) -> None:
    phone = phone_at(folder, is_open=False)
    assert phone.get(f"/open/{token}").status_code in (401, 404)
    assert not phone.cookies


def test_tokens_are_long_unlike_and_not_on_the_disk(folder: Path) -> None:
    sessions = Sessions(folder)
    links = {sessions.new_link() for _ in range(50)}
    used = sessions.use_link(sorted(links)[0])
    assert used is not None
    assert len(links) == 50
    assert min(map(len, links)) >= 22  # 128 bits in base64
    found = (folder / FILE).read_bytes()
    assert not any(token.encode() in found for token in (*links, used))


def test_a_session_ends_after_its_days(tmp_path: Path) -> None:
    now = datetime(2026, 11, 30, tzinfo=UTC)
    moment = [now]
    sessions = Sessions(tmp_path, days=90, now=lambda: moment[0])
    session = sessions.use_link(sessions.new_link())
    assert session is not None
    moment[0] = now + timedelta(days=89, hours=23)
    assert sessions.is_open(session)
    moment[0] = now + timedelta(days=90)
    assert not sessions.is_open(session)
    assert not sessions.is_open("")
    assert not sessions.is_open(session[:-1])


def test_one_phone_makes_the_link_for_the_next(phone: Phone, folder: Path) -> None:
    assert "/open/" not in phone.get("/link").text
    made = phone.post("/link", files={"none": b""})
    token = made.text.partition("/open/")[2].partition("<")[0]
    assert "<svg" in made.text
    other = phone_at(folder, is_open=False)
    assert other.get(f"/open/{token}").status_code == 200
    assert other.get("/c/hazel-70/now").status_code == 200


def test_a_damaged_file_of_sessions_says_what_to_do(tmp_path: Path) -> None:
    (tmp_path / FILE).write_bytes(b"not a database, and long enough to be looked at" * 20)
    with pytest.raises(CannotWriteError, match=r"is damaged\. Remove it and start again: links and open phones"):
        Sessions(tmp_path)


def test_a_full_disk_keeps_the_link_good(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    sessions = Sessions(tmp_path)
    token = sessions.new_link()
    real = sqlite3.connect

    def full(*words: object, **more: object) -> sqlite3.Connection:
        base: sqlite3.Connection = real(*words, **more)  # type: ignore[call-overload]
        base.execute("PRAGMA max_page_count = 1")
        base.execute("CREATE TEMP TRIGGER full BEFORE INSERT ON session BEGIN SELECT RAISE(ABORT, 'disk full'); END")
        return base

    with monkeypatch.context() as patched:
        patched.setattr(sqlite3, "connect", full)
        with pytest.raises(CannotWriteError):
            sessions.use_link(token)
    assert sessions.use_link(token) is not None


def test_own_writes_carry_what_the_guard_looks_for() -> None:
    assert set(OWN) == {"origin", "sec-fetch-site"}
