"""How much a request may bring.

In:    a request with a body.
Out:   the same, cut off where it grows too large.
Never: more than the bound in memory, whatever the sender says of its length.
"""

from __future__ import annotations

from collections.abc import Mapping
from contextlib import suppress
from typing import Final

from starlette.requests import ClientDisconnect
from starlette.types import ASGIApp, Message, Receive, Scope, Send

MOST: Final = 1_000_000  # bytes of one request
MOST_AT: Final[Mapping[str, int]] = {"/files": 17_000_000}  # setting file_size_most, and the form around it


class TooLargeError(Exception):
    """A request brings more than is taken; ``most`` in bytes."""

    def __init__(self, most: int) -> None:
        self.most = most
        super().__init__(f"more than {most} bytes")


class BodyBound:
    """Counts what comes in and stops at the bound."""

    def __init__(self, app: ASGIApp) -> None:
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass the request on with a bound on its body."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        most, seen = MOST_AT.get(scope["path"], MOST), 0

        async def bounded() -> Message:
            nonlocal seen
            message = await receive()
            seen += len(message.get("body", b""))
            if seen > most:
                raise TooLargeError(most)
            return message

        with suppress(ClientDisconnect):  # the signal went in the middle of it: there is nobody to answer to
            await self.app(scope, bounded, send)
