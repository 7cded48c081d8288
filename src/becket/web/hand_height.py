"""How high a rigger reaches from the ground: the one setting of the method that a page takes.

In:    a height with its unit, who says so.
Out:   the crew's file of settings with this one value replaced, the older file kept beside it.
Never: another value of that file changed; a height that nobody stands for; a value while a change is open.
"""

from __future__ import annotations

import json
import re
from dataclasses import replace
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Final

from becket.errors import FaultyFileError, RefusedError, UnreadableTextError
from becket.guide.event import FIRM
from becket.intake.settings import FILE_NAME, read_settings
from becket.settings.values import Settings
from becket.units import read_quantity
from becket.web.house import House
from becket.web.open_change import is_change_open
from becket.web.uploads import put_beside, write_beside

LEAST: Final = 0.8  # [m]
MOST: Final = 2.2  # [m]: from the ground, without a step
_LONGEST: Final = 120  # letters of who says so
_ENTRY: Final = re.compile(r"^hand_height[ ]*:.*\n?(?:[ \t]+\S.*\n?)*", re.MULTILINE)


def set_hand_height(house: House, height: str, source: str) -> float:
    """Return the hand height that is in force from now on for every crane of the folder [m].

    Args:
        house: the firm's folder
        height: with its unit: "1.55 m", "5 ft 1 in"
        source: who says so, from what

    Raises:
        RefusedError: it cannot be used, and why; nothing is changed.
        CannotWriteError: the folder does not take it; nothing is changed.
        CannotKeepError: the store does not take it.
    """
    if house.only is not None:
        raise RefusedError("Settings are for every crane of the firm; an account with some cranes cannot change them")
    said = " ".join(source.split())
    if not said or len(said) > _LONGEST:
        raise RefusedError("Say who measured it, in 1 to 120 letters: 'Rita Rigger, stretched hands, 3 Mar'")
    if is_change_open(house, house.cranes()):
        raise RefusedError("A change is open. Finish it first, or stop it")
    value = _read(height)
    path = house.folder / FILE_NAME
    old = path.read_text(encoding="utf-8") if path.exists() else "becket: 1\n"
    text = _with_entry(old, f"hand_height: {{value: {_quoted(height.strip())}, source: {_quoted(said)}}}\n")
    _check(house.settings(), text, value)
    beside = write_beside(house.folder, text.encode())
    try:
        fingerprint = house.store.keep_document("settings", text)
        kept_old = put_beside(beside, path)
    finally:
        beside.unlink(missing_ok=True)
    house.note("file_taken", FIRM, {"name": FILE_NAME, "fingerprint": fingerprint, "kept_old": kept_old})
    return value


def _quoted(text: str) -> str:
    """The text in quotes, its letters as they are: YAML knows no escape for one beyond the first 65,536."""
    return json.dumps(text, ensure_ascii=False)


def _read(height: str) -> float:
    try:
        value = read_quantity(height, "length")
    except UnreadableTextError as error:
        raise RefusedError(f"Hand height {error}") from None
    if not LEAST <= value <= MOST:
        raise RefusedError(
            f"Hand height {height.strip()}: from {LEAST} to {MOST} m over the ground, without a step; measure it again"
        )
    return value


def _with_entry(text: str, entry: str) -> str:
    """Return the file with this one entry, in the place of the older one or at the end."""
    if _ENTRY.search(text):
        return _ENTRY.sub(lambda _: entry, text, count=1)
    return f"{text.rstrip()}\n{entry}"


def _check(before: Settings, text: str, value: float) -> None:
    """Read the file as it would be: the one value is there, everything else is as it was."""
    with TemporaryDirectory() as folder:
        (Path(folder) / FILE_NAME).write_text(text, encoding="utf-8")
        try:
            after = read_settings(Path(folder))
        except FaultyFileError as error:
            fault = error.faults[0]
            raise RefusedError(
                f"{FILE_NAME}, line {fault.line}: {fault.found}; mend that file first: wanted is {fault.wanted}"
            ) from None
    same = replace(after, hand_height=before.hand_height, reasons=before.reasons, replaced=before.replaced)
    if after.hand_height != value or same != before:
        raise RefusedError(f"{FILE_NAME} is written in a way that this page cannot change; change it by hand")
