"""US Navy training manual Builder 3 & 2, p. 48: tackle without friction (edition and year not seen)."""

from __future__ import annotations

from becket.mechanics.tackle import lead_line_pull


def test_single_luff() -> None:
    """Page 48: 600 lb on a tackle of mechanical advantage 3, no friction: 200 lb."""
    assert lead_line_pull(600.0, 3, 1.0, 0) == 200.0
