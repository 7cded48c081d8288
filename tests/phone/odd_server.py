"""The server with one oddity, named in the environment: ODD=drop dies between commit and reply, once.

In:    the words of ``becket serve``.
Out:   the real application behind a wrapper; besides, ``/test/worker.js``: a worker that delivers what the phone keeps.
Never: an answer that the real application did not give.
"""

from __future__ import annotations

import os
import signal
import sys
from dataclasses import replace
from pathlib import Path

from starlette.types import ASGIApp, Message, Receive, Scope, Send

from becket.web.serving import Wanted, open_door, serve

WORKER = """
if (new URL(location.href).searchParams.has("no-locks")) {{
    Object.defineProperty(navigator, "locks", {{ value: undefined }});
}}
import({outbox!r}).then(async ({{ deliver }}) => {{
    addEventListener("message", async () => {{ await deliver(); postMessage("done"); }});
    postMessage("ready");
}});
"""


class Odd:
    """Passes everything on, save what is odd about it."""

    def __init__(self, app: ASGIApp, outbox: str) -> None:
        self.app, self.outbox = app, outbox

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request."""
        path = scope.get("path")
        if path == "/test/worker.js":
            await _say(send, WORKER.format(outbox=self.outbox))
        elif path == "/api/events" and os.environ.get("ODD") == "drop":
            await self.app(scope, receive, _swallow)
            os.kill(os.getpid(), signal.SIGKILL)
        else:
            await self.app(scope, receive, send)


async def _swallow(_: Message) -> None:
    """Take what the application answers and send none of it."""


async def _say(send: Send, text: str) -> None:
    headers = [(b"content-type", b"text/javascript")]
    await send({"type": "http.response.start", "status": 200, "headers": headers})
    await send({"type": "http.response.body", "body": text.encode()})


def main() -> None:
    """Serve as ``becket serve`` does."""
    words = dict(zip(sys.argv[2::2], sys.argv[3::2], strict=True))
    door = open_door(Wanted(folder=Path(words["--data"]), port=int(words["--port"])))
    print("Open this link once:", door.link, flush=True)
    odd = Odd(door.app, door.app.state.templates.statics.address("outbox.js"))
    serve(replace(door, app=odd), print)  # type: ignore[arg-type]  # an app around the app


if __name__ == "__main__":
    main()
