"""Where a quantity is zero."""

from math import cos, pi

import pytest
from scipy.optimize import brentq

from becket.method.root import zero_between


@pytest.mark.parametrize("power", [1, 3, 5, 9])
def test_agrees_with_brent(power: int) -> None:
    def quantity(x: float) -> float:
        return x**power - 0.3

    found = zero_between(quantity, 0.0, 2.0)
    assert found is not None
    assert found == pytest.approx(brentq(quantity, 0.0, 2.0), abs=1e-6)


def test_an_end_that_is_zero_is_the_place() -> None:
    assert zero_between(lambda x: x, 0.0, 1.0) == 0.0
    assert zero_between(lambda x: x - 1, 0.0, 1.0) == 1.0


def test_no_change_of_sign_is_no_place() -> None:
    assert zero_between(lambda x: cos(x) + 2, 0.0, pi) is None
