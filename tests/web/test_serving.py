"""``becket serve`` as a process of its own: its link, and what it says when it cannot serve."""

from __future__ import annotations

import os
import shutil
import signal
import socket
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime, timedelta
from itertools import takewhile
from pathlib import Path
from tempfile import gettempdir

import httpx
import pytest

from becket.errors import BrokenStoreError, CannotKeepError, RefusedError
from becket.web.house import House
from becket.web.serving import Wanted, open_door
from tests.web.asking import SOURCES, phone_at, running


@contextmanager
def taken_port() -> Iterator[int]:
    """Give a port that another program holds."""
    with socket.socket() as held:
        held.bind(("127.0.0.1", 0))
        held.listen()
        yield int(held.getsockname()[1])


def said(*words: str, code: int = 2) -> str:
    """Return what a command line that ends by itself says on standard error."""
    environment = {**os.environ, "PYTHONPATH": str(SOURCES)}
    line = [sys.executable, "-m", "becket.cli.main", "serve", *words]
    ended = subprocess.run(line, env=environment, capture_output=True, text=True, timeout=60, check=False)
    assert ended.returncode == code, ended.stderr
    assert "Traceback" not in ended.stderr
    return ended.stderr


def test_the_link_opens_and_ctrl_c_ends_it_cleanly(folder: Path) -> None:
    with running(folder) as server, httpx.Client() as client:
        assert client.get(server.link).status_code == 200
        assert client.get(f"{server.url}/c/hazel-70/now").status_code == 200
        assert client.get(f"{server.url}/c/hazel-70/now", headers={"host": "evil.example"}).status_code == 421
        server.process.send_signal(signal.SIGINT)
        out, err = server.process.communicate(timeout=20)
    assert server.process.returncode == 0
    assert "Stopped. Everything that came in is kept." in out
    assert err == ""
    again = phone_at(folder, is_open=False)
    again.cookies = client.cookies
    assert again.house.sessions.is_open(client.cookies["becket"])


def test_a_taken_port_names_one_that_is_free(folder: Path) -> None:
    with taken_port() as port:
        told = said("--data", str(folder), "--port", str(port))
        assert f"port {port} is taken by another program; use becket serve --port " in told
        with running(folder, port=int(told.split("--port ")[1])) as server:
            assert "/open/" in server.link


def test_no_folder_and_a_file_for_a_folder(folder: Path) -> None:
    with pytest.raises(CannotKeepError, match="is not there; becket serve --data DIR names the folder"):
        open_door(Wanted(folder=folder / "none"))
    with pytest.raises(CannotKeepError, match="is a file; becket serve --data DIR"):
        open_door(Wanted(folder=folder / "hazel-70.crane.yaml"))


def test_a_broken_database_is_left_as_it_is_and_told(folder: Path) -> None:
    store = folder / "becket.sqlite"
    store.write_bytes(b"this is no database, it only has its name" * 200)
    before = store.read_bytes()
    with pytest.raises(BrokenStoreError, match="damaged or not a database"):
        open_door(Wanted(folder=folder))
    assert store.read_bytes() == before


@pytest.mark.skipif(shutil.which("setpriv") is None, reason="needs setpriv, of every Debian")
def test_a_folder_that_may_only_be_read_is_told(folder: Path) -> None:
    """As another user where the tests run as root: root may write everywhere."""
    as_nobody = ["setpriv", "--reuid", "65534", "--clear-groups"] if os.geteuid() == 0 else []
    for place in (folder, *folder.iterdir()):
        place.chmod(0o555 if place.is_dir() else 0o444)
    for place in takewhile(lambda one: one != Path(gettempdir()), folder.parents):
        place.chmod(0o755)
    code = (
        "import sys; from pathlib import Path; from becket.web.serving import *\n"
        "try: open_door(Wanted(folder=Path(sys.argv[1])))\n"
        "except BecketError as error: print(type(error).__name__, error)"
    ).replace("import *", "import Wanted, open_door; from becket.errors import BecketError")
    words = [*as_nobody, sys.executable, "-c", code, str(folder)]
    environment = {**os.environ, "PYTHONPATH": str(SOURCES), "HOME": "/tmp"}
    ended = subprocess.run(words, env=environment, capture_output=True, text=True, timeout=60, check=False)
    folder.chmod(0o755)
    assert ended.stdout.startswith("CannotKeepError"), (ended.stdout, ended.stderr)
    assert "Give becket the right" in ended.stdout
    assert not (folder / "becket.sqlite").exists()


def test_a_clock_set_back_is_told_and_it_goes_on(folder: Path) -> None:
    house = House.open(folder)
    event = {"name": "x", "fingerprint": "0" * 16, "kept_old": None}
    house.note("file_taken", "hazel-70", event)
    assert open_and_close(folder) == ()
    (kept,) = house.store.every()
    tomorrow = (datetime.now(UTC) + timedelta(days=1)).isoformat()
    later = type(kept.event)(**{**vars(kept.event), "key": "later", "tick": 2})
    house.store.append([later], tomorrow)
    house.close()
    (warning,) = open_and_close(folder)
    assert warning.startswith("The clock of this machine stands at ")
    assert "Set the clock. Events keep their order" in warning


def test_a_fault_of_a_book_is_told_at_the_start(folder: Path) -> None:
    book = folder / "hazel-70.crane.yaml"
    book.write_text(book.read_text(encoding="utf-8").replace("winch:", "wich:", 1), encoding="utf-8")
    assert any("hazel-70.crane.yaml:" in warning for warning in open_and_close(folder))


def test_an_empty_folder_says_what_to_put_there(tmp_path: Path) -> None:
    (warning,) = open_and_close(tmp_path)
    assert "put NAME.crane.yaml there" in warning


def test_without_https_a_name_of_the_network_is_warned_of(folder: Path) -> None:
    (warning,) = open_and_close(folder, names=("crane-office.example",))
    assert "Without https a phone keeps no pages" in warning


@pytest.mark.parametrize(
    ("more", "words"),
    [
        ({"host": "192.0.2.77"}, "--host 192.0.2.77: cannot be listened at"),
        ({"host": "no such host"}, "cannot be listened at"),
        ({"certificate": Path("a.pem")}, "https needs both"),
        ({"certificate": Path("a.pem"), "key": Path("b.pem")}, "a certificate and its key, as PEM"),
    ],
)
def test_what_cannot_be_listened_with_is_told(folder: Path, more: dict[str, object], words: str) -> None:
    with pytest.raises(RefusedError, match=words):
        open_door(Wanted(folder=folder, **more))  # type: ignore[arg-type]


def open_and_close(folder: Path, **more: object) -> tuple[str, ...]:
    """Return the warnings of a server that is opened and closed again."""
    door = open_door(Wanted(folder=folder, **more))  # type: ignore[arg-type]
    assert door.socket is not None
    door.socket.close()
    door.house.close()
    return door.warnings
