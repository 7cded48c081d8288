"""Numbers of a finding never look better than they are."""

from __future__ import annotations

from math import degrees

from hypothesis import given, settings
from hypothesis import strategies as st

from becket.reeving.wording import degrees_asked, metres_asked, metres_there, millimetres_asked, millimetres_there

LENGTHS = st.floats(0, 500, allow_nan=False)


@given(LENGTHS, st.floats(-3, 3))
@settings(derandomize=True, deadline=None, max_examples=200)
def test_asked_goes_up_and_there_goes_down(length: float, angle: float) -> None:
    slack = 1e-9
    assert float(millimetres_there(length).split()[0]) - slack <= 1000 * length
    assert float(millimetres_asked(length).split()[0]) + slack >= 1000 * length
    assert float(metres_there(length).split()[0]) - slack <= length <= float(metres_asked(length).split()[0]) + slack
    assert abs(float(degrees_asked(angle).split()[0])) + slack >= abs(degrees(angle))
