"""Work kept on the machine: made once, made anew when what it depends on changes or the file is damaged."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from becket.web.font import font_files
from becket.web.kept_work import kept_work


class Work:
    """Counts how often it is done."""

    def __init__(self) -> None:
        self.times = 0

    def __call__(self) -> bytes:
        self.times += 1
        return b"made"


@pytest.fixture
def cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    return tmp_path / "becket"


def test_done_once(cache: Path) -> None:
    work = Work()
    assert [kept_work("x", (b"a", b"b"), work) for _ in range(3)] == [b"made"] * 3
    assert work.times == 1
    kept_work("x", (b"ab", b""), work)
    assert work.times == 2, "what it depends on is kept apart"


def test_damaged_file_is_made_anew(cache: Path) -> None:
    work = Work()
    kept_work("x", (b"a",), work)
    (path,) = cache.iterdir()
    path.write_bytes(path.read_bytes()[:-1] + b"?")
    assert kept_work("x", (b"a",), work) == b"made"
    assert work.times == 2


def test_no_cache_costs_time_only(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "file").touch()
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "file"))
    assert kept_work("x", (b"a",), Work()) == b"made"


def test_what_nobody_asked_for_is_removed(cache: Path) -> None:
    old, other = cache / "x-old", cache / "y-old"
    kept_work("x", (b"a",), Work(), days=60)
    for path in (old, other):
        path.write_bytes(b"")
        os.utime(path, (0, 0))
    (used,) = (path for path in cache.iterdir() if path not in (old, other))
    os.utime(used, (0, 0))
    kept_work("x", (b"a",), Work(), days=60)
    kept_work("x", (b"b",), Work(), days=60)
    assert (old.exists(), other.exists(), used.exists()) == (False, True, True)


def test_font_from_the_cache_is_the_font(cache: Path) -> None:
    font_files.cache_clear()
    first = dict(font_files())
    font_files.cache_clear()
    assert dict(font_files()) == first
    assert len(list(cache.iterdir())) == 2
    font_files.cache_clear()
