"""What was worked out before, as much of it as there is room for.

In:    a key that names everything that the work depends on; the work.
Out:   its result, the same for the same key.
Never: more results than the bound: those that were asked for longest ago go.
"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Hashable
from typing import Generic, TypeVar

T = TypeVar("T")


class Remembered(Generic[T]):
    """Results by their keys. For one thread at a time."""

    def __init__(self, most: int) -> None:
        self._most = most
        self._found: OrderedDict[Hashable, T] = OrderedDict()

    def __len__(self) -> int:
        return len(self._found)

    def forget(self) -> None:
        """Forget everything [-]."""
        self._found.clear()

    def once(self, key: Hashable, work: Callable[[], T]) -> T:
        """Return what was worked out before under this key, or work it out now [-].

        Args:
            key: names everything that the work depends on
            work: gives the result; what it raises is not remembered
        """
        if key in self._found:
            self._found.move_to_end(key)
            return self._found[key]
        return self.keep(key, work())

    def find(self, key: Hashable) -> T | None:
        """Return what was worked out before under this key; None: it is not there, or was None [-].

        Args:
            key: as it was kept under
        """
        if key not in self._found:
            return None
        self._found.move_to_end(key)
        return self._found[key]

    def keep(self, key: Hashable, found: T) -> T:
        """Return a result, which is remembered from now on [-].

        Args:
            key: names everything that it depends on
            found: the result
        """
        self._found[key] = found
        self._found.move_to_end(key)
        while len(self._found) > self._most:
            self._found.popitem(last=False)
        return found
