"""The falls table as text.

In:    a lift, the answer of the falls table.
Out:   title, table, reasons, unknowns; one number of falls limit by limit where asked.
Never: computing a limit.
"""

from __future__ import annotations

from collections.abc import Iterable
from math import floor

from becket.book.crane import Book
from becket.book.jobs import Lift
from becket.book.tackle import State
from becket.cli.lines import listed, plain_name, table, wrapped
from becket.figures import joined_range, percent, said, shown, shown_in
from becket.limits.answer import FallsAnswer, Limit, Row
from becket.reeving.pattern import find_pattern
from becket.verdict import Verdict

ASKED = ("load_basis", "rigging", "radius", "chart", "top", "bottom")
OF_THE_LIFT = "(lift."  # how a reason names a figure of the lift


def falls_text(book: Book, block: str, lift: Lift, answer: FallsAnswer, opened: int | None, system: str) -> str:
    """Return the whole answer, at most 80 columns wide [-].

    Args:
        book: the crane
        block: what hangs on the rope
        lift: as it was asked
        answer: the falls table
        opened: a number of falls to show limit by limit; None: no row is opened
        system: "metric" or "us"
    """
    parts = [
        title(block, answer),
        _asked(book, lift, system),
        _rows(answer, system),
        _reasons(answer, system),
        _further(answer, system),
        _unknowns(book, block, lift, answer),
    ]
    if opened is not None:
        parts.append(opened_text(f"{opened} falls, limit by limit", _row(answer, opened).limits, system))
    return "\n\n".join(part for part in parts if part)


def title(block: str, answer: FallsAnswer) -> str:
    """Return the answer in one paragraph: rig so many falls, NOT PROVEN, or no number will do [-].

    Args:
        block: what hangs on the rope
        answer: the falls table
    """
    if answer.recommended is not None:
        return f"rig {_falls(answer.recommended)} on block {block}"
    if answer.unproven is not None:
        row = _row(answer, answer.unproven)
        return wrapped(
            f"NOT PROVEN. No number of falls passes every limit. Fewest that nothing fails: {answer.unproven} "
            f"on block {block}. Unknown there: {', '.join(plain_name(limit.name) for limit in _unknown(row))}."
        )
    least = min(answer.rows, key=_most_failed, default=None)
    if least is None:
        return f"No number of falls will do on block {block}. The block and the head carry none."
    worst = max(_failed(least), key=_use_of)
    reason = (
        f"{percent(worst.use)}. Ask for a lighter load or a shorter radius." if worst.use else f"fails. {worst.why}"
    )
    nearest = f"{_falls(least.falls)}, {plain_name(worst.name)} {reason}"
    return wrapped(f"No number of falls will do on block {block}. Nearest: {nearest}")


def opened_text(head: str, limits: Iterable[Limit], system: str) -> str:
    """Return every limit with what is there, what is asked for and its reason [-].

    Args:
        head: the line above
        limits: of one number of falls
        system: "metric" or "us"
    """
    lines = [head]
    for limit in limits:
        lines.append(f"{limit.verdict!s:<7}  {plain_name(limit.name):<14}  {_measure(limit, system)}".rstrip())
        lines.append(wrapped(said(limit.why, system), " " * 9))
    return "\n".join(lines)


def _measure(limit: Limit, system: str) -> str:
    if limit.have is None and limit.need is None:
        return percent(limit.use)
    have = shown_in(limit.have, limit.unit, system, "down")
    need = shown_in(limit.need, limit.unit, system, "up")
    use = f", use {percent(limit.use)}" if limit.use is not None else ""
    return f"have {have}, need {need}{use}"


def _asked(book: Book, lift: Lift, system: str) -> str:
    manual = f"{book.manual_title}, issue {book.manual_issue or 'not on file'}"
    rigging = "not given" if lift.rigging is None else shown(lift.rigging, "mass", system, "up")
    radius = "not given" if lift.radius is None else joined_range(*lift.radius, "length", system)
    basis = f" ({lift.load_basis})" if lift.load_basis else " (basis not given)"
    hook = (
        "not given"
        if lift.top is None and lift.bottom is None
        else joined_range(lift.bottom, lift.top, "length", system)
    )
    return "\n".join(
        [
            wrapped(f"{book.crane}. {manual}."),
            wrapped(
                f"Load {shown(lift.load, 'mass', system, 'up')}{basis}, rigging {rigging}, "
                f"boom {shown(lift.boom, 'length', system)}, radius {radius}, hook {hook}, "
                f"chart {lift.chart or 'not given'}."
            ),
            *_fitted(book, lift, system),
        ]
    )


def _fitted(book: Book, lift: Lift, system: str) -> list[str]:
    """What the chart is printed for: the crew sees whether that is what stands there."""
    chart = next((printed for printed in book.charts if printed.name == lift.chart), None)
    if chart is None:
        return []
    counterweight = shown(chart.counterweight, "mass", system)
    page = f", page {chart.page}" if chart.page else ""
    return [
        wrapped(
            f"That chart{page} is for counterweight {counterweight}, outriggers {chart.outriggers or '?'}, "
            f"sector {chart.sector or '?'}. Look whether that is what is fitted."
        )
    ]


def _rows(answer: FallsAnswer, system: str) -> str:
    head = ("", "falls", "verdict", "governs", "use", "hook speed", "rope", "wraps")
    rows = [
        (
            ">" if row.falls == answer.recommended else "",
            str(row.falls),
            str(row.verdict),
            plain_name(row.governs),
            _row_use(row),
            shown(row.hook_speed, "speed", system, "down"),
            shown(row.rope_needed, "length", system, "up"),
            _wraps(row.wraps_left),
        )
        for row in answer.rows
    ]
    return table(head, rows, left=(0, 2, 3))


def _wraps(left: float | None) -> str:
    return "?" if left is None else "none" if left < 0 else str(floor(left + 1e-9))


def _row_use(row: Row) -> str:
    if row.verdict is Verdict.UNKNOWN:
        return f"{len(_unknown(row))} unknown"
    return percent(row.limit(row.governs).use) if row.governs else ""


def _reasons(answer: FallsAnswer, system: str) -> str:
    """Why not fewer, and why so many; with no answer, why none."""
    most = answer.recommended or answer.unproven or len(answer.rows)
    lines = [
        wrapped(f"{plain_name(row.governs)}: {said(row.limit(row.governs).why, system)}", f"{row.falls:>2}  ")
        for row in answer.rows
        if row.governs and row.falls <= most
    ]
    return "\n".join(["Why", *lines]) if lines else ""


def _further(answer: FallsAnswer, system: str) -> str:
    start = answer.recommended or answer.unproven
    texts = [
        further.text
        for further in answer.further
        if start is not None
        and further.falls > start
        and further.rope_more is not None
        and _row(answer, further.falls).verdict is not Verdict.FAIL
    ]
    return (
        "\n".join(["What a further fall costs", *(wrapped(said(text, system), "  ", "    ") for text in texts)])
        if texts
        else ""
    )


def _unknowns(book: Book, block: str, lift: Lift, answer: FallsAnswer) -> str:
    """What is unknown where nothing fails, each once; where something fails it would not help to know."""
    texts = _not_given(lift)
    bare = [row.falls for row in answer.rows if find_pattern(book, State(block=block, falls=row.falls)) is None]
    held: dict[tuple[str, str], list[int]] = {}
    for row in answer.rows:
        if row.verdict is Verdict.UNKNOWN and row.falls not in bare:
            for limit in _unknown(row):
                held.setdefault((limit.name, limit.why), []).append(row.falls)
    texts += [
        f"{plain_name(name)} ({_runs(falls)}): {why}"
        for (name, why), falls in held.items()
        if not (texts and OF_THE_LIFT in why)
    ]
    if bare:
        texts.append(
            f"no pattern on file ({_runs(bare)}). Look in {book.manual_title}, pages on reeving; type in what it shows."
        )
    return "\n".join(["Unknown", *(wrapped(text, "  ", "    ") for text in texts)]) if texts else "Unknown: nothing."


def _not_given(lift: Lift) -> list[str]:
    """One line for all figures of the lift that the options left out, in place of one for each limit."""
    names = [f"--{name.replace('_', '-')}" for name in ASKED if getattr(lift, name) is None]
    return [f"the lift itself: give {listed(names)}. What needs them is not answered."] if names else []


def _runs(numbers: list[int]) -> str:
    text = ", ".join(str(number) for number in numbers)
    return f"{text} fall" if numbers == [1] else f"{text} falls"


def _falls(number: int) -> str:
    return f"{number} fall" if number == 1 else f"{number} falls"


def _row(answer: FallsAnswer, falls: int) -> Row:
    return next(row for row in answer.rows if row.falls == falls)


def _unknown(row: Row) -> list[Limit]:
    return [limit for limit in row.limits if limit.verdict is Verdict.UNKNOWN]


def _failed(row: Row) -> list[Limit]:
    return [limit for limit in row.limits if limit.verdict is Verdict.FAIL]


def _use_of(limit: Limit) -> float:
    return limit.use if limit.use is not None else float("inf")


def _most_failed(row: Row) -> float:
    return max((_use_of(limit) for limit in _failed(row)), default=0.0)
