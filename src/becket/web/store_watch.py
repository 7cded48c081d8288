"""Whether the store is still the one that was read: a backup may have been restored in its place.

In:    the store.
Out:   yes, or what was remembered of it is forgotten.
Never: anything remembered of another store.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable

from becket.records.kept import Mark
from becket.records.store import Store


class StoreWatch:
    """Looks at the store before what is remembered of it is used. For one thread at a time."""

    def __init__(self, store: Store, forgets: Iterable[Callable[[], None]]) -> None:
        self._store, self._forgets = store, tuple(forgets)
        self._mark: Mark | None = None

    def look(self) -> None:
        """Forget everything where the store does not go on from what it was [-].

        Raises:
            CannotKeepError: the store cannot be read.
            BrokenStoreError: it is damaged.
        """
        self._mark, goes_on = self._store.mark(self._mark)
        if not goes_on:
            for forget in self._forgets:
                forget()
