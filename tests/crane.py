"""An invented crane as records, for tests.

In:    changes to single records.
Out:   a crane book, settings and a lift in SI, made anew at each call.
Never: files of a real crane, figures of any maker.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from math import radians
from typing import Any

from becket.book.boom import Anchor, Boom, BoomLength, Head
from becket.book.charts import Chart, ChartCounts, ChartRow, FallsTable, Fleet, Position
from becket.book.crane import Book
from becket.book.hoist import DeadEnd, Drum, Rope, SecondLine, Winch
from becket.book.jobs import Lift
from becket.book.tackle import Block, Confirmed, Indicator, Keeper, Override, Pass, Pattern, Switch, Typed
from becket.intake.settings import read_settings
from becket.reeving.seal import seal_of
from becket.settings.values import Settings

KILO = 1000.0
CHART = "full outriggers, 7 t"


def invented_book(**changes: Any) -> Book:
    """Return the invented crane Tallow 40, every figure on file; ``changes`` replace fields of the book [-]."""
    book = Book(
        crane="Tallow 40",
        serial="T40-0007",
        manual_title="Operating manual Tallow 40",
        manual_issue="A, 2019",
        boom=_boom(),
        head=_head(),
        winch=_winch(),
        second_line=SecondLine(hangs=None, mass=0.0),
        sheave_efficiency=0.98,
        rope=_rope(),
        dead_end=DeadEnd(
            fitting="wedge socket", rope_diameter=0.016, efficiency=0.80, tail=0.32, goes_through_sheaves=False
        ),
        blocks=_blocks(),
        switch=Switch(
            trips=1.1,
            margin=0.3,
            stops=("hoist", "telescope out", "derrick down"),
            weight_on_even="dead-end fall",
            weight_on_odd="last fall",
            weight_source="manual 5-3",
        ),
        indicator=Indicator(asks=("falls", "block", "counterweight", "outriggers"), page="6-2"),
        override=(Override(stops="derrick down", when=("block set down", "switch weight off"), page="5-9"),),
        keepers=_keepers(),
        keepers_on_file=True,
        patterns=_patterns(),
        falls_table=FallsTable(
            printed=True,
            counts=("load", "rigging", "block"),
            layer=1,
            page="5-20",
            loads={1: 4300.0, 2: 8600.0, 3: 12800.0, 4: 16900.0, 5: 20900.0, 6: 24800.0},
        ),
        fleet=Fleet(sheave=radians(4), drum=radians(2)),
        stowed=(),
        rereeve=_positions(),
        charts=_charts(),
        sources={"sheave_efficiency": "manual 3-9", "boom.sag": "measured by AB, 2024-05-02"},
        fingerprint="0123456789abcdef",
    )
    return replace(sealed(book), **changes)


def sealed(book: Book) -> Book:
    """Return the book with the seal renewed of every pattern that is confirmed [-]."""
    patterns = tuple(
        replace(p, confirmed=replace(p.confirmed, seal=seal_of(book, p))) if p.confirmed else p for p in book.patterns
    )
    return replace(book, patterns=patterns)


def invented_settings(**changes: Any) -> Settings:
    """Return the settings as shipped; ``changes`` replace single values [-]."""
    return replace(read_settings(None), **changes)


def invented_lift(**changes: Any) -> Lift:
    """Return a lift that the invented crane can do on four falls; ``changes`` replace its keys [-]."""
    lift = Lift(
        name="pump",
        count=1,
        load=8500.0,
        load_basis="weighed",
        rigging=200.0,
        chart=CHART,
        boom=17.0,
        radius=(5.0, 7.0),
        top=5.0,
        bottom=0.0,
        handling=600.0,
        counterweight=7000.0,
        outriggers="full",
    )
    return replace(lift, **changes)


def _boom() -> Boom:
    lengths = {9.8: (0, 0, 0), 17.0: (100, 0, 0), 24.2: (100, 100, 0), 30.8: (100, 100, 92), 31.4: (100, 100, 100)}
    return Boom(
        foot_x=-1.2,
        foot_z=2.6,
        lengths=tuple(
            BoomLength(length=length, code="-".join(map(str, out)), sections=tuple(map(float, out)))
            for length, out in lengths.items()
        ),
        head_drop=0.42,
        sag={9.8: 0.01, 17.0: 0.03, 24.2: 0.10, 30.8: 0.22, 31.4: 0.24},
        lowest={"side": radians(-1), "rear": radians(2), "front": radians(4)},
        highest=radians(81),
    )


def _head() -> Head:
    return Head(
        sheave_diameter=0.36,
        rope_diameter=0.016,
        sheaves={1: -0.275, 2: -0.165, 3: -0.055, 4: 0.055, 5: 0.165, 6: 0.275},
        numbered="from the left, seen from the cab",
        lead="over",
        anchors={
            "a": Anchor(side=-0.22, along=-0.09, below=0.15),
            "b": Anchor(side=0.22, along=-0.09, below=0.15),
            "c": Anchor(side=0.055, along=-0.09, below=0.15),
        },
    )


def _winch() -> Winch:
    return Winch(
        name="main",
        at_x=-2.9,
        at_z=3.1,
        lead_run=None,
        winds="over",
        drum=Drum(diameter=0.34, width=0.48, flange=0.58, grooved=True, pitch=0.0166),
        least_wraps=3,
        pull=(44 * KILO, 41 * KILO, 38 * KILO, 36 * KILO, 34 * KILO),
        speed=(1.5, 1.6, 1.72, 1.84, 1.96),
        guide_sheaves=0,
        drag=320.0,
    )


def _rope() -> Rope:
    return Rope(
        construction="35xK7",
        type="I",
        diameter=0.016,
        length=170.0,
        length_source="log 2025-02-01, after the last cut",
        mass=1.28,
        breaking_force=250 * KILO,
        grade=None,
        rotation_resistant=True,
        swivel=True,
        torque_factor=0.012,
        design_factor=5.0,
        spooling_tension=0.025,
        installed="2024-09-14",
    )


def _blocks() -> Mapping[str, Block]:
    main = Block(
        name="main",
        rated=40000.0,
        mass=480.0,
        rope_diameter=0.016,
        sheaves={1: -0.22, 2: -0.11, 3: 0.0, 4: 0.11, 5: 0.22},
        sheave_diameter=0.36,
        becket=Anchor(side=0.0, along=0.0, below=-0.22),
        hook=0.88,
        touches=1.02,
        stands=0.55,
        clear=0.66,
        mass_centre=0.40,
        swivel=True,
    )
    light = replace(
        main, name="light", rated=12500.0, mass=310.0, sheaves={1: 0.0}, hook=0.74, touches=0.88, stands=0.5
    )
    ball = Block(
        name="ball",
        rated=4500.0,
        mass=160.0,
        rope_diameter=0.016,
        sheaves={},
        sheave_diameter=None,
        becket=Anchor(side=0.0, along=0.0, below=0.0),
        hook=0.55,
        touches=0.66,
        stands=0.24,
        clear=0.42,
        mass_centre=None,
        swivel=True,
    )
    return {"main": main, "light": light, "ball": ball}


def _keepers() -> tuple[Keeper, ...]:
    return (
        Keeper(name="head bar", at="head", block=None, holds=(1, 2, 3, 4, 5, 6), draw="slack", lock="spring clip"),
        Keeper(name="block pin", at="block", block="main", holds=(1, 2, 3, 4, 5), draw="tight", lock="lynch pin"),
        Keeper(name="light block pin", at="block", block="light", holds=(1,), draw="tight", lock="lynch pin"),
        Keeper(name="dead-end pin", at="dead end", block=None, holds=(), draw="slack", lock="split pin"),
    )


def _patterns() -> tuple[Pattern, ...]:
    return (
        _pattern("ball", 1, "head 4", "block", "5-11"),
        _pattern("light", 2, "head 3 block 1", "head c", "5-12"),
        _pattern("main", 2, "head 3 block 3", "head c", "5-13"),
        _pattern("main", 3, "head 3 block 3 head 4", "block", "5-14"),
        _pattern("main", 4, "head 2 block 2 head 4 block 4", "head b", "5-15"),
        replace(_pattern("main", 5, "head 2 block 2 head 3 block 4 head 5", "block", "5-16"), confirmed=None),
        _pattern("main", 6, "head 1 block 1 head 3 block 3 head 5 block 5", "head b", "5-17"),
    )


def _pattern(block: str, falls: int, path: str, dead_end: str, page: str) -> Pattern:
    words = path.split()
    return Pattern(
        block=block,
        falls=falls,
        path=tuple(Pass(place=p, sheave=int(s)) for p, s in zip(words[::2], words[1::2], strict=True)),
        dead_end=dead_end,
        page=page,
        typed=Typed(by="AB", date="2025-02-03"),
        confirmed=Confirmed(by="CD", date="2025-02-04", seal=None),
        picture=None,
    )


def _positions() -> tuple[Position, ...]:
    def row(counterweight: float, sector: str, length: float, rated: float) -> Position:
        return Position(
            counterweight=counterweight,
            outriggers="full",
            sector=sector,
            length=length,
            lowest=radians(-1 if sector == "side" else 2),
            highest=radians(25),
            rated=rated,
            wind=9.0,
            page="5-2",
        )

    return (
        row(7000.0, "side", 30.8, 900.0),
        row(7000.0, "side", 31.4, 850.0),
        row(7000.0, "side", 24.2, 1500.0),
        row(7000.0, "rear", 31.4, 850.0),
        row(0.0, "side", 24.2, 700.0),
    )


def _charts() -> tuple[Chart, ...]:
    tonne = 1000.0
    full = Chart(
        name=CHART,
        counterweight=7000.0,
        outriggers="full",
        sector="all round",
        page="7-4",
        counts=ChartCounts(rigging=True, block=True, rope="falls beyond need", stowed=True),
        rows=(
            _row("100-0-0", 17.0, {3: 24 * tonne, 5: 17.5 * tonne, 7: 12.5 * tonne, 9: 9.2 * tonne, 12: 6.4 * tonne}),
            _row("100-100-0", 24.2, {5: 14 * tonne, 8: 9.8 * tonne, 12: 6.1 * tonne, 16: 3.9 * tonne, 20: 2.7 * tonne}),
            _row(
                "100-100-100",
                31.4,
                {8: 8.1 * tonne, 12: 5.5 * tonne, 18: 3.0 * tonne, 24: 1.8 * tonne, 28: 1.2 * tonne},
            ),
        ),
    )
    rear = replace(
        full,
        name="full outriggers, 7 t, rear",
        sector="rear",
        page="7-5",
        rows=(_row("100-0-0", 17.0, {3: 26 * tonne, 5: 19 * tonne, 7: 13.5 * tonne, 9: 9.9 * tonne}),),
    )
    bare = replace(
        full,
        name="full outriggers, no counterweight",
        counterweight=0.0,
        page="7-6",
        rows=(_row("100-0-0", 17.0, {3: 18 * tonne, 5: 12 * tonne, 7: 7.1 * tonne, 9: 5.0 * tonne}),),
    )
    return (full, rear, bare)


def _row(code: str, length: float, rated: Mapping[float, float]) -> ChartRow:
    return ChartRow(
        code=code,
        sections=tuple(map(float, code.split("-"))),
        length=length,
        rated={float(r): m for r, m in rated.items()},
    )
