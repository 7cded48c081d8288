"""Photos over HTTP: in pieces, once, only such as an entry on file names, and nothing that is not a photo."""

from __future__ import annotations

import json
import shutil
import time
from dataclasses import replace
from io import BytesIO
from pathlib import Path
from typing import Any

import httpx
import pytest
from PIL import Image

from becket.book.tackle import State
from becket.cli.main import run as run_cli
from becket.guide.event import Event
from becket.guide.photo import MOST_OF_RECORD
from becket.guide.run import fold_run
from becket.guide.script import Script
from becket.records.archive import export_archive
from becket.records.photo_check import PhotosChecked, check_photos
from becket.records.photo_file import hash_of
from becket.records.photo_shelf import MOST_PIECE
from becket.records.store import Store, store_place
from becket.records.take_in import take_in_archive
from tests.records.test_photos import jpeg, opened, png
from tests.web.asking import OWN, Phone, demo_folder, phone_at
from tests.web.run_answered import CRANE, RUN, Writer, answered, people_events
from tests.web.test_receive import deliver

PUT = {**OWN, "content-type": "image/jpeg"}
TAKEN = jpeg(placed=True)
PIECE = 40_000


def photo_event(writer: Writer, data: bytes, **more: Any) -> Event:
    """Return the event of a photo that a phone took on a step."""
    entered = {"photo": hash_of(data), "bytes": len(data), "item": None, "pattern": None, "note": ""}
    return writer.write("photo_taken", {**entered, **more.pop("entered", {})}, **more)


@pytest.fixture(scope="module")
def closed(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Writer, Script]:
    """Return a folder with a whole change on file, who wrote it, and its script."""
    phone = phone_at(demo_folder(tmp_path_factory.mktemp("closed") / "data"))
    found = phone.house.script_for(phone.house.crane(CRANE), State(block="main", falls=2), State(block="main", falls=4))
    assert isinstance(found, tuple)
    name, script = found
    writer = Writer()
    deliver(phone, [*people_events(), *answered(script, writer, name)])
    phone.house.close()
    return phone.house.folder, writer, script


@pytest.fixture
def folder(closed: tuple[Path, Writer, Script], tmp_path: Path) -> Path:
    """Return a copy of that folder."""
    return Path(shutil.copytree(closed[0], tmp_path / "data"))


@pytest.fixture
def run(phone: Phone, closed: tuple[Path, Writer, Script]) -> tuple[Phone, Writer, Script]:
    """Return a phone at a server on that folder, and who writes on."""
    return phone, replace(closed[1]), closed[2]


def url(event: Event, **more: object) -> str:
    """Return the address of a photo on its way in."""
    asked = "&".join(f"{name}={value}" for name, value in {"event": event.key, **more}.items())
    return f"/api/photo/{event.crane}/{event.entered['photo']}?{asked}"


def put(phone: Phone, event: Event, offset: int, piece: bytes) -> httpx.Response:
    """Return the answer to one piece."""
    return phone.ask("PUT", url(event, offset=offset), content=piece, headers=PUT)


def send(phone: Phone, event: Event, data: bytes) -> httpx.Response:
    """Send a photo as the phone does, from what the server says has arrived; return the last answer."""
    answer = phone.get(url(event))
    while answer.status_code == 200 and not answer.json()["whole"]:
        offset = answer.json()["offset"]
        answer = put(phone, event, offset, data[offset : offset + PIECE])
    return answer


def told(phone: Phone, run: str | None = RUN) -> list[dict[str, object]]:
    """Return what becket says it keeps."""
    events = phone.house.events(CRANE)
    return [dict(one.entered) for one in events if one.kind == "photo_kept" and one.run == run]


def test_photo_in_pieces_is_kept_once_and_shown_without_its_position(run: tuple[Phone, Writer, Script]) -> None:
    phone, writer, _ = run
    event = photo_event(writer, TAKEN)
    deliver(phone, [event])
    assert send(phone, event, TAKEN).json() == {"offset": len(TAKEN), "whole": True}
    assert send(phone, event, TAKEN).json()["whole"] is True
    (kept,) = told(phone)
    answer = phone.get(f"/c/{CRANE}/photos/{hash_of(TAKEN)}.jpg")
    assert (answer.status_code, answer.headers["content-type"]) == (200, "image/jpeg")
    assert kept == {
        "photo": hash_of(TAKEN),
        "kept": hash_of(answer.content),
        "width": 800,
        "height": 600,
        "bytes": len(answer.content),
    }
    assert opened(TAKEN).getexif()
    assert not opened(answer.content).getexif()
    assert b"SECRETPHONE" not in answer.content


def test_head_tells_how_far_it_has_come(run: tuple[Phone, Writer, Script]) -> None:
    phone, writer, _ = run
    event = photo_event(writer, TAKEN)
    deliver(phone, [event])
    put(phone, event, 0, TAKEN[:100])
    answer = phone.ask("HEAD", url(event))
    assert (answer.headers["x-becket-offset"], answer.headers["x-becket-whole"]) == ("100", "no")


def test_broken_upload_goes_on_at_a_server_started_anew(run: tuple[Phone, Writer, Script], folder: Path) -> None:
    phone, writer, _ = run
    event = photo_event(writer, TAKEN)
    deliver(phone, [event])
    put(phone, event, 0, TAKEN[:1234])
    phone.house.close()
    again = phone_at(folder)
    assert again.get(url(event)).json() == {"offset": 1234, "whole": False}
    assert send(again, event, TAKEN).json()["whole"] is True
    assert len(told(again)) == 1
    again.house.close()


def test_photo_that_is_whole_without_its_event_gets_it(run: tuple[Phone, Writer, Script], folder: Path) -> None:
    """The power went between the file and the event."""
    phone, writer, _ = run
    event = photo_event(writer, TAKEN)
    deliver(phone, [event])
    send(phone, event, TAKEN)
    other = photo_event(writer, TAKEN, run=None, entered={"pattern": "main:4"})
    deliver(phone, [other])
    assert told(phone, None) == []
    assert phone.get(url(other)).json()["whole"] is True
    assert told(phone, None) == told(phone)


def test_piece_that_does_not_fit_is_answered_with_the_place_to_go_on(run: tuple[Phone, Writer, Script]) -> None:
    phone, writer, _ = run
    event = photo_event(writer, TAKEN)
    deliver(phone, [event])
    put(phone, event, 0, TAKEN[:100])
    for offset, piece in ((0, TAKEN[:100]), (7, b"x"), (100, TAKEN)):
        assert put(phone, event, offset, piece).json() == {"offset": 100, "whole": False}


def test_other_bytes_are_thrown_away_and_asked_for_again(run: tuple[Phone, Writer, Script]) -> None:
    phone, writer, _ = run
    event = photo_event(writer, TAKEN)
    deliver(phone, [event])
    assert put(phone, event, 0, bytes(len(TAKEN))).json() == {"offset": 0, "whole": False}
    assert send(phone, event, TAKEN).json()["whole"] is True


def bomb() -> bytes:
    data = bytearray(jpeg(64, 64))
    frame = data.index(b"\xff\xc0")
    data[frame + 5 : frame + 9] = (65_000).to_bytes(2, "big") * 2
    return bytes(data)


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (png(), "Not a JPEG"),
        (b"<svg onload=alert(1)>", "Not a JPEG"),
        (jpeg()[:5000], "not whole"),
        (jpeg() + b"PK\x03\x04" + b"\0" * 200, "something hangs behind it"),
        (b"GIF89a" + jpeg(), "Not a JPEG"),
        (b"\xff\xd8\xff<script>alert(1)</script>\xff\xd9", "cannot be read"),
        (bomb(), "65000 x 65000|cannot be read"),
    ],
)
def test_what_is_no_photo_is_refused_and_nothing_stays(
    run: tuple[Phone, Writer, Script], folder: Path, data: bytes, words: str
) -> None:
    phone, writer, _ = run
    event = photo_event(writer, data)
    deliver(phone, [event])
    answer = send(phone, event, data)
    assert answer.status_code == 409
    assert any(part in answer.json()["refused"] for part in words.split("|"))
    assert [path for path in (folder / "photos").rglob("*") if path.is_file()] == []
    assert told(phone) == []
    assert phone.get(f"/c/{CRANE}/photos/{hash_of(data)}.jpg").status_code == 404


def test_photo_that_no_entry_names_takes_no_room(run: tuple[Phone, Writer, Script], folder: Path) -> None:
    phone, writer, _ = run
    event, note = photo_event(writer, TAKEN), writer.write("noted", {"text": "x"})
    deliver(phone, [note])
    wrong = replace(event, key=note.key)
    other_crane = replace(event, crane="rowan-30")
    for named in (event, wrong):
        assert put(phone, named, 0, TAKEN).status_code == 404
    deliver(phone, [event])
    assert put(phone, other_crane, 0, TAKEN).status_code == 404
    assert not (folder / "photos").exists()


@pytest.mark.parametrize("name", ["..%2F..%2Fbecket.sqlite", "a" * 63, "A" * 64, "0" * 64 + "%00", "..", "%2e%2e"])
def test_path_for_a_name_is_refused(run: tuple[Phone, Writer, Script], folder: Path, name: str) -> None:
    phone, writer, _ = run
    event = photo_event(writer, TAKEN)
    deliver(phone, [event])
    answers = [
        phone.ask("PUT", f"/api/photo/{CRANE}/{name}?event={event.key}&offset=0", content=TAKEN, headers=PUT),
        phone.get(f"/c/{CRANE}/photos/{name}.jpg"),
        phone.get(f"/api/photo/{CRANE}/{name}?event={event.key}"),
    ]
    assert {one.status_code for one in answers} <= {404, 405, 415}  # 415: ".." leads out of /api/photo
    assert not (folder / "photos").exists()


def test_too_much_at_once_is_refused(run: tuple[Phone, Writer, Script]) -> None:
    phone, writer, _ = run
    event = photo_event(writer, TAKEN)
    deliver(phone, [event])
    assert put(phone, event, 0, bytes(MOST_PIECE + 1)).status_code == 413
    assert phone.ask("PUT", url(event, offset="x"), content=b"x", headers=PUT).status_code == 409
    assert phone.get(url(event)).json()["offset"] == 0


def test_another_site_sends_no_photo(run: tuple[Phone, Writer, Script]) -> None:
    phone, writer, _ = run
    event = photo_event(writer, TAKEN)
    deliver(phone, [event])
    foreign = {**PUT, "origin": "https://elsewhere.example", "sec-fetch-site": "cross-site"}
    assert phone.ask("PUT", url(event, offset=0), content=TAKEN, headers=foreign).status_code == 403
    plain = {**OWN, "content-type": "text/plain"}
    assert phone.ask("PUT", url(event, offset=0), content=TAKEN, headers=plain).status_code == 415
    stranger = Phone(phone.app, is_open=False)
    assert stranger.ask("PUT", url(event, offset=0), content=TAKEN, headers=PUT).status_code == 401
    assert stranger.get(f"/c/{CRANE}/photos/{hash_of(TAKEN)}.jpg").status_code == 401


def test_photo_is_shown_to_its_own_crane_alone(run: tuple[Phone, Writer, Script]) -> None:
    phone, writer, _ = run
    event = photo_event(writer, TAKEN)
    deliver(phone, [event])
    send(phone, event, TAKEN)
    assert phone.get(f"/c/rowan-30/photos/{hash_of(TAKEN)}.jpg").status_code == 404


def test_file_changed_by_hand_is_not_shown(run: tuple[Phone, Writer, Script], folder: Path) -> None:
    phone, writer, _ = run
    event = photo_event(writer, TAKEN)
    deliver(phone, [event])
    send(phone, event, TAKEN)
    (folder / "photos" / f"{hash_of(TAKEN)}.jpg").write_bytes(jpeg(100, 100))
    assert phone.get(f"/c/{CRANE}/photos/{hash_of(TAKEN)}.jpg").status_code == 404
    page = phone.get(f"/c/{CRANE}/record/{RUN}").text
    assert "is not the file that was kept" in page


def test_record_has_room_for_forty_and_says_so(run: tuple[Phone, Writer, Script]) -> None:
    phone, writer, _ = run
    events = [photo_event(writer, bytes([n + 1])) for n in range(MOST_OF_RECORD + 1)]
    results = deliver(phone, events)["results"]
    assert [one["refused"] for one in results[:-1]] == [None] * MOST_OF_RECORD
    assert results[-1]["refused"] == "40 photos are on this record already. This one stays on the phone."
    same = photo_event(writer, bytes([1]))
    assert deliver(phone, [same])["results"][0]["refused"] is None, "one that is there already takes no room"


@pytest.mark.parametrize(
    "entered",
    [
        {"photo": "x"},
        {"photo": "A" * 64},
        {"bytes": 0},
        {"bytes": 25_000_001},
        {"bytes": True},
        {"item": 3},
        {"note": 3},
    ],
)
def test_entry_that_names_no_photo_is_refused(run: tuple[Phone, Writer, Script], entered: dict[str, object]) -> None:
    phone, writer, _ = run
    (result,) = deliver(phone, [photo_event(writer, TAKEN, entered=entered)])["results"]
    assert "names no JPEG" in result["refused"]


def test_phone_cannot_say_that_becket_keeps_it(run: tuple[Phone, Writer, Script]) -> None:
    phone, writer, _ = run
    kept = {"photo": hash_of(TAKEN), "kept": "0" * 64, "width": 1, "height": 1, "bytes": 1}
    forged = writer.write("photo_kept", kept, role="becket", person=None, device="becket")
    (result,) = deliver(phone, [forged])["results"]
    assert result["refused"] == "Only becket itself writes this. Open the page again and enter it there."


def test_photo_changes_nothing_of_the_state(run: tuple[Phone, Writer, Script]) -> None:
    phone, writer, script = run
    before = [one for one in phone.house.events(CRANE) if one.run == RUN]
    event = photo_event(writer, TAKEN)
    deliver(phone, [event])
    send(phone, event, TAKEN)
    after = [one for one in phone.house.events(CRANE) if one.run == RUN]
    assert len(after) == len(before) + 2
    assert fold_run(script, after) == fold_run(script, before)


@pytest.fixture
def large() -> bytes:
    """Return a photo of 12 million pixels, as large as a phone makes it."""
    out = BytesIO()
    Image.effect_noise((1000, 750), 60).resize((4000, 3000)).convert("RGB").save(out, "JPEG", quality=95)
    return out.getvalue()


def test_12_megapixels_arrive_whole(run: tuple[Phone, Writer, Script], large: bytes) -> None:
    """The last piece, in which the photo is read and written anew, takes 0.3 s of work."""
    phone, writer, _ = run
    event = photo_event(writer, large)
    deliver(phone, [event])
    start = time.process_time()
    for offset in range(0, len(large), MOST_PIECE):
        last = put(phone, event, offset, large[offset : offset + MOST_PIECE])
    taken = time.process_time() - start
    assert last.json()["whole"] is True
    assert told(phone)[0]["width"] == 1600
    assert taken < 1, f"{taken:.2f} s of work; other tests share the cores"


def test_archive_takes_the_photos_along(run: tuple[Phone, Writer, Script], folder: Path, tmp_path: Path) -> None:
    """Whole ones; half a photo is none. What comes out of it is shown as before, and checked as before."""
    phone, writer, _ = run
    event, half = photo_event(writer, TAKEN), photo_event(writer, jpeg(300, 200))
    deliver(phone, [event, half])
    send(phone, event, TAKEN)
    put(phone, half, 0, jpeg(300, 200)[:100])
    before = phone.get(f"/c/{CRANE}/photos/{hash_of(TAKEN)}.jpg").content
    packed = tmp_path / "records.zip"
    exported = export_archive(phone.house.store, packed, folder / "photos", _silent)
    new = demo_folder(tmp_path / "new")
    with Store.open(store_place(new)) as store:
        taken = take_in_archive(store, packed, new / "photos", _silent)
        assert check_photos(store, new / "photos") == PhotosChecked(count=1, broken=())
    assert (exported.photos, taken.photos) == (1, 1)
    other = phone_at(new)
    assert other.get(f"/c/{CRANE}/photos/{hash_of(TAKEN)}.jpg").content == before
    other.house.close()


def _silent(what: str, count: int, of: int) -> None:
    """Take no notice."""


def test_verify_names_a_photo_that_was_changed_or_is_gone(
    run: tuple[Phone, Writer, Script], folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    phone, writer, _ = run
    for data in (TAKEN, jpeg(300, 200), jpeg(200, 100)):
        event = photo_event(writer, data)
        deliver(phone, [event])
        send(phone, event, data)
    first, second, _ = sorted((folder / "photos").glob("*.jpg"), key=lambda path: path.stat().st_mtime_ns)
    first.write_bytes(first.read_bytes() + b" ")
    second.unlink()
    words = ["record", "verify", "--data", str(folder)]
    assert run_cli(words) == 1
    said = capsys.readouterr().out
    assert f"BROKEN photo {first.stem[:12]}" in said
    assert f"BROKEN photo {second.stem[:12]}" in said
    assert "3 photos, 2 not as kept." in said
    run_cli([*words, "--json"])
    found = json.loads(capsys.readouterr().out)
    assert (found["is_whole"], len(found["photos"]["broken"])) == (False, 2)
