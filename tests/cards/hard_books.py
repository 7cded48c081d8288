"""Books that are hard to print: sixteen falls, one fall, no keepers, names of 60 letters in three scripts.

In:    the invented crane of the tests.
Out:   books.
Never: figures of any maker.
"""

from __future__ import annotations

from dataclasses import replace

from becket.book.crane import Book
from becket.book.tackle import Keeper, Pass, Pattern, Typed
from tests.crane import invented_book, sealed

LATIN = "Übergroßer Teleskopkran für die Brückenbaustelle am Ährenfeld"[:60]
GREEK = "Γερανός τηλεσκοπικός Ὑψηλάντης της πόλεως Θεσσαλονίκης αριθμ"[:60]
CYRILLIC = "Автокран телескопический Щербаковского участка строительства"[:60]
ONE_WORD = "Donaudampfschifffahrtselektrizitätenhauptbetriebswerkbauunter"[:60]
NAMES = (LATIN, GREEK, CYRILLIC, ONE_WORD)


def sixteen_falls() -> Book:
    """Return a crane with a pattern of sixteen falls, confirmed, every sheave of head and block used [-]."""
    book = invented_book()
    places = {number: -0.56 + 0.16 * (number - 1) for number in range(1, 9)}
    block = replace(book.blocks["main"], sheaves=places)
    path = tuple(Pass(place=place, sheave=number) for number in range(1, 9) for place in ("head", "block"))
    anchor = next(iter(book.head.anchors))
    pattern = Pattern(
        block="main",
        falls=16,
        path=path,
        dead_end=f"head {anchor}",
        page="5-40",
        typed=Typed(by="MN", date="2026-03-01"),
        confirmed=book.patterns[0].confirmed,
        picture=None,
    )
    keepers = tuple(
        Keeper(
            name=f"{at} bar {k}",
            at=at,
            block="main" if at == "block" else None,
            holds=(2 * k - 1, 2 * k),
            draw="slack",
            lock="spring clip",
        )
        for at in ("head", "block")
        for k in range(1, 5)
    )
    head = replace(book.head, sheaves=places)
    return sealed(replace(book, head=head, blocks={**book.blocks, "main": block}, patterns=(pattern,), keepers=keepers))


def long_names(name: str, *, confirmed: bool = True) -> Book:
    """Return a crane of which crane, serial, manual, issue, people and pages have the longest names [-].

    Args:
        name: for all of them
        confirmed: its patterns were confirmed
    """
    book = invented_book()
    confirmed_by = [
        replace(one, typed=Typed(by=name, date="2026-03-01"), page=name, confirmed=None) for one in book.patterns
    ]
    keepers = tuple(replace(one, name=f"{name} {number}", lock=name) for number, one in enumerate(book.keepers))
    crane = replace(
        book,
        crane=name,
        serial=name,
        manual_title=name,
        manual_issue=name,
        patterns=tuple(confirmed_by) if not confirmed else book.patterns,
        keepers=keepers,
    )
    return sealed(crane) if confirmed else crane


def bare_book() -> Book:
    """Return a crane of which nothing optional is on file [-]."""
    book = invented_book()
    return replace(
        book,
        serial=None,
        manual_issue=None,
        keepers=(),
        falls_table=None,
        indicator=None,
        winch=replace(book.winch, pull=(), least_wraps=None),
        rope=replace(book.rope, breaking_force=None, design_factor=None, grade=None),
        head=replace(book.head, lead=None),
        switch=replace(book.switch, weight_on_even=None, weight_on_odd=None),
        patterns=tuple(replace(one, typed=None, confirmed=None, page=None) for one in book.patterns),
    )
