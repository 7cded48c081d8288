"""A script that is made once on a machine for a state of book, settings, site and becket itself.

In:    what the script follows from; the work that makes it.
Out:   the script.
Never: a script made from anything else than was named, or by another becket.
"""

from __future__ import annotations

import sys
import zlib
from collections.abc import Callable
from functools import cache
from hashlib import sha256
from pathlib import Path

import becket
from becket.guide.script import Script, read_script, script_text
from becket.web.kept_work import kept_work

DAYS = 60  # a script that nobody asked for in that time is made again


def script_once(follows_from: tuple[object, ...], work: Callable[[], Script]) -> Script:
    """Return a script from the user's cache folder where it is there whole, or made now [-].

    Args:
        follows_from: everything that it follows from besides becket itself; its ``repr`` must tell it whole
        work: makes it; what it raises is not kept
    """
    depends_on = (seal_of_becket(), *(repr(one).encode() for one in follows_from))
    packed = kept_work("script", depends_on, lambda: zlib.compress(script_text(work()).encode()), days=DAYS)
    return read_script(zlib.decompress(packed).decode())


@cache
def seal_of_becket() -> bytes:
    """Return the hash of every file of becket and of Python's version [-]."""
    root = Path(becket.__file__).parent
    seal = sha256(sys.version.encode())
    for path in sorted(root.rglob("*")):
        if path.is_file() and path.suffix != ".pyc":
            seal.update(f"{path.relative_to(root)}\0".encode())
            seal.update(sha256(path.read_bytes()).digest())
    return seal.digest()
