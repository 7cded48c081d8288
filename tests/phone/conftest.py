"""A real server and a real browser for each test of the phone."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Playwright

from becket.guide.script import Script
from tests.phone.crew import CRANE, make_ready
from tests.phone.phone import Phone
from tests.phone.server import PhoneServer, demo_folder


@pytest.fixture
def phone_server(tmp_path: Path) -> Iterator[PhoneServer]:
    """Yield the server on a folder of its own with the demo cranes."""
    server = PhoneServer(demo_folder(tmp_path / "data"))
    yield server.start()
    server.stop()


@pytest.fixture
def phone(play: Playwright, tmp_path: Path) -> Iterator[Phone]:
    """Yield a phone with an empty profile; a fault on its console fails the test."""
    found = Phone(play, tmp_path / "profile")
    yield found
    found.switch_off()
    assert found.said == []


@pytest.fixture(scope="session")
def counted(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Script]:
    """Return a folder whose crane has 2 falls on, counted by two, and the script of the change to 4."""
    folder = demo_folder(tmp_path_factory.mktemp("counted") / "data", CRANE)
    return folder, make_ready(folder)[1]


@pytest.fixture
def ready(counted: tuple[Path, Script], tmp_path: Path) -> Iterator[tuple[PhoneServer, Script]]:
    """Yield a server on a copy of that folder, and the script."""
    server = PhoneServer(Path(shutil.copytree(counted[0], tmp_path / "data")))
    yield server.start(), counted[1]
    server.kill()  # it may be working out pages to keep for the phone: no test waits for that
