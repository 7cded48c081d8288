"""What every response says to the browser before its body: what the page may load, and who may frame it.

In:    a response on its way out; the name that the browser used for this server.
Out:   the same response with the headers; a refusal for a name that is not this server's.
Never: a response without them, an error page included.
"""

from __future__ import annotations

import ipaddress
from collections.abc import Iterable, Mapping
from typing import Final

from starlette.datastructures import Headers, MutableHeaders
from starlette.responses import PlainTextResponse, Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

POLICY: Final = "; ".join(
    (
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "img-src 'self' data: blob:",
        "font-src 'self'",
        "connect-src 'self'",
        "manifest-src 'self'",
        "worker-src 'self'",
        "base-uri 'none'",
        "form-action 'self'",
        "frame-ancestors 'none'",
    )
)
HEADERS: Final[Mapping[str, str]] = {
    "content-security-policy": POLICY,
    "x-content-type-options": "nosniff",
    "x-frame-options": "DENY",
    "referrer-policy": "same-origin",  # with none at all a browser says that a form of our own comes from nowhere
    "permissions-policy": "camera=(self), geolocation=(), microphone=(), payment=(), usb=()",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
}
LOCAL: Final = ("localhost", "127.0.0.1", "::1")


def add_headers(response: Response) -> Response:
    """Return the response with the headers that every response has.

    Args:
        response: one that does not pass ``HeadersFirst``: of an error of the program itself
    """
    _put(response.headers)
    return response


class HeadersFirst:
    """Puts the headers on every response and refuses a host name that is not this server's."""

    def __init__(self, app: ASGIApp, hosts: Iterable[str], *, is_any_address: bool = False) -> None:
        self.app, self.is_any_address = app, is_any_address
        self.hosts = frozenset(name.lower().strip("[]") for name in (*LOCAL, *hosts))

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass the request on; the response gets the headers on its way back."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return

        async def send_with(message: Message) -> None:
            if message["type"] == "http.response.start":
                _put(MutableHeaders(scope=message))
            await send(message)

        asked = host_name(Headers(scope=scope).get("host", ""))
        if asked in self.hosts or (self.is_any_address and _is_address(asked)):
            await self.app(scope, receive, send_with)
            return
        told = f'This server does not go by the name "{asked[:80]}". Start it with: becket serve --host-name NAME\n'
        await PlainTextResponse(told, status_code=421)(scope, receive, send_with)


def host_name(host: str) -> str:
    """Return the name in a Host header, without its port [-].

    Args:
        host: as the browser sent it

    >>> host_name("localhost:8000"), host_name("[::1]:8000"), host_name("CRANE.example")
    ('localhost', '::1', 'crane.example')
    """
    if host.startswith("["):
        return host[1:].partition("]")[0].lower()
    return host.partition(":")[0].lower()


def is_every_address(host: str) -> bool:
    """Return whether a server that listens there is reached under every address of the machine [-].

    Args:
        host: address that it listens at

    >>> is_every_address("0.0.0.0"), is_every_address("127.0.0.1")
    (True, False)
    """
    return _is_address(host) and ipaddress.ip_address(host).is_unspecified


def _is_address(name: str) -> bool:
    """A bare address cannot be turned by somebody else's name server: it needs no list."""
    try:
        ipaddress.ip_address(name)
    except ValueError:
        return False
    return True


def _put(headers: MutableHeaders) -> None:
    for name, value in HEADERS.items():
        headers.setdefault(name, value)
    headers.setdefault("cache-control", "no-store")
