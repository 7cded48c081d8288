"""Settings: the shipped table, and what a crew replaces beside its book.

In:    the folder of a crane book, or None.
Out:   one record of values in SI, each with its reason or the crew's source.
Never: a value without a source, a name that is not in the table.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from becket.errors import UnreadableTextError
from becket.intake.fields import FROM_NOUGHT, Bounds, Field, quantity, record, word
from becket.intake.files import read_text
from becket.intake.nodes import Pairs
from becket.intake.page import Page, nearest
from becket.intake.version import VERSION
from becket.intake.yaml_nodes import read_yaml
from becket.settings.rules import rule_names
from becket.settings.tables import read_table
from becket.settings.values import Settings
from becket.units import UNITS, read_quantity, shortened

FILE_NAME = "becket.settings.yaml"
# a pair of which the second is not under the first
PAIRS = (("twist_pass", "twist_fail"), ("tilt_pass", "tilt_fail"))


@dataclass(frozen=True, kw_only=True)
class _Shipped:
    value: float
    kind: str
    reason: str


def read_settings(folder: Path | None) -> Settings:
    """Return the settings in force for a crane book [-].

    Args:
        folder: the book's; None for the shipped values alone [-]

    Raises: FaultyFileError where the crew's file cannot be used as it stands.
    """
    shipped = _settings({}, {}, None)
    path = folder / FILE_NAME if folder is not None else None
    if path is None or not path.exists():
        return shipped
    page = Page(str(path))
    values = _crew_values(path, page, shipped)
    page.stop_if_faulty()
    replaced = {name: value for name, value in values.items() if name in _shipped() and value is not None}
    sources = {name: page.sources[name] for name in replaced}
    return _settings(replaced, sources, values.get("rules"))


def _crew_values(path: Path, page: Page, shipped: Settings) -> dict[str, Any]:
    """What the crew's file says, as far as it can be read; its faults stand on the page."""
    file = read_text(path, page, shipped.file_size_most)
    node = read_yaml(file.text, page, shipped) if file else None
    values: dict[str, Any] | None = _fields().read(page, node, "") if node is not None else None
    if isinstance(node, Pairs) and values is not None:
        _check(page, node, values)
    return values or {}


@cache
def _shipped() -> dict[str, _Shipped]:
    rows = read_table("settings.csv", ("name", "value", "unit", "reason"))
    return {row["name"]: _shipped_of(row) for row in rows}


def _shipped_of(row: dict[str, str]) -> _Shipped:
    kind = _kind(row["unit"])
    text = row["value"] if kind == "ratio" else f"{row['value']} {row['unit']}"
    return _Shipped(value=read_quantity(text, kind), kind=kind, reason=row["reason"])


def _kind(unit: str) -> str:
    return "ratio" if unit == "-" else next(kind for kind, known in UNITS.items() if unit in known)


@cache
def _fields() -> Field:
    fields = {name: _field(name, one.kind) for name, one in _shipped().items()}
    rules = word(_rules, "the name of a rule set")
    return record({"becket": VERSION, "rules": rules, **fields}, [], "settings, each {value: figure, source: text}")


def _field(name: str, kind: str) -> Field:
    if name.startswith("file_"):
        return quantity(kind, Bounds(least=1.0), "from 1 up")
    return quantity(kind, FROM_NOUGHT, "from 0 up")


def _rules(found: str) -> str:
    if found not in rule_names():
        wanted = nearest(found, rule_names(), "rule sets on file")
        raise UnreadableTextError(f'"{shortened(found)}" is no rule set', wanted)
    return found


def _check(page: Page, node: Pairs, values: dict[str, Any]) -> None:
    for word_, _ in node.pairs:
        name = word_.text
        if name in _shipped() and values[name] is not None and name not in page.sources:
            page.fault(word_, name, "has no source", "{value: figure, source: text}: who says so, and where")
    in_force = {name: one.value if values[name] is None else values[name] for name, one in _shipped().items()}
    for less, more in PAIRS:
        if in_force[less] > in_force[more]:
            field = less if values[less] is not None else more
            page.fault_at(field, f"{less} is over {more}", f"{less} up to {more}")


def _settings(replaced: dict[str, float], sources: dict[str, str], rules: str | None) -> Settings:
    values = {name: one.value for name, one in _shipped().items()} | replaced
    reasons = {name: one.reason for name, one in _shipped().items()} | sources
    return Settings(**values, rules=rules, reasons=reasons, replaced=dict(sources))
