"""A file is put in its place whole, or not at all."""

from __future__ import annotations

import errno
import os
import re
from pathlib import Path

import pytest

from becket.cards.writing import write_file
from becket.errors import CannotWriteError


def names(folder: Path) -> list[str]:
    """Return what stands in a folder, hidden files too."""
    return sorted(os.listdir(folder))


def test_bytes_and_text_are_written(tmp_path: Path) -> None:
    write_file(tmp_path / "a.pdf", b"\x00\xff")
    write_file(tmp_path / "b.html", "blåklocka\n")
    assert (tmp_path / "a.pdf").read_bytes() == b"\x00\xff"
    assert (tmp_path / "b.html").read_bytes() == "blåklocka\n".encode()
    assert names(tmp_path) == ["a.pdf", "b.html"]


def test_an_older_file_is_replaced_and_keeps_its_mode(tmp_path: Path) -> None:
    path = tmp_path / "a.pdf"
    path.write_text("old")
    path.chmod(0o640)
    write_file(path, b"new")
    assert path.read_bytes() == b"new"
    assert path.stat().st_mode & 0o777 == 0o640


def test_a_new_file_gets_the_mode_of_any_new_file(tmp_path: Path) -> None:
    (tmp_path / "other").write_text("")
    write_file(tmp_path / "a.pdf", b"new")
    assert (tmp_path / "a.pdf").stat().st_mode == (tmp_path / "other").stat().st_mode


def test_a_link_stays_a_link(tmp_path: Path) -> None:
    (tmp_path / "real").write_text("old")
    (tmp_path / "link").symlink_to(tmp_path / "real")
    write_file(tmp_path / "link", b"new")
    assert (tmp_path / "link").is_symlink()
    assert (tmp_path / "real").read_bytes() == b"new"


def test_the_longest_name_can_be_written(tmp_path: Path) -> None:
    name = "ö" * 120 + ".pdf"
    write_file(tmp_path / name, b"new")
    assert names(tmp_path) == [name]


def test_a_folder_and_a_device_are_refused(tmp_path: Path) -> None:
    with pytest.raises(CannotWriteError, match="is a folder; give the name of a file"):
        write_file(tmp_path, b"new")
    with pytest.raises(CannotWriteError, match=r"^/dev/null: is not an ordinary file; give the name of a file$"):
        write_file(Path("/dev/null"), b"new")


def test_no_folder_is_said(tmp_path: Path) -> None:
    path = tmp_path / "nowhere" / "a.pdf"
    words = f"{path}: there is no folder {path.parent}; make it first, or name another"
    with pytest.raises(CannotWriteError, match=f"^{re.escape(words)}$"):
        write_file(path, b"new")


@pytest.mark.parametrize("number", [errno.ENOSPC, errno.EACCES, errno.EROFS, errno.EIO])
def test_a_disk_that_gives_out_leaves_the_old_file_and_no_other(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, number: int
) -> None:
    path = tmp_path / "a.pdf"
    path.write_text("old")

    def gives_out(_: int) -> None:
        raise OSError(number, os.strerror(number))

    monkeypatch.setattr(os, "fsync", gives_out)
    words = f"{path}: cannot be written ({os.strerror(number)}); nothing is changed"
    with pytest.raises(CannotWriteError, match=f"^{re.escape(words)}$"):
        write_file(path, b"new")
    assert path.read_text() == "old"
    assert names(tmp_path) == ["a.pdf"]


def test_a_name_that_is_too_long(tmp_path: Path) -> None:
    with pytest.raises(CannotWriteError, match="name too long"):
        write_file(tmp_path / ("a" * 300), b"new")
    assert names(tmp_path) == []


def test_stopped_in_the_middle_leaves_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def stopped(_: int) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(os, "fsync", stopped)
    with pytest.raises(KeyboardInterrupt):
        write_file(tmp_path / "a.pdf", b"new")
    assert names(tmp_path) == []
