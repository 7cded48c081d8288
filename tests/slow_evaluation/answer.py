"""What the slow evaluation answers.

In:    a verdict, a use, how near the deciding threshold is.
Out:   frozen records.
Never: the product's own answers.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from becket.verdict import Verdict

LIMIT_NAMES = (
    "lead_line_pull",
    "rope_strength",
    "dead_end",
    "makers_table",
    "block_rating",
    "block_sheaves",
    "groove",
    "head_sheaves",
    "pattern",
    "rope_length",
    "wraps",
    "overhaul",
    "twist",
    "fleet_angle",
    "tilt",
    "head_clearance",
    "chart",
)


class MissingError(Exception):
    """A figure that a limit needs is not on file: the limit is unknown."""


class BrokenError(Exception):
    """The lift cannot be done like this whatever else is on file: the limit fails."""


@dataclass(frozen=True, kw_only=True)
class SlowLimit:
    """One limit as the slow evaluation sees it.

    ``nearness`` is the relative distance to the nearest threshold. ``either``: a figure is missing and one that is
    there fails already; the documents do not rank unknown and fail then, and neither is a pass.
    """

    verdict: Verdict
    use: float | None = None
    nearness: float = 1.0
    either: bool = False
    why: str = ""


@dataclass(frozen=True, kw_only=True)
class SlowRow:
    """One number of falls. None: cannot be worked out."""

    falls: int
    limits: dict[str, SlowLimit]
    lead_line_pull: float | None
    dead_end_pull: float | None
    layer: int | None
    rope_needed: float | None
    wraps_left: float | None
    hook_speed: float | None


@dataclass(frozen=True, kw_only=True)
class SlowAnswer:
    """The whole table."""

    recommended: int | None
    unproven: int | None
    rows: tuple[SlowRow, ...]
    too_many: SlowRow  # one fall more than head and block can carry


def need(figure: float | None, name: str) -> float:
    """Return the figure, or say that it is missing [its own unit]."""
    if figure is None:
        raise MissingError(name)
    return figure


def harshest(parts: Sequence[Callable[[], SlowLimit]]) -> SlowLimit:
    """Return the worst part; a part that fails decides although another is missing [-]."""
    answers = []
    for part in parts:
        try:
            answers.append(part())
        except MissingError as missing:
            answers.append(SlowLimit(verdict=Verdict.UNKNOWN, why=f"missing: {missing}"))
        except BrokenError as broken:
            answers.append(SlowLimit(verdict=Verdict.FAIL, why=str(broken)))
    said = [answer.verdict for answer in answers]
    verdict = Verdict.FAIL if Verdict.FAIL in said else Verdict.UNKNOWN if Verdict.UNKNOWN in said else Verdict.PASS
    missing_too = Verdict.FAIL in said and any(answer.why.startswith("missing") for answer in answers)
    return SlowLimit(
        verdict=verdict,
        use=max((a.use for a in answers if a.use is not None), default=None),
        nearness=min(a.nearness for a in answers),
        either=missing_too or any(answer.either for answer in answers),
        why="; ".join(answer.why for answer in answers if answer.verdict is verdict and answer.why),
    )
