"""``becket record``: verify the records, take them out and in, back them up, move them.

In:    a data folder, or the address of a database.
Out:   files; what was found or done.
Never: a change to what is kept; anything written over.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any, NoReturn, TypeVar

import click

from becket.cli.answer import give
from becket.cli.options import example
from becket.cli.overview import COMMANDS
from becket.cli.telling import Telling
from becket.cli.text_record import done_text, photos_text, verified_text
from becket.errors import BrokenStoreError, RefusedError, UnreadableTextError
from becket.records.archive import export_archive
from becket.records.backup import back_up_file, is_sqlite_file, restore_file
from becket.records.kept import Head
from becket.records.leftovers import file_of, missing, nothing_left
from becket.records.move import move_records
from becket.records.photo_check import check_photos
from becket.records.store import Store, store_place
from becket.records.take_in import take_in_archive
from becket.records.verify import Verified, verify

F = TypeVar("F", bound=Callable[..., Any])
ZIP = ".zip"


@dataclass(frozen=True, kw_only=True)
class Place:
    """Where records are kept: the store and the folder of the photos."""

    url: str
    photos: Path | None
    is_file: bool  # of the data folder
    new: tuple[Path, ...]  # of store, photos, folder: those that are not there yet


@click.group(
    "record",
    short_help=COMMANDS["record"],
    no_args_is_help=False,  # a missing command is one line, as every slip
    epilog=example("becket record verify --data demo"),
)
def record_command() -> None:
    """Verify the records, take them out and in, back them up, move them.

    Where they are kept is told by --data DIR (the folder that becket serve works on) or by --url, a database.
    """


def kept_at(function: F) -> F:
    """Return the command with the options that say where the records are kept [-]."""
    data = click.option("--data", type=click.Path(path_type=Path), metavar="DIR", help="Data folder, photos included.")
    url = click.option("--url", metavar="URL", help="Database: postgresql://USER@HOST/NAME or sqlite:///PATH.")
    return data(url(function))


def out(text: str) -> Callable[[F], F]:
    """Return the option for the file to write [-]."""
    return click.option("-o", "path", type=click.Path(path_type=Path), required=True, metavar="FILE", help=text)


class Anchor(click.ParamType):  # type: ignore[type-arg]  # generic only in newer click
    """``NUMBER:HASH`` as it stands on paper."""

    name = "anchor"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Head:
        """Return number and hash [-]."""
        number, _, digest = str(value).strip().lower().partition(":")
        if not number.isdecimal() or not number.isascii() or not digest or set(digest) - set("0123456789abcdef"):
            self.fail(f'"{value}"; write NUMBER:HASH as it stands on paper, 1234:0f3a9c21', param, ctx)
        return Head(number=int(number), hash=digest)


@record_command.command(
    "verify",
    short_help="Whether everything is as it was kept.",
    epilog=example("becket record verify --data demo --anchor 41:9f86d081884c7d65"),
)
@kept_at
@click.option("--anchor", type=Anchor(), metavar="N:HASH", help="Number and hash of an event as printed once.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object.")
def verify_command(data: Path | None, url: str | None, anchor: Head | None, as_json: bool) -> None:
    """Verify that every event, document and photo is as it was kept; name the first that is not."""
    place = _place(data, url)
    with Store.look(place.url) as store, Telling() as tell:
        found = verify(store, anchor, tell)
        photos = check_photos(store, place.photos) if place.photos is not None else None
        where = store.database.place
    is_whole = found.is_whole and not (photos and photos.broken)
    plain = {**asdict(found), "is_whole": is_whole, "photos": asdict(photos) if photos else None}
    text = "\n".join(part for part in (photos_text(photos), verified_text(where, found)) if part)
    give(lambda: text, lambda: plain, as_json, 0 if is_whole and not found.guards_gone else 1)


@record_command.command(
    "export",
    short_help="Take all records out into one archive.",
    epilog=example("becket record export --data demo -o records.zip"),
)
@kept_at
@out("Archive to write, FILE.zip.")
def export_command(data: Path | None, url: str | None, path: Path) -> None:
    """Take all records out into one archive: JSON lines, CSV, documents, photos. The store may be in use."""
    where = _place(data, url)
    with Store.look(where.url) as store, Telling() as tell:
        found = verify(store, tell=tell)
        done = export_archive(store, path, where.photos, tell)
        text = verified_text(store.database.place, found)
    _say(f"{text}\n{done_text(path, done)}", 0 if found.is_whole else 1)


@record_command.command(
    "import",
    short_help="Take an archive in where nothing is kept.",
    epilog=example("becket record import records.zip --data new"),
)
@click.argument("path", metavar="FILE", type=click.Path(path_type=Path))
@kept_at
def import_command(path: Path, data: Path | None, url: str | None) -> None:
    """Take an archive in where nothing is kept yet: the same numbers and hashes."""
    where = _place(data, url, is_made=True)
    with nothing_left(where.new), Store.open(where.url) as store, Telling() as tell:
        done = take_in_archive(store, path, where.photos, tell)
        text = done_text(store.database.place, done)
    _say(text)


@record_command.command(
    "backup",
    short_help="Back the records up while they are in use.",
    epilog=example("becket record backup --data demo -o monday.zip"),
)
@kept_at
@out("FILE.zip: records, documents, photos. FILE.sqlite: a copy of a SQLite store, without photos.")
def backup_command(data: Path | None, url: str | None, path: Path) -> None:
    """Back the records up while they are in use; the chain is verified on the way."""
    where = _place(data, url)
    with Store.look(where.url) as store, Telling() as tell:
        if path.suffix.lower() == ".sqlite":
            found = back_up_file(store, path)
            text = f"{path}: {found.count} events, whole; photos are not in it."
        elif path.suffix.lower() == ZIP:
            found = _need_whole(store, tell)
            text = done_text(path, export_archive(store, path, where.photos, tell))
        else:
            raise RefusedError(f"-o {path}: the name ends in no kind of file that is known; end it in .zip or .sqlite")
    if found.guards_gone:
        text = f"{text}\nThe guards against change are gone from the store: run becket record verify."
    _say(text, 1 if found.guards_gone else 0)


@record_command.command(
    "restore",
    short_help="Bring a backup back where nothing is kept.",
    epilog=example("becket record restore monday.zip --data new"),
)
@click.argument("path", metavar="FILE", type=click.Path(path_type=Path))
@kept_at
def restore_command(path: Path, data: Path | None, url: str | None) -> None:
    """Bring a backup back where nothing is kept; nothing is ever written over."""
    where = _place(data, url, is_made=True)
    with nothing_left(where.new):
        text = _restored(path, where)
    _say(text)


@record_command.command(
    "move",
    short_help="From SQLite to PostgreSQL or back.",
    epilog=example("becket record move --data demo --to postgresql://becket@localhost/becket"),
)
@kept_at
@click.option(
    "--to", "target", required=True, metavar="URL", help="Empty database: postgresql://... or sqlite:///PATH."
)
def move_command(data: Path | None, url: str | None, target: str) -> None:
    """Move all records into an empty database, from SQLite to PostgreSQL or back. Stop becket serve first."""
    new = missing(file_of(target))
    with Store.look(_place(data, url).url) as source, nothing_left(new), Store.open(target) as store, Telling() as tell:
        done = move_records(source, store, tell)
        text = done_text(store.database.place, done)
    _say(f"{text}\nThe old ones stay where they were. Photos stay in the data folder.")


def _restored(path: Path, where: Place) -> str:
    if is_sqlite_file(path):
        if not where.is_file:
            raise RefusedError(f"{path}: is a copy of a SQLite store; restore it into a folder with --data, then move")
        head = restore_file(path, Path(where.url))
        return f"{where.url}: {head.number} events, whole; photos were not in it."
    with Store.open(where.url) as store, Telling() as tell:
        return done_text(store.database.place, take_in_archive(store, path, where.photos, tell))


def _place(data: Path | None, url: str | None, is_made: bool = False) -> Place:
    if data is None and url is None:
        raise UnreadableTextError("neither --data nor --url", "--data DIR, a folder, or --url URL, a database")
    photos = None if data is None else data / "photos"
    file = file_of(url) if url is not None else None if data is None else Path(store_place(data))
    new = missing(file, photos, data)
    if data is not None and is_made:
        data.mkdir(exist_ok=True)
    if data is not None and not data.is_dir():
        raise UnreadableTextError(f"--data {data}", "a folder that is there")
    if url is not None:
        return Place(url=url, photos=photos, is_file=False, new=new)
    assert data is not None
    return Place(url=store_place(data), photos=photos, is_file=True, new=new)


def _need_whole(store: Store, tell: Telling) -> Verified:
    found = verify(store, tell=tell)
    if not found.is_whole:
        raise BrokenStoreError(
            f"{verified_text(store.database.place, found)}\nNo backup was made. Export takes it out."
        )
    return found


def _say(text: str, code: int = 0) -> NoReturn:
    give(lambda: text, dict, False, code)
