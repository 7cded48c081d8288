"""Scenes of changes on the crane Larch 55, for the tests of the method's steps.

In:    states as text, a changed book.
Out:   a scene, its deeds in order, what breaks when they are changed.
Never: a rule of its own.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from becket.book.crane import Book
from becket.book.tackle import Keeper
from becket.method.crane_state import CraneState, Deed
from becket.method.facts import gather_facts
from becket.method.method import Method, write_method
from becket.method.order import apply_deed, order_deeds
from becket.method.rules import prove_rules
from becket.method.scene import Scene, first_state, scene_of
from becket.method.step import RuleAnswer
from becket.reeving.words import read_state
from becket.verdict import Verdict
from tests.crane import invented_settings, sealed
from tests.method.golden_crane import SITE, golden_book

SETTINGS = invented_settings()
CHANGES = (("main:2", "main:4"), ("main:4", "main:2"), ("main:4", "main:6"), ("ball:1", "main:4"), ("main:4", "ball:1"))


def book_with(**changes: object) -> Book:
    """Return the crane Larch 55 with fields of the book replaced, its patterns confirmed anew [-]."""
    return sealed(replace(golden_book(), **changes))  # type: ignore[arg-type]


BOOKS = {
    "Larch 55": golden_book(),
    "slack bar on the block": book_with(
        keepers=(
            golden_book().keepers[0],
            Keeper(name="block bar", at="block", block="main", holds=(1, 2, 3, 4, 5, 6, 7), draw="slack", lock=None),
            Keeper(name="block pin", at="block", block="main", holds=(4, 5), draw="tight", lock="clip"),
            Keeper(name="socket pin", at="dead end", block=None, holds=(), draw="slack", lock=None),
        )
    ),
    "switch lets the boom down": book_with(switch=replace(golden_book().switch, stops=("hoist", "telescope out"))),
    "no keepers": book_with(keepers=()),
}
CASES = (
    *((before, after, "Larch 55") for before, after in CHANGES),
    *((*change, "slack bar on the block") for change in (CHANGES[0], CHANGES[3], CHANGES[4])),
    (*CHANGES[1], "switch lets the boom down"),
    (*CHANGES[0], "no keepers"),
)


@cache
def scene(before: str, after: str, name: str = "Larch 55") -> Scene:
    """Return the scene of a change on one of the books [-]."""
    book = BOOKS[name]
    facts = gather_facts(book, SETTINGS, (read_state(before), read_state(after)), SITE)
    found = scene_of(book, SETTINGS, facts)
    assert found is not None, facts.reasons
    return found


@cache
def method(before: str, after: str, name: str = "Larch 55") -> Method:
    """Return the printed method of a change [-]."""
    one = scene(before, after, name)
    return write_method(one.book, SETTINGS, one.facts)


@cache
def deeds(before: str, after: str, name: str = "Larch 55") -> tuple[Deed, ...]:
    """Return the deeds of a change, in the order that is printed [-]."""
    order = order_deeds(scene(before, after, name))
    assert order.stuck is None, order.stuck
    return order.deeds


def state_before(one: Scene, listed: tuple[Deed, ...], kind: str, of: str = "") -> CraneState:
    """Return the crane just before the first deed of a kind [-]."""
    state = first_state(one)
    for deed in listed:
        if deed.kind == kind and (not of or deed.of == of):
            return state
        state = apply_deed(one, state, deed)
    raise LookupError(kind)


def failed(one: Scene, listed: tuple[Deed, ...]) -> dict[str, RuleAnswer]:
    """Return the rules that fail over a list of deeds, by name [-]."""
    return {answer.name: answer for answer in prove_rules(one, listed) if answer.verdict is not Verdict.PASS}


def without(listed: tuple[Deed, ...], kind: str, of: str = "") -> tuple[Deed, ...]:
    """Return a list of deeds without those of one kind; there was one at least [-]."""
    left = tuple(deed for deed in listed if deed.kind != kind or (of and deed.of != of))
    assert len(left) < len(listed), kind
    return left


def moved(listed: tuple[Deed, ...], kind: str, before: str) -> tuple[Deed, ...]:
    """Return a list of deeds with the first of one kind put just before the first of another [-]."""
    deed = next(d for d in listed if d.kind == kind)
    rest = list(listed)
    rest.remove(deed)
    rest.insert(next(i for i, d in enumerate(rest) if d.kind == before), deed)
    return tuple(rest)
