"""Static files under names that tell their content, down to what they load."""

from __future__ import annotations

import gzip
import re
from pathlib import Path

import brotli  # type: ignore[import-untyped]
import pytest

from becket.errors import NotOnFileError
from becket.web.static_files import StaticFiles
from tests.web.asking import Phone


def files_of(folder: Path, **texts: str) -> StaticFiles:
    """Return static files with these texts; ``_`` before the end stands for the point."""
    folder.mkdir(exist_ok=True)
    for name, text in texts.items():
        (folder / name.replace("_", ".")).write_text(text, encoding="utf-8")
    return StaticFiles(folder)


def test_a_module_loads_others_by_their_sealed_names(tmp_path: Path) -> None:
    files = files_of(
        tmp_path, a_js='import { x } from "./b.js";\nawait import("./c.js");', b_js="export const x = 1;", c_js=""
    )
    body = files.at(files.address("a.js")).body.decode()  # type: ignore[union-attr]
    for name in ("b.js", "c.js"):
        assert f'"./{files.address(name).rpartition("/")[2]}"' in body
    assert '"./b.js"' not in body


def test_a_change_further_down_changes_every_name_above_it_and_no_other(tmp_path: Path) -> None:
    texts = {"a_js": 'import "./b.js";', "b_js": 'export * from "./c.js";', "c_js": "export const x = 1;", "d_js": "1;"}
    before = files_of(tmp_path, **texts)
    after = files_of(tmp_path, **{**texts, "c_js": "export const x = 2;"})
    changed = {name for name in ("a.js", "b.js", "c.js", "d.js") if before.address(name) != after.address(name)}
    assert changed == {"a.js", "b.js", "c.js"}
    assert before.seal != after.seal


def test_modules_that_load_each_other_have_names_too(tmp_path: Path) -> None:
    texts = {"a_js": 'import { b } from "./b.js";', "b_js": 'import { a } from "./a.js";'}
    before = files_of(tmp_path, **texts)
    after = files_of(tmp_path, **{**texts, "b_js": texts["b_js"] + "\n1;"})
    assert before.address("a.js") != after.address("a.js")
    assert after.address("a.js").rpartition("/")[2] in after.at(after.address("b.js")).body.decode()  # type: ignore[union-attr]


def test_style_names_its_fonts_by_their_content(tmp_path: Path) -> None:
    files = files_of(tmp_path, a_css="@font-face { src: url('f.woff2') format('woff2'); }", f_woff2="font")
    body = files.at(files.address("a.css")).body.decode()  # type: ignore[union-attr]
    assert f"url('./{files.address('f.woff2').rpartition('/')[2]}')" in body


def test_a_file_that_is_loaded_and_not_there_is_found_at_the_start(tmp_path: Path) -> None:
    with pytest.raises(NotOnFileError, match=r'a.js loads "gone.js", which is not in the folder'):
        files_of(tmp_path, a_js='import "./gone.js";')


def test_every_form_holds_the_same_and_is_kept_for_good(phone: Phone) -> None:
    statics = phone.app.state.templates.statics
    kinds = {".js": "text/javascript", ".css": "text/css", ".json": "application/json", ".woff2": "font/woff2"}
    for address in statics.addresses():
        found = statics.at(address)
        plain = phone.get(address, headers={"accept-encoding": "identity"})
        assert plain.content == found.body
        assert plain.headers["cache-control"] == "public, max-age=31536000, immutable"
        assert plain.headers["content-type"].startswith(kinds.get(Path(address).suffix, ""))
        assert found.brotli is None or brotli.decompress(found.brotli) == found.body
        assert found.gzip is None or gzip.decompress(found.gzip) == found.body


def test_the_smallest_form_that_is_taken_is_sent(phone: Phone) -> None:
    address = phone.app.state.templates.statics.address("base.css")
    sent = {
        takes: phone.get(address, headers={"accept-encoding": takes}).headers.get("content-encoding")
        for takes in ("br, gzip", "gzip", "br;q=0, gzip", "deflate", "")
    }
    assert sent == {"br, gzip": "br", "gzip": "gzip", "br;q=0, gzip": "gzip", "deflate": None, "": None}


def test_another_content_or_place_is_not_there(phone: Phone) -> None:
    address = phone.app.state.templates.statics.address("app.js")
    sealed = re.sub(r"\.[0-9a-f]{12}\.", ".000000000000.", address)
    for path in ("/static/app.js", sealed, "/static/../app.py", "/static/%2e%2e/app.py", "/static/sw.js"):
        assert phone.get(path).status_code == 404
