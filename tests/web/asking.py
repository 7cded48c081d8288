"""A phone that asks the application in the same process, and a server in a process of its own.

In:    a folder.
Out:   answers.
"""

from __future__ import annotations

import asyncio
import shutil
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from dataclasses import dataclass
from importlib.resources import files
from os import environ
from pathlib import Path
from subprocess import PIPE, Popen
from sys import executable
from typing import Any

import httpx
from starlette.applications import Starlette

from becket.web.app import make_app
from becket.web.house import House

HOST = "http://localhost"
OWN = {"origin": HOST, "sec-fetch-site": "same-origin"}
DEMO = ("hazel-70.crane.yaml", "hazel-70.jobs.yaml", "rowan-30.crane.yaml", "rowan-30.jobs.csv")
SOURCES = Path(__file__).parents[2] / "src"
ASKING = ThreadPoolExecutor(1)  # a loop of its own: the driver of the browsers keeps one running in the main thread


def demo_folder(folder: Path) -> Path:
    """Return a folder with the demo's cranes in it."""
    folder.mkdir(parents=True, exist_ok=True)
    for name in DEMO:
        shutil.copyfile(str(files("becket.demo") / name), folder / name)
    return folder


class Phone:
    """Asks an application without a network; keeps its cookies."""

    def __init__(self, app: Starlette, *, is_open: bool = True, raises: bool = True) -> None:
        self.app, self.house = app, app.state.house
        self.cookies = httpx.Cookies()
        self._raises = raises
        if is_open:
            assert self.get(f"/open/{self.house.sessions.new_link()}").status_code == 200

    def ask(self, method: str, path: str, **more: Any) -> httpx.Response:
        """Return the answer to one request."""

        async def once() -> httpx.Response:
            transport = httpx.ASGITransport(app=self.app, raise_app_exceptions=self._raises)
            async with httpx.AsyncClient(transport=transport, base_url=HOST, cookies=self.cookies) as client:
                answer = await client.request(method, path, **more)
                self.cookies = client.cookies
                return answer

        return ASKING.submit(asyncio.run, once()).result()

    def get(self, path: str, **more: Any) -> httpx.Response:
        """Return a page."""
        return self.ask("GET", path, **more)

    def post(self, path: str, *, headers: dict[str, str] | None = None, **more: Any) -> httpx.Response:
        """Return the answer to a write, sent as one of our own pages does."""
        return self.ask("POST", path, headers=OWN if headers is None else headers, **more)


def phone_at(folder: Path, *, is_open: bool = True, raises: bool = True) -> Phone:
    """Return a phone at a server for this folder."""
    return Phone(make_app(House.open(folder)), is_open=is_open, raises=raises)


@dataclass(frozen=True, kw_only=True)
class Running:
    """A server in a process of its own."""

    link: str
    process: Popen[str]

    @property
    def url(self) -> str:
        """The address without the link's path."""
        return self.link.partition("/open/")[0]


@contextmanager
def running(folder: Path, *more: str, port: int = 0) -> Iterator[Running]:
    """Give a real server for a folder; it is stopped at the end."""
    words = [executable, "-m", "becket.cli.main", "serve", "--data", str(folder), "--port", str(port), *more]
    environment = {**environ, "PYTHONPATH": str(SOURCES), "PYTHONUNBUFFERED": "1"}
    with Popen(words, env=environment, stdout=PIPE, stderr=PIPE, text=True) as process:
        try:
            assert process.stdout is not None
            for line in process.stdout:
                if "/open/" in line:
                    yield Running(link="http" + line.strip().partition("http")[2], process=process)
                    break
            else:
                raise AssertionError(process.stderr.read() if process.stderr else "no word")
        finally:
            process.terminate()
            process.wait(10)
