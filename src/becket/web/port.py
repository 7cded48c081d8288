"""A port that is held before anything is said of it.

In:    an address of this machine, a number.
Out:   a socket that listens; else which port is free.
Never: a port taken in place of the one that was asked for.
"""

from __future__ import annotations

import errno
import socket
from typing import Final

from becket.errors import RefusedError

NEXT_PORTS: Final = 20  # looked at for a free one


def hold_port(host: str, port: int) -> socket.socket:
    """Return a socket that listens [-].

    Args:
        host: address of this machine
        port: number; 0: a free one

    Raises:
        RefusedError: the port is taken, the address is not of this machine.
    """
    try:
        return _bound(host, port)
    except OSError as error:
        if error.errno == errno.EADDRINUSE:
            free = _free_port(host, port)
            right = f"becket serve --port {free}" if free else "becket serve --port 0 takes a free one"
            raise RefusedError(f"port {port} is taken by another program; use {right}") from None
        if error.errno == errno.EACCES:
            raise RefusedError(
                f"port {port} is not for everybody; use one over 1023: becket serve --port 8470"
            ) from None
        right = "an address of this machine; 127.0.0.1 for this machine alone, 0.0.0.0 for its network"
        raise RefusedError(f"--host {host}: cannot be listened at ({error.strerror}); {right}") from None


def _bound(host: str, port: int) -> socket.socket:
    held = socket.socket(socket.AF_INET6 if ":" in host else socket.AF_INET)
    try:
        held.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        held.bind((host, port))
        held.listen(128)
    except OSError:
        held.close()
        raise
    return held


def _free_port(host: str, port: int) -> int | None:
    for one in range(port + 1, min(port + 1 + NEXT_PORTS, 65536)):
        try:
            _bound(host, one).close()
        except OSError:
            continue
        return one
    return None
