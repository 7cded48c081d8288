"""Limit of the block that turns about the upright axis.

In:    one number of falls of a lift.
Out:   one limit.
Never: other limits; a guessed place or torque factor.
"""

from __future__ import annotations

from math import degrees, inf, sin

from becket.limits.answer import Limit
from becket.limits.case import Case
from becket.limits.figures import Missing, on_file, trouble_of, worked_out
from becket.limits.judging import in_doubt, judge, troubled, without_figures
from becket.limits.wording import length_asked, length_there
from becket.verdict import Verdict

NAME = "twist"
WHERE = "lowest hook, steepest boom"


def twist(case: Case) -> Limit:
    """Return whether the rope's own torque leaves the block hanging straight [m].

    Asked is the greatest fall length of the lift. There is the fall length at which the rope turns the block by
    the setting ``twist_pass``, from the places of all falls and of the dead end and the rope's torque factor.

    Fail: it would turn beyond the setting ``twist_fail``. Unknown: it turns by an angle between the two; a place
    of a fall, the torque factor or the pattern is missing. One fall is not a tackle: it passes with a
    rotation-resistant rope that the book allows on a swivel and a block that has one, else it is unknown. No number
    of falls passes with a rope whose falls were seen turning: the formula knows no turns that are stored in the rope.

    Args:
        case: one number of falls

    Source: docs/theory/twist.md, eq. 1 to 5.
    """
    limit = _one_fall(case) if case.falls == 1 else _falls(case)
    seen = case.shared.book.rope.seen_turning
    if seen is None or limit.verdict is Verdict.FAIL:
        return limit
    return in_doubt(
        limit,
        f"The falls were seen turning on {seen} (rope.seen_turning): turns are stored in the rope. "
        "Take them out, see the falls hang straight on a trial lift, then take that line out of the book.",
    )


def _falls(case: Case) -> Limit:
    settings = case.shared.settings
    longest = case.twist_length
    need = worked_out(lambda fall: max(fall, 0.0), case.shared.geometry.greatest_fall)
    have = worked_out(lambda length: length * sin(settings.twist_pass), longest)
    limit = judge(
        NAME,
        "m",
        WHERE,
        need=need,
        have=have,
        said=lambda fall, there: (
            f"The falls are up to {length_asked(fall)} long; up to {_length(there)} the rope turns the block by no "
            f"more than {degrees(settings.twist_pass):.0f} deg ({settings.named('twist_pass')})."
        ),
    )
    if limit.verdict is Verdict.FAIL and isinstance(longest, float) and isinstance(need, float):
        last = longest * sin(settings.twist_fail)
        if need <= last:
            return in_doubt(
                limit,
                f"Up to {_length(last)}, {degrees(settings.twist_fail):.0f} deg ({settings.named('twist_fail')}), "
                "it is not proven: watch the falls on a trial lift.",
            )
    return limit


def _one_fall(case: Case) -> Limit:
    rope, block = case.shared.book.rope, case.shared.block
    answers = (
        on_file(rope.rotation_resistant, "rope.rotation_resistant"),
        on_file(rope.swivel, "rope.swivel"),
        on_file(block.swivel, "blocks.*.swivel", block.name),
    )
    if any(isinstance(answer, Missing) for answer in answers):
        return troubled(NAME, "m", WHERE, trouble_of(answers))
    if all(answers):
        return without_figures(
            NAME,
            Verdict.PASS,
            WHERE,
            f"One fall: the rope is rotation resistant and may run on the swivel that the block {block.name} has.",
        )
    lacking = [
        words
        for answer, words in zip(
            answers,
            ("a rotation-resistant rope", "a rope that the book allows on a swivel", "a block with a swivel"),
            strict=True,
        )
        if not answer
    ]
    return without_figures(
        NAME, Verdict.UNKNOWN, WHERE, f"One fall turns with the rope; it would need {' and '.join(lacking)}."
    )


def _length(length: float) -> str:
    return "any length" if length == inf else length_there(length)
