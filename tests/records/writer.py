"""A process that appends without end and says on its standard output what was acknowledged; to be killed.

In:    address of a store, a name for its keys, how many events at once.
Out:   a line ``KEY NUMBER`` for each acknowledged event.
Never: an end of its own before 10,000 events.
"""

from __future__ import annotations

import os
import sys

from becket.records.store import Store
from tests.records.invented import NOON, an_event


def main(url: str, name: str, at_once: int) -> None:
    """Append and acknowledge."""
    store = Store.open(url)
    os.write(1, b"open\n")
    for start in range(1, 10_000, at_once):
        events = [an_event(n, key=f"{name}.{n}", device=name) for n in range(start, start + at_once)]
        outcomes = store.append(events, NOON)
        os.write(1, "".join(f"{one.key} {one.number}\n" for one in outcomes).encode())  # one write: a line is whole


if __name__ == "__main__":
    main(sys.argv[1], sys.argv[2], int(sys.argv[3]))
