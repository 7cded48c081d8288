"""``becket serve`` on a database elsewhere: its address from the command line or the environment, never repeated."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import httpx
import pytest

from becket.errors import CannotKeepError, RefusedError
from becket.guide.event import event_as_dict
from becket.records.store import Store
from becket.web.serving import Wanted, open_door
from tests.records.postgres import Server
from tests.web.asking import running
from tests.web.run_answered import people_events

PASSWORD = "kestrel-91"  # invented; the tests' own server asks for none


@pytest.fixture(scope="module")
def database() -> Iterator[Server]:
    """Yield a PostgreSQL server."""
    found = Server()
    yield found
    found.stop()


def with_password(url: str) -> str:
    """Return the address of a database with a password in it."""
    return url.replace("//becket@", f"//becket:{PASSWORD}@", 1)


def test_events_come_into_the_database_of_the_environment_and_its_password_is_not_told(
    folder: Path, database: Server, monkeypatch: pytest.MonkeyPatch
) -> None:
    url = database.new_database()
    monkeypatch.setenv("BECKET_DATABASE", with_password(url))
    events = people_events()
    with running(folder) as server, httpx.Client() as client:
        client.get(server.link)
        own = {"origin": server.url, "sec-fetch-site": "same-origin"}
        body = {"events": [event_as_dict(one) for one in events]}
        answer = client.post(f"{server.url}/api/events", headers=own, json=body)
        assert [one["number"] for one in answer.json()["results"]] == [1, 2]
        fed = client.get(f"{server.url}/api/feed/hazel-70?after=0").json()
        server.process.terminate()
        out, err = server.process.communicate(timeout=20)
    assert [one["key"] for one in fed["events"]] == [one.key for one in events]
    assert PASSWORD not in out + err
    assert not (folder / "becket.sqlite").exists()
    with Store.open(url) as store:
        assert [one.event for one in store.every()] == events


def test_the_command_line_names_a_file_elsewhere(folder: Path, tmp_path: Path) -> None:
    with running(folder, "--database", f"sqlite:///{tmp_path / 'own.sqlite'}") as server:
        assert httpx.get(server.link).status_code == 200
    assert (tmp_path / "own.sqlite").is_file()
    assert not (folder / "becket.sqlite").exists()


def test_what_is_no_address_is_refused_and_not_repeated(folder: Path) -> None:
    for odd in (f"host=db password={PASSWORD}", f"mysql://u:{PASSWORD}@h/n", PASSWORD):
        with pytest.raises(RefusedError, match="write postgresql://USER@HOST/NAME or sqlite:///PATH") as told:
            open_door(Wanted(folder=folder, database=odd))
        assert PASSWORD not in str(told.value)
    assert not list(folder.glob("*password*"))


def test_a_database_that_does_not_answer_is_told_without_its_password(folder: Path, tmp_path: Path) -> None:
    with pytest.raises(CannotKeepError) as told:
        open_door(Wanted(folder=folder, database=f"postgresql://u:{PASSWORD}@/n?host={tmp_path}"))
    assert PASSWORD not in str(told.value)
    assert str(tmp_path) in str(told.value)
