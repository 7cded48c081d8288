"""Which entries of a run nobody may see yet: one person's count while the other has not counted.

In:    the script and the events of one run.
Out:   keys of events.
Never: a key left out because the entry looks wrong: a count out of turn tells a number too.
"""

from __future__ import annotations

from collections.abc import Iterable

from becket.guide.event import Event
from becket.guide.reading import is_whole
from becket.guide.run import course_of
from becket.guide.script import Script


def sealed_keys(script: Script, events: Iterable[Event]) -> frozenset[str]:
    """Return the keys of the blind entries whose group is not complete in that round or a later one [-].

    Args:
        script: of the run
        events: of this run alone, in any order

    Source: docs/theory/run.md, what is sealed.
    """
    all_events = tuple(events)
    course = course_of(script, all_events)
    if course.closed_by is not None:
        return frozenset()
    blind = {item.id: item.group for item in script.items if course.is_blind(item)}
    sealed = set()
    for event in all_events:
        group = blind.get(str(event.entered.get("item"))) if event.kind == "entered" else None
        counted = event.entered.get("round")
        if group is not None and not (is_whole(counted) and counted <= course.complete.get(group, 0)):
            sealed.add(event.key)
    return frozenset(sealed)
