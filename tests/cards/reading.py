"""Reading a card back out of its PDF: its text, its words with their boxes, its pictures.

In:    PDF bytes.
Out:   text a page; boxes in points; pixels.
Never: anything that the card's own code made.
"""

from __future__ import annotations

import subprocess
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path
from xml.etree import ElementTree

import cv2
import numpy as np
from pypdf import PdfReader

XHTML = "{http://www.w3.org/1999/xhtml}"


@dataclass(frozen=True)
class Word:
    """One word on a page, with its box from the upper left corner [pt]."""

    page: int
    text: str
    left: float
    top: float
    right: float
    bottom: float


def page_texts(pdf: bytes) -> list[str]:
    """Return the text of each page, one blank between words, break marks taken out [-]."""
    pages = PdfReader(BytesIO(pdf)).pages
    return [" ".join(page.extract_text().replace("\u200b", "").split()) for page in pages]


def whole_text(pdf: bytes) -> str:
    """Return the text of all pages [-]."""
    return " ".join(page_texts(pdf))


def page_sizes(pdf: bytes) -> list[tuple[int, int]]:
    """Return width and height of each page [mm]."""
    boxes = [page.mediabox for page in PdfReader(BytesIO(pdf)).pages]
    return [(round(float(box.width) / 72 * 25.4), round(float(box.height) / 72 * 25.4)) for box in boxes]


def words_with_boxes(pdf: bytes, folder: Path) -> tuple[list[Word], list[tuple[float, float]]]:
    """Return every word with its box, and the size of each page [pt]; needs Debian's poppler-utils."""
    (folder / "card.pdf").write_bytes(pdf)
    subprocess.run(["pdftotext", "-bbox", "card.pdf", "card.html"], cwd=folder, check=True, timeout=60)
    pages = ElementTree.parse(folder / "card.html").getroot().iter(f"{XHTML}page")
    words, sizes = [], []
    for number, page in enumerate(pages, 1):
        sizes.append((float(page.attrib["width"]), float(page.attrib["height"])))
        for word in page.iter(f"{XHTML}word"):
            text = (word.text or "").replace("\u200b", "").strip()
            box = [float(word.attrib[side]) for side in ("xMin", "yMin", "xMax", "yMax")]
            if text:
                words.append(Word(number, text, *box))
    return words, sizes


def pixels(pdf: bytes, folder: Path, page: int, dots_per_inch: int = 200) -> np.ndarray:
    """Return one page as it is printed, grey; needs Debian's poppler-utils."""
    (folder / "card.pdf").write_bytes(pdf)
    limits = ["-f", str(page), "-l", str(page), "-singlefile", "-gray"]
    subprocess.run(
        ["pdftoppm", "-r", str(dots_per_inch), *limits, "-png", "card.pdf", "page"], cwd=folder, check=True, timeout=60
    )
    picture = cv2.imread(str(folder / "page.png"), cv2.IMREAD_GRAYSCALE)
    assert picture is not None
    return picture


def qr_text(pdf: bytes, folder: Path, page: int = 1) -> str:
    """Return what the QR code of a printed page says [-]."""
    text, _, _ = cv2.QRCodeDetector().detectAndDecode(pixels(pdf, folder, page))
    return text
