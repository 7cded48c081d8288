"""Printed tables as the project keeps them.

In:    the name of a csv under ``tests/data``, its first line ``# source: ...``.
Out:   rows of text, as printed; the tolerance that a printed number allows.
Never: numbers of our own.
"""

from __future__ import annotations

import csv
from decimal import Decimal
from pathlib import Path

DATA = Path(__file__).resolve().parents[1] / "data"


def read_table(name: str, folder: str = "published") -> list[dict[str, str]]:
    """Return the rows of a printed table as text; a table without a source is refused [-]."""
    lines = (DATA / folder / f"{name}.csv").read_text(encoding="utf-8").splitlines()
    if not lines or not lines[0].startswith("# source: "):
        raise ValueError(f"{name}.csv: no source; the first line is `# source: ...`")
    return list(csv.DictReader(lines[1:]))


def half_digit(printed: str, decimals: int | None = None) -> float:
    """Return half a unit of the last printed digit; ``decimals`` where the copy lost a trailing zero [-]."""
    exponent = Decimal(printed).as_tuple().exponent
    assert isinstance(exponent, int)
    return 0.5 * 10.0 ** (-decimals if decimals is not None else exponent) * (1 + 1e-9)
