"""Every change that passes, of both cranes that `becket demo` writes and of the invented ones of the tests.

In:    nothing.
Out:   book, change, script; worked out once.
Never: a change that does not pass.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import cache
from itertools import permutations

from becket.book.crane import Book
from becket.book.hoist import SecondLine
from becket.guide.asked import Asked
from becket.guide.script import Script
from becket.guide.write_script import change_script
from becket.intake.settings import read_settings
from becket.method.change import Change, as_change, work_out_change
from becket.method.crane_state import CraneState, Deed
from becket.method.method import write_method
from becket.method.order import apply_deed, order_deeds
from becket.method.scene import Scene, first_state, scene_of
from becket.method.site import Site
from becket.reeving.words import read_state
from becket.verdict import Verdict
from tests.crane import invented_book
from tests.guide.sample import demo_book
from tests.method.golden_crane import SITE as GOLDEN_SITE
from tests.method.steps.scenes import BOOKS, CASES, book_with

SETTINGS = read_settings(None)


@dataclass(frozen=True, kw_only=True)
class Scripted:
    """One change with its script and the crane before each deed."""

    book: Book
    change: Change
    scene: Scene
    script: Script
    states: tuple[CraneState, ...]  # before each deed
    deeds: tuple[Deed, ...]

    def asked(self, number: int) -> Asked:
        """Return the deed of a printed step as the questions see it [-]."""
        state, deed = self.states[number - 1], self.deeds[number - 1]
        return Asked(scene=self.scene, state=state, deed=deed, number=number)


@cache
def every_change() -> tuple[Scripted, ...]:
    """Return every change that passes, each counterweight and outriggers that the book permits [-]."""
    books = (demo_book("hazel-70"), demo_book("rowan-30"), invented_book())
    return (*(_scripted(book, change) for book in books for change in _passing(book)), *odd_changes())


@cache
def odd_changes() -> tuple[Scripted, ...]:
    """Return changes of cranes that are otherwise: slack keepers at the block, none, other switch and end [-]."""
    end = replace(BOOKS["Larch 55"].dead_end, goes_through_sheaves=True)
    books = {
        **BOOKS,
        "end passes the sheaves": book_with(dead_end=end),
        "second line": book_with(second_line=SecondLine(hangs="small hook", mass=60.0)),
    }
    cases = (*CASES, *(("main:2", "main:4", name) for name in ("end passes the sheaves", "second line")))
    worked_out = [
        (books[name], work_out_change(books[name], SETTINGS, read_state(before), read_state(after), GOLDEN_SITE))
        for before, after, name in cases
    ]
    return tuple(_scripted(*one) for one in (*worked_out, _low_in_the_window(*worked_out[0])))


def _low_in_the_window(book: Book, change: Change) -> tuple[Book, Change]:
    """The same change where the weight comes off in the low position: no override is needed."""
    assert change.position is not None
    position = replace(change.facts.position, position=replace(change.position, override=None))
    facts = replace(change.facts, position=position)
    method = write_method(book, SETTINGS, facts)
    return book, as_change(facts, method.steps, method.rules)


def scripted(before: str, after: str) -> Scripted:
    """Return one change by its states, whatever the crane [-]."""
    return next(one for one in every_change() if (one.script.before, one.script.after) == (before, after))


def _passing(book: Book) -> Iterable[Change]:
    sites = dict.fromkeys(Site(counterweight=row.counterweight, outriggers=row.outriggers) for row in book.rereeve)
    states = sorted({pattern.state for pattern in book.patterns})
    for site in sites:
        for before, after in permutations(states, 2):
            change = work_out_change(book, SETTINGS, before, after, site)
            if change.verdict is Verdict.PASS:
                yield change


def _scripted(book: Book, change: Change) -> Scripted:
    assert change.verdict is Verdict.PASS, change.reasons
    scene = scene_of(book, SETTINGS, change.facts)
    assert scene is not None
    deeds = order_deeds(scene).deeds
    states = [first_state(scene)]
    for deed in deeds:
        states.append(apply_deed(scene, states[-1], deed))
    script = change_script(book, SETTINGS, change, crane="a", fingerprint=book.fingerprint)
    return Scripted(book=book, change=change, scene=scene, script=script, states=tuple(states), deeds=deeds)
