"""The QR code of a card."""

from __future__ import annotations

from xml.etree import ElementTree

import segno

from becket.cards.qr import card_identity, qr_size, qr_svg

LONGEST = card_identity("pattern", "16", "8bbdbe84c13ed738", "b0dc2c72917ebcac")


def test_the_identity_packs_tightly_and_holds_no_address() -> None:
    assert LONGEST == "BECKET/1/PATTERN/16/8BBDBE84C13ED738/B0DC2C72917EBCAC"
    assert segno.make(LONGEST, error="m", micro=False, boost_error=False).mode == "alphanumeric"
    assert ":" not in LONGEST


def test_a_module_is_printed_wide_enough_to_be_read_off_a_worn_card() -> None:
    """The visual language of the cards asks for 0.75 mm a module and four modules left white."""
    for text in (LONGEST, card_identity("count"), card_identity("change", "0" * 16, "0" * 16)):
        code = segno.make(text, error="m", micro=False, boost_error=False)
        assert code.error == "M"
        modules = code.symbol_size(scale=1, border=4)[0]
        assert qr_size(text) / modules >= 0.75
        assert 29.0 <= qr_size(text) <= 32.0


def test_the_picture_is_one_shape_on_white_with_its_quiet_zone() -> None:
    root = ElementTree.fromstring(qr_svg(LONGEST))
    modules = segno.make(LONGEST, error="m", micro=False, boost_error=False).symbol_size(scale=1, border=4)[0]
    assert root.attrib["width"] == str(modules)
