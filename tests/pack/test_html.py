"""The file is one text: it fetches nothing, states its book, and is the same for the same book."""

from __future__ import annotations

import json
import re
from base64 import b64encode
from dataclasses import replace
from hashlib import sha256

from becket.book.crane import Book
from becket.pack.html import pack_html
from tests.crane import invented_book, invented_settings
from tests.pack.conftest import PRINTED

SMALL = replace(
    invented_book(),
    charts=(invented_book().charts[1],),
    patterns=invented_book().patterns[2:4],
    blocks={"main": invented_book().blocks["main"]},
)


def test_it_is_small_and_states_its_book(text: str, book: Book) -> None:
    assert len(text.encode("utf-8")) < 1_000_000
    assert f"Book state <b>{book.fingerprint}</b>, {PRINTED}, becket " in text
    assert "Another book state: this file is void." in text
    assert text.startswith("<!DOCTYPE html>\n")


def test_the_policy_names_what_stands_in_it_and_nothing_else(text: str) -> None:
    policy = re.search(r'Content-Security-Policy" content="([^"]*)"', text)
    assert policy is not None
    parts = re.findall(r"<(?:style|script)>(.*?)</(?:style|script)>", text, re.DOTALL)
    hashes = [f"'sha256-{b64encode(sha256(part.encode()).digest()).decode()}'" for part in parts]
    assert policy[1] == (
        f"default-src 'none'; style-src {hashes[0]}; script-src {hashes[1]} {hashes[2]}; "
        "img-src data:; base-uri 'none'; form-action 'none'"
    )
    assert not re.search(r"\b(?:src|srcset|action|poster)=", re.sub(r"<script.*?</script>", "", text, flags=re.DOTALL))
    assert not re.search(r'href="(?!#)', text)
    assert "@import" not in text
    assert "url(" not in text


def test_equal_books_give_equal_files_and_work_is_told() -> None:
    told: list[tuple[str, int, int]] = []
    first = pack_html(SMALL, invented_settings(), printed=PRINTED, tell=lambda *one: told.append(one))
    assert first == pack_html(SMALL, invented_settings(), printed=PRINTED)
    assert told == [("changes", 1, 2), ("changes", 2, 2), ("falls", 1, 1)]


def test_a_book_without_patterns_says_so() -> None:
    text = pack_html(replace(SMALL, patterns=()), invented_settings(), printed=PRINTED, system="us")
    assert text.count("No pattern on file. becket does not make one up: type it from the manual.") == 2
    assert "Load on the hook, lb" in text


def test_the_data_is_json_that_ends_nowhere_else() -> None:
    hostile = replace(SMALL, charts=(replace(SMALL.charts[0], name="</script><!--"),))
    text = pack_html(hostile, invented_settings(), printed=PRINTED)
    data = re.search(r'id="data">(.*?)</script>', text, re.DOTALL)
    assert data is not None
    assert json.loads(data[1])["finder"]["grids"][0]["chart"] == "</script><!--"
