"""The three answers of a check: pass, fail, unknown.

In:    nothing.
Out:   a value that is never true or false, so that unknown cannot be taken for pass.
Never: reasons, numbers.
"""

from __future__ import annotations

from collections.abc import Iterable
from enum import Enum
from typing import NoReturn


class Verdict(Enum):
    """Pass, fail or unknown. It has no truth value on purpose."""

    PASS = "pass"
    FAIL = "fail"
    UNKNOWN = "unknown"

    def __bool__(self) -> NoReturn:
        raise TypeError("a verdict is neither true nor false: compare it with Verdict.PASS")

    def __str__(self) -> str:
        return self.value


def worst(verdicts: Iterable[Verdict]) -> Verdict:
    """Return fail if any is fail, else unknown if any is unknown, else pass [-].

    Nothing to judge is unknown: silence is not a pass.

    >>> str(worst([Verdict.PASS, Verdict.UNKNOWN]))
    'unknown'
    >>> str(worst([]))
    'unknown'
    """
    every = list(verdicts)
    if any(v is Verdict.FAIL for v in every):
        return Verdict.FAIL
    if not every or any(v is Verdict.UNKNOWN for v in every):
        return Verdict.UNKNOWN
    return Verdict.PASS
