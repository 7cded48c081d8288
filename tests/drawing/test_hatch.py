"""Hatch stays inside its box; the band says NOT CONFIRMED whole."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon as Area
from shapely.geometry import box

from becket.drawing.hatch import NOT_CONFIRMED, band_height, confirm_band, hatch
from becket.drawing.picture import Text


@given(st.floats(0, 50), st.floats(0, 50), st.floats(5, 200), st.floats(5, 200))
@settings(derandomize=True, deadline=None, max_examples=60)
def test_stripes_stay_inside_and_are_half_of_it(x: float, y: float, width: float, height: float) -> None:
    """Cut at the edges, apart from one another; about half the area where the box holds many stripes."""
    stripes = [Area(one.points) for one in hatch((x, y, x + width, y + height))]
    whole = box(x, y, x + width, y + height)
    assert all(whole.buffer(1e-6).contains(stripe) for stripe in stripes)
    inked = sum(stripe.area for stripe in stripes)
    if min(width, height) > 60:
        assert inked == pytest.approx(whole.area / 2, rel=0.15)


@pytest.mark.parametrize("width", [220.0, 360.0, 655.0])
def test_the_band_holds_its_words(width: float) -> None:
    texts = [s for s in confirm_band(width, 40) if isinstance(s, Text)]
    assert " ".join(text.text for text in texts) == NOT_CONFIRMED
    for text in texts:
        left, top, right, bottom = text.box
        assert (left >= 0, right <= width, top >= 40, bottom <= 40 + band_height(width)) == (True,) * 4
