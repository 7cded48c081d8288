"""What hangs on the boom beside the load: parts stowed on it and the second line.

In:    a book and a lift.
Out:   masses, or which figure is missing.
Never: a verdict; a deduction read between two boom lengths.
"""

from __future__ import annotations

from becket.book.charts import Stowed
from becket.book.crane import Book
from becket.book.jobs import Lift
from becket.limits.figures import Impossible, Missing, missing, on_file, worked_out
from becket.limits.geometry import LENGTH_SLACK


def second_line_mass(book: Book) -> float | Missing:
    """Return what hangs on the second line, its rope included [kg].

    Args:
        book: the crane
    """
    return missing("second_line") if book.second_line is None else book.second_line.mass


def stowed_mass(book: Book, lift: Lift) -> float | Missing | Impossible:
    """Return what is deducted for parts stowed on the boom at this boom length [kg].

    Args:
        book: the crane
        lift: with its boom length

    Source: docs/theory/limits.md, "What hangs".
    """
    if book.stowed is None:
        return missing("stowed")
    if not book.stowed:
        return 0.0
    boom = on_file(lift.boom, "lift.boom")
    masses = [worked_out(_deduction, part, boom) for part in book.stowed]
    return worked_out(lambda *each: sum(each), *masses)


def _deduction(part: Stowed, boom: float) -> float | Missing:
    same = [mass for length, mass in part.deduct.items() if abs(length - boom) <= LENGTH_SLACK]
    return max(same) if same else missing("stowed.deduct", part.name)
