"""A shared server as it starts: its first link, the name that it says, what it does without accounts."""

from __future__ import annotations

from pathlib import Path

import pytest

from becket.errors import RefusedError
from becket.web.accounts import FILE
from becket.web.serving import Wanted, open_door, serve
from tests.web.test_serving import said


def first(folder: Path, **more: object) -> tuple[str, str, tuple[str, ...]]:
    """Return what the first link is for, the link, and the warnings."""
    door = open_door(Wanted(folder=folder, **more))  # type: ignore[arg-type]
    assert door.socket is not None
    door.socket.close()
    door.house.close()
    return door.what, door.link, door.warnings


def test_an_administrator_is_invited_while_the_server_runs(folder: Path) -> None:
    """The port is held by the server that runs: the link is for it, and nothing else is started."""
    running = open_door(Wanted(folder=folder, is_shared=True))
    assert running.socket is not None
    port = running.socket.getsockname()[1]
    said: list[str] = []
    door = open_door(Wanted(folder=folder, is_shared=True, is_invitation=True, port=port))
    assert f":{port}/invited/" in door.link
    serve(door, said.append)
    assert said == [f"Port {port} is in use: the link is for the shared server of this folder that runs there."]
    with pytest.raises(RefusedError, match="is taken by another program"):
        open_door(Wanted(folder=folder, is_shared=True, port=port))
    running.socket.close()
    running.house.close()


def test_the_first_start_invites_and_names_the_address_of_phones(folder: Path) -> None:
    what, link, _ = first(folder, is_shared=True)
    assert what == "Open this link as the administrator, it is good once, for 7 days"
    assert link.startswith("http://127.0.0.1:")
    assert "/invited/" in link
    _, link, warnings = first(folder, is_shared=True, names=("crane-office.example",))
    assert link.startswith("https://crane-office.example/invited/")  # of the proxy before it
    assert warnings == ()


def test_a_name_in_the_network_without_https_is_warned_of_as_ever(folder: Path) -> None:
    _, link, warnings = first(folder, is_shared=True, names=("crane-office.example",), host="0.0.0.0")
    assert link.startswith("http://crane-office.example:")
    assert any("Without https a phone keeps no pages" in one for one in warnings)
    _, link, warnings = first(folder, names=("crane-office.example",))
    assert link.startswith("http://crane-office.example:")
    assert any("Without https" in one for one in warnings)


def test_without_accounts_no_file_of_accounts_is_made(folder: Path) -> None:
    what, link, _ = first(folder)
    assert what == "Open this link, it opens once"
    assert "/open/" in link
    assert not (folder / FILE).exists()


def test_an_administrator_of_a_server_without_accounts_is_not_invited(folder: Path) -> None:
    assert "--invite-administrator goes with --shared" in said("--data", str(folder), "--invite-administrator")


@pytest.mark.parametrize("name", ["accounts.sqlite"])
def test_a_damaged_file_of_accounts_is_told_in_one_line(folder: Path, name: str) -> None:
    (folder / name).write_bytes(b"not a database, and long enough to be looked at" * 20)
    assert "is damaged. Remove it and start again: accounts" in said("--data", str(folder), "--shared")
