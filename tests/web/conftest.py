"""A folder with the demo's cranes, and a phone that is open at its server."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.web.asking import Phone, demo_folder, phone_at


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Return a folder of its own with the demo's cranes."""
    return demo_folder(tmp_path / "data")


@pytest.fixture
def phone(folder: Path) -> Iterator[Phone]:
    """Yield a phone that is open."""
    found = phone_at(folder)
    yield found
    found.house.close()
