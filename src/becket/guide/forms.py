"""The form of what is entered, for each kind of event: what pages and rules work with.

In:    an event.
Out:   the name of the first part that has another form, and the form that it needs.
Never: a judgement of a value; a part that is not known here refused.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Final

from becket.guide.event import ROLES, Event

LONGEST_TEXT: Final = 5000  # characters of one part
_NAME: Final = re.compile(r"[A-Za-z0-9][A-Za-z0-9_.:-]{0,63}")


@dataclass(frozen=True, kw_only=True)
class Form:
    """What a part of an entry may be. ``told``: in words."""

    told: str
    fits: Callable[[object], bool]


def _is_text(value: object) -> bool:
    return isinstance(value, str) and len(value) <= LONGEST_TEXT


def _is_one(value: object) -> bool:
    return value is None or isinstance(value, bool | int | float) or _is_text(value)


def _is_whole(value: object) -> bool:
    return isinstance(value, int) and not isinstance(value, bool)


def _is_values(value: object) -> bool:
    if not isinstance(value, Mapping):
        return False
    return all(all(map(_is_one, one)) if isinstance(one, list) else _is_one(one) for one in value.values())


TEXT: Final = Form(told="text", fits=_is_text)
TEXT_OR_NONE: Final = Form(told="text or nothing", fits=lambda value: value is None or _is_text(value))
NAME: Final = Form(
    told="letters, digits, dashes", fits=lambda value: isinstance(value, str) and bool(_NAME.fullmatch(value))
)
ROLE: Final = Form(told=f"one of {', '.join(ROLES)}", fits=lambda value: value in ROLES)
WHOLE: Final = Form(told="a whole number", fits=_is_whole)
YES_OR_NO: Final = Form(told="true or false", fits=lambda value: isinstance(value, bool))
ONE: Final = Form(told="one value", fits=_is_one)
LIST: Final = Form(told="a list of text", fits=lambda value: isinstance(value, list) and all(map(_is_text, value)))
VALUES: Final = Form(told="values by name", fits=_is_values)
OWN_VALUES: Final = Form(
    told="values by item", fits=lambda value: isinstance(value, Mapping) and all(map(_is_values, value.values()))
)

NEEDED: Final[Mapping[str, tuple[str, ...]]] = {
    "person_added": ("id", "name"),
    "run_started": ("kind", "script"),
    "entered": ("item", "round"),
    "trouble_entered": ("what",),
    "pattern_read": ("state",),
    "photo_taken": ("photo", "bytes"),
}
_DIGITS: Final = {"salt": TEXT, "check": TEXT}
_ABOUT_GROUP: Final = {"group": TEXT, "round": WHOLE}
FORMS: Final[Mapping[str, Mapping[str, Form]]] = {
    "person_added": {"id": NAME, "name": TEXT, "role": ROLE, "licence": TEXT_OR_NONE, **_DIGITS},
    "digits_changed": {"id": NAME, "vouchers": LIST, **_DIGITS},
    "trouble_entered": {"what": TEXT, "note": TEXT_OR_NONE},
    "inspection_entered": {
        "by_whom": TEXT_OR_NONE,
        "found": TEXT_OR_NONE,
        "fit": YES_OR_NO,
        "licence": TEXT_OR_NONE,
        "note": TEXT_OR_NONE,
    },
    "pattern_read": {"state": TEXT, "book": TEXT_OR_NONE, "path": TEXT, "dead_end": TEXT},
    "run_started": {
        "kind": TEXT,
        "script": TEXT,
        "book": TEXT_OR_NONE,
        "before": TEXT_OR_NONE,
        "after": TEXT_OR_NONE,
        "operator": TEXT_OR_NONE,
        "rigger": TEXT_OR_NONE,
        "lot": ONE,
        "why": TEXT_OR_NONE,
    },
    "entered": {"item": TEXT, "round": WHOLE, "values": VALUES, "nonce": TEXT},
    "phone_joined": {"role": TEXT},
    "interrupted": {"part": TEXT},
    "count_again": _ABOUT_GROUP,
    "followed_by_hand": _ABOUT_GROUP,
    "stopped": {"item": TEXT_OR_NONE, "left": LIST, "told": ONE},
    "resumed": {"keepers_out": ONE, "last_sheave": ONE, "block": ONE, "operator": TEXT_OR_NONE, "rigger": TEXT_OR_NONE},
    "went_on_from_paper": {"item": TEXT_OR_NONE, "sheet": ONE, "by": ONE},
    "signed": {"role": TEXT, "values": OWN_VALUES},
    "noted": {"text": TEXT_OR_NONE, "note": TEXT_OR_NONE, "about": TEXT_OR_NONE},
}


def odd_part(event: Event) -> tuple[str, str] | None:
    """Return the part of an entry that has another form than pages and rules work with, and the form; None: none [-].

    Args:
        event: good as an event
    """
    forms = FORMS.get(event.kind, {})
    for name in NEEDED.get(event.kind, ()):
        if name not in event.entered:
            return name, forms[name].told if name in forms else "there"
    return next(
        (
            (name, form.told)
            for name, form in forms.items()
            if name in event.entered and not form.fits(event.entered[name])
        ),
        None,
    )
