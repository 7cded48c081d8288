"""The phone's own QR codes, held against two other programs: segno makes the same modules, OpenCV reads them."""

from __future__ import annotations

import base64
from collections.abc import Iterator
from importlib.resources import files

import cv2
import numpy as np
import pytest
import segno
from playwright.sync_api import Page, Playwright

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("test_qr_js")]  # one server for all
# bytes that fill versions 1 to 20 of level M wholly: no padding, about which programs differ
FULL = (14, 26, 42, 62, 84, 106, 122, 152, 180, 213, 251, 287, 331, 362, 412, 450, 504, 560, 624, 666)
TEXTS = ("a", "becket", "Ж≠→ cab's left", '{"run":"7f","hash":"' + "0123456789abcdef" * 4 + '"}', "q" * 400)


@pytest.fixture(scope="module")
def page(play: Playwright) -> Iterator[Page]:
    source = (files("becket.web") / "static" / "qr.js").read_text(encoding="utf-8")
    address = "data:text/javascript;base64," + base64.b64encode(source.encode()).decode()
    browser = play.chromium.launch(executable_path="/usr/bin/chromium-headless-shell", args=["--no-sandbox"])
    one = browser.new_page()
    one.goto("about:blank")
    one.evaluate("async (address) => { window.qr = await import(address); }", address)
    yield one
    browser.close()


@pytest.mark.parametrize("length", FULL)
def test_same_modules_as_another_program_in_every_version_and_mask(page: Page, length: int) -> None:
    text = "".join(chr(33 + (7 * i) % 90) for i in range(length))
    for mask in range(8):
        code = segno.make(text, error="m", mode="byte", boost_error=False, micro=False, mask=mask)
        assert code.version == FULL.index(length) + 1
        wanted = [[bool(module) for module in row] for row in code.matrix]
        assert page.evaluate("([text, mask]) => window.qr.qrModules(text, mask)", [text, mask]) == wanted


@pytest.mark.parametrize("text", TEXTS)
def test_another_program_reads_it(page: Page, text: str) -> None:
    modules = np.array(page.evaluate("(text) => window.qr.qrModules(text)", text))
    picture = np.kron(np.pad(np.where(modules, 0, 255).astype(np.uint8), 4, constant_values=255), np.ones((8, 8)))
    read, _, _ = cv2.QRCodeDetector().detectAndDecode(picture.astype(np.uint8))
    assert read == text


def test_text_that_is_too_long_is_refused(page: Page) -> None:
    said = page.evaluate("() => { try { window.qr.qrModules('q'.repeat(667)); } catch (e) { return e.message; } }")
    assert "667 bytes do not fit" in said
