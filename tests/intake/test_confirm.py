"""Confirm: the second person's reading, and every other byte of the file as it was."""

from __future__ import annotations

import stat
from pathlib import Path
from typing import Any

import pytest

from becket.book.tackle import State
from becket.errors import CannotWriteError, FaultyFileError, NotOnFileError, RefusedError, UnreadableTextError
from becket.intake.book import read_book
from becket.intake.confirm import Confirmation, confirm_pattern
from becket.reeving.seal import is_confirmed
from tests.intake.reading import book_of, written
from tests.intake.texts import BOOK, altered

TWO, THREE = State(block="hook", falls=2), State(block="hook", falls=3)
READINGS = {TWO: ("head 2, block 1", "head right"), THREE: ("Head 1 block 1 head 2", "block")}
FLOW = "page: 6-2, typed: {by: AB, date: 2025-01-05}}"
BLOCK = "    page: 6-3\n    typed: {by: AB, date: 2025-01-05}\n"


def confirmed(path: Path, state: State, by: str = "CD") -> Confirmation:
    """Return what comes of the right reading by another person."""
    return confirm_pattern(path, state, by, *READINGS[state], "2025-02-03")


def check_only_change(folder: Path, before: str, state: State, old: str, new: str, by: str = "CD") -> None:
    """The file differs in that one text, and the pattern is confirmed."""
    path = written(folder / "crane.yaml", before)
    answer = confirmed(path, state, by)
    assert answer.sealed
    assert answer.seal is not None
    assert answer.difference is None
    after = path.read_bytes().decode()
    assert before.count(old) == 1
    assert after == before.replace(old, new.replace("SEAL", answer.seal))
    book = book_of(folder, after).book
    pattern = next(one for one in book.patterns if one.state == state)
    assert is_confirmed(book, pattern)
    assert sorted(one.name for one in folder.iterdir()) == ["crane.yaml"]


def test_a_pattern_in_braces(tmp_path: Path) -> None:
    new = FLOW.removesuffix("}") + ", confirmed: {by: CD, date: 2025-02-03, seal: SEAL}}"
    check_only_change(tmp_path, BOOK, TWO, FLOW, new)


def test_a_pattern_in_lines(tmp_path: Path) -> None:
    new = BLOCK + "    confirmed: {by: CD, date: 2025-02-03, seal: SEAL}\n"
    check_only_change(tmp_path, BOOK, THREE, BLOCK, new)


def test_line_ends_comments_and_byte_order_mark_stay(tmp_path: Path) -> None:
    before = "\ufeff" + altered(BOOK, (BLOCK, BLOCK[:-1] + "  # seen on 6-3, twice: \u00e9\U0001f3d7\n")).replace(
        "\n", "\r\n"
    )
    old = "# seen on 6-3, twice: \u00e9\U0001f3d7\r\n"
    new = old + "    confirmed: {by: CD, date: 2025-02-03, seal: SEAL}\r\n"
    check_only_change(tmp_path, before, THREE, old, new)


def test_a_pattern_in_lines_that_end_in_lines(tmp_path: Path) -> None:
    lines = "    page: 6-3\n    typed:\n      by: AB # typist\n      date: 2025-01-05   # day\n\n    # next\n"
    before = altered(BOOK, (BLOCK, lines))
    old = "date: 2025-01-05   # day\n"
    check_only_change(tmp_path, before, THREE, old, old + "    confirmed: {by: CD, date: 2025-02-03, seal: SEAL}\n")


def test_a_pattern_at_the_end_of_a_file_without_line_end(tmp_path: Path) -> None:
    start = BOOK.index("patterns:")
    end = BOOK.index("falls_table:")
    before = (BOOK[:start] + BOOK[end:] + BOOK[start:end]).rstrip("\n")
    old = BLOCK.rstrip("\n")
    check_only_change(tmp_path, before, THREE, old, old + "\n    confirmed: {by: CD, date: 2025-02-03, seal: SEAL}")


def test_an_older_confirmation_is_replaced(tmp_path: Path) -> None:
    older = "confirmed: {by: 'EF', date: 2025-01-06, seal: 0123456789abcdef}"
    new = "confirmed: {by: CD, date: 2025-02-03, seal: SEAL}"
    before = altered(BOOK, (FLOW, FLOW.removesuffix("}") + f", {older}}}"))
    check_only_change(tmp_path, before, TWO, older, new)


def test_an_older_confirmation_in_lines_without_a_seal(tmp_path: Path) -> None:
    older = "    confirmed:   # by hand\n      by: EF  # who\n      date: 2025-01-06\n"
    new = "    confirmed:   # by hand\n      seal: SEAL\n      by: CD  # who\n      date: 2025-02-03\n"
    check_only_change(tmp_path, altered(BOOK, (BLOCK, BLOCK + older)), THREE, older, new)


@pytest.mark.parametrize(
    ("by", "text"),
    [
        ("yes", '"yes"'),
        ("O'Neil, C: #1", '"O\'Neil, C: #1"'),
        ("J. Q. Public", "J. Q. Public"),
        ("\u00c5sa", '"\u00c5sa"'),
    ],
)
def test_any_name_can_sign(by: str, text: str, tmp_path: Path) -> None:
    new = FLOW.removesuffix("}") + f", confirmed: {{by: {text}, date: 2025-02-03, seal: SEAL}}}}"
    check_only_change(tmp_path, BOOK, TWO, FLOW, new, by)


def test_a_layout_that_cannot_be_changed_safely_is_left_alone(tmp_path: Path) -> None:
    """A pattern whose last value is a block of text: the change goes before the first key, and is read back."""
    before = altered(BOOK, (BLOCK, "    typed: {by: AB, date: 2025-01-05}\n    page: |-\n      6-3\n"))
    path = written(tmp_path / "crane.yaml", before)
    assert confirmed(path, THREE).sealed
    assert book_of(tmp_path, path.read_bytes()).book.patterns[1].page == "6-3"


def test_rights_of_the_file_stay_and_a_link_stays_a_link(tmp_path: Path) -> None:
    real = written(tmp_path / "real.yaml", BOOK)
    real.chmod(0o640)
    link = tmp_path / "crane.yaml"
    link.symlink_to(real)
    assert confirmed(link, TWO).sealed
    assert link.is_symlink()
    assert stat.S_IMODE(real.stat().st_mode) == 0o640
    assert "confirmed" in real.read_text()


def test_readings_that_differ_write_nothing(tmp_path: Path) -> None:
    path = written(tmp_path / "crane.yaml", BOOK)
    answer = confirm_pattern(path, TWO, "CD", "head 2 block 2", "head left", "2025-02-03")
    assert not answer.sealed
    assert answer.seal is None
    assert answer.difference == (
        "typed first: head 2, block 1, dead end head right\nread now:    head 2, block 2, dead end head left"
    )
    assert path.read_text() == BOOK


REFUSED = {
    "typist": ("AB", "AB typed pattern hook:2; another person reads the page and confirms"),
    "typist in other letters": ("  ab ", "ab typed pattern hook:2; another person reads the page and confirms"),
    "nobody": ("  ", "no name that can be printed; the name of the person who reads the page now"),
    "control": ("C\x1bD", "no name that can be printed; the name of the person who reads the page now"),
}


@pytest.mark.parametrize("name", REFUSED)
def test_who_may_not_confirm(name: str, tmp_path: Path) -> None:
    by, message = REFUSED[name]
    path = written(tmp_path / "crane.yaml", BOOK)
    with pytest.raises(RefusedError) as caught:
        confirmed(path, TWO, by)
    assert str(caught.value) == message
    assert path.read_text() == BOOK


def test_a_pattern_without_a_typist(tmp_path: Path) -> None:
    path = written(tmp_path / "crane.yaml", altered(BOOK, (", typed: {by: AB, date: 2025-01-05}}", "}")))
    with pytest.raises(RefusedError) as caught:
        confirmed(path, TWO)
    assert str(caught.value) == "pattern hook:2 does not say who typed it; typed: {by: name, date: day} first"


def test_a_state_that_is_not_on_file(tmp_path: Path) -> None:
    path = written(tmp_path / "crane.yaml", BOOK)
    with pytest.raises(NotOnFileError) as caught:
        confirm_pattern(path, State(block="hook", falls=4), "CD", "head 1", "block", "2025-02-03")
    wanted = "pattern hook:4 is not on file; patterns on file: hook:2, hook:3. Type it from the manual first"
    assert str(caught.value) == wanted


def test_a_reading_that_cannot_be_read_shows_nothing_of_what_was_typed(tmp_path: Path) -> None:
    path = written(tmp_path / "crane.yaml", BOOK)
    for readings in (("head two", "block"), ("head 2", "boom"), (READINGS[TWO][0], "")):
        with pytest.raises(UnreadableTextError) as caught:
            confirm_pattern(path, TWO, "CD", *readings, "2025-02-03")
        assert "head right" not in str(caught.value)
        assert "head 2, block 1" not in str(caught.value)
    with pytest.raises(UnreadableTextError, match=r"^3\.2\.2025; a day as 2025-03-11, year first$"):
        confirm_pattern(path, TWO, "CD", *READINGS[TWO], "3.2.2025")
    assert path.read_text() == BOOK


def test_a_faulty_book_is_not_confirmed(tmp_path: Path) -> None:
    path = written(tmp_path / "crane.yaml", altered(BOOK, ("mass: 240 kg", "mass: 240")))
    with pytest.raises(FaultyFileError):
        confirmed(path, TWO)


def test_a_file_that_cannot_be_written_stays_whole(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = written(tmp_path / "crane.yaml", BOOK)

    def refuse(*_: object, **__: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("os.replace", refuse)
    with pytest.raises(CannotWriteError) as caught:
        confirmed(path, TWO)
    assert str(caught.value) == f"{path}: cannot be written (No space left on device); nothing is changed"
    monkeypatch.setattr("becket.intake.confirm.NamedTemporaryFile", refuse)
    with pytest.raises(CannotWriteError) as caught:
        confirmed(path, TWO)
    assert str(caught.value) == f"{path}: cannot be written (No space left on device); nothing is changed"
    assert path.read_text() == BOOK
    assert sorted(one.name for one in tmp_path.iterdir()) == ["crane.yaml"]


def test_a_file_that_changes_while_it_is_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = written(tmp_path / "crane.yaml", BOOK)

    def by_another(path: Path, *rest: Any) -> Any:
        read = read_book(path, *rest)
        path.write_text(BOOK + "# mine\n")
        return read

    monkeypatch.setattr("becket.intake.confirm.read_book", by_another)
    with pytest.raises(RefusedError) as caught:
        confirmed(path, TWO)
    assert str(caught.value) == f"{path}: changed while it was read; nothing is written, confirm again"
    assert path.read_text() == BOOK + "# mine\n"


def test_a_change_that_would_read_otherwise_is_not_kept(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = written(tmp_path / "crane.yaml", BOOK)
    monkeypatch.setattr("becket.intake.confirm.with_confirmation", lambda text, *_: text)
    with pytest.raises(RefusedError) as caught:
        confirmed(path, TWO)
    right = "write the pattern on one line in braces, then confirm again"
    assert str(caught.value) == f"{path}: this file's layout cannot be changed safely; {right}"
    assert path.read_text() == BOOK
