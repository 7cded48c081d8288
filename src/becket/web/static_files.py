"""The files of the shell: style, code, fonts, words, each under a name that tells its content.

In:    the folder of static files; the word catalogues.
Out:   bytes by hashed name, with kind, and smaller forms for who takes them.
Never: a name that stands for two contents; a module that loads another by a name that may change.
"""

from __future__ import annotations

import gzip
import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property, lru_cache
from hashlib import sha256
from pathlib import Path
from typing import Final

import brotli  # type: ignore[import-untyped]

from becket.errors import NotOnFileError

FOLDER: Final = Path(__file__).parent / "static"
KINDS: Final[Mapping[str, str]] = {
    ".css": "text/css; charset=utf-8",
    ".ico": "image/x-icon",
    ".js": "text/javascript; charset=utf-8",
    ".json": "application/json",
    ".png": "image/png",
    ".svg": "image/svg+xml",
    ".txt": "text/plain; charset=utf-8",
    ".webmanifest": "application/manifest+json",
    ".woff2": "font/woff2",
}
OWN_ADDRESS: Final = ("sw.js",)  # the worker stands at the root: its scope is the whole server
_PACKED: Final = (".css", ".ico", ".js", ".json", ".svg", ".txt", ".webmanifest")
_JS: Final = re.compile(
    r"""(?P<head>(?:\bfrom|\bimport)\s*\(?\s*)(?P<quote>["'])\./(?P<name>[A-Za-z0-9_.-]+)(?P=quote)"""
)
_CSS: Final = re.compile(r"""(?P<head>url\(\s*)(?P<quote>["']?)(?:\./)?(?P<name>[A-Za-z0-9_.-]+)(?P=quote)\s*\)""")
_NAMED: Final[Mapping[str, re.Pattern[str]]] = {".js": _JS, ".css": _CSS}


@dataclass(frozen=True, kw_only=True)
class StaticFile:
    """One file as it is served. It is packed when somebody first asks for it: a start need not wait for that."""

    name: str  # as the templates call it: "base.css"
    address: str  # "/static/base.0123456789ab.css"
    kind: str  # content type
    body: bytes

    @cached_property
    def gzip(self) -> bytes | None:
        """Return the body as gzip; None: packing does not help [-]."""
        return _if_smaller(gzip.compress(self.body, 9, mtime=0), self.body) if self._packs else None

    @cached_property
    def brotli(self) -> bytes | None:
        """Return the body as brotli; None: packing does not help [-]."""
        return _if_smaller(_brotli(self.body), self.body) if self._packs else None

    @property
    def _packs(self) -> bool:
        return Path(self.name).suffix in _PACKED

    def packed(self, accepted: str) -> tuple[bytes, str | None]:
        """Return the smallest body that the other end takes, and its encoding; None: as it is [-].

        Args:
            accepted: the header Accept-Encoding
        """
        takes = {one.split(";")[0].strip() for one in accepted.lower().split(",") if not one.endswith("q=0")}
        if "br" in takes and self.brotli is not None:
            return self.brotli, "br"
        if "gzip" in takes and self.gzip is not None:
            return self.gzip, "gzip"
        return self.body, None


class StaticFiles:
    """Every static file, read once; names are those of the folder."""

    def __init__(self, folder: Path = FOLDER, more: Mapping[str, bytes] | None = None) -> None:
        self._raw = {
            path.name: path.read_bytes()
            for path in sorted(folder.iterdir())
            if path.suffix in KINDS and path.name not in OWN_ADDRESS
        }
        self._raw.update(more or {})
        self._loaded = {name: self._loads(name) for name in self._raw}
        self._address = {name: _address(name, self._seal(name)) for name in self._raw}
        self._files = {self._address[name]: self._file(name) for name in self._raw}
        self.seal = sha256("\n".join(sorted(self._files)).encode()).hexdigest()[:16]

    def has(self, name: str) -> bool:
        """Return whether there is a file of this name [-]."""
        return name in self._address

    def address(self, name: str) -> str:
        """Return the address of a file, with its seal in it [-].

        Args:
            name: in the folder: "base.css"

        Raises:
            NotOnFileError: there is no such file.
        """
        if name not in self._address:
            raise NotOnFileError(f'static file "{name}" is not there; the folder has {", ".join(sorted(self._raw))}')
        return self._address[name]

    def at(self, address: str) -> StaticFile | None:
        """Return the file at an address; None: there is none [-]."""
        return self._files.get(address)

    def addresses(self) -> tuple[str, ...]:
        """Return the address of every file [-]."""
        return tuple(sorted(self._files))

    def _seal(self, name: str) -> str:
        """Return the seal of a file and of all that it loads: a change further down changes it too."""
        known, open_ends = {name}, [name]
        while open_ends:
            for one in self._loaded[open_ends.pop()]:
                if one not in known:
                    known.add(one)
                    open_ends.append(one)
        body = b"\0".join([self._raw[name], *(one.encode() + b"\0" + self._raw[one] for one in sorted(known))])
        return sha256(body).hexdigest()[:12]

    def _loads(self, name: str) -> tuple[str, ...]:
        names = tuple(found["name"] for found in _matches(name, self._raw[name]))
        for one in names:
            if one not in self._raw:
                raise NotOnFileError(f'{name} loads "{one}", which is not in the folder')
        return names

    def _file(self, name: str) -> StaticFile:
        body, suffix = _rewritten(name, self._raw[name], self._address.__getitem__), Path(name).suffix
        return StaticFile(name=name, address=self._address[name], kind=KINDS[suffix], body=body)


def _matches(name: str, body: bytes) -> Iterator[re.Match[str]]:
    pattern = _NAMED.get(Path(name).suffix)
    return pattern.finditer(body.decode()) if pattern else iter(())


def _rewritten(name: str, body: bytes, address: Callable[[str], str]) -> bytes:
    pattern = _NAMED.get(Path(name).suffix)
    if pattern is None:
        return body

    def named(found: re.Match[str]) -> str:
        beside, end = Path(address(found["name"])).name, ")" if pattern is _CSS else ""
        return f"{found['head']}{found['quote']}./{beside}{found['quote']}{end}"

    return pattern.sub(named, body.decode()).encode()


def _address(name: str, seal: str) -> str:
    stem, _, suffix = name.rpartition(".")
    return f"/static/{stem}.{seal}.{suffix}"


@lru_cache(maxsize=256)  # a second application in the same process packs nothing again
def _brotli(body: bytes) -> bytes:
    return bytes(brotli.compress(body, quality=9))


def _if_smaller(packed: bytes, body: bytes) -> bytes | None:
    return packed if len(packed) < len(body) else None
