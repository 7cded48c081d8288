"""A real server that dies at a place that is named: forked from one process, so that a start costs no import.

In:    a line of JSON for each server: folder, address of the database, place.
Out:   lines of JSON: it listens (its process, its port), it is at the place, it is gone (the signal).
Never: a change to the product: what dies is put around its calls from here.
"""

from __future__ import annotations

import json
import os
import signal
import sys
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

from sqlalchemy import event
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from becket.records import append
from becket.records.store import Store
from becket.web.serving import Wanted, open_door, serve

Around = Callable[..., Any]


def die() -> None:
    """Say that the place was reached; end as kill -9 ends it."""
    os.write(sys.stdout.fileno(), b'{"died": "there"}\n')
    os.kill(os.getpid(), signal.SIGKILL)


class Countdown:
    """Dies when it is called for the n-th time."""

    def __init__(self, left: int) -> None:
        self.left = left

    def __call__(self, *_: Any) -> None:
        """Count one more."""
        self.left -= 1
        if self.left == 0:
            die()


def before(of: Any, name: str, dies: Countdown) -> None:
    """Die before a call."""
    real: Around = getattr(of, name)

    def around(*given: Any, **named: Any) -> Any:
        dies()
        return real(*given, **named)

    setattr(of, name, around)


def after(of: Any, name: str, dies: Countdown) -> None:
    """Die after a call, before its caller hears of it."""
    real: Around = getattr(of, name)

    def around(*given: Any, **named: Any) -> Any:
        found = real(*given, **named)
        dies()
        return found

    setattr(of, name, around)


class Answering:
    """Dies when an answer goes out: before its head, or between head and body."""

    def __init__(self, app: ASGIApp, kind: str, dies: Countdown) -> None:
        self.app, self.kind, self.dies = app, kind, dies

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass the request on."""

        async def sent(message: Message) -> None:
            if message["type"] == self.kind:
                self.dies()
            await send(message)

        await self.app(scope, receive, sent)


def place_death(kind: str, count: int, store: Store, app: ASGIApp) -> ASGIApp:
    """Return the application with its death at a place; "late": somebody else kills it."""
    dies = Countdown(count)
    if kind in ("before-answer", "in-answer"):
        return Answering(app, "http.response.start" if kind == "before-answer" else "http.response.body", dies)
    if kind == "statement":
        event.listen(store.database.engine, "before_cursor_execute", dies)
    elif kind == "commit":
        event.listen(store.database.engine, "commit", dies)
    elif kind == "committed":
        after(Store, "append", dies)
    elif kind == "chaining":
        after(append, "row_of", dies)
    elif kind == "syncing":
        before(os, "fsync", dies)
    elif kind == "synced":
        after(os, "fsync", dies)
    elif kind == "replaced":
        after(Path, "replace", dies)
    elif kind == "unlinking":
        before(Path, "unlink", dies)
    return app


def serve_one(told: dict[str, Any]) -> None:
    """Serve until death."""
    door = open_door(Wanted(folder=Path(told["folder"]), database=told["url"]))
    assert door.socket is not None
    app = place_death(told["kind"], told["count"], door.house.store, door.app)
    say(pid=os.getpid(), port=door.socket.getsockname()[1])
    serve(replace(door, app=app), lambda _: None)  # type: ignore[arg-type]


def say(**what: Any) -> None:
    """Print one line."""
    print(json.dumps(what), flush=True)


def main() -> None:
    """Serve one server after another."""
    for line in sys.stdin:
        pid = os.fork()
        if pid == 0:
            serve_one(json.loads(line))
            os._exit(0)
        say(ended=os.waitstatus_to_exitcode(os.waitpid(pid, 0)[1]))


if __name__ == "__main__":
    main()
