"""The real server as a process of its own, to be stopped, killed and started again on the same folder and port.

In:    a folder with crane books and job sheets.
Out:   a server that answers; links that open it.
Never: a server that outlives its test.
"""

from __future__ import annotations

import os
import re
import shutil
import signal
import socket
import subprocess
import sys
import time
from pathlib import Path
from urllib.request import urlopen

from becket.web.sessions import Sessions

DEMO = Path(__file__).parents[2] / "src" / "becket" / "demo"
PATIENCE = 90.0  # s; a start takes one or two, many times that where the machine is busy
_LINK = re.compile(r"(https?://\S+)/(open/|invited/|sign-in)(\S*)")


def free_port() -> int:
    """Return a port that nobody listens at [-]."""
    with socket.socket() as held:
        held.bind(("127.0.0.1", 0))
        return int(held.getsockname()[1])


def demo_folder(folder: Path, *cranes: str) -> Path:
    """Return a folder with the files of demo cranes [-].

    Args:
        folder: to be made
        cranes: their names; none: all of them
    """
    folder.mkdir(parents=True, exist_ok=True)
    for path in DEMO.iterdir():
        if path.suffix in (".yaml", ".csv") and (not cranes or path.name.split(".")[0] in cranes):
            shutil.copy(path, folder)
    return folder


class PhoneServer:
    """A running server. ``module`` runs another app over the same house, such as one that drops connections."""

    def __init__(
        self, folder: Path, module: str = "becket.cli.main", port: int | None = None, more: tuple[str, ...] = ()
    ) -> None:
        self.folder, self.module, self.port, self.more = folder, module, port or free_port(), more
        self.process: subprocess.Popen[str] | None = None
        self.link = ""

    @property
    def address(self) -> str:
        """Return where it answers [-]."""
        return f"http://127.0.0.1:{self.port}"

    def new_link(self) -> str:
        """Return a link that opens one more phone [-]."""
        return f"{self.address}/open/{Sessions(self.folder).new_link()}"

    def start(self) -> PhoneServer:
        """Start it, wait until it answers, and return it [-]."""
        words = [sys.executable, "-m", self.module, "serve", "--data", str(self.folder), "--port", str(self.port)]
        words += self.more
        src = str(Path(__file__).parents[2] / "src")
        paths = os.pathsep.join([src, str(Path(__file__).parents[2])])
        self.process = subprocess.Popen(
            words, stdout=subprocess.PIPE, text=True, env={**os.environ, "PYTHONPATH": paths, "PYTHONUNBUFFERED": "1"}
        )
        assert self.process.stdout is not None
        for line in self.process.stdout:
            found = _LINK.search(line)
            if found:
                self.link = found[0]
                break
        else:
            code = self.process.wait()
            self.process.stdout.close()
            raise AssertionError(f"the server ended with {code} before it gave a link")
        self._wait()
        return self

    def stop(self) -> None:
        """Stop it as a person does who closes the window."""
        self._end(signal.SIGTERM)

    def kill(self) -> None:
        """Stop it as a power cut does."""
        self._end(signal.SIGKILL)

    def restart(self) -> PhoneServer:
        """Stop it where it runs, and start it on the same folder and port [-]."""
        self.stop()
        return self.start()

    def _end(self, how: signal.Signals) -> None:
        if self.process is not None:
            self.process.send_signal(how)
            self.process.wait(PATIENCE)
            assert self.process.stdout is not None
            self.process.stdout.close()
            self.process = None

    def _wait(self) -> None:
        end = time.monotonic() + PATIENCE
        while time.monotonic() < end:
            try:
                with urlopen(f"{self.address}/sw.js", timeout=5):
                    return
            except OSError:
                time.sleep(0.05)
        raise AssertionError("the server gives a link and does not answer")
