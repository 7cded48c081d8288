"""The photos of a pattern, as its page shows them.

In:    events of a crane and of the firm.
Out:   each photo with who took it and when.
Never: a photo told as a confirmation.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from becket.guide.event import Event
from becket.guide.photo import Photo
from becket.web.photos import photos_of_pattern
from becket.web.present.record_kept import day_words, people_of


@dataclass(frozen=True, kw_only=True)
class PhotoShown:
    """One photo on the page of a pattern."""

    photo: Photo
    kept: str | None
    width: int  # [px]
    height: int  # [px]
    name: str
    at: str


def photos_shown(events: Sequence[Event], state: str) -> tuple[PhotoShown, ...]:
    """Return the photos that were taken on the page of a pattern [-].

    Args:
        events: of the crane and of the firm, in order
        state: of the pattern
    """
    people = people_of(events)
    found = []
    for one in photos_of_pattern(events, state):
        who, at = people.get(str(one.event.person)), one.event.at
        shown = PhotoShown(
            photo=one.photo,
            kept=one.kept,
            width=one.width,
            height=one.height,
            name=who.name if who else str(one.event.person),
            at=f"{day_words(at)} {datetime.fromisoformat(at):%H:%M}",
        )
        found.append(shown)
    return tuple(found)
