"""A second invented crane, Larch 55, for numbers that other simulations agree on.

In:    nothing.
Out:   a crane book in SI, made anew at each call.
Never: a figure of a real maker.
"""

from __future__ import annotations

from dataclasses import replace
from math import radians

from becket.book.boom import Anchor, Boom, BoomLength, Head
from becket.book.charts import Position
from becket.book.crane import Book
from becket.book.hoist import Rope
from becket.book.tackle import Block, Confirmed, Keeper, Pass, Pattern, Switch, Typed
from becket.method.site import Site
from tests.crane import invented_book, sealed

SHEAVES = {n: round(-0.36 + 0.12 * (n - 1), 2) for n in range(1, 8)}
SITE = Site(counterweight=9000.0, outriggers="full")


def golden_book() -> Book:
    """Return the crane Larch 55 with every figure that a change needs [-]."""
    other = invented_book()
    return sealed(
        replace(
            other,
            crane="Larch 55",
            boom=_boom(),
            head=Head(
                sheave_diameter=0.38,
                rope_diameter=0.017,
                sheaves=SHEAVES,
                numbered="from the left, seen from the cab",
                lead="over",
                anchors={
                    "a": Anchor(side=-0.18, along=-0.10, below=0.16),
                    "b": Anchor(side=0.18, along=-0.10, below=0.16),
                },
            ),
            winch=replace(other.winch, at_x=-3.30, at_z=3.55),
            rope=_rope(other.rope),
            dead_end=replace(other.dead_end, rope_diameter=0.017, tail=0.34),
            blocks=_blocks(),
            switch=_switch(),
            keepers=_keepers(),
            patterns=_patterns(),
            rereeve=_positions(),
        )
    )


def _boom() -> Boom:
    sag = {10.6: 0.01, 18.4: 0.04, 26.2: 0.12, 33.4: 0.26, 34.0: 0.28}
    codes = ("0-0-0", "100-0-0", "100-100-0", "100-100-92", "100-100-100")
    return Boom(
        foot_x=-1.45,
        foot_z=3.05,
        lengths=tuple(
            BoomLength(length=length, code=code, sections=tuple(map(float, code.split("-"))))
            for length, code in zip(sag, codes, strict=True)
        ),
        head_drop=0.48,
        sag=sag,
        lowest={"side": radians(-1.5), "rear": radians(2.0), "front": radians(4.0)},
        highest=radians(82),
    )


def _rope(rope: Rope) -> Rope:
    return replace(rope, diameter=0.017, length=190.0, mass=1.45)


def _blocks() -> dict[str, Block]:
    main = Block(
        name="main",
        rated=50000.0,
        mass=560.0,
        rope_diameter=0.017,
        sheaves=SHEAVES,
        sheave_diameter=0.38,
        becket=Anchor(side=0.0, along=0.0, below=-0.24),
        hook=0.95,
        touches=1.10,
        stands=0.60,
        clear=0.70,
        mass_centre=0.42,
        swivel=True,
    )
    ball = replace(
        main,
        name="ball",
        rated=5000.0,
        mass=180.0,
        sheaves={},
        sheave_diameter=None,
        becket=Anchor(side=0.0, along=0.0, below=0.0),
        hook=0.60,
        touches=0.72,
        stands=0.25,
        clear=0.45,
        mass_centre=None,
    )
    return {"main": main, "ball": ball}


def _switch() -> Switch:
    return Switch(
        trips=1.2,
        margin=0.3,
        stops=("hoist", "telescope out", "derrick down"),
        weight_on_even="dead-end fall",
        weight_on_odd="last fall",
        weight_source="manual 6-4",
    )


def _keepers() -> tuple[Keeper, ...]:
    return (
        Keeper(name="head bar", at="head", block=None, holds=(1, 2, 3, 4, 5, 6, 7), draw="slack", lock="spring clip"),
        Keeper(name="block pin left", at="block", block="main", holds=(1, 2, 3), draw="tight", lock="lynch pin"),
        Keeper(name="block pin right", at="block", block="main", holds=(4, 5, 6, 7), draw="tight", lock="lynch pin"),
        Keeper(name="dead-end pin", at="dead end", block=None, holds=(), draw="slack", lock="split pin"),
    )


def _patterns() -> tuple[Pattern, ...]:
    return (
        _pattern("ball", 1, "head 4", "block"),
        _pattern("main", 2, "head 4 block 4", "head b"),
        _pattern("main", 4, "head 3 block 3 head 5 block 5", "head b"),
        replace(_pattern("main", 5, "head 3 block 3 head 4 block 5 head 5", "block"), confirmed=None),
        _pattern("main", 6, "head 2 block 2 head 4 block 4 head 6 block 6", "head b"),
    )


def _pattern(block: str, falls: int, path: str, dead_end: str) -> Pattern:
    words = path.split()
    return Pattern(
        block=block,
        falls=falls,
        path=tuple(Pass(place=p, sheave=int(s)) for p, s in zip(words[::2], words[1::2], strict=True)),
        dead_end=dead_end,
        page=f"6-{10 + falls}",
        typed=Typed(by="EF", date="2025-03-11"),
        confirmed=Confirmed(by="GH", date="2025-03-12", seal=None),
        picture=None,
    )


def _positions() -> tuple[Position, ...]:
    rows = (
        (9000.0, "side", 33.4, 25.0, 1100.0),
        (9000.0, "side", 34.0, 25.0, 1000.0),
        (9000.0, "side", 26.2, 28.0, 1900.0),
        (0.0, "side", 26.2, 28.0, 800.0),
        (9000.0, "rear", 34.0, 25.0, 1000.0),
    )
    return tuple(
        Position(
            counterweight=counterweight,
            outriggers="full",
            sector=sector,
            length=length,
            lowest=radians(-1.5 if sector == "side" else 2.0),
            highest=radians(highest),
            rated=rated,
            wind=9.0,
            page="6-3",
        )
        for counterweight, sector, length, highest, rated in rows
    )
