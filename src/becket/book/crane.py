"""The crane book: one crane's manual, whole.

In:    the records of the parts.
Out:   one frozen record that every computation takes.
Never: files, units, computing.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from becket.book.boom import Boom, Head
from becket.book.charts import Chart, FallsTable, Fleet, Position, Stowed
from becket.book.hoist import DeadEnd, Rope, SecondLine, Winch
from becket.book.tackle import Block, Indicator, Keeper, Override, Pattern, Switch


@dataclass(frozen=True, kw_only=True)
class Book:
    """Everything that the crew typed of one crane. None: not on file."""

    crane: str
    serial: str | None
    manual_title: str
    manual_issue: str | None
    boom: Boom
    head: Head
    winch: Winch
    second_line: SecondLine | None
    sheave_efficiency: float | None  # force passed on by one turning sheave; 1/K where the book gives K [-]
    rope: Rope
    dead_end: DeadEnd
    blocks: Mapping[str, Block]
    switch: Switch
    indicator: Indicator | None
    override: tuple[Override, ...]
    keepers: tuple[Keeper, ...]
    keepers_on_file: bool  # False: the book does not say; () with True: it says that there are none
    patterns: tuple[Pattern, ...]
    falls_table: FallsTable | None
    fleet: Fleet
    stowed: tuple[Stowed, ...] | None  # () says that nothing hangs there
    rereeve: tuple[Position, ...]
    charts: tuple[Chart, ...]
    sources: Mapping[str, str]  # field path -> source that the book gives, "sheave_efficiency" -> "manual 4-3"
    fingerprint: str  # first 16 hex digits of SHA-256 over the file's bytes
