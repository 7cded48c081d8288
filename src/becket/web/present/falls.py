"""The falls table of a lift as the page shows it.

In:    the answers of the core for one lift with one block.
Out:   records of short texts; figures rounded toward safety.
Never: a row with an unknown limit drawn as pass; a limit that the core did not give.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, floor, inf

from becket.book.crane import Book
from becket.book.jobs import JobSheet, Lift
from becket.book.tackle import State
from becket.figures import joined_range, percent, shown_in
from becket.limits.answer import FallsAnswer, Limit, Row
from becket.limits.gross import GrossLoad, gross_load
from becket.limits.table import falls_table
from becket.reeving.pattern import find_pattern
from becket.reeving.seal import is_confirmed
from becket.settings.values import Settings
from becket.verdict import Verdict
from becket.web.present.lifts import SheetLift
from becket.web.present.trade import Word, figure, limit_words, moment_of, sentence, typeset


@dataclass(frozen=True, kw_only=True)
class LimitShown:
    """One limit of one number of falls."""

    name: str
    verdict: str
    have: str
    need: str
    use: str
    why: str


@dataclass(frozen=True, kw_only=True)
class RowShown:
    """One number of falls. ``use`` is the greatest that is known."""

    falls: int
    verdict: str
    governs: str
    use: str
    unknown: int  # limits that are unknown
    is_this: bool
    is_on_file: bool
    speed: str
    rope: str
    wraps: str
    limits: tuple[LimitShown, ...]
    sum: tuple[tuple[str, str], ...]  # key of the part, mass


@dataclass(frozen=True, kw_only=True)
class TableShown:
    """The falls table of one block. ``answer``: "rig", "unproven", "none", "other rule book"."""

    block: str
    answer: str
    falls: int | None  # rig, or the fewest that nothing fails
    missing: tuple[str, ...]  # unproven: names of the limits that are unknown there
    nearest: RowShown | None  # none: the row that fails least
    gross: str | None  # of the row shown first
    rows: tuple[RowShown, ...]
    leaves: tuple[tuple[str, str], ...]  # of the row shown first: the limits that are nearest, with what is left
    unknowns: tuple[tuple[str, str, str], ...]  # limit, falls, why
    unread: tuple[str, ...]  # states on file that no second person has read from the page, nothing else failing
    further: tuple[str, ...]

    @property
    def first(self) -> RowShown | None:
        """The row that is opened where nothing was asked for [-]."""
        wanted = self.falls or (self.nearest.falls if self.nearest else None)
        return next((row for row in self.rows if row.falls == wanted), None)


def table_shown(book: Book, settings: Settings, block: str, lift: Lift, system: str) -> TableShown:
    """Return the falls table of a lift with one block for its page [-].

    Args:
        book: the crane
        settings: in force
        block: that hangs
        lift: with counterweight and outriggers of its job
        system: "metric" or "us"
    """
    answer = falls_table(book, settings, block, lift)
    wanted = answer.recommended or answer.unproven
    rows = tuple(
        _row(
            row,
            gross_load(book, settings, State(block=block, falls=row.falls), lift),
            row.falls == wanted,
            find_pattern(book, State(block=block, falls=row.falls)) is not None,
            system,
        )
        for row in answer.rows
    )
    least = _fails_least(answer)
    nearest = next((row for row in rows if least is not None and row.falls == least.falls), None)
    told = next((row for row in answer.rows if row.falls == wanted), least)
    return TableShown(
        block=block,
        answer="other rule book" if lift.kind is not None else _kind(answer),
        falls=wanted,
        missing=tuple(limit_words(one.name) for one in _unknown(told)) if told and answer.recommended is None else (),
        nearest=None if wanted else nearest,
        gross=next((dict(row.sum).get("gross") for row in rows if told and row.falls == told.falls), None),
        rows=rows,
        leaves=_leaves(told) if answer.recommended is not None and told else (),
        unknowns=_unknowns(book, block, answer, system),
        unread=_unread(book, block, answer),
        further=_further(answer, system),
    )


@dataclass(frozen=True, kw_only=True)
class LiftRow:
    """One lift in the list. ``verdict`` is said where no number of falls is recommended."""

    number: int
    name: str
    count: int
    when: str
    site: str
    falls: int | None
    verdict: str


def list_row(book: Book, settings: Settings, one: SheetLift, sheet: JobSheet | None, word: Word) -> LiftRow:
    """Return a lift for the list of lifts.

    Args:
        book: the crane
        settings: in force
        one: entry of the sheet
        sheet: the coming jobs
        word: the catalogue
    """
    blocks = _blocks(book, one, sheet)
    answers = [falls_table(book, settings, block, one.lift) for block in blocks[:1]]
    falls = next((answer.recommended for answer in answers if answer.recommended is not None), None)
    known = any(answer.unproven is not None for answer in answers) or one.lift.load is None
    return LiftRow(
        number=one.number,
        name=one.lift.name,
        count=one.lift.count,
        when=moment_of(one.when, word) if one.when else "?",
        site=one.job.site or one.job.name,
        falls=falls,
        verdict="unknown" if known or not answers else "fail",
    )


def tables_shown(
    book: Book, settings: Settings, one: SheetLift, sheet: JobSheet | None, system: str
) -> tuple[TableShown, ...]:
    """Return the falls table of a lift with each block, the planned one first.

    Args:
        book: the crane
        settings: in force
        one: entry of the sheet
        sheet: the coming jobs
        system: "metric" or "us"
    """
    return tuple(table_shown(book, settings, block, one.lift, system) for block in _blocks(book, one, sheet))


def _blocks(book: Book, one: SheetLift, sheet: JobSheet | None) -> list[str]:
    """The blocks of the book: the planned one first, else the one that hangs, else the one with the most sheaves."""
    rigged = sheet.rigged.block if sheet and sheet.rigged else None
    first = one.state.block if one.state else rigged
    return sorted(book.blocks, key=lambda name: (name != first, -len(book.blocks[name].sheaves)))


def lift_figures(lift: Lift, system: str) -> tuple[tuple[str, str], ...]:
    """Return what was asked, figure by figure: key and text [-].

    Args:
        lift: the entry
        system: "metric" or "us"
    """
    radius = "?" if lift.radius is None else typeset(joined_range(*lift.radius, "length", system))
    hook = typeset(joined_range(lift.bottom, lift.top, "length", system))
    return (
        ("load", figure(lift.load, "mass", system, "up")),
        ("load_basis", lift.load_basis or "?"),
        ("rigging", figure(lift.rigging, "mass", system, "up")),
        ("boom", figure(lift.boom, "length", system)),
        ("radius", radius),
        ("hook", hook),
        ("chart", lift.chart or "?"),
        ("counterweight", figure(lift.counterweight, "mass", system)),
        ("outriggers", lift.outriggers or "?"),
    )


def _kind(answer: FallsAnswer) -> str:
    if answer.recommended is not None:
        return "rig"
    return "unproven" if answer.unproven is not None else "none"


def _row(row: Row, gross: GrossLoad, is_this: bool, is_on_file: bool, system: str) -> RowShown:
    known = [limit.use for limit in row.limits if limit.use is not None]
    deciding = row.limit(row.governs).use if row.governs else None
    use = max(known, default=None) if row.verdict is Verdict.UNKNOWN else deciding
    return RowShown(
        falls=row.falls,
        verdict=str(row.verdict),
        governs=limit_words(row.governs),
        use=percent(use),
        unknown=len(_unknown(row)),
        is_this=is_this,
        is_on_file=is_on_file,
        speed=figure(row.hook_speed, "speed", system, "down"),
        rope=figure(row.rope_needed, "length", system, "up"),
        wraps="?" if row.wraps_left is None else "none" if row.wraps_left < 0 else str(floor(row.wraps_left + 1e-9)),
        limits=tuple(_limit(limit, system) for limit in row.limits),
        sum=tuple(
            (part, figure(getattr(gross, part), "mass", system, "up"))
            for part in ("load", "rigging", "block", "rope", "gross")
        ),
    )


def _limit(limit: Limit, system: str) -> LimitShown:
    bare = limit.have is None and limit.need is None
    return LimitShown(
        name=limit_words(limit.name),
        verdict=str(limit.verdict),
        have="" if bare else typeset(shown_in(limit.have, limit.unit, system, "down")),
        need="" if bare else typeset(shown_in(limit.need, limit.unit, system, "up")),
        use=percent(limit.use),
        why=sentence(limit.why, system),
    )


def _leaves(row: Row) -> tuple[tuple[str, str], ...]:
    """The two limits that are nearest, with what is left of each in whole percent, rounded down."""
    used = sorted((limit for limit in row.limits if limit.use is not None), key=lambda one: -(one.use or 0.0))
    return tuple((limit_words(one.name), f"{100 - ceil(100 * (one.use or 0.0) - 1e-9)} %") for one in used[:2])


def _fails_least(answer: FallsAnswer) -> Row | None:
    if answer.recommended is not None or answer.unproven is not None:
        return None
    return min(answer.rows, key=_most_failed, default=None)


def _most_failed(row: Row) -> float:
    failed = [limit for limit in row.limits if limit.verdict is Verdict.FAIL]
    return max((inf if limit.use is None else limit.use for limit in failed), default=0.0)


def _unknown(row: Row | None) -> list[Limit]:
    return [] if row is None else [limit for limit in row.limits if limit.verdict is Verdict.UNKNOWN]


def _unknowns(book: Book, block: str, answer: FallsAnswer, system: str) -> tuple[tuple[str, str, str], ...]:
    """What is unknown where nothing fails, each once with its numbers of falls; not on file first."""
    held: dict[tuple[str, str], list[int]] = {}
    bare = [row.falls for row in answer.rows if find_pattern(book, State(block=block, falls=row.falls)) is None]
    for row in answer.rows:
        if row.verdict is Verdict.UNKNOWN and row.falls not in bare:
            for limit in _unknown(row):
                held.setdefault((limit_words(limit.name), sentence(limit.why, system)), []).append(row.falls)
    return (
        *((("not on file", _numbers(bare), ""),) if bare else ()),
        *((name, _numbers(falls), why) for (name, why), falls in held.items()),
    )


def _unread(book: Book, block: str, answer: FallsAnswer) -> tuple[str, ...]:
    """The states that the list of unknowns names because nobody has confirmed them."""
    states = [State(block=block, falls=row.falls) for row in answer.rows if row.verdict is Verdict.UNKNOWN]
    found = [pattern for pattern in (find_pattern(book, state) for state in states) if pattern is not None]
    return tuple(str(pattern.state) for pattern in found if not is_confirmed(book, pattern))


def _numbers(falls: Sequence[int]) -> str:
    return ", ".join(map(str, falls))


def _further(answer: FallsAnswer, system: str) -> tuple[str, ...]:
    """What one fall more costs, for the rows after the one that is rigged of which nothing fails."""
    start = answer.recommended or answer.unproven
    standing = {row.falls for row in answer.rows if row.verdict is not Verdict.FAIL}
    return tuple(
        sentence(further.text, system)
        for further in answer.further
        if start is not None and further.falls > start and further.rope_more is not None and further.falls in standing
    )
