"""The count slip: blind."""

from __future__ import annotations

import re

from becket.cards.count_slip import count_slip
from tests.cards.reading import page_sizes, page_texts


def test_the_slip_holds_no_number_at_all() -> None:
    (text,) = page_texts(count_slip(printed="2026-11-30"))
    assert re.findall(r"\d", text) == []


def test_each_person_finds_what_to_count_and_what_to_do_when_they_differ() -> None:
    (text,) = page_texts(count_slip(printed="2026-11-30"))
    above, below = text.split("Hand over.")
    for words in ("RIGGER alone, at the block", "ropes that carry the block", "block sheaves with rope", "keepers"):
        assert words in above
    for words in ("OPERATOR alone, at the head", "head sheaves with rope", "rope ends on", "indicator setting read"):
        assert words in below
    assert "nobody moves the crane: new slip, both count again." in below
    assert "competent persons on site govern" in text


def test_it_is_one_a5_page_upright_the_same_for_every_day() -> None:
    assert page_sizes(count_slip(printed="2026-11-30")) == [(148, 210)]
    assert page_texts(count_slip(printed="2026-11-30")) == page_texts(count_slip(printed="2027-01-01"))
