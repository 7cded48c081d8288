"""The job sheet: one file, YAML or CSV, to one record.

In:    the path of a file, the settings with their limits, the crane book where there is one.
Out:   the sheet in SI, where each field stands, every fault in one go.
Never: judging a lift, a default for a figure that is not given.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from becket.book.crane import Book
from becket.book.jobs import Job, JobSheet, Lift, Rates, Yard
from becket.book.tackle import State
from becket.errors import UnreadableTextError
from becket.intake.boom_lengths import BoomLengths, boom_lengths
from becket.intake.cells import read_cells
from becket.intake.fields import (
    OVER_NOUGHT,
    Field,
    choice,
    list_of,
    map_of,
    moment,
    record,
    span,
    whole,
    word,
    yes_no,
)
from becket.intake.files import read_text
from becket.intake.job_references import JobReferences
from becket.intake.measures import (
    CODE,
    LENGTH,
    LENGTH_OR_NOUGHT,
    MASS_OR_NOUGHT,
    PLACE,
    RATE,
    SECTOR,
    TEXT,
    TIME,
    TIME_OR_NOUGHT,
)
from becket.intake.nodes import Node
from becket.intake.page import Page
from becket.intake.version import VERSION
from becket.intake.yaml_nodes import read_yaml
from becket.settings.values import Settings
from becket.units import read_clock_range, shortened

KINDS = ("persons", "two cranes", "pulling free", "duty cycle", "fly extension", "second head")


@dataclass(frozen=True, kw_only=True)
class ReadJobs:
    """A job sheet, and where each of its fields stands in the file."""

    sheet: JobSheet
    marks: Mapping[str, tuple[int, int]]  # field path -> line, column


def _lift(values: dict[str, Any]) -> Lift:
    return Lift(**{**values, "count": values["count"] or 1})


def _job(values: dict[str, Any]) -> Job:
    job = Job(
        name=values["job"],
        site=values["site"],
        start=values["from"],
        end=values["to"],
        leave_by=values["leave_by"],
        counterweight=values["counterweight"],
        outriggers=values["outriggers"],
        people=values["people"],
        free_radius=values["free_radius"],
        lines_near=values["lines_near"],
        lifts=(),
    )
    fitted = {"counterweight": job.counterweight, "outriggers": job.outriggers}
    return replace(job, lifts=tuple(lift and replace(lift, **fitted) for lift in values["lifts"] or ()))


def _currency(found: str) -> str:
    if not (len(found) == 3 and found.isascii() and found.isalpha() and found.isupper()):
        raise UnreadableTextError(shortened(found) or '""', "three capital letters, as EUR")
    return found


LIFT_FIELDS: dict[str, Field] = {
    "name": TEXT,
    "count": whole(1),
    "load": MASS_OR_NOUGHT,
    "load_basis": choice("weighed", "drawing", "estimate"),
    "rigging": MASS_OR_NOUGHT,
    "chart": TEXT,
    "boom": LENGTH,
    "radius": span("length", OVER_NOUGHT, "over 0, or a range as 6 m to 14 m"),
    "top": PLACE,
    "bottom": PLACE,
    "handling": TIME_OR_NOUGHT,
    "sector": SECTOR,
    "code": CODE,
    "kind": choice(*KINDS),
}
JOB_FIELDS: dict[str, Field] = {
    "job": TEXT,
    "site": TEXT,
    "from": moment(),
    "to": moment(),
    "leave_by": moment(),
    "counterweight": MASS_OR_NOUGHT,
    "outriggers": TEXT,
    "people": whole(),
    "free_radius": LENGTH_OR_NOUGHT,
    "lines_near": yes_no(),
}
_LIFTS = list_of(
    record(LIFT_FIELDS, ["name"], "{name: text, load: mass, boom: length, radius: range, ...}", _lift),
    "a list of lifts, each {name: text, load: mass, ...}, at least one",
    1,
)
_JOBS = list_of(
    record({**JOB_FIELDS, "lifts": _LIFTS}, ["job", "lifts"], "{job: text, from: moment, lifts: [...], ...}", _job),
    "a list of jobs, each {job: text, lifts: [...], ...}, at least one",
    1,
)
RIGGED = record(
    {"block": TEXT, "falls": whole(1)},
    ["block", "falls"],
    "{block: name, falls: number}",
    lambda values: State(**values),
)
RATES = record(
    {
        "currency": word(_currency, "three capital letters, as EUR"),
        "customer": RATE,
        "own": RATE,
        "overtime": RATE,
        "billing_step": TIME,
        "minimum": TIME_OR_NOUGHT,
    },
    ["currency"],
    "{currency: EUR, customer: rate, own: rate, ...}",
    lambda values: Rates(**values),
)
YARD = record(
    {"free_radius": LENGTH_OR_NOUGHT, "setup": TIME_OR_NOUGHT, "people": whole()},
    [],
    "{free_radius: length, setup: time, people: number}",
    lambda values: Yard(**values),
)
CARRIED = map_of(TEXT, choice("crane", "lorry", "yard"), "block: crane, lorry or yard", named=True)
SHEET_FIELDS: dict[str, Field] = {
    "becket": VERSION,
    "crane": TEXT,
    "rigged": RIGGED,
    "rates": RATES,
    "yard": YARD,
    "daylight": word(read_clock_range, "two times of day, as 07:00 to 17:30"),
    "carried": CARRIED,
    "jobs": _JOBS,
}
NO_RATES = Rates(currency="", customer=None, own=None, overtime=None, billing_step=None, minimum=None)


def read_jobs(path: Path, settings: Settings, book: Book | None) -> ReadJobs:
    """Return the job sheet of a file [-].

    Args:
        path: of a YAML file, or of a CSV file by its suffix [-]
        settings: the limits of what is read
        book: the crane's, against which names and boom lengths are checked; None: not checked

    Raises: FaultyFileError with every fault, sorted by place.
    """
    page = Page(str(path), decimal_comma=is_csv(path))
    sheet = read_sheet(path, page, settings, book)
    page.stop_if_faulty()
    assert sheet is not None  # a file without a sheet has a fault
    return ReadJobs(sheet=sheet, marks=page.marks)


def is_csv(path: Path) -> bool:
    """Return whether the path names a table rather than a YAML file [-].

    >>> is_csv(Path("week.CSV")), is_csv(Path("week.yaml"))
    (True, False)
    """
    return path.suffix.lower() == ".csv"


def read_sheet(path: Path, page: Page, settings: Settings, book: Book | None) -> JobSheet | None:
    """Return the sheet as far as it can be read; its faults stand on the page [-]."""
    file = read_text(path, page, settings.file_size_most)
    node: Node | None = None
    if file is not None and is_csv(path):
        node = read_cells(file.text, page, settings)
    elif file is not None:
        node = read_yaml(file.text, page, settings)
    if file is None or node is None:
        return None
    required = ["crane", "jobs"] if is_csv(path) else ["becket", "crane", "jobs"]
    values = record(SHEET_FIELDS, required, "the keys of a job sheet").read(page, node, "")
    if values is None:
        return None
    sheet = _sheet(values, file.fingerprint, book)
    JobReferences(page, sheet, book).check()
    return sheet


def _sheet(values: dict[str, Any], fingerprint: str, book: Book | None) -> JobSheet:
    lengths = boom_lengths(book.boom if book else None)
    jobs = tuple(
        job and replace(job, lifts=tuple(lift and _snapped(lift, lengths) for lift in job.lifts))
        for job in values["jobs"] or ()
    )
    return JobSheet(
        crane=values["crane"],
        rigged=values["rigged"],
        rates=values["rates"] or NO_RATES,
        yard=values["yard"],
        daylight=values["daylight"],
        carried=values["carried"] or {},
        jobs=jobs,
        fingerprint=fingerprint,
    )


def _snapped(lift: Lift, lengths: BoomLengths) -> Lift:
    return lift if lift.boom is None else replace(lift, boom=lengths.snapped(lift.boom))
