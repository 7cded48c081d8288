"""What hangs on the boom beside the load: stowed parts and the second line.

In:    a lift.
Out:   a mass, or which figure is missing.
Never: a verdict; a deduction read between two boom lengths.
"""

from __future__ import annotations

from becket.book.charts import Stowed
from becket.limits.case import Figure, LiftCase
from becket.limits.figures import Missing, missing, on_file, worked_out
from becket.limits.geometry import LENGTH_SLACK


def hung_aside(shared: LiftCase, is_stowed_counted: bool) -> Figure:
    """Return what hangs on the boom and on the second line [kg].

    Args:
        shared: the lift
        is_stowed_counted: whether what is stowed counts as load

    Source: docs/theory/limits.md, "What hangs".
    """
    second = on_file(shared.book.second_line, "second_line")
    line = worked_out(lambda there: there.mass, second)
    stowed = stowed_mass(shared) if is_stowed_counted else worked_out(lambda _: 0.0, on_file(shared.book.stowed, "stowed"))
    return worked_out(lambda a, b: a + b, line, stowed)


def stowed_mass(shared: LiftCase) -> Figure:
    """Return what is deducted for parts stowed on the boom at this boom length [kg].

    A length between two printed ones takes the greater deduction of both neighbours.

    Args:
        shared: the lift

    Source: docs/theory/limits.md, "What hangs".
    """
    stowed = shared.book.stowed
    if stowed is None:
        return missing("stowed")
    masses = [worked_out(lambda boom, part=part: _deduction(part, boom), _boom(shared)) for part in stowed]
    return worked_out(lambda *each: sum(each), *masses)


def _boom(shared: LiftCase) -> float | Missing:
    return on_file(shared.lift.boom, "lift.boom")


def _deduction(part: Stowed, boom: float) -> float | Missing:
    same = [mass for length, mass in part.deduct.items() if abs(length - boom) <= LENGTH_SLACK]
    if same:
        return max(same)
    shorter = [length for length in part.deduct if length < boom]
    longer = [length for length in part.deduct if length > boom]
    if not shorter or not longer:
        return missing("stowed.deduct", part.name)
    return max(part.deduct[max(shorter)], part.deduct[min(longer)])
