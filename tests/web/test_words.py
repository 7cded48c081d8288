"""The catalogues: one text a key, and every key that a page or a module names."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from becket.errors import NotOnFileError
from becket.web.static_files import FOLDER as STATIC
from becket.web.templates import FOLDER as TEMPLATES
from becket.web.words import FOLDER, Words
from tests.web.asking import Phone

WEB = FOLDER.parent
NAMED = re.compile(r"""(?<![\w.])word\(\s*["']([a-z_]+\.[A-Za-z0-9_.-]+)["']\s*[,)]""")


def catalogue(folder: Path, **parts: object) -> Words:
    """Return the words of these parts."""
    (folder / "en").mkdir(parents=True)
    for name, texts in parts.items():
        (folder / "en" / f"{name}.json").write_text(json.dumps(texts), encoding="utf-8")
    return Words("en", folder)


def test_places_are_filled_in(tmp_path: Path) -> None:
    words = catalogue(tmp_path, now={"now.rigged": "Rigged: {falls} falls", "now.plain": "as {"})
    assert words.word("now.rigged", falls=4) == "Rigged: 4 falls"


def test_a_key_that_is_missing_and_a_place_without_a_value_are_told(tmp_path: Path) -> None:
    words = catalogue(tmp_path, now={"now.rigged": "Rigged: {falls}"})
    with pytest.raises(NotOnFileError, match=r'no text for "now.riged"'):
        words.word("now.riged")
    with pytest.raises(NotOnFileError, match=r"has a place 'falls' and no value"):
        words.word("now.rigged", fals=1)


def test_one_key_has_one_text(tmp_path: Path) -> None:
    with pytest.raises(NotOnFileError, match=r"week.json: now.rigged stands there twice or in another part too"):
        catalogue(tmp_path, now={"now.rigged": "a"}, week={"now.rigged": "b"})


def test_a_key_that_stands_twice_in_one_part_is_told(tmp_path: Path) -> None:
    catalogue(tmp_path, now={})
    (tmp_path / "en" / "now.json").write_text('{"now.rigged": "Rigged", "now.rigged": "Hangs"}', encoding="utf-8")
    with pytest.raises(NotOnFileError, match=r"now.json: now.rigged stands there twice"):
        Words("en", tmp_path)


def test_every_key_that_is_named_has_a_text() -> None:
    words = Words("en").texts()
    named = {
        (path.name, key)
        for path in (*TEMPLATES.glob("*.html"), *STATIC.glob("*.js"), *WEB.rglob("*.py"))
        for key in NAMED.findall(path.read_text(encoding="utf-8"))
    }
    assert len(named) > 100
    assert sorted(one for one in named if one[1] not in words) == []


def test_the_phone_loads_the_same_words(phone: Phone) -> None:
    address = re.search(r'data-words="([^"]+)"', phone.get("/c/hazel-70/now").text)
    assert address is not None
    assert phone.get(address[1]).json() == dict(Words("en").texts())
