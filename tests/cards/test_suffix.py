"""What kind of file a card goes into."""

from __future__ import annotations

from pathlib import Path

import pytest

from becket.cards.suffix import suffix_of
from becket.errors import CannotWriteError


def test_pdf_and_svg_in_any_capitals(tmp_path: Path) -> None:
    assert [suffix_of(tmp_path / name) for name in ("a.pdf", "a.SVG", "a.b.Pdf")] == [".pdf", ".svg", ".pdf"]


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("card.txt", 'card.txt: ends in ".txt"; .pdf or .svg is wanted'),
        ("card", "card: has no suffix; .pdf or .svg is wanted"),
        ("nowhere/card.pdf", "nowhere/card.pdf: there is no folder nowhere; make it first, or name another"),
    ],
)
def test_anything_else_is_refused_before_work_begins(
    name: str, said: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    with pytest.raises(CannotWriteError) as error:
        suffix_of(Path(name))
    assert str(error.value) == said


def test_another_list_of_suffixes(tmp_path: Path) -> None:
    assert suffix_of(tmp_path / "a.html", (".html", ".pdf")) == ".html"
    with pytest.raises(CannotWriteError, match=r"\.html or \.pdf is wanted"):
        suffix_of(tmp_path / "a.svg", (".html", ".pdf"))
