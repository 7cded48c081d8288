"""``becket pack``: one file, whole or not at all; a kind of file that is not known is refused before any work."""

from __future__ import annotations

import io
import json
import os
import re
from importlib.resources import files
from itertools import permutations
from pathlib import Path

import jsonschema
import pypdf
import pytest

from tests.cli.conftest import Runner

BOOK = "rowan-30.crane.yaml"


def test_html(becket: Runner, demo: Path) -> None:
    done = becket("pack", BOOK, "-o", "rowan.html", "--json")
    assert (done.code, done.err) == (0, "")
    schema = json.loads((files("becket.schema") / "pack.json").read_text(encoding="utf-8"))
    jsonschema.validate(done.answer, schema)
    assert done.answer["file"] == "rowan.html"
    text = (demo / "rowan.html").read_text(encoding="utf-8")
    assert text.startswith("<!DOCTYPE html>")
    assert len(text.encode("utf-8")) < 1_000_000
    data = json.loads(text[text.index('id="data">') + 10 : text.index("</script>", text.index('id="data">'))])
    views = len(data["states"]) + len(data["change"]["changes"])
    assert done.answer["pages"] == views + 5  # start, falls, patterns, changes, find


def test_pdf(becket: Runner, demo: Path) -> None:
    done = becket("pack", BOOK, "-o", "rowan.PDF")
    assert (done.code, done.err) == (0, "")
    reader = pypdf.PdfReader(io.BytesIO((demo / "rowan.PDF").read_bytes()))
    pages = len(reader.pages)
    assert "No sheet is here" not in reader.pages[0].extract_text()
    assert done.out.startswith("rowan.PDF: Rowan 30, book ")
    assert f"; {pages} pages," in " ".join(done.out.split())
    assert "Not a load indicator." in done.out


def test_pdf_of_a_pattern_that_nobody_confirmed(becket: Runner, demo: Path) -> None:
    text = (demo / BOOK).read_text(encoding="utf-8")
    open_one, found = re.subn(r"(falls: 6, path: .*), confirmed: \{.*?\}", r"\1", text)
    assert found == 1
    (demo / BOOK).write_text(open_one, encoding="utf-8")
    assert becket("pack", BOOK, "-o", "rowan.pdf").code == 0
    reader = pypdf.PdfReader(io.BytesIO((demo / "rowan.pdf").read_bytes()))
    contents = " ".join("\n".join(page.extract_text() for page in reader.pages[:2]).split())  # it runs over two pages
    sheets, _, left_out = contents.partition("at no set-up of the book do they pass. becket change says why. ")
    states = ("ball on 1 fall", "hook on 2 falls", "hook on 4 falls", "hook on 6 falls")
    for before, after in permutations(states, 2):  # each change has a sheet or is named as left out, never both
        name = f"{before} to {after}"
        assert (f"change sheet, {name}" in sheets) is (name not in left_out)
    assert "hook on 4 falls to hook on 6 falls" in left_out
    assert "hook on 2 falls to hook on 4 falls" not in left_out


@pytest.mark.parametrize("name", ["rowan.doc", "rowan", "html"])
def test_a_kind_that_is_not_known(becket: Runner, demo: Path, name: str) -> None:
    done = becket("pack", "nowhere.yaml", "-o", name)  # said before the book is looked at
    assert done.code == 2
    assert done.err == f"-o {name}: the name ends in no kind of file that is known; end it in .html or .pdf\n"
    assert not (demo / name).exists()


def test_no_name(becket: Runner, demo: Path) -> None:
    done = becket("pack", BOOK)
    assert done.code == 2
    assert done.err == "becket pack: Missing option '-o'; see becket pack --help\n"


def test_a_folder_that_is_not_there(becket: Runner, demo: Path) -> None:
    done = becket("pack", BOOK, "-o", "away/rowan.html")
    assert (done.code, done.out) == (2, "")
    assert done.err == (
        f"away/rowan.html: there is no folder {demo.resolve() / 'away'}; make it first, or name another\n"
    )


def test_a_full_disk_leaves_the_old_file(becket: Runner, demo: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (demo / "rowan.html").write_text("old")
    before = sorted(os.listdir(demo))

    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    done = becket("pack", BOOK, "-o", "rowan.html")
    assert (done.code, done.out) == (2, "")
    assert done.err == "rowan.html: cannot be written (No space left on device); nothing is changed\n"
    assert (demo / "rowan.html").read_text() == "old"
    assert sorted(os.listdir(demo)) == before
