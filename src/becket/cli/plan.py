"""``becket plan``: where to change the reeving over the coming lifts.

In:    a crane book, a job sheet.
Out:   the plan; exit code 0 where every lift is in it.
Never: searching here.
"""

from __future__ import annotations

from pathlib import Path

import click

from becket.cli.answer import give
from becket.cli.options import book, example, face
from becket.cli.overview import COMMANDS
from becket.cli.reading import open_book, sound_code
from becket.cli.text_plan import plan_code, plan_text
from becket.errors import NotOnFileError
from becket.intake.jobs import read_jobs
from becket.planning.answer import plan_as_dict
from becket.planning.crew_records import CrewRecords
from becket.planning.plan import plan_sheet
from becket.settings.values import Settings


@click.command("plan", short_help=COMMANDS["plan"], epilog=example("becket plan crane.yaml jobs.yaml"))
@book
@click.argument("jobs_path", metavar="JOBS", type=click.Path(path_type=Path))
@click.option("--data", type=click.Path(path_type=Path), metavar="DIR", help="Learn the minutes from records there.")
@click.option("--url", metavar="URL", help="The same from a database: postgresql://USER@HOST/NAME.")
@face
def plan_command(
    book_path: Path, jobs_path: Path, data: Path | None, url: str | None, units: str, as_json: bool
) -> None:
    """Answer which reeving every lift of the JOBS sheet gets, where to change it, why, what it costs and who pays.

    With --data, the folder of becket serve, or --url, its database, the crew's own minutes replace the settings' from
    the fifth record on.
    """
    crane, settings = open_book(book_path)
    sheet = read_jobs(jobs_path, settings, crane).sheet
    place = url if url is not None else None if data is None else _place_in(data)
    plan = plan_sheet(crane, settings, sheet, {} if place is None else _records(settings, place, book_path))
    code = sound_code(crane, settings, plan_code(plan))
    give(lambda: plan_text(crane, sheet, plan, units), lambda: plan_as_dict(plan), as_json, code)


def _place_in(folder: Path) -> str:
    from becket.records.store import store_place  # the store takes longer to load than the plan takes

    place = store_place(folder)
    if not Path(place).is_file():
        raise NotOnFileError(f"{folder}: no records there; give the folder that becket serve works on, or --url")
    return place


def _records(settings: Settings, place: str, book_path: Path) -> CrewRecords:
    from becket.web.crew_minutes import records_in_store

    return records_in_store(settings, place, book_path.name.split(".")[0])
