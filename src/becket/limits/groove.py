"""Limit of the rope's diameter in head, block and fitting.

In:    one number of falls of a lift.
Out:   one limit.
Never: other limits.
"""

from __future__ import annotations

from becket.limits.answer import Limit
from becket.limits.case import Case
from becket.limits.figures import Missing, on_file, trouble_of
from becket.limits.judging import troubled, without_figures
from becket.verdict import Verdict

SAME = 1e-6  # two nominal diameters nearer than this are one [m]


def groove(case: Case) -> Limit:
    """Return whether head, block and dead-end fitting are made for the rope that is on [m].

    All four have the same nominal diameter. A ball has no groove, its socket counts.

    Fail: one differs. Unknown: one is missing and none differs.

    Args:
        case: one number of falls

    Source: docs/theory/limits.md, "Counts".
    """
    book, block = case.shared.book, case.shared.block
    rope = book.rope.diameter
    parts = {
        "the head": on_file(book.head.rope_diameter, "head.rope_diameter"),
        f"the block {block.name}": on_file(block.rope_diameter, "blocks.*.rope_diameter", block.name),
        "the dead-end fitting": on_file(book.dead_end.rope_diameter, "dead_end.rope_diameter"),
    }
    for part, made_for in parts.items():
        if not isinstance(made_for, Missing) and abs(made_for - rope) > SAME:
            return Limit(
                name="groove",
                verdict=Verdict.FAIL,
                use=None,
                have=made_for,
                need=rope,
                unit="m",
                where=f"at {part}",
                why=f"The rope is {_millimetres(rope)}; {part} is made for {_millimetres(made_for)}.",
            )
    figures = tuple(parts.values())
    if any(isinstance(figure, Missing) for figure in figures):
        return troubled("groove", "m", "at head, block and dead end", trouble_of(figures), need=rope)
    return without_figures(
        "groove",
        Verdict.PASS,
        "at head, block and dead end",
        f"The rope is {_millimetres(rope)}, as head, block and dead-end fitting are made for.",
    )


def _millimetres(diameter: float) -> str:
    return f"{1000 * diameter:.5g} mm"
