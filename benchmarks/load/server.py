"""``becket serve`` as a process of its own, and phones that are signed in at it.

In:    a folder, the address of a database.
Out:   a server that answers; its memory; clients with their session.
Never: a server that outlives the benchmark.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from shutil import which
from subprocess import DEVNULL, PIPE, Popen
from sys import executable

import httpx

from becket.web.sessions import Sessions

ROOT = Path(__file__).parents[2]
PATIENCE = 300.0  # for one answer [s]


class Server:
    """A running server."""

    def __init__(self, folder: Path, process: Popen[str], address: str) -> None:
        self.folder, self.process, self.address = folder, process, address

    def memory(self) -> float:
        """Return what the process holds in memory now [MB]."""
        for line in Path(f"/proc/{self.process.pid}/status").read_text().splitlines():
            if line.startswith("VmRSS:"):
                return int(line.split()[1]) / 1000
        raise LookupError("VmRSS")

    def busy(self) -> float:
        """Return how long the process was at work [s]."""
        parts = Path(f"/proc/{self.process.pid}/stat").read_text().rpartition(")")[2].split()
        return (int(parts[11]) + int(parts[12])) / os.sysconf("SC_CLK_TCK")

    async def phone(self) -> httpx.AsyncClient:
        """Return a phone that opened a link of its own; it keeps one connection, as a browser does."""
        headers = {"origin": self.address, "sec-fetch-site": "same-origin"}
        client = httpx.AsyncClient(base_url=self.address, headers=headers, timeout=PATIENCE)
        answer = await client.get(f"/open/{Sessions(self.folder).new_link()}")
        assert answer.status_code == 200, answer.status_code
        return client


@contextmanager
def serving(folder: Path, url: str | None = None) -> Iterator[Server]:
    """Give a server for a folder; it is stopped at the end.

    Args:
        folder: of the crane books
        url: of the database; None: a file in the folder
    """
    guard = ["setpriv", "--pdeathsig", "TERM"] if which("setpriv") else []  # it goes with the benchmark, killed or not
    words = [*guard, executable, "-m", "becket.cli.main", "serve", "--data", str(folder), "--port", "0"]
    environment = {**os.environ, "PYTHONPATH": str(ROOT / "src"), "PYTHONUNBUFFERED": "1"}
    environment |= {"BECKET_DATABASE": url} if url else {}
    with Popen(words, env=environment, stdout=PIPE, stderr=DEVNULL, text=True) as process:
        try:
            assert process.stdout is not None
            line = next(one for one in process.stdout if "/open/" in one)
            yield Server(folder, process, "http" + line.strip().partition("http")[2].partition("/open/")[0])
        finally:
            process.terminate()
            process.wait(20)
