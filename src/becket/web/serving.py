"""The door of the server: a port that is held, a link that is printed, then requests until it is stopped.

In:    a folder, where to listen, under which names.
Out:   a running server.
Never: a link to a server that does not listen; a server on a folder that keeps nothing.
"""

from __future__ import annotations

import ipaddress
import logging
import socket
import ssl
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Final

import uvicorn
from starlette.applications import Starlette

from becket.errors import CannotKeepError, RefusedError
from becket.web.app import make_app
from becket.web.entrance import Entrance
from becket.web.first_link import first_link
from becket.web.headers import LOCAL, is_every_address
from becket.web.house import House
from becket.web.passwords import Passwords
from becket.web.port import hold_port
from becket.web.uploads import sweep

PROXIES: Final = ("127.0.0.1", "::1")  # from there alone a header says who asks and that it was https
BEHIND: Final = timedelta(minutes=2)  # a clock that is this far behind the last event was set back


@dataclass(frozen=True, kw_only=True)
class Wanted:
    """Where a server is to listen."""

    folder: Path
    host: str = "127.0.0.1"
    port: int = 0  # 0: a free one
    names: tuple[str, ...] = ()  # by which phones know this machine
    certificate: Path | None = None  # for https, with ``key``
    key: Path | None = None
    database: str | None = None  # address of the store; None: a file in the folder
    is_shared: bool = False  # entered by name and password
    is_invitation: bool = False  # an administrator is to be invited


@dataclass(frozen=True, kw_only=True)
class Door:
    """A server that is about to answer."""

    app: Starlette
    house: House
    socket: socket.socket | None  # None: another server holds the port, and it was only asked for an invitation
    link: str
    what: str  # the link is for
    warnings: tuple[str, ...]
    wanted: Wanted


def open_door(wanted: Wanted) -> Door:
    """Return a server that holds its port and has a link to open it.

    Args:
        wanted: where it is to listen

    Raises:
        CannotKeepError: there is no such folder, or it takes nothing.
        BrokenStoreError: the records there cannot be used.
        RefusedError: the port is taken, the address is not of this machine, the certificate cannot be used,
            the address of the database is none.
    """
    _check_certificate(wanted)
    _check_database(wanted.database)
    house = House.open(_folder(wanted.folder), wanted.database)
    sweep(wanted.folder)
    name = wanted.names[0] if wanted.names else _own_address(wanted.host)
    try:
        held = _held(wanted)
        entrance = Entrance(wanted.folder, Passwords()) if wanted.is_shared else None
        origin = _origin(wanted, name, held.getsockname()[1] if held else wanted.port)
        link = first_link(origin, house, entrance, is_invitation=wanted.is_invitation)
    except BaseException:
        house.close()
        raise
    hosts = (wanted.host, *wanted.names)
    return Door(
        app=make_app(house, hosts, is_any_address=is_every_address(wanted.host), entrance=entrance),
        house=house,
        socket=held,
        link=link.address,
        what=link.what,
        warnings=_warnings(house, wanted, name),
        wanted=wanted,
    )


def serve(door: Door, say: Callable[[str], None]) -> None:
    """Answer requests until the server is stopped.

    Args:
        door: as opened
        say: takes what the person at the server should see
    """
    if door.socket is None:
        say(f"Port {door.wanted.port} is in use: the link is for the shared server of this folder that runs there.")
        door.house.close()
        return
    logging.getLogger("uvicorn.error").setLevel(logging.WARNING)
    config = uvicorn.Config(
        door.app,
        log_level="warning",
        access_log=False,
        server_header=False,
        proxy_headers=True,
        forwarded_allow_ips=list(PROXIES),
        ws="none",
        lifespan="off",
        ssl_certfile=door.wanted.certificate,
        ssl_keyfile=door.wanted.key,
        timeout_graceful_shutdown=5,
    )
    try:
        with suppress(KeyboardInterrupt):  # where Ctrl-C is ignored, as behind nohup, the server just returns
            uvicorn.Server(config).run(sockets=[door.socket])
        say("Stopped. Everything that came in is kept. A phone that is open stays open for the next time.")
    finally:
        door.socket.close()
        door.house.close()


def _held(wanted: Wanted) -> socket.socket | None:
    try:
        return hold_port(wanted.host, wanted.port)
    except RefusedError:
        if wanted.is_shared and wanted.is_invitation:
            return None  # the server that runs there takes the invitation: accounts are looked up at every request
        raise


def _origin(wanted: Wanted, name: str, port: int) -> str:
    """Return where phones reach it. A name for a server that this machine alone reaches is a proxy's, with https."""
    if wanted.is_shared and wanted.names and wanted.certificate is None and _is_loopback(wanted.host):
        return f"https://{name}"
    shown = f"[{name}]" if ":" in name else name
    return f"{'https' if wanted.certificate else 'http'}://{shown}:{port}"


def _folder(folder: Path) -> Path:
    if not folder.is_dir():
        found = "is a file" if folder.exists() else "is not there"
        right = "becket serve --data DIR names the folder of your crane books; becket demo makes one to try"
        raise CannotKeepError(f"{folder}: {found}; {right}")
    return folder


def _check_certificate(wanted: Wanted) -> None:
    if (wanted.certificate is None) != (wanted.key is None):
        raise RefusedError("https needs both: --certificate FILE and --key FILE")
    if wanted.certificate is None or wanted.key is None:
        return
    try:
        ssl.create_default_context(ssl.Purpose.CLIENT_AUTH).load_cert_chain(wanted.certificate, wanted.key)
    except OSError as error:  # of ssl too
        why = f"{wanted.certificate}, {wanted.key}: cannot be used ({error.strerror or error})"
        raise RefusedError(f"{why}; a certificate and its key, as PEM, without a password") from None


def _check_database(url: str | None) -> None:
    """Refuse what is no address, and never repeat it: a password may stand in it."""
    if url is not None and not url.startswith(("sqlite:///", "postgresql://")):
        raise RefusedError("--database: that is no address; write postgresql://USER@HOST/NAME or sqlite:///PATH")


def _own_address(host: str) -> str:
    """Return the address that a phone in the network would use; nothing is sent to find it."""
    if not is_every_address(host):
        return host
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asked:
        try:
            asked.connect(("192.0.2.1", 9))  # kept free for documents: it is nobody's
            return str(asked.getsockname()[0])
        except OSError:
            return "127.0.0.1"


def _warnings(house: House, wanted: Wanted, name: str) -> tuple[str, ...]:
    found = [*_clock(house)]
    is_https = wanted.certificate is not None or _origin(wanted, name, wanted.port).startswith("https")
    if name not in LOCAL and not _is_loopback(name) and not is_https:
        found.append(
            "Without https a phone keeps no pages for when there is no signal, and checks no digits. "
            "Give --certificate FILE and --key FILE, or put a server with https before this one."
        )
        if wanted.is_shared:
            found.append("Without https passwords go over the network as they are typed, and can be read on the way.")
    if not house.cranes():
        found.append(f"There is no crane in {wanted.folder} yet: put NAME.crane.yaml there, or take it in under Files.")
    for crane in house.cranes():
        found += [f"{crane.name}: {fault}" for fault in crane.faults]
    return tuple(found)


def _clock(house: House) -> tuple[str, ...]:
    """Return what is said when the last event came in later than now."""
    last, now = house.last_received(), datetime.now(UTC)
    if last is None or last <= now + BEHIND:
        return ()
    stands = f"The clock of this machine stands at {now:%Y-%m-%d %H:%M} UTC"
    return (
        f"{stands}, the last event came in at {last:%Y-%m-%d %H:%M}. "
        "Set the clock. Events keep their order; their times will be wrong until then.",
    )


def _is_loopback(name: str) -> bool:
    try:
        return ipaddress.ip_address(name).is_loopback
    except ValueError:
        return False
