"""``becket check``: every fault of the files, or "good".

In:    paths of a crane book and a job sheet.
Out:   faults and findings; exit code 2 for faults, 1 for findings, 0 for good.
Never: judging here.
"""

from __future__ import annotations

from pathlib import Path

import click

from becket.cli.answer import exit_code, give
from becket.cli.json_answers import check_json
from becket.cli.options import book, example, face
from becket.cli.overview import COMMANDS
from becket.cli.text_check import check_text
from becket.intake.check import check_files


@click.command("check", short_help=COMMANDS["check"], epilog=example("becket check crane.yaml jobs.yaml"))
@book
@click.argument("jobs_path", metavar="[JOBS]", required=False, type=click.Path(path_type=Path))
@face
def check_command(book_path: Path, jobs_path: Path | None, units: str, as_json: bool) -> None:
    """Read the crane BOOK, and the JOBS sheet where one is named; say "good", or every fault with its place.

    Figures of the book that contradict each other are findings.
    """
    report = check_files(book_path, jobs_path)
    code = 2 if report.faults else exit_code(report.verdict)
    give(lambda: check_text(report), lambda: check_json(report), as_json, code)
