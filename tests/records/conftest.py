"""Stores for the tests: the same suite runs on SQLite and on PostgreSQL."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from becket.records.store import Store
from tests.records.postgres import Server

ENGINES = ("sqlite", "postgresql")
NewUrl = Callable[[], str]


@pytest.fixture(scope="session")
def server() -> Iterator[Server]:
    """Yield a PostgreSQL server, one a worker."""
    server = Server()
    yield server
    server.stop()


@pytest.fixture(params=ENGINES)
def engine(request: pytest.FixtureRequest) -> str:
    """Return the engine's name; a test that asks for it runs once on each."""
    return str(request.param)


@pytest.fixture
def new_url(engine: str, request: pytest.FixtureRequest, tmp_path: Path) -> NewUrl:
    """Return what gives the address of a new, empty database."""
    if engine == "postgresql":
        server: Server = request.getfixturevalue("server")
        return server.new_database
    names = iter(range(1000))
    return lambda: str(tmp_path / f"{next(names)}.sqlite")


@pytest.fixture
def url(new_url: NewUrl) -> str:
    """Return the address of one new, empty database."""
    return new_url()


@pytest.fixture
def store(url: str) -> Iterator[Store]:
    """Yield an open, empty store."""
    with Store.open(url) as store:
        yield store
