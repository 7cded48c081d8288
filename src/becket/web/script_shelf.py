"""The scripts that are kept, read from the store when they are asked for.

In:    the store; ids of scripts; scripts that were just made.
Out:   scripts by id.
Never: more of them in memory than the bound; a script that is not kept.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from threading import RLock
from typing import Final

from becket.guide.event import Event
from becket.guide.script import Script, read_script, script_text
from becket.records.store import Store
from becket.web.remembered import Remembered

_IN_MEMORY: Final = 32  # scripts with their pictures, about half a megabyte each
_BARE: Final = 1000  # without: the rules look at two of each crane at every event, at nothing that is drawn


class ScriptShelf:
    """The kept scripts of a store. Its methods may be called from several threads."""

    def __init__(self, store: Store) -> None:
        self._store = store
        self._read: Remembered[Script] = Remembered(_IN_MEMORY)
        self._bare: Remembered[Script] = Remembered(_BARE)
        self._lock = RLock()

    def forget(self) -> None:
        """Forget what was read: the store is another [-]."""
        with self._lock:
            self._read.forget()
            self._bare.forget()

    def keep(self, script: Script) -> str:
        """Return the id of a script, which is kept from now on [-].

        Args:
            script: just made

        Raises:
            CannotKeepError: the store does not take it.
        """
        with self._lock:
            name = self._store.keep_document("script", script_text(script))
            self._read.keep(name, script)
            return name

    def find(self, name: str) -> Script | None:
        """Return a kept script by its id; None: it is not kept here [-].

        Args:
            name: its fingerprint
        """
        with self._lock:
            try:
                return self._read.once(name, lambda: self._from_store(name))
            except LookupError:
                return None

    def of(self, events: Iterable[Event]) -> dict[str, Script]:
        """Return the scripts that runs among these events began with, by id, without their pictures; one that is not \
        kept here is left out [-].

        Args:
            events: of any runs
        """
        names = {str(event.entered.get("script")) for event in events if event.kind == "run_started"}
        found = {name: self._without_pictures(name) for name in sorted(names)}
        return {name: one for name, one in found.items() if one is not None}

    def _without_pictures(self, name: str) -> Script | None:
        with self._lock:
            try:
                return self._bare.once(name, lambda: replace(self._from_store(name), pictures={}))
            except LookupError:
                return None

    def _from_store(self, name: str) -> Script:
        document = self._store.document(name)
        if document is None or document.kind != "script":
            raise LookupError(name)
        return read_script(document.text)
