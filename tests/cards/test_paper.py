"""Cards on their way into a file."""

from __future__ import annotations

import errno
import os
from io import BytesIO
from pathlib import Path

import pytest
from pypdf import PdfReader

from becket.cards.count_slip import count_sheet
from becket.cards.paper import pages_of, write_cards
from becket.cards.typesetting import typeset
from becket.errors import CannotWriteError

DAY = "2026-11-30"


def test_a_pdf_is_written_whole_and_its_pages_are_counted(tmp_path: Path) -> None:
    path = tmp_path / "slips.pdf"
    assert write_cards(path, (count_sheet(), count_sheet(), count_sheet()), printed=DAY) == 3
    assert len(PdfReader(path).pages) == 3
    assert [one.name for one in tmp_path.iterdir()] == ["slips.pdf"]


@pytest.mark.parametrize("count", [1, 2, 11])
def test_pages_are_counted_as_another_reader_counts_them(count: int) -> None:
    made = typeset((count_sheet(),) * count, title="Slips", printed=DAY, with_contents=count > 1)
    assert pages_of(made) == len(PdfReader(BytesIO(made)).pages)


def test_an_svg_holds_one_page(tmp_path: Path) -> None:
    assert write_cards(tmp_path / "slip.svg", (count_sheet(),), printed=DAY) == 1
    assert (tmp_path / "slip.svg").read_bytes().startswith(b"<svg")
    with pytest.raises(CannotWriteError) as error:
        write_cards(tmp_path / "two.svg", (count_sheet(), count_sheet()), printed=DAY)
    assert str(error.value) == f"{tmp_path / 'two.svg'}: 2 pages do not go into one SVG; .pdf is wanted"
    assert not (tmp_path / "two.svg").exists()


def test_a_full_disk_leaves_nothing_and_the_old_card_as_it_was(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "slip.pdf"
    path.write_bytes(b"old")

    def full(_: int) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(CannotWriteError, match="No space left on device"):
        write_cards(path, (count_sheet(),), printed=DAY)
    assert path.read_bytes() == b"old"
    assert [one.name for one in tmp_path.iterdir()] == ["slip.pdf"]
