"""A script made once on a machine: the same script from the cache, and none of another book, site or becket."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

import becket.web.house
from becket.errors import RefusedError
from becket.web.script_once import script_once, seal_of_becket
from tests.phone.crew import RUNS_FROM, RUNS_TO
from tests.web.asking import Phone, phone_at


@pytest.fixture(autouse=True)
def cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    return tmp_path / "cache" / "becket"


def name_at(phone: Phone, folder: Path) -> str:
    """Return the id of the script of 2 to 4 falls from a server that was just started on a copy of the folder."""
    there = phone_at(Path(shutil.copytree(phone.house.folder, folder, ignore=shutil.ignore_patterns("*.sqlite*"))))
    found = there.house.script_for(there.house.crane("hazel-70"), RUNS_FROM, RUNS_TO)
    there.house.close()
    assert isinstance(found, tuple)
    return str(found[0])


def test_a_second_server_draws_nothing_and_has_the_same_script(
    phone: Phone, tmp_path: Path, cache: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    first = name_at(phone, tmp_path / "first")
    assert len(list(cache.glob("script-*"))) == 1

    def never(*_: object, **__: object) -> None:
        raise AssertionError("drawn again")

    monkeypatch.setattr(becket.web.house, "script_of_change", never)
    assert name_at(phone, tmp_path / "second") == first
    book = phone.house.folder / "hazel-70.crane.yaml"
    book.write_text(book.read_text(encoding="utf-8") + "# one more line\n", encoding="utf-8")
    with pytest.raises(AssertionError, match="drawn again"):
        name_at(phone, tmp_path / "third")


def test_what_is_refused_is_not_kept(cache: Path) -> None:
    def refused() -> None:
        raise RefusedError("no")

    for _ in range(2):
        with pytest.raises(RefusedError):
            script_once(("x",), refused)  # type: ignore[arg-type]
    assert not list(cache.glob("*")) if cache.exists() else True


def test_the_seal_is_of_every_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def seal() -> bytes:
        seal_of_becket.cache_clear()
        return seal_of_becket()

    (tmp_path / "__init__.py").touch()
    monkeypatch.setattr("becket.__file__", str(tmp_path / "__init__.py"))
    before = seal()
    (tmp_path / "table.csv").write_text("1", encoding="utf-8")
    first = seal()
    (tmp_path / "table.csv").write_text("2", encoding="utf-8")
    second = seal()
    (tmp_path / "table.csv").rename(tmp_path / "other.csv")
    assert len({before, first, second, seal()}) == 4
    seal_of_becket.cache_clear()
