"""Photos on the paper of a record: two a row, each with its step, who, when and both hashes."""

from __future__ import annotations

import time
from dataclasses import replace
from functools import cache
from io import BytesIO

import pytest
from PIL import Image
from pypdf import PdfReader

from becket.cards.photo_svg import photo_svg
from becket.cards.record_card import record_card
from becket.cards.record_told import PhotoTold, RecordTold, Section, Signer

HASHES = ("a1" * 32, "b2" * 32)


@cache
def jpeg(width: int, height: int, shade: int) -> bytes:
    """Return a photo with noise in it, so that it is as large as a real one."""
    out = BytesIO()
    Image.effect_noise((width, height), 20 + shade).convert("RGB").save(out, "JPEG", quality=82)
    return out.getvalue()


def photo(number: int, *, width: int = 1600, height: int = 1200, **more: object) -> PhotoTold:
    """Return a photo of a record."""
    below = ("Ada Quill, 15:31:20, phone A; server 15:40:00", f"as taken: {HASHES[0]}", f"kept: {HASHES[1]}")
    told = PhotoTold(
        photo=f"{number:064x}",
        title=f"Step {number}",
        note="",
        below=below,
        missing="",
        width=width,
        height=height,
        data=jpeg(width, height, number),
    )
    return replace(told, **more)  # type: ignore[arg-type]  # names of its own fields


def record(*photos: PhotoTold) -> RecordTold:
    """Return a record that holds photos and little else."""
    signer = Signer(role="Operator", name="Ada Quill", licence="OP 4471", signed="signed 15:48:02")
    return RecordTold(
        run="r-1",
        crane="HAZEL 70",
        manual="Demo manual, issue 3",
        book="0123456789abcdef",
        status="closed",
        title="4 falls, main block",
        what="2 falls, main block → 4 falls, main block",
        state="closed",
        signers=(signer, replace(signer, role="Rigger", name="Bo Fenn")),
        closing="Signed 15:48.",
        sections=(Section(name="photos", title="Photos", says=("It confirms nothing.",), photos=photos),),
        head_hash="c3" * 32,
        last_number=99,
    )


def read(made: bytes) -> PdfReader:
    return PdfReader(BytesIO(made))


def words_of(made: bytes) -> str:
    """Return the words of a PDF without the places at which a long word may break."""
    text = "".join(page.extract_text() for page in read(made).pages)
    return "".join(text.replace("\u200b", "").split())


def test_every_photo_is_on_paper_with_its_words() -> None:
    made = record_card(record(photo(1), photo(2, note="Wedge of the dead end"), photo(3)), printed="2026-11-30")
    pictures = [one for page in read(made).pages for one in page.images]
    assert [one.image.size for one in pictures if one.image] == [(1600, 1200)] * 3
    words = words_of(made)
    for part in ("Step1", "Step2", "Step3", "Wedgeofthedeadend", "AdaQuill,15:31:20,phoneA", *HASHES):
        assert part in words


def test_two_stand_in_a_row() -> None:
    one, two, three = (len(read(record_card(record(*many), printed="2026-11-30")).pages) for many in _rows())
    assert one == two, "the second stands beside the first"
    assert three == two + 1


def _rows() -> list[list[PhotoTold]]:
    """Rows of upright photos: five, six, seven of them; two rows fill a page after the first."""
    return [[photo(n, width=600, height=800) for n in range(many)] for many in (5, 6, 7)]


def test_the_picture_itself_is_not_written_anew() -> None:
    data = jpeg(1600, 1200, 1)
    made = record_card(record(photo(1)), printed="2026-11-30")
    assert data[20:] in made, "the very bytes of the JPEG, after its head"


def test_a_photo_that_is_not_here_says_why() -> None:
    gone = photo(1, data=None, missing="Not here yet: it is still on phone B.")
    made = record_card(record(gone), printed="2026-11-30")
    assert [one for page in read(made).pages for one in page.images] == []
    assert "Nothereyet:itisstillonphoneB." in words_of(made)


def test_the_same_record_gives_the_same_bytes() -> None:
    told = record(photo(1), photo(2))
    assert record_card(told, printed="2026-11-30") == record_card(told, printed="2026-11-30")


@pytest.mark.parametrize("text", ["</text><script>", '"&<>'])
def test_a_note_is_text_and_nothing_else(text: str) -> None:
    assert text.replace(" ", "") in words_of(record_card(record(photo(1, note=text)), printed="2026-11-30"))


def test_forty_photos_in_seconds() -> None:
    told = record(*(photo(n, data=jpeg(1600, 1200, n % 5)) for n in range(40)))
    start = time.process_time()
    record_card(told, printed="2026-11-30")
    assert time.process_time() - start < 10, "of work; seen: 0.7 s"


def test_svg_names_nothing_from_elsewhere() -> None:
    made = photo_svg(b"\xff\xd8\xff", 4, 3)
    assert made.count("href=") == 1
    assert 'href="data:image/jpeg;base64,/9j/"' in made
