"""Disk full and disk that may only be read, seen by a phone: what is said, nothing half written, and it goes on.

Two ways to be full: a small disk of its own, where this machine lets us make one, and a bound of this process on how
large a file may grow, which every machine knows. What SQLite says differs, and so do the words.
"""

from __future__ import annotations

import errno
import resource
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path

import pytest

from becket.guide.event import event_as_dict
from becket.records.verify import verify
from tests.records.test_photos import jpeg
from tests.records.test_trouble import a_small_disk, as_somebody
from tests.web.accounts_at import Shared
from tests.web.asking import Phone, demo_folder, phone_at
from tests.web.run_answered import Writer, people_events
from tests.web.test_crane_files import BOOK
from tests.web.test_photos import PIECE, photo_event, put, send, url
from tests.web.test_receive import deliver
from tests.web.test_sign_in import sign_in

TAKEN = jpeg(600, 400)
STAYS = "What is kept on this phone stays there."


@dataclass(frozen=True, kw_only=True)
class Disk:
    """A folder of a firm on a disk that can be made full and given room again."""

    phone: Phone
    folder: Path
    fill: Callable[[], None]
    make_room: Callable[[], None]


@pytest.fixture(params=["small disk", "bound on files"])
def disk(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Disk]:
    """Yield a disk with a crew, an entry of a photo and half that photo on it, not full yet."""
    way = on_a_small_disk if request.param == "small disk" else with_a_bound
    with way(tmp_path) as found:
        yield found
        found.make_room()
        found.phone.house.close()


@contextmanager
def on_a_small_disk(folder: Path) -> Iterator[Disk]:
    """Give a disk of one megabyte; what fills it lies beside the firm's folder."""
    with a_small_disk(folder) as is_small:
        if not is_small:
            pytest.skip("this machine lets us mount no disk; the bound on files is tested all the same")
        ballast = folder / "ballast"

        def fill() -> None:
            with ballast.open("wb", buffering=0) as file, suppress(OSError):
                while file.write(b"x" * 4096):
                    pass

        phone = phone_at(demo_folder(folder / "data"))
        yield Disk(phone=phone, folder=folder / "data", fill=fill, make_room=lambda: ballast.unlink(missing_ok=True))


@contextmanager
def with_a_bound(folder: Path) -> Iterator[Disk]:
    """Give a process in which no file may grow."""
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)

    def fill() -> None:
        resource.setrlimit(resource.RLIMIT_FSIZE, (100, hard))

    def make_room() -> None:
        resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))

    try:
        yield Disk(phone=phone_at(demo_folder(folder / "data")), folder=folder / "data", fill=fill, make_room=make_room)
    finally:
        make_room()


def files_in(folder: Path) -> dict[str, int]:
    """Return every file with its size, without the records and their companions."""
    found = (path for path in folder.rglob("*") if path.is_file() and ".sqlite" not in path.name)
    return {path.relative_to(folder).as_posix(): path.stat().st_size for path in found}


def test_a_full_disk_takes_no_entry_says_so_and_takes_it_when_there_is_room(disk: Disk) -> None:
    phone = disk.phone
    deliver(phone, people_events())
    notes = [Writer(number=n).write("noted", {"text": "x" * 4000}, run=None) for n in range(60)]
    body = {"events": [event_as_dict(one) for one in notes]}
    disk.fill()
    answer = phone.post("/api/events", json=body)
    assert answer.status_code == 507
    why = answer.json()["refused"]
    assert why.startswith("Cannot keep it: the disk")
    assert "Write it on paper now." in why
    assert why.endswith(STAYS)
    assert phone.get("/api/feed/hazel-70").json()["head"] == 2, "what is on file can be read"
    assert phone.get("/c/hazel-70/trouble").status_code == 200
    disk.make_room()
    assert [one["number"] for one in deliver(phone, notes)["results"]] == list(range(3, 63))
    assert verify(phone.house.store).is_whole


def test_a_full_disk_takes_no_piece_of_a_photo_and_goes_on_where_it_was(disk: Disk) -> None:
    phone = disk.phone
    event = photo_event(Writer(number=9), TAKEN, run=None, entered={"pattern": "main:4"})
    deliver(phone, [*people_events(), event])
    first, rest = TAKEN[:8192], TAKEN[8192 : 8192 + PIECE]
    assert put(phone, event, 0, first).json()["offset"] == len(first)
    disk.fill()
    answer = put(phone, event, len(first), rest)
    assert answer.status_code == 507
    assert "The photo stays on the phone." in answer.json()["refused"]
    assert phone.get(url(event)).json() == {"offset": len(first), "whole": False}
    disk.make_room()
    assert send(phone, event, TAKEN).json()["whole"] is True
    assert verify(phone.house.store).is_whole


def test_a_full_disk_takes_no_file_and_leaves_the_old_one(disk: Disk) -> None:
    phone, before = disk.phone, files_in(disk.folder)
    book = (disk.folder / BOOK).read_bytes()
    new = book + b"# new\n" + b"#" * 20_000
    disk.fill()
    answer = phone.post("/files", files={"file": (BOOK, new)})
    assert answer.status_code == 507
    assert "Make room, then bring it again." in answer.text
    disk.make_room()
    assert files_in(disk.folder) == before
    assert phone.house.store.head().number == 0
    assert phone.post("/files", files={"file": (BOOK, new)}).status_code == 200
    assert (disk.folder / BOOK).read_bytes() == new


def test_a_full_disk_makes_no_link_and_opens_no_phone_but_the_link_stays_good(disk: Disk) -> None:
    phone = disk.phone
    link = phone.house.sessions.new_link()
    stranger = Phone(phone.app, is_open=False)
    disk.fill()
    refused = [phone.post("/link", files={"a": ""}), stranger.get(f"/open/{link}")]
    assert [one.status_code for one in refused] == [507, 507]
    assert all(STAYS in one.text for one in refused)
    assert phone.get("/settings").status_code == 200, "a phone that is open stays open"
    disk.make_room()
    assert stranger.get(f"/open/{link}").status_code == 200


def test_how_it_looks_is_kept_on_the_phone_and_needs_no_room(disk: Disk) -> None:
    disk.fill()
    form = {name: (None, value) for name, value in {"theme": "night", "text": "large", "units": "us"}.items()}
    answer = disk.phone.post("/settings", files=form)
    assert answer.status_code == 303
    assert "night" in answer.headers["set-cookie"]


def test_a_shared_server_on_a_full_disk_signs_nobody_in_and_signs_nobody_out(disk: Disk) -> None:
    shared = Shared(disk.folder)
    account = shared.account("Ada Quill", "crew")
    signed_in, stranger = shared.phone_of(account), shared.stranger()
    disk.fill()
    answer = sign_in(stranger)
    assert answer.status_code == 507
    assert STAYS in answer.text
    assert signed_in.get("/c/hazel-70/trouble").status_code == 200
    disk.make_room()
    assert sign_in(stranger).status_code == 303
    assert stranger.get("/c/hazel-70/trouble").status_code == 200
    shared.house.close()


@pytest.fixture
def readable() -> Iterator[tuple[Phone, Path]]:
    """Yield a phone at a folder that every user may look into; the crew is on file."""
    with tempfile.TemporaryDirectory(prefix="becket-", dir="/tmp") as name:
        folder = demo_folder(Path(name))
        folder.chmod(0o755)
        phone = phone_at(folder)
        (folder / "sessions.sqlite").chmod(0o644)  # becket itself can read it: it is another user only here
        event = photo_event(Writer(number=9), TAKEN, run=None, entered={"pattern": "main:4"})
        deliver(phone, [*people_events(), event])
        put(phone, event, 0, TAKEN[:100])
        phone.get("/c/hazel-70/trouble")
        phone.house.store.close()
        yield phone, folder
        phone.house.close()


def test_a_folder_that_may_only_be_read_is_told_everywhere_and_nothing_changes(readable: tuple[Phone, Path]) -> None:
    phone, folder = readable
    event = photo_event(Writer(number=9), TAKEN, run=None, entered={"pattern": "main:4"})
    note = Writer(number=20).write("noted", {"text": "x"}, run=None)
    before = {path: path.read_bytes() for path in folder.rglob("*") if path.is_file() and "-shm" not in path.name}
    with as_somebody(folder):
        answers = {
            "entry": phone.post("/api/events", json={"events": [event_as_dict(note)]}),
            "piece": put(phone, event, 100, TAKEN[100:200]),
            "file": phone.post("/files", files={"file": (BOOK, (folder / BOOK).read_bytes() + b"# new\n")}),
            "link": phone.post("/link", files={"a": ""}),
        }
    assert {name: one.status_code for name, one in answers.items()} == dict.fromkeys(answers, 507)
    assert all(STAYS in one.text for one in answers.values())
    assert not any("Errno" in one.text or "Traceback" in one.text for one in answers.values())
    after = {path: path.read_bytes() for path in folder.rglob("*") if path.is_file() and "-shm" not in path.name}
    assert after.keys() == before.keys()
    assert {path for path in after if after[path] != before[path]} <= {folder / "becket.sqlite-wal"}
    assert [one["number"] for one in deliver(phone, [note])["results"]] == [4]
    assert send(phone, event, TAKEN).json()["whole"] is True


@pytest.mark.parametrize("path", ["/c/hazel-70/now", "/api/feed/hazel-70", "/open/abc"])
def test_sessions_that_cannot_be_read_let_nobody_in_and_say_why(phone: Phone, folder: Path, path: str) -> None:
    for file in folder.glob("sessions.sqlite*"):
        file.write_bytes(b"this is no database" * 300)
    answer = phone.get(path)
    assert answer.status_code == 507
    assert "sessions.sqlite: is damaged. Remove it and start again" in answer.text
    assert "content-security-policy" in answer.headers


def test_an_error_of_the_system_is_told_without_its_number(
    phone: Phone, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(_: object) -> None:
        raise OSError(errno.EIO, "Input/output error", "/some/where")

    monkeypatch.setattr(phone.house, "cranes", lambda: broken(None))
    answer = phone.get("/files")
    assert answer.status_code == 507
    assert f"A file of the server: Input/output error. Look at its disk. {STAYS}" in answer.text
    assert "/some/where" not in answer.text
