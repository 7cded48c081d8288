"""A photo taken without signal reaches the record once, whatever dies on the way; no count ever has one."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from io import BytesIO
from pathlib import Path
from typing import Any

import pytest
from PIL import Image
from playwright.sync_api import Page, Route, expect
from pypdf import PdfReader

from becket.guide.script import Script
from becket.records.photo_file import hash_of
from tests.phone.crew import CRANE, NAMED, Crew
from tests.phone.modules import ask, stored
from tests.phone.phone import Phone
from tests.phone.server import PhoneServer
from tests.phone.test_change import CHANGE, begin, come_back, is_kept_offline, run_of

pytestmark = pytest.mark.browser
SHOT = ".photo-row input"
LEFT = "const { photoItems } = await m.photos; return (await photoItems()).map(({ photo, why }) => [photo, why]);"
SEND = """
    const [{ deliver, counts }, { deliverPhotos }] = [await m.outbox, await m.photos];
    await deliver();
    await deliver();
    await deliverPhotos();
    await deliverPhotos();
    return counts();
"""
BY_ITSELF = """
    const [{ counts }, { photoItems }] = [await m.outbox, await m.photos];
    const end = performance.now() + 30000;
    while ((await photoItems()).length && performance.now() < end) await new Promise((done) => setTimeout(done, 100));
    return counts();
"""


@pytest.fixture(scope="module")
def served(
    counted: tuple[Path, Script], tmp_path_factory: pytest.TempPathFactory
) -> Iterator[tuple[PhoneServer, Script]]:
    """Yield one server, and the script of a change, for the tests that leave it running."""
    server = PhoneServer(Path(shutil.copytree(counted[0], tmp_path_factory.mktemp("photos") / "data")))
    yield server.start(), counted[1]
    server.stop()


def shot(width: int = 2400, height: int = 1800) -> bytes:
    """Return a photo as a phone writes it: with its position, and large enough for several pieces."""
    exif = Image.Exif()
    exif.get_ifd(0x8825)[2] = (51.0, 28.0, 40.0)
    exif[0x010F] = "SECRETPHONE"
    out = BytesIO()
    Image.effect_noise((width, height), 60).convert("RGB").save(out, "JPEG", quality=70, exif=exif)
    return out.getvalue()


def take(page: Page, data: bytes, name: str = "shot.jpg") -> None:
    """Give a photo to the button, as the camera does."""
    page.locator(SHOT).set_input_files({"name": name, "mimeType": "image/jpeg", "buffer": data})


def send(page: Page) -> dict[str, Any]:
    """Deliver as the phone does when the signal is back."""
    return dict(ask(page, SEND))


def of_kind(server: PhoneServer, *kinds: str) -> list[dict[str, object]]:
    """Return what the server has of some kinds of events."""
    return [dict(one.event.entered) for one in stored(server.folder) if one.event.kind in kinds]


class Cut:
    """A line that carries no photo until it is ``open``, then three pieces; at the fourth the server dies."""

    def __init__(self, phone: Phone, server: PhoneServer) -> None:
        self.server, self.open, self.pieces = server, False, list[int]()
        phone.context_now().route("**/api/photo/**", self._watch)

    def _watch(self, route: Route) -> None:
        if route.request.method == "PUT" and len(self.pieces) == 3:
            self.server.kill()
            self.open = False
        if not self.open:
            route.abort()
            return
        if route.request.method == "PUT":
            self.pieces.append(int(route.request.url.rpartition("=")[2]))
        route.continue_()


def test_photo_without_signal_reaches_the_record_once(phone: Phone, ready: tuple[PhoneServer, Script]) -> None:
    """Taken offline, flat battery, sent, server dead in the middle, server back: once, whole, without position."""
    server, script = ready
    data = shot()
    page = phone.enter(server, CHANGE)
    crew = begin(page, script)
    is_kept_offline(page)
    server.kill()
    crew.play(lambda one: one.screen == "step" and one.item().number is not None)
    item = crew.item()
    is_small_and_last(page)
    take(page, data)
    expect(page.locator(".photo-row")).to_contain_text("Photo kept on this phone")
    assert crew.look().screen == "step", "the photo stands in nobody's way"
    phone.kill()
    crew = come_back(phone, server, crew)
    assert ask(crew.page, LEFT) == [[hash_of(data), None]]
    cut = Cut(phone, server)
    page = phone.enter(server.start(), f"/run/{run_of(crew)}")
    cut.open = True
    page.reload()
    page.wait_for_selector("body[data-ready]")
    counts = send(page)
    assert cut.pieces == [0, 131_072, 262_144]
    assert counts["kept"] == 1, "the photo; its event is there"
    assert of_kind(server, "photo_kept") == []
    phone.context_now().unroute_all()
    server.start()
    page.reload()
    page.wait_for_selector("body[data-ready]")
    assert ask(page, BY_ITSELF)["kept"] == 0
    assert ask(page, LEFT) == []
    (taken,) = of_kind(server, "photo_taken")
    (kept,) = of_kind(server, "photo_kept")
    assert (taken["photo"], taken["item"], kept["photo"]) == (hash_of(data), item.id, hash_of(data))
    (path,) = [one for one in (server.folder / "photos").rglob("*") if one.is_file()]
    there = path.read_bytes()
    assert (path.stem, hash_of(there)) == (hash_of(data), kept["kept"])
    assert b"SECRETPHONE" in data
    assert b"SECRETPHONE" not in there
    record = f"/c/{CRANE}/record/{run_of(crew)}"
    stands_on_record(phone, server, page, record, item.number)


def is_small_and_last(page: Page) -> None:
    """Check that the button is as large as a thumb needs, and stands below all else of the screen."""
    box = page.locator("[data-photo]").bounding_box()
    assert box is not None
    assert box["height"] >= 48
    assert page.evaluate("() => document.querySelector('#screen').lastElementChild.className") == "photo-row"


def stands_on_record(phone: Phone, server: PhoneServer, page: Page, record: str, number: int | None) -> None:
    """Check that the photo stands on the page of the record and on paper."""
    phone.go(page, server, record)
    image = page.locator("#photos img")
    image.scroll_into_view_if_needed()
    page.wait_for_function("() => document.querySelector('#photos img').naturalWidth === 1600")
    words = page.locator("#photos").inner_text()
    assert f"Step {number}".lower() in words.lower()
    assert "Otto Operator" in words
    paper = page.request.get(f"{server.address}{record}.pdf").body()
    pictures = [one for sheet in PdfReader(BytesIO(paper)).pages for one in sheet.images]
    assert [one.image.size for one in pictures if one.image] == [(1600, 1200)]


def test_no_count_has_a_photo_button(phone: Phone, served: tuple[PhoneServer, Script]) -> None:
    """Every screen up to the second count is looked at: steps have the button, nothing of a count has."""
    server, script = served
    page = phone.enter(server, CHANGE)
    crew = begin(page, script)
    seen: dict[str, set[int]] = {}

    def look(one: Crew) -> bool:
        seen.setdefault(one.screen, set()).add(page.locator("[data-photo]").count())
        return one.screen == "agree"

    crew.play(look)
    assert {"step", "handover", "alone", "blind", "agree"} <= set(seen)
    for name in ("handover", "alone", "blind", "agree"):
        assert seen[name] == {0}, name
    assert seen["step"] == {1}


def test_photo_of_a_pattern_and_photos_that_are_none(phone: Phone, served: tuple[PhoneServer, Script]) -> None:
    """Nobody holds the phone; not a JPEG; refused by the server, listed; then a good one, which is shown."""
    server, _ = served
    page = phone.enter(server, f"/c/{CRANE}/pattern/main:4")
    said = page.locator(".photo-row [role=status]")
    take(page, shot(800, 600))
    expect(said).to_have_text("Nobody holds the phone. Say who you are first.")
    ask(page, "await (await m.people).setHolder(arg)", NAMED["operator"])
    take(page, b"\x89PNG\r\n", "page.png")
    expect(said).to_have_text("Not a JPEG. Set the camera to JPEG, take it again.")
    assert ask(page, LEFT) == []
    false = b"\xff\xd8\xff" + b"<script>" * 50 + b"\xff\xd9"
    take(page, false)
    expect(page.locator("[data-photos=waiting]")).to_contain_text("Refused: The photo cannot be read")
    assert ask(page, LEFT)[0][0] == hash_of(false)
    good = shot(800, 600)
    take(page, good)
    expect(said).to_contain_text("Photo kept on this phone")
    expect(page.locator("[data-photos=waiting] li")).to_have_count(1)
    phone.go(page, server, f"/c/{CRANE}/pattern/main:4")
    page.locator(".photos img").first.scroll_into_view_if_needed()
    page.wait_for_function("() => document.querySelector('.photos img').naturalWidth === 800")
    assert f"/photos/{hash_of(good)}.jpg" in str(page.locator(".photos img").first.get_attribute("src"))
    phone.go(page, server, f"/kept?crane={CRANE}")
    expect(page.locator("#kept")).to_contain_text("Refused")
    assert page.locator(".kept-item .turn").inner_text() == "Send it once more"


def test_photo_with_a_note_on_a_record_that_is_closed(phone: Phone, served: tuple[PhoneServer, Script]) -> None:
    """While it waits it is shown from this phone, with its note; then the record has it, and is closed as before."""
    server, _ = served
    record = f"/c/{CRANE}/record/r-before"
    page = phone.enter(server, record)
    ask(page, "await (await m.people).setHolder(arg)", NAMED["rigger"])
    phone.context_now().route("**/api/photo/**", lambda route: route.abort())
    page.locator("#note").fill("The wedge of the dead end")
    take(page, shot(800, 600))
    waiting = page.locator("[data-photos=waiting]")
    expect(waiting).to_contain_text("The wedge of the dead end")
    expect(waiting).to_contain_text("Kept on this phone, not sent")
    page.wait_for_function("() => document.querySelector('[data-photos=waiting] img').naturalWidth === 800")
    expect(page.locator("[data-strap=signal]")).to_contain_text("1 kept")
    phone.context_now().unroute_all()
    phone.go(page, server, record)
    ask(page, BY_ITSELF)
    phone.go(page, server, record)
    words = page.locator("#photos").inner_text()
    for part in ("The wedge of the dead end", "Rita Rigger", "Kept: 800 x 600 px"):
        assert part in words
    expect(waiting).to_be_hidden()
    assert page.locator(".record-state").inner_text().lower() == "closed"
