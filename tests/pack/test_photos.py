"""Photos of the manual's pages: in the file or refused in one line, never left out in silence."""

from __future__ import annotations

import os
from base64 import b64encode
from collections.abc import Callable
from dataclasses import replace
from importlib.resources import files
from pathlib import Path
from zlib import compress, crc32

import pytest
from playwright.sync_api import Browser

from becket.book.crane import Book
from becket.cli.main import run
from becket.errors import RefusedError
from becket.pack.html import pack_html
from becket.pack.pattern_section import pattern_section
from becket.pack.photos import MOST_BYTES, read_photos
from tests.crane import invented_book, invented_settings
from tests.pack.conftest import PRINTED


def chunk(kind: bytes, data: bytes) -> bytes:
    """Return a chunk of a PNG (W3C, Portable Network Graphics Specification, third edition, clause 5.3)."""
    return len(data).to_bytes(4, "big") + kind + data + crc32(kind + data).to_bytes(4, "big")


# one white point: a signature (clause 5.2), width and height, depth 8, grey, then a line without filter
HEADER = b"\0\0\0\1\0\0\0\1\x08\0\0\0\0"
PNG = b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", HEADER) + chunk(b"IDAT", compress(b"\0\xff")) + chunk(b"IEND", b"")
JPEG = b"\xff\xd8\xff\xe0" + bytes(20)
RIGHT = "a JPEG or PNG of at most 5 MB in the folder of the book is wanted, as pages/6-14.jpg"
BOOK = "rowan-30.crane.yaml"


def pictured(name: str) -> Book:
    """Return the crane, the second of its patterns with a photo of this name."""
    book = invented_book()
    first, second, *others = book.patterns
    return replace(book, patterns=(first, replace(second, picture=name), *others))


def nothing(folder: Path) -> None:
    """Put no file there."""


def writes(name: str, data: bytes) -> Callable[[Path], None]:
    """Return what puts a file with this content into the folder."""

    def put(folder: Path) -> None:
        (folder / name).write_bytes(data)

    return put


def links(to: str) -> Callable[[Path], None]:
    """Return what puts a link a.png into the folder."""
    return lambda folder: (folder / "a.png").symlink_to(to)


REFUSED = [
    (str(Path("/") / "a.png"), nothing, "lies outside the folder of the book"),
    ("../a.png", writes("../a.png", PNG), "lies outside the folder of the book"),
    ("pages/../../a.png", writes("../a.png", PNG), "lies outside the folder of the book"),
    ("a.png", links("../b.png"), "lies outside the folder of the book"),
    ("a.png", links("b.png"), "there is no such file"),
    ("a.png", nothing, "there is no such file"),
    ("a.png", lambda folder: (folder / "a.png").mkdir(), "is no file"),
    ("a.png", lambda folder: os.mkfifo(folder / "a.png"), "is no file"),
    ("a.png", writes("a.png", PNG + bytes(MOST_BYTES + 1 - len(PNG))), "is over 5 MB"),
    ("a.png", writes("a.png", bytes(MOST_BYTES + 1)), "is over 5 MB"),
    ("a.png", writes("a.png", b""), "is neither JPEG nor PNG by its first bytes"),
    ("a.png", writes("a.png", b"GIF89a"), "is neither JPEG nor PNG by its first bytes"),
    ("a.png", writes("a.png", b"<svg onload='x()'/>"), "is neither JPEG nor PNG by its first bytes"),
    ("a.png", writes("a.png", b"\x89PNG\n"), "is neither JPEG nor PNG by its first bytes"),
]


@pytest.mark.parametrize(("name", "put", "fault"), REFUSED)
def test_a_photo_that_cannot_be_had(tmp_path: Path, name: str, put: Callable[[Path], None], fault: str) -> None:
    folder = tmp_path / "book"
    folder.mkdir()
    put(folder)
    with pytest.raises(RefusedError) as caught:
        read_photos(pictured(name), folder)
    assert str(caught.value) == f"patterns[1].picture: {name}: {fault}; {RIGHT}"


def test_a_photo_that_the_machine_does_not_give(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "a.png").write_bytes(PNG)

    def refuse(*_: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "open", refuse)
    with pytest.raises(RefusedError) as caught:
        read_photos(pictured("a.png"), tmp_path)
    assert str(caught.value) == f"patterns[1].picture: a.png: cannot be read (Permission denied); {RIGHT}"


def test_links_in_a_ring(tmp_path: Path) -> None:
    links("a.png")(tmp_path)
    with pytest.raises(RefusedError) as caught:
        read_photos(pictured("a.png"), tmp_path)
    assert str(caught.value).startswith("patterns[1].picture: a.png: ")
    assert str(caught.value).endswith(f"; {RIGHT}")
    assert "\n" not in str(caught.value)


@pytest.mark.parametrize(("data", "kind"), [(PNG, "png"), (JPEG, "jpeg"), (JPEG.ljust(MOST_BYTES, b"\0"), "jpeg")])
def test_its_first_bytes_say_what_it_is_not_its_name(tmp_path: Path, data: bytes, kind: str) -> None:
    (tmp_path / "pages").mkdir()
    (tmp_path / "pages" / "Seite 6.txt").write_bytes(data)
    photos = read_photos(pictured("pages/Seite 6.txt"), tmp_path)
    assert photos == {"pages/Seite 6.txt": f"data:image/{kind};base64,{b64encode(data).decode()}"}


def test_a_link_that_stays_in_the_folder_and_a_book_without_photos(tmp_path: Path) -> None:
    writes("b.png", PNG)(tmp_path)
    links("b.png")(tmp_path)
    assert list(read_photos(pictured("a.png"), tmp_path)) == ["a.png"]
    assert read_photos(invented_book(), tmp_path) == {}


def test_it_stands_on_the_page_of_its_pattern_with_words_for_those_who_listen() -> None:
    book = pictured("a.png")
    pattern = replace(book.patterns[1], page='6-3"<')
    html = pattern_section(book, invented_settings(), pattern, 1, "metric", "data:image/png;base64,AA==")
    assert '<img class="photo" src="data:image/png;base64,AA==" alt="Photo of the manual, page 6-3&quot;&lt;"/>' in html
    assert "not in this file" not in html
    unpaged = replace(pattern, page=None)
    html = pattern_section(book, invented_settings(), unpaged, 1, "metric", "data:image/png;base64,AA==")
    assert 'alt="Photo of the manual, page not on file"/>' in html


def test_a_phone_shows_it_and_nothing_from_elsewhere(chromium: Browser, book: Book, tmp_path: Path) -> None:
    writes("a.png", PNG)(tmp_path)
    one = replace(book, charts=(), patterns=(replace(book.patterns[1], picture="a.png"),))
    photos = read_photos(one, tmp_path)
    text = pack_html(one, invented_settings(), printed=PRINTED, photos=photos)
    assert text.count("<img") == 1
    assert text.count("data:image/png") == 1
    path = tmp_path / "pack.html"
    path.write_text(text, encoding="utf-8")
    context = chromium.new_context(viewport={"width": 360, "height": 800}, offline=True)
    page = context.new_page()
    said: list[str] = []
    page.on("console", lambda message: said.append(message.text))
    page.goto(path.as_uri())
    page.click("nav a[href='#patterns']")
    page.click("#view-patterns a.row")
    photo = page.get_by_alt_text(f"Photo of the manual, page {one.patterns[0].page}", exact=True)
    photo.wait_for(state="visible")
    assert photo.evaluate("photo => photo.decode().then(() => photo.naturalWidth)") == 1
    assert said == []
    (tmp_path / "outside.png").write_bytes(PNG)
    with page.expect_console_message(lambda message: "Content Security Policy" in message.text):
        page.evaluate(
            """() => new Promise((done, refused) => {
              const photo = document.querySelector("img");
              photo.onload = () => refused(new Error("it was shown"));
              photo.onerror = () => done();
              photo.src = "outside.png";
            })"""
        )
    assert photo.evaluate("photo => photo.naturalWidth") == 0
    context.close()


def with_photo(folder: Path, name: str) -> None:
    """Write the small crane of the demo into the folder, its first pattern with a photo."""
    text = (files("becket.demo") / BOOK).read_text(encoding="utf-8")
    at = text.index("dead_end:", text.index("\npatterns:"))
    (folder / BOOK).write_text(f"{text[:at]}picture: {name}, {text[at:]}", encoding="utf-8")


def test_the_command_embeds_it(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    with_photo(tmp_path, "page.png")
    writes("page.png", PNG)(tmp_path)
    (tmp_path / "away").mkdir()
    monkeypatch.chdir(tmp_path / "away")  # the photo lies beside the book, not where the command is typed
    assert run(["pack", f"../{BOOK}", "-o", "rowan.html"]) == 0
    text = Path("rowan.html").read_text(encoding="utf-8")
    assert text.count(f'src="data:image/png;base64,{b64encode(PNG).decode()}"') == 1


def test_the_command_refuses_and_writes_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    with_photo(tmp_path, "page.png")
    monkeypatch.chdir(tmp_path)
    assert run(["pack", BOOK, "-o", "rowan.html"]) == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err == f"patterns[0].picture: page.png: there is no such file; {RIGHT}\n"
    assert os.listdir(tmp_path) == [BOOK]
