"""Photos: what is kept is the picture and nothing else; what is not a photo is refused and says why."""

from __future__ import annotations

import errno
import os
import time
from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image, ImageStat

from becket.errors import CannotWriteError, NotOnFileError, OutOfRangeError, RefusedError
from becket.guide.photo import MOST_BYTES
from becket.records.photo_file import LONGEST_SIDE, hash_of, make_photo
from becket.records.photo_shelf import MOST_PIECE, PhotoShelf

LATITUDE, ORIENTATION, GPS = 2, 0x0112, 0x8825


def jpeg(width: int = 800, height: int = 600, *, turned: int | None = None, placed: bool = False) -> bytes:
    """A photo with a dark left upper quarter, so that its turning can be seen."""
    picture = Image.effect_noise((width, height), 40).convert("RGB")
    picture.paste((0, 0, 0), (0, 0, width // 2, height // 2))
    exif = Image.Exif()
    if turned is not None:
        exif[ORIENTATION] = turned
    if placed:
        exif.get_ifd(GPS)[LATITUDE] = (51.0, 28.0, 40.0)
        exif[0x010F] = "SECRETPHONE"
    out = BytesIO()
    picture.save(out, "JPEG", exif=exif)
    return out.getvalue()


def opened(data: bytes) -> Image.Image:
    return Image.open(BytesIO(data))


def test_large_photo_is_scaled_to_1600_px() -> None:
    photo = make_photo(jpeg(4000, 3000))
    assert (photo.width, photo.height) == (LONGEST_SIDE, 1200)
    assert opened(photo.data).size == (1600, 1200)


def test_small_photo_is_not_blown_up() -> None:
    assert opened(make_photo(jpeg(300, 200)).data).size == (300, 200)


def test_position_and_phone_are_removed() -> None:
    """The control: the photo as taken does hold them."""
    taken = jpeg(placed=True)
    assert opened(taken).getexif().get_ifd(GPS)
    assert b"SECRETPHONE" in taken
    kept = make_photo(taken).data
    assert not opened(kept).getexif()
    assert b"SECRETPHONE" not in kept
    assert b"Exif" not in kept


def test_turned_photo_stands_upright() -> None:
    """Orientation 6: the picture is to be turned a quarter right; its dark corner goes to the right upper one."""
    photo = make_photo(jpeg(800, 600, turned=6))
    assert (photo.width, photo.height) == (600, 800)
    picture = opened(photo.data).convert("L")
    right, left = (ImageStat.Stat(picture.crop((x, 20, x + 60, 80))).mean[0] for x in (520, 20))
    assert right < 20
    assert left > 100, "the mean of the noise is 128; one point of it may be anything"


def test_original_is_hashed_before_anything_is_changed() -> None:
    taken = jpeg()
    photo = make_photo(taken)
    assert photo.original == hash_of(taken)
    assert photo.kept == hash_of(photo.data)
    assert photo.kept != photo.original


def png() -> bytes:
    out = BytesIO()
    Image.new("RGB", (10, 10)).save(out, "PNG")
    return out.getvalue()


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"", "Not a JPEG"),
        (png(), "Not a JPEG"),
        (b"<svg onload=alert(1)>", "Not a JPEG"),
        (jpeg()[:5000], "not whole"),
        (jpeg() + b"PK\x03\x04" + b"\0" * 200, "something hangs behind it"),
        (b"\xff\xd8\xff" + b"\0" * 5000 + b"\xff\xd9", "cannot be read"),
        (b"\xff\xd8\xff<script>" + b"\xff\xd9", "cannot be read"),
    ],
)
def test_what_is_not_a_photo_is_refused(data: bytes, words: str) -> None:
    with pytest.raises(RefusedError, match=words):
        make_photo(data)


def test_bomb_is_refused_unread() -> None:
    """A small file that says it has 65,000 x 65,000 px: the size stands in its frame header."""
    data = bytearray(jpeg(64, 64))
    frame = data.index(b"\xff\xc0")
    data[frame + 5 : frame + 9] = (65_000).to_bytes(2, "big") * 2
    start = time.process_time()
    with pytest.raises(RefusedError):
        make_photo(bytes(data))
    assert time.process_time() - start < 1


def test_12_megapixels_in_under_a_second() -> None:
    taken = jpeg(4000, 3000)
    start = time.process_time()
    make_photo(taken)
    assert time.process_time() - start < 1, "of work; other tests share the cores"


def send(shelf: PhotoShelf, data: bytes, piece: int = 40_000) -> None:
    for start in range(0, len(data), piece):
        shelf.take(hash_of(data), start, data[start : start + piece], len(data))


def test_photo_in_pieces_is_kept_whole(tmp_path: Path) -> None:
    shelf, data = PhotoShelf(tmp_path), jpeg()
    send(shelf, data)
    kept = shelf.path(hash_of(data)).read_bytes()
    assert kept == make_photo(data).data
    assert list((tmp_path / "incoming").iterdir()) == []


def test_upload_goes_on_where_it_broke_off(tmp_path: Path) -> None:
    data = jpeg()
    PhotoShelf(tmp_path).take(hash_of(data), 0, data[:30_000], len(data))
    shelf = PhotoShelf(tmp_path)  # the server was started again
    assert shelf.offset(hash_of(data)) == 30_000
    assert not shelf.has(hash_of(data))
    arrived = shelf.take(hash_of(data), 30_000, data[30_000:], len(data))
    assert arrived.photo is not None
    assert shelf.has(hash_of(data))


def test_piece_twice_is_told_what_has_arrived(tmp_path: Path) -> None:
    shelf, data = PhotoShelf(tmp_path), jpeg()
    shelf.take(hash_of(data), 0, data[:100], len(data))
    with pytest.raises(OutOfRangeError, match="100: that many bytes have arrived"):
        shelf.take(hash_of(data), 0, data[:100], len(data))
    assert shelf.offset(hash_of(data)) == 100


def test_whole_photo_again_is_no_fault(tmp_path: Path) -> None:
    shelf, data = PhotoShelf(tmp_path), jpeg()
    send(shelf, data)
    assert shelf.take(hash_of(data), 0, data[:100], len(data)).offset == len(data)


def test_other_bytes_under_the_hash_are_thrown_away(tmp_path: Path) -> None:
    shelf, data, other = PhotoShelf(tmp_path), jpeg(), jpeg(400, 300)
    with pytest.raises(RefusedError, match="not the one that was sent"):
        shelf.take(hash_of(data), 0, other, len(other))
    assert shelf.offset(hash_of(data)) == 0
    send(shelf, data)
    assert shelf.has(hash_of(data))


@pytest.mark.parametrize("name", ["", "../../etc/passwd", "a" * 63, "A" * 64, "0" * 64 + "\n", "0" * 63 + "/"])
def test_name_that_is_no_hash_is_refused(tmp_path: Path, name: str) -> None:
    with pytest.raises(RefusedError):
        PhotoShelf(tmp_path).take(name, 0, b"x", 1)
    assert list(tmp_path.iterdir()) == []


def test_bounds(tmp_path: Path) -> None:
    shelf = PhotoShelf(tmp_path)
    with pytest.raises(OutOfRangeError, match="25000000"):
        shelf.take("0" * 64, 0, b"x", MOST_BYTES + 1)
    with pytest.raises(OutOfRangeError, match="1000000"):
        shelf.take("0" * 64, 0, b"x" * (MOST_PIECE + 1), MOST_BYTES)


def test_photo_that_is_not_here(tmp_path: Path) -> None:
    with pytest.raises(NotOnFileError, match="not here"):
        PhotoShelf(tmp_path).path("0" * 64)


def test_full_disk_keeps_what_had_arrived(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    shelf, data = PhotoShelf(tmp_path), jpeg()
    shelf.take(hash_of(data), 0, data[:1000], len(data))

    def full(_: int) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    with monkeypatch.context() as patched:
        patched.setattr(os, "fsync", full)
        with pytest.raises(CannotWriteError, match="stays on the phone"):
            shelf.take(hash_of(data), 1000, data[1000:2000], len(data))
    assert shelf.offset(hash_of(data)) == 1000
    arrived = shelf.take(hash_of(data), 1000, data[1000:], len(data))
    assert arrived.photo is not None
