"""A pattern of the book and its checks, as text.

In:    the crane, what the checks found of one state.
Out:   where the pattern comes from, the path one pass a line, findings.
Never: a pattern that is not in the book.
"""

from __future__ import annotations

from becket.book.crane import Book
from becket.book.tackle import Pattern
from becket.cli.lines import listed, plain_name, wrapped
from becket.figures import said, shown
from becket.reeving.pattern import PatternCheck, find_pattern

NOT_CONFIRMED = "NOT CONFIRMED AGAINST THE MANUAL"


def pattern_text(book: Book, check: PatternCheck, system: str) -> str:
    """Return the whole answer, at most 80 columns wide [-].

    Args:
        book: the crane
        check: what the checks found
        system: "metric" or "us"
    """
    pattern = find_pattern(book, check.state)
    if pattern is None:
        there = listed([one.state for one in book.patterns], "none")
        return "\n\n".join(
            [f"{book.crane}, {check.state}: {check.verdict}", _findings(check, system), f"On file: {there}."]
        )
    return "\n\n".join(
        [_head(book, pattern, check), _path(book, pattern), _figures(check, system), _findings(check, system)]
    )


def _head(book: Book, pattern: Pattern, check: PatternCheck) -> str:
    manual = f"{book.manual_title}, issue {book.manual_issue or '?'}, page {pattern.page or 'not on file'}."
    typed = f"Typed by {pattern.typed.by}, {pattern.typed.date}." if pattern.typed else "Who typed it is not on file."
    lines = [f"{book.crane}, {check.state}: {check.verdict}", manual, f"{typed} {_confirmed(check)}"]
    return "\n".join(wrapped(line) for line in lines)


def _confirmed(check: PatternCheck) -> str:
    if check.confirmed is None:
        return f"{NOT_CONFIRMED}."
    signed = f"{check.confirmed.by}, {check.confirmed.date}"
    if not check.confirmed.seal_matches:
        return f"{NOT_CONFIRMED}: what {signed} confirmed is not what stands here."
    return f"Confirmed by {signed}."


def _path(book: Book, pattern: Pattern) -> str:
    numbered = f" Sheaves numbered {book.head.numbered}." if book.head.numbered else ""
    passes = [f"{number:>4}  {one}" for number, one in enumerate(pattern.path, 1)]
    head = wrapped(f"Rope from the drum outward.{numbered}")
    return "\n".join([head, *passes, f"      dead end: {pattern.dead_end}"])


def _figures(check: PatternCheck, system: str) -> str:
    rows = (
        ("tilt, the greatest", shown(check.tilt, "angle", system, "up")),
        ("block hangs turned by", shown(check.hangs_turned, "angle", system, "up")),
        ("fleet angle allows head to block", shown(check.closest_distance, "length", system, "up")),
        ("twist length", shown(check.twist_length, "length", system, "down")),
    )
    crossing = [
        wrapped(
            f"falls {one.falls[0]} and {one.falls[1]} cross in the front view, "
            f"{shown(one.distance, 'length', system, 'down')} apart",
            "  ",
        )
        for one in check.crossings
    ]
    return "\n".join([*(f"  {name:<34}{figure:>14}" for name, figure in rows), *crossing])


def _findings(check: PatternCheck, system: str) -> str:
    lines = [
        wrapped(f"{plain_name(finding.name)}: {said(finding.why, system)}", f"{finding.verdict!s:<7}  ")
        for finding in check.findings
    ]
    return "\n".join(["Checks", *lines])
