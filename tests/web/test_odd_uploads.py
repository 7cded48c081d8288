"""What comes in over HTTP under odd names and in odd wrapping: one clean file in the folder, or none and words."""

from __future__ import annotations

import gzip
import json
import time
from io import BytesIO
from pathlib import Path
from zipfile import ZipFile

import pytest
from PIL import Image

from becket.errors import RefusedError
from becket.records.photo_file import make_photo
from tests.records.test_photos import jpeg
from tests.web.asking import OWN, Phone
from tests.web.test_crane_files import BOOK

JSON = {**OWN, "content-type": "application/json"}


def files_of(folder: Path) -> set[str]:
    """Return every file in and around the folder, but the records."""
    return {
        path.relative_to(folder.parent).as_posix() for path in folder.parent.rglob("*") if ".sqlite" not in path.name
    }


def bring(phone: Phone, disposition: bytes, data: bytes) -> int:
    """Bring a file under a name as it stands in the form; return the status."""
    head = b'--xx\r\nContent-Disposition: form-data; name="file"; ' + disposition
    body = head + b"\r\nContent-Type: text/yaml\r\n\r\n" + data + b"\r\n--xx--\r\n"
    answer = phone.post("/files", headers={**OWN, "content-type": "multipart/form-data; boundary=xx"}, content=body)
    return answer.status_code


@pytest.mark.parametrize(
    ("disposition", "name"),
    [
        (b'filename="../../oak.crane.yaml"', "oak"),
        (b'filename="/etc/cron.d/oak"', "oak"),
        (b'filename="..\\\\..\\\\oak.crane.yaml"', "oak"),
        (b'filename="C:oak.crane.yaml"', "C-oak"),
        (b'filename="oak.crane.yaml\x00.jpg"', "oak-crane-yaml-jpg"),
        (b'filename="oak.crane.yaml:stream"', "oak-crane-yaml-stream"),
        ('filename="\u202elmay.oak"'.encode(), "lmay-oak"),
        ('filename="\uff0e\uff0e\uff0foak"'.encode(), "oak"),
        (b'filename="' + b"o" * 3000 + b'"', "o" * 60),
        (b'filename="-rf oak"', "rf-oak"),
        (b'filename="becket.settings.yaml"', "becket-settings"),
        (b'filename="~oak"', "oak"),
        (b'filename="$(reboot)`oak`"', "reboot-oak"),
        (b"filename*=utf-8''%2e%2e%2foak", None),
        (b'filename="CON.crane.yaml"', None),
        (b'filename="lpt1"', None),
        (b'filename="\xff\xfe"', None),
        (b'filename=""', None),
    ],
)
def test_a_name_gives_one_clean_file_or_none(phone: Phone, folder: Path, disposition: bytes, name: str | None) -> None:
    before, book = files_of(folder), (folder / BOOK).read_bytes().replace(b"Hazel 70", b"Oak 9")
    status = bring(phone, disposition, book)
    added = files_of(folder) - before
    if name is None:
        assert (added, status) == (set(), 422)
    else:
        assert (added, status) == ({f"data/{name}.crane.yaml"}, 200)


def a_zip(name: str, data: bytes) -> bytes:
    """Return an archive with one file."""
    out = BytesIO()
    with ZipFile(out, "w") as archive:
        archive.writestr(name, data)
    return out.getvalue()


@pytest.mark.parametrize("before", [b"", b"\xef\xbb\xbf"], ids=["plain", "with BOM"])
@pytest.mark.parametrize(
    "odd",
    [
        jpeg(20, 20),
        a_zip("x.crane.yaml", b"crane: x"),
        gzip.compress(b"crane: x"),
        b"%PDF-1.7\n%\xe2\xe3\xcf\xd3\n",
        b"\x7fELF\0\0",
    ],
    ids=["jpeg", "zip", "gzip", "pdf", "elf"],
)
def test_a_book_with_something_else_in_it_is_not_taken(phone: Phone, folder: Path, odd: bytes, before: bytes) -> None:
    files, book = files_of(folder), (folder / BOOK).read_bytes()
    for data in (before + odd + book, before + book + b"\n" + odd, before + b"# " + odd + b"\n" + book):
        assert bring(phone, b'filename="oak.crane.yaml"', data) == 422
    assert files_of(folder) == files


def test_a_page_in_a_book_is_shown_as_text(phone: Phone, folder: Path) -> None:
    book = (folder / BOOK).read_bytes().replace(b"winch:", b"<script>alert(1)</script><img src=x onerror=alert(1)>:", 1)
    answer = phone.post("/files", files={"file": ('"><script>oak.yaml', book)})
    assert answer.status_code == 422
    assert "<script>alert" not in answer.text
    assert "<img src=x" not in answer.text
    assert "&lt;script&gt;alert" in answer.text


@pytest.mark.parametrize("hidden", [b"<script>alert(1)</script>", a_zip("evil.exe", b"MZ" * 50)], ids=["page", "zip"])
def test_what_hangs_in_a_photo_is_not_in_what_is_kept(hidden: bytes) -> None:
    data = jpeg(60, 40)
    comment = b"\xff\xfe" + (len(hidden) + 2).to_bytes(2, "big") + hidden
    for polyglot in (data[:2] + comment + data[2:], data[:-2] + hidden + b"\xff\xd9"):
        kept = make_photo(polyglot).data
        assert hidden not in kept
        assert b"PK\x03\x04" not in kept
        assert make_photo(kept).width == 60


def test_a_photo_in_very_many_scans_is_refused_unread() -> None:
    """Each scan over the picture is 83 bytes and takes 20 ms: 25 MB would take an hour and a half."""
    out = BytesIO()
    Image.new("L", (7000, 8000), 128).save(out, "JPEG", progressive=True)
    data = out.getvalue()
    scan = data[data.rindex(b"\xff\xda") : -2]
    assert len(make_photo(data).data) > 0
    start = time.process_time()
    with pytest.raises(RefusedError, match="in too many parts"):
        make_photo(data[:-2] + scan * 20_000 + data[-2:])
    assert time.process_time() - start < 1


def test_a_packed_body_is_not_unpacked(phone: Phone) -> None:
    """70 KB that unpack to 70 MB: what says gzip is read as it came, and is no JSON."""
    packed = gzip.compress(b'{"events": []}' + b" " * 70_000_000, 1)
    start = time.process_time()
    answer = phone.post("/api/events", headers={**JSON, "content-encoding": "gzip"}, content=packed)
    assert (answer.status_code, time.process_time() - start < 2) == (409, True)
    assert "is not JSON" in answer.json()["refused"]


@pytest.mark.parametrize(
    "body",
    [
        b'{"events": ' + b"[" * 490_000 + b"]" * 490_000 + b"}",
        b'{"events": [' + b'{"a":' * 160_000 + b"1" + b"}" * 160_000 + b"]}",
        b'{"events": [' + b"9" * 900_000 + b"]}",
        b'{"events": [' + b"0," * 490_000 + b"0]}",
        b'{"events": "' + b"\\ud800" * 150_000 + b'"}',
        json.dumps({"events": []}).encode("utf-32"),
    ],
    ids=["deep lists", "deep objects", "long number", "many", "half characters", "utf-32"],
)
def test_a_body_that_is_made_to_cost_is_answered_soon(phone: Phone, body: bytes) -> None:
    start = time.process_time()
    answer = phone.post("/api/events", headers=JSON, content=body)
    assert time.process_time() - start < 2
    assert answer.status_code in (200, 409)
    assert phone.house.store.head().number == 0


@pytest.mark.parametrize("path", ["/files", "/settings", "/link"])
@pytest.mark.parametrize(
    ("kind", "body"),
    [
        ("multipart/form-data", b"x"),
        ("multipart/form-data; boundary=", b"x"),
        ("multipart/form-data; boundary=xx", b"--xx\r\nno colon\r\n\r\nx\r\n--xx--"),
        ("multipart/form-data; boundary=xx", b"--xx\r\nContent-Disposition: form-data\r\n\r\nx\r\n--xx--"),
        ("multipart/form-data; boundary=xx", b'--xx\r\nContent-Disposition: form-data; name="a"\r\n\r\nx\r\n' * 40),
        (
            "multipart/form-data; boundary=xx; charset=nope",
            b'--xx\r\nContent-Disposition: form-data; name="\xff"\r\n\r\n',
        ),
    ],
)
def test_a_form_that_is_none_is_told_as_a_page(phone: Phone, folder: Path, path: str, kind: str, body: bytes) -> None:
    before = files_of(folder)
    answer = phone.post(path, headers={**OWN, "content-type": kind}, content=body)
    assert answer.status_code in (200, 303, 400, 422)
    assert answer.status_code == 303 or answer.headers["content-type"].startswith("text/html")
    if answer.status_code == 400:
        assert "The form cannot be read:" in answer.text
    assert files_of(folder) == before
