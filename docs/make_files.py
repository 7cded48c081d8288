"""The page ``files.md``: every field of a crane book and of a job sheet, and what is wanted there.

In:    the readers of the files themselves; the demo's files as examples.
Out:   one page.
Never: a field that no reader reads.
"""

from __future__ import annotations

import inspect
from collections.abc import Iterator
from importlib.resources import files

from becket.intake.book import BOOK
from becket.intake.fields import Field, record
from becket.intake.jobs import SHEET_FIELDS

HEAD = """# Files

Made from the code by `make docs`.

A crane book is one YAML file a crane, a job sheet one YAML or CSV file for the coming lifts. Every quantity is text
with a unit: `17 t`, `38 000 lb`, `12 ft 6 in`, `-1.5 deg`. `ton` alone is refused: three different tons are in use.
Plain numbers without a unit are ratios, factors and counts. A range is `6 m to 14 m`. A missing figure is no fault
unless the field is marked `needed`: what cannot be answered without it is `unknown` and names it. Any figure may be
written `{value: 17 t, source: "manual 4-3"}`. `becket check` names every slip with line, column and field.
In the CSV of a job sheet the columns are the keys of a lift, of its job, and of the sheet with a dot
(`rates.customer`); a cell of job or sheet left empty means as in the row above.
"""


def pages() -> dict[str, str]:
    """Return the page with its text [-]."""
    parts = [
        HEAD,
        "## The crane book",
        _table(BOOK),
        _example("hazel-70.crane.yaml", "yaml"),
        "## The job sheet",
        _table(record(SHEET_FIELDS, ("becket", "crane", "jobs"))),
        _example("hazel-70.jobs.yaml", "yaml"),
    ]
    return {"files.md": "\n\n".join(part.strip() for part in parts) + "\n"}


def field_rows(field: Field, path: str = "", *, is_needed: bool = False) -> Iterator[tuple[str, str, bool]]:
    """Yield path, what is wanted and whether it is needed, of a field and all in it [-].

    Args:
        field: a reader of the intake
        path: of the field
        is_needed: whether its record wants it
    """
    if path:
        yield path, field.wanted, is_needed
    inside = inspect.getclosurevars(field.read).nonlocals
    for name, part in (inside.get("fields") or {}).items():
        yield from field_rows(part, f"{path}.{name}".strip("."), is_needed=name in (inside.get("required") or ()))
    if isinstance(inside.get("item"), Field) and _has_parts(inside["item"]):
        yield from _within(inside["item"], f"{path}[]")
    if isinstance(inside.get("value"), Field) and _has_parts(inside["value"]):
        yield from _within(inside["value"], f"{path}.NAME")
    if isinstance(inside.get("other"), Field):
        yield from _within(inside["other"], path)


def _has_parts(field: Field) -> bool:
    return bool(inspect.getclosurevars(field.read).nonlocals.get("fields"))


def _within(field: Field, path: str) -> Iterator[tuple[str, str, bool]]:
    """The fields in a field, not itself."""
    return (row for row in field_rows(field, path) if row[0] != path)


def _table(field: Field) -> str:
    rows = [
        f"| `{path}` | {_cell(wanted)} | {'needed' if is_needed else ''} |"
        for path, wanted, is_needed in field_rows(field)
    ]
    return "\n".join(["| field | what is wanted | |", "| --- | --- | --- |", *rows])


def _cell(text: str) -> str:
    return text.replace("|", "\\|")


def _example(name: str, language: str) -> str:
    text = (files("becket.demo") / name).read_text(encoding="utf-8")
    return f"As in the demo, `{name}`:\n\n```{language}\n{text.strip()}\n```"
