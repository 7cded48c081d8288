"""The count slip: two persons count, each alone, on halves of one paper that fold away from each other.

In:    the date.
Out:   a sheet; the slip as PDF.
Never: a crane, a pattern, a number that one of the two could copy.
"""

from __future__ import annotations

from becket.cards.foot import GOVERNS
from becket.cards.sheet import Sheet
from becket.cards.typesetting import typeset

RIGGER = ("ropes that carry the block", 26), ("block sheaves with rope", 38), ("keepers in the grooves, counted in", 26)
OPERATOR = ("head sheaves with rope", 38), ("rope ends on: head or block", 38), ("indicator setting read", 26)
SIGN = ("time, name", 60)
COMPARE = (
    "Unfold together. Twice the head sheaves with rope, less one if the rope ends on the block, must equal the ropes "
    "and the setting."
)
DIFFER = "If not, nobody moves the crane: new slip, both count again."


def count_slip(*, printed: str) -> bytes:
    """Return the count slip as PDF [-].

    Args:
        printed: date, as 2026-11-30; it does not stand on the slip
    """
    sheet = count_sheet()
    return typeset((sheet,), title=sheet.title, printed=printed)


def count_sheet() -> Sheet:
    """Return the count slip before it is set in type [-]."""
    data = {
        "rigger": _half("RIGGER alone, at the block", "Touch each rope. Nobody tells you a number.", RIGGER),
        "operator": _half(
            "OPERATOR alone, at the head", "Do not unfold. Look at the head, then the indicator.", OPERATOR
        ),
        "fold": "Fold back on the dashes. Hand over.",
        "compare": COMPARE,
        "differ": DIFFER,
        "foot": {"governs": GOVERNS},
    }
    return Sheet(template="count", title="Count slip", data=data)


def _half(who: str, how: str, asked: tuple[tuple[str, int], ...]) -> dict[str, object]:
    return {"who": who, "how": how, "asked": [{"name": name, "width": width} for name, width in (*asked, SIGN)]}
