"""Checks of a path as words: does it make the falls that it says, of sheaves that are there.

In:    a pattern with its crane.
Out:   findings.
Never: places, lengths; a better path.
"""

from __future__ import annotations

from collections import Counter
from itertools import pairwise

from becket.book.tackle import Pattern
from becket.reeving.counts import block_sheave_count, dead_end_side, head_sheave_count
from becket.reeving.finding import Finding, PatternCase
from becket.reeving.seal import is_confirmed, is_typist, seal_of
from becket.reeving.words import dead_end_anchor, shell_word
from becket.verdict import Verdict

NOT_CONFIRMED = "NOT CONFIRMED AGAINST THE MANUAL"


def starts_at_head(case: PatternCase) -> Finding:
    """Return whether the rope reaches a head sheave first [-]."""
    path = case.pattern.path
    if path and path[0].place == "head":
        return _good("starts_at_head", f"The lead line reaches {path[0]} first.")
    first = f"starts with {path[0]}" if path else "is empty"
    return _bad("starts_at_head", case, f"The path {first}; the lead line reaches a head sheave first.")


def alternates(case: PatternCase) -> Finding:
    """Return whether the path goes from head to block and back in turn [-]."""
    path = case.pattern.path
    for before, after in pairwise(path):
        if before.place == after.place:
            return _bad(
                "alternates",
                case,
                f"The path goes from {before} to {after}; a rope goes from head to block and from block to head.",
            )
    return _good("alternates", "The path goes from head to block and back in turn.")


def each_sheave_once(case: PatternCase) -> Finding:
    """Return whether no sheave is passed twice [-]."""
    twice = [str(one) for one, times in Counter(case.pattern.path).items() if times > 1]
    if twice:
        return _bad(
            "each_sheave_once",
            case,
            f"The path passes {' and '.join(twice)} more than once; a groove takes one rope.",
        )
    return _good("each_sheave_once", "Each sheave is passed once.")


def counts_agree(case: PatternCase) -> Finding:
    """Return whether the sheaves of the path make the falls of the pattern.

    Source: docs/theory/reeving.md, eq. 1 and 2.
    """
    pattern = case.pattern
    have = [sum(one.place == place for one in pattern.path) for place in ("head", "block")]
    if pattern.falls < 1:
        return _bad("counts_agree", case, f"The pattern says {pattern.falls} falls; 1 or more is wanted.")
    need = [head_sheave_count(pattern.falls), block_sheave_count(pattern.falls)]
    said = f"{pattern.falls} {'fall goes' if pattern.falls == 1 else 'falls go'} over"
    asked = f"{said} {need[0]} head and {need[1]} block sheaves"
    if have == need:
        return _good("counts_agree", f"{asked}, as in the path.")
    return _bad("counts_agree", case, f"{asked}; the path has {have[0]} and {have[1]}.")


def dead_end_agrees(case: PatternCase) -> Finding:
    """Return whether the rope ends on the side that the number of falls asks for.

    Source: docs/theory/reeving.md, eq. 3.
    """
    pattern = case.pattern
    have = "block" if dead_end_anchor(pattern.dead_end) is None else "head"
    need = dead_end_side(max(pattern.falls, 1))
    parity = "odd" if pattern.falls % 2 else "even"
    if have == need:
        return _good("dead_end_agrees", f"The dead end of an {parity} number of falls is at the {need}.")
    return _bad(
        "dead_end_agrees",
        case,
        f'The dead end is "{pattern.dead_end}"; of {pattern.falls} falls, an {parity} number, it is at the {need}.',
    )


def sheaves_on_file(case: PatternCase) -> Finding:
    """Return whether head and block have the sheaves of the path [-]."""
    head, block = case.book.head.sheaves, case.block.sheaves if case.block else {}
    strange = [str(p) for p in case.pattern.path if p.sheave not in (head if p.place == "head" else block)]
    if case.block is None:
        return _bad("sheaves_on_file", case, f"The book has no block {case.pattern.block}.")
    if strange:
        return _bad(
            "sheaves_on_file",
            case,
            f"The book has no {' and no '.join(dict.fromkeys(strange))}; head sheaves are {_numbers(head)}, sheaves "
            f"of the block {case.block.name} are {_numbers(block)}.",
        )
    return _good("sheaves_on_file", "Head and block have the sheaves of the path.")


def anchor_on_file(case: PatternCase) -> Finding:
    """Return whether the place of the dead end is in the book; unknown where the block's becket is not [-]."""
    name = dead_end_anchor(case.pattern.dead_end)
    if name is None:
        if case.block is not None and case.block.becket is not None:
            return _good("anchor_on_file", f"The place of the dead end on the block {case.block.name} is on file.")
        return Finding(
            name="anchor_on_file",
            verdict=Verdict.UNKNOWN,
            why=f"Not on file: the place of the dead end on the block (blocks.{case.pattern.block}.becket), on the "
            "page of the manual on hook blocks.",
        )
    anchors = case.book.head.anchors
    if name in anchors:
        return _good("anchor_on_file", f"The head has the anchor {name}.")
    known = ", ".join(anchors) or "none"
    return _bad("anchor_on_file", case, f"The head has no anchor {name}; on file: {known}.")


def block_sheaves_enough(case: PatternCase) -> Finding:
    """Return whether the block has as many sheaves as the falls ask for [-]."""
    need = block_sheave_count(max(case.pattern.falls, 1))
    have = len(case.block.sheaves) if case.block else 0
    if have >= need:
        return _good("block_sheaves_enough", f"{case.pattern.falls} falls need {need} block sheaves; it has {have}.")
    return _bad(
        "block_sheaves_enough",
        case,
        f"{case.pattern.falls} falls need {need} block sheaves; the block {case.pattern.block} has {have}.",
    )


def confirmed(case: PatternCase) -> Finding:
    """Return whether a second person confirmed this very pattern against the manual.

    Source: docs/theory/reeving.md, "Seal".
    """
    book, pattern = case.book, case.pattern
    seal = pattern.confirmed
    if is_confirmed(book, pattern) and seal is not None:
        return _good("confirmed", f"Confirmed against {_page(pattern)} by {seal.by}, {seal.date}.")
    if seal is None:
        why = "no second person has read it from the page"
    elif pattern.typed is None:
        why = "the book does not say who typed it, so nobody can tell that a second person confirmed it"
    elif is_typist(pattern, seal.by):
        why = f"{seal.by} typed it and cannot confirm it"
    elif seal.seal is None:
        why = f"{seal.by} has put a name under it but no seal"
    else:
        why = (
            f"it is no longer what {seal.by} confirmed on {seal.date}: path, dead end, page or the place of a sheave "
            f"or anchor has changed (seal {seal.seal}, now {seal_of(book, pattern)})"
        )
    what_to_do = f"A second person reads {_page(pattern)} with: becket confirm BOOK {shell_word(pattern.state)}."
    return Finding(name="confirmed", verdict=Verdict.UNKNOWN, why=f"{NOT_CONFIRMED}: {why}. {what_to_do}")


def _good(name: str, why: str) -> Finding:
    return Finding(name=name, verdict=Verdict.PASS, why=why)


def _bad(name: str, case: PatternCase, why: str) -> Finding:
    return Finding(name=name, verdict=Verdict.FAIL, why=f"{why} Look at {_page(case.pattern)} again.")


def _page(pattern: Pattern) -> str:
    return f"page {pattern.page} of the manual" if pattern.page else "the manual (no page is on file)"


def _numbers(sheaves: object) -> str:
    numbers = [str(number) for number in sorted(sheaves)] if isinstance(sheaves, dict) else []
    return ", ".join(numbers) or "none"
