"""A PostgreSQL server of the tests' own: an unprivileged user, a socket in a folder, gone with the tests.

In:    the programs of Debian's package postgresql, which ``tools/postgres.sh`` installs.
Out:   addresses of new, empty databases.
Never: a port, a server that was there before, data that anybody keeps (it does not wait for the disk).
"""

from __future__ import annotations

import os
import pwd
import shutil
import signal
import subprocess
import tempfile
import time
from contextlib import suppress
from itertools import count
from pathlib import Path
from typing import Any

import psycopg

NAME = "becket"  # of the database's user
PATIENCE = 30.0  # [s]


def programs() -> Path:
    """Return the folder of PostgreSQL's programs."""
    found = shutil.which("initdb")
    if found is not None:
        return Path(found).resolve().parent
    folders = sorted(Path("/usr/lib/postgresql").glob("*/bin"), key=lambda path: float(path.parent.name))
    assert folders, "PostgreSQL is not installed: run tools/postgres.sh, as make test does"
    return folders[-1]


class Server:
    """A running server; ``new_database`` as often as wanted, then ``stop``."""

    def __init__(self, fsync: str = "off") -> None:
        self._fsync = fsync
        self.folder = Path(tempfile.mkdtemp(prefix="becket-pg-", dir="/tmp"))  # short: a socket's path has a bound
        self._numbers = count(1)
        self._as: dict[str, Any] = {}
        if os.geteuid() == 0:
            other = pwd.getpwnam("nobody")
            os.chown(self.folder, other.pw_uid, other.pw_gid)
            self._as = {"user": other.pw_uid, "group": other.pw_gid, "extra_groups": []}
        self._make()
        self.start()

    def _make(self) -> None:
        data, folder = self.folder / "data", programs()
        quick = ["--no-sync", "--auth=trust", "--encoding=UTF8", "--locale=C.UTF-8", "--wal-segsize=1"]
        made = subprocess.run(
            [folder / "initdb", "-D", data, "-U", NAME, *quick], capture_output=True, cwd=self.folder, **self._as
        )
        assert made.returncode == 0, made.stderr.decode()

    def start(self) -> None:
        """Start the server and wait until it answers."""
        data, folder = self.folder / "data", programs()
        settings = {
            "listen_addresses": "",
            "unix_socket_directories": str(self.folder),
            "fsync": self._fsync,
            "shared_buffers": "16MB",
            "max_connections": "60",
            "autovacuum": "off",
        }
        words = [word for name, value in settings.items() for word in ("-c", f"{name}={value}")]
        # it goes when the tests go, also when they are killed
        guard = ["setpriv", "--pdeathsig", "QUIT"] if shutil.which("setpriv") else []
        log = open(self.folder / "log", "wb")  # noqa: SIM115
        self._process = subprocess.Popen(
            [*guard, folder / "postgres", "-D", data, *words], stdout=log, stderr=log, cwd=self.folder, **self._as
        )
        log.close()
        self._wait(self._process)

    def _wait(self, process: subprocess.Popen[bytes]) -> None:
        end = time.monotonic() + PATIENCE
        while True:
            try:
                psycopg.connect(self._plain("postgres")).close()
                return
            except psycopg.OperationalError:
                log = (self.folder / "log").read_text(errors="replace")
                assert process.poll() is None, log
                assert time.monotonic() < end, log
                time.sleep(0.02)

    def _plain(self, database: str) -> str:
        return f"host={self.folder} user={NAME} dbname={database}"

    def new_database(self) -> str:
        """Return the address of a new, empty database."""
        name = f"test_{next(self._numbers)}"
        with psycopg.connect(self._plain("postgres"), autocommit=True) as connection:
            connection.execute(f"CREATE DATABASE {name}".encode())
        return f"postgresql://{NAME}@/{name}?host={self.folder}"

    def kill(self) -> None:
        """Kill the server with no word to it, and every process that it made."""
        end = time.monotonic() + PATIENCE
        while own := self._processes():
            for number in own:
                with suppress(ProcessLookupError):
                    os.kill(number, signal.SIGKILL)
            self._process.poll()
            assert time.monotonic() < end, own
            time.sleep(0.01)
        self._process.wait(PATIENCE)

    def _processes(self) -> list[int]:
        """Every process of this server: they all work in its data folder."""
        found = []
        for path in Path("/proc").glob("[0-9]*"):
            with suppress(OSError):
                if os.readlink(path / "cwd") == str(self.folder / "data"):
                    found.append(int(path.name))
        return found

    def stop(self) -> None:
        """Stop the server and take its folder away."""
        self._process.send_signal(signal.SIGQUIT)  # at once
        self._process.wait(PATIENCE)
        shutil.rmtree(self.folder, ignore_errors=True)
