"""The change from one state to another: everything that a change sheet says.

In:    a crane book, settings, two states, a site.
Out:   one record: paths, keepers, position, rope to leave, way down and up, minutes, steps, rules, verdict.
Never: a pass while a pattern is not confirmed, a figure is missing or a rule is not proved.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from becket.book.crane import Book
from becket.book.tackle import Pass, State
from becket.method.facts import Around, Facts, Reason, gather_facts, keepers_out
from becket.method.leave import RopeToLeave
from becket.method.lowering import Lowering
from becket.method.method import write_method
from becket.method.minutes import Minutes
from becket.method.position import BoomPosition
from becket.method.site import Site
from becket.method.step import RuleAnswer, Step
from becket.settings.values import Settings
from becket.verdict import Verdict, worst


@dataclass(frozen=True, kw_only=True)
class Change:
    """A change, worked out. None: what ``reasons`` names keeps it from being known."""

    before: State
    after: State
    verdict: Verdict
    keep: tuple[Pass, ...]
    draw_out: tuple[Pass, ...]
    thread: tuple[Pass, ...]
    keepers: tuple[str, ...]  # names, each once
    rope_pulled: float | None  # in all, pass by pass [m]
    minutes: Minutes | None
    position: BoomPosition | None
    why_no_position: str | None
    rope_to_leave: RopeToLeave | None
    simulation: Lowering | None
    asked: tuple[str, ...]  # site figures asked at the first hold point
    reasons: tuple[Reason, ...]  # everything that keeps it from passing
    is_confirmed: bool  # both patterns, against the manual
    facts: Facts
    steps: tuple[Step, ...]
    rules: tuple[RuleAnswer, ...]


def work_out_change(
    book: Book, settings: Settings, before: State, after: State, site: Site, around: Around | None = None
) -> Change:
    """Return everything that the sheet of a change says [SI].

    Args:
        book: the crane book
        settings: values of the method
        before: what hangs now
        after: what is to hang
        site: counterweight, outriggers, room, ground
        around: the lifts before and after, the crew's records

    Raises:
        NotOnFileError: a block is not in the book.

    Source: docs/theory/method.md.
    """
    facts = gather_facts(book, settings, (before, after), site, around)
    method = write_method(book, settings, facts)
    if method.why_none is not None and not facts.reasons:
        facts = replace(facts, reasons=(Reason(name="method", verdict=Verdict.FAIL, why=method.why_none),))
    return as_change(facts, method.steps, method.rules)


def as_change(facts: Facts, steps: tuple[Step, ...], rules: tuple[RuleAnswer, ...]) -> Change:
    """Return the facts, the steps and the rules of a change as one record [-].

    Args:
        facts: as worked out
        steps: as printed
        rules: each proved over the steps; none proved is no pass

    Source: docs/theory/method.md, "The verdict of a change".
    """
    path = facts.path
    return Change(
        before=facts.before,
        after=facts.after,
        verdict=worst([r.verdict for r in facts.reasons] + [worst(r.verdict for r in rules)]),
        keep=path.keep if path else (),
        draw_out=path.draw_out if path else (),
        thread=path.thread if path else (),
        keepers=tuple(k.name for k in keepers_out(path)) if path else (),
        rope_pulled=facts.rope_pulled,
        minutes=facts.minutes,
        position=facts.position.position,
        why_no_position=facts.position.why_no_position,
        rope_to_leave=facts.leave,
        simulation=facts.lowering,
        asked=facts.position.asked,
        reasons=facts.reasons,
        is_confirmed=facts.is_confirmed,
        facts=facts,
        steps=steps,
        rules=rules,
    )
