"""The shelf of scripts: read once, a bounded number in memory, only what is kept."""

from __future__ import annotations

from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from pathlib import Path

import pytest

from becket.guide.script import Script, script_text
from becket.records.kept import Document
from becket.records.store import Store
from becket.web import script_shelf
from becket.web.script_shelf import ScriptShelf
from tests.guide.play import Play
from tests.guide.small import small_change


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    with Store.open(str(tmp_path / "a.sqlite")) as found:
        yield found


def script(number: int) -> Script:
    """Return one of many scripts."""
    return replace(small_change(), crane=f"crane-{number}")


def test_what_is_kept_is_found_as_it_was_by_another_shelf_too(store: Store) -> None:
    shelf = ScriptShelf(store)
    name = shelf.keep(script(1))
    assert shelf.find(name) == ScriptShelf(store).find(name) == script(1)
    document = store.document(name)
    assert document is not None
    assert document.text == script_text(script(1))


def test_what_is_not_kept_or_no_script_is_not_found_and_asked_for_again(store: Store) -> None:
    shelf = ScriptShelf(store)
    book = store.keep_document("book", "a book")
    assert (shelf.find(book), shelf.find("0" * 16)) == (None, None)
    name = ScriptShelf(store).keep(script(1))  # by another process
    assert shelf.find(name) == script(1)


def test_no_more_in_memory_than_the_bound(store: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(script_shelf, "_IN_MEMORY", 3)
    shelf = ScriptShelf(store)
    names = [shelf.keep(script(number)) for number in range(6)]
    assert [shelf.find(name) for name in names] == [script(number) for number in range(6)]
    assert len(shelf._read) == 3


def test_a_script_is_read_once_by_many_threads(store: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    name = ScriptShelf(store).keep(script(1))
    asked: list[str] = []
    real = store.document

    def counted(one: str) -> Document | None:
        asked.append(one)
        return real(one)

    monkeypatch.setattr(store, "document", counted)
    shelf = ScriptShelf(store)
    with ThreadPoolExecutor(8) as pool:
        found = list(pool.map(shelf.find, [name] * 40))
    assert found == [script(1)] * 40
    assert asked == [name]


def test_the_scripts_of_runs_by_name(store: Store) -> None:
    shelf = ScriptShelf(store)
    name = shelf.keep(small_change())
    events = [*Play(small_change()).start(script=name).upto("f1").events]
    other = Play(small_change(), run="run-2").start(script="f" * 16).events
    assert shelf.of([*events, *other]) == {name: small_change()}
    assert shelf.of(events[1:]) == {}


def test_the_rules_get_no_pictures_and_the_pages_do(store: Store) -> None:
    shelf, drawn = ScriptShelf(store), replace(small_change(), pictures={"after": "<svg/>"})
    name = shelf.keep(drawn)
    events = Play(drawn).start(script=name).events
    assert shelf.of(events) == {name: replace(drawn, pictures={})}
    assert shelf.find(name) == drawn


def test_the_scripts_of_more_cranes_than_pages_are_asked_for_are_read_once(
    store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A server of many cranes read every script anew at every event."""
    names = [store.keep_document("script", script_text(script(number))) for number in range(100)]
    asked: list[str] = []
    real = store.document

    def counted(one: str) -> Document | None:
        asked.append(one)
        return real(one)

    monkeypatch.setattr(store, "document", counted)
    shelf = ScriptShelf(store)
    for _ in range(3):
        for number, name in enumerate(names):
            assert shelf.of(Play(script(number)).start(script=name).events)[name] == script(number)
    assert len(asked) == 100


def test_forgotten_scripts_are_read_from_the_store_that_is_there_now(store: Store, tmp_path: Path) -> None:
    shelf = ScriptShelf(store)
    name = shelf.keep(script(1))
    with Store.open(str(tmp_path / "b.sqlite")) as other:
        shelf._store = other
        shelf.forget()
        assert shelf.find(name) is None
