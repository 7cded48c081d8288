"""The order in which a run asks its items: as the script has them, two of a pair by lot.

In:    a script, the lot that was drawn as the run began.
Out:   items in order; pairs that stand side by side.
Never: chance: the lot is an event like every other.
"""

from __future__ import annotations

from becket.guide.reading import is_whole
from becket.guide.script import Item, Script

SIGN = "sign"  # the part whose items are done by signing
PAUSE = "pause"  # the parts that start again when they are broken off


def items_in_turn(script: Script, lot: object) -> tuple[Item, ...]:
    """Return the items in the order of a run [-].

    Args:
        script: of the run
        lot: whole number; bit k set: the two items of pair k change places. Anything else is taken as 0.
    """
    drawn = int(lot) if is_whole(lot) and lot >= 0 else 0
    items = list(script.items)
    for number, (first, second) in enumerate(_pairs(script)):
        if drawn >> number & 1:
            items[first], items[second] = items[second], items[first]
    return tuple(items)


def partners(script: Script) -> dict[str, str]:
    """Return, for each item of a pair by lot whose two stand side by side, the other one [-].

    Args:
        script: of the run
    """
    found = {}
    for first, second in _pairs(script):
        if second == first + 1:
            one, other = script.items[first].id, script.items[second].id
            found[one], found[other] = other, one
    return found


def _pairs(script: Script) -> list[tuple[int, int]]:
    """Return the places of the two items of every pair by lot."""
    pairs = []
    for place, item in enumerate(script.items):
        if not item.by_lot or item.group is None:
            continue
        after = range(place + 1, len(script.items))
        second = next((one for one in after if script.items[one].group == item.group), None)
        if second is not None:
            pairs.append((place, second))
    return pairs


def pauses(script: Script) -> tuple[str, ...]:
    """Return the names of the pauses of a script, in order [-].

    Args:
        script: of the run
    """
    return tuple(dict.fromkeys(item.part for item in script.items if item.part.startswith(PAUSE)))
