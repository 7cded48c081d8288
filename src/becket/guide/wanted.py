"""Whether words tell what a blind entry wants.

In:    words, fields.
Out:   yes or no.
Never: a judgement of an entry.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from becket.guide.script import Field


def tells_what_is_wanted(text: str, fields: Sequence[Field]) -> bool:
    """Return whether a text holds a value that one of the fields wants, as a word or as a number [-].

    Args:
        text: shown
        fields: of a blind item

    >>> wanted = [Field(name="override", kind="choice", prompt="", want="off")]
    >>> tells_what_is_wanted("Override off, key out.", wanted), tells_what_is_wanted("Nobody is offered.", wanted)
    (True, False)
    """
    return any(_holds(text, field.want) for field in fields if field.want is not None)


def _holds(text: str, want: object) -> bool:
    if isinstance(want, (int, float)):
        return any(float(found) == want for found in re.findall(r"(?<![\w.-])\d+(?:\.\d+)?", text))
    if isinstance(want, (list, tuple)):
        return any(_holds(text, one) for one in want)
    return re.search(rf"(?<!\w){re.escape(str(want))}(?!\w)", text, re.IGNORECASE) is not None
