"""The record of a run on paper: the words of the record page, black on white.

In:    a record as it is told, the date of printing.
Out:   a sheet; the record as PDF.
Never: a record that is open printed as closed; words that the page does not have.
"""

from __future__ import annotations

from becket.cards.foot import GOVERNS, release
from becket.cards.photo_svg import photo_svg
from becket.cards.qr import card_identity, qr_size, qr_svg
from becket.cards.record_told import Line, PhotoTold, RecordTold, Section
from becket.cards.sheet import Sheet
from becket.cards.typesetting import typeset

HASH_DIGITS = 16  # of the head hash in the code; the whole hash stands in the text
NOT_AS_KEPT = "NOT AS IT WAS KEPT"
FIRST_NAME_DIGITS = 12  # of the run's id in the title


def record_card(told: RecordTold, *, printed: str) -> bytes:
    """Return a record as PDF [-].

    Args:
        told: the record in words
        printed: date, as 2026-11-30

    Raises:
        UnreadableTextError: a date that is none.
    """
    sheet = record_sheet(told, printed=printed)
    return typeset((sheet,), title=sheet.title, printed=printed)


def record_sheet(told: RecordTold, *, printed: str) -> Sheet:
    """Return a record before it is set in type [-].

    Args:
        told: the record in words
        printed: date, as 2026-11-30
    """
    is_closed = told.status == "closed"
    data = {
        "title": told.title,
        "from_to": f"{told.state}. {told.what}",
        "crane": told.crane,
        "manual": told.manual,
        "name": f"record {told.run}",
        "not_for_use": None if is_closed else told.state,
        "signers": [
            {"role": one.role, "name": one.name, "licence": one.licence, "signed": one.signed} for one in told.signers
        ],
        "closing": told.closing,
        "broken": told.broken or None,
        "sections": [_section(one) for one in told.sections],
        "foot": _foot(told, printed),
    }
    title = f"{told.crane}: record {told.run[:FIRST_NAME_DIGITS]}" + ("" if is_closed else f", {told.state}")
    return Sheet(template="record", title=title, data=data)


def record_identity(told: RecordTold) -> str:
    """Return what the code of a record holds: the run and the chain's hash at its last entry [-].

    Args:
        told: the record in words
    """
    return card_identity("record", told.run, told.head_hash[:HASH_DIGITS])


def _foot(told: RecordTold, printed: str) -> dict[str, object]:
    identity = record_identity(told)
    state = f"Printed {printed}, book {told.book}, entry {told.last_number}, becket {release()}."
    return {
        "governs": GOVERNS,
        "cautions": [one for one in (told.broken and NOT_AS_KEPT, told.status != "closed" and told.state) if one],
        "state": state,
        "qr": qr_svg(identity),
        "qr_size": qr_size(identity),
        "qr_says": f"QR code: {identity}",
    }


def _section(one: Section) -> dict[str, object]:
    return {
        "title": one.title,
        "says": list(one.says),
        "lines": [_line(line) for line in one.lines],
        "photos": [_photo(photo) for photo in one.photos],
        "is_long": one.is_long,
        "is_count": one.is_count,
        "quiet": not one.lines and one.is_empty,
    }


def _photo(one: PhotoTold) -> dict[str, object]:
    alt = ". ".join(part for part in (one.title, one.note, *one.below[:1]) if part)
    shown = {"svg": photo_svg(one.data, one.width, one.height), "alt": alt} if one.data else None
    return {
        "title": one.title,
        "note": one.note,
        "below": list(one.below),
        "missing": one.missing,
        "picture": shown,
        "is_upright": one.height > one.width,
    }


def _line(one: Line) -> dict[str, object]:
    return {"label": one.label, "value": one.value, "below": list(one.below)}
