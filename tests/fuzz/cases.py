"""Random cranes and lifts: figures around plausible ones, some of them missing, some of them wrong.

In:    a seed and the number of a case.
Out:   a book, settings, the name of a block and a lift; the same for the same numbers.
Never: figures of a real crane; proposing a pattern to anybody.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from math import radians
from random import Random
from typing import Any

from becket.book.boom import Anchor, Boom, BoomLength, Head
from becket.book.charts import Chart, ChartCounts, ChartRow, FallsTable, Fleet, Stowed
from becket.book.crane import Book
from becket.book.hoist import DeadEnd, Drum, Rope, SecondLine, Winch
from becket.book.jobs import Lift
from becket.book.tackle import Block, Confirmed, Pass, Pattern, Switch, Typed
from becket.settings.values import Settings
from tests.fuzz.shipped import shipped_settings
from tests.slow_evaluation.rules import ALBERTA, ASME, FEDERAL
from tests.slow_evaluation.seal import slow_seal

OTHER_RULE_BOOKS = ("persons", "two cranes", "pulling free", "duty cycle", "fly extension", "second head")
BASES = ("weighed", "weighed", "weighed", "drawing", "estimate", None)


@dataclass(frozen=True, kw_only=True)
class FuzzCase:
    """One crane and one lift."""

    book: Book
    settings: Settings
    block: str
    lift: Lift


def random_case(seed: int, number: int) -> FuzzCase:
    """Return one case; the same for the same seed and number [-]."""
    rng = Random(f"{seed}/{number}")
    book = _book(rng)
    block = rng.choices(list(book.blocks), weights=[8 if b.sheaves else 1 for b in book.blocks.values()])[0]
    lift = _lift(rng, book, book.blocks[block])
    settings = shipped_settings()
    if rng.random() < 0.1:
        settings = replace(
            settings,
            dead_end_share=rng.choice((0.8, 0.9, 1.0)),
            twist_pass=radians(rng.uniform(10, 25)),
            overhaul_margin=rng.uniform(1.0, 1.5),
            estimate_allowance=rng.uniform(0.0, 0.25),
        )
    settings = replace(settings, rules=rng.choice((None, None, None, FEDERAL, ASME, ALBERTA)))
    if rng.random() < 0.5:
        book, lift = _milder(rng, book, lift)
    for _ in range(rng.choices((0, 1, 2, 4), weights=(50, 30, 15, 5))[0]):
        book, lift = rng.choice(SPOILERS)(rng, book, lift)
    return FuzzCase(book=book, settings=settings, block=block, lift=lift)


def _around(rng: Random, value: float, share: float = 0.15) -> float:
    return value * rng.uniform(1 - share, 1 + share)


# the crane


def _book(rng: Random) -> Book:
    d = rng.choice((0.013, 0.016, 0.017, 0.019, 0.022))
    head = _head(rng, d)
    main = _block(rng, "main", d, head)
    ball = replace(
        main, name="ball", sheaves={}, sheave_diameter=None, mass=_around(rng, 10000 * d), rated=_around(rng, 3e5 * d),
        mass_centre=None, becket=Anchor(side=0.0, along=0.0, below=0.0), hook=0.55,
    )  # fmt: skip
    book = Book(
        crane="Fuzz",
        serial=None,
        manual_title="Manual of a random crane",
        manual_issue=None,
        boom=_boom(rng),
        head=head,
        winch=_winch(rng, d),
        second_line=SecondLine(hangs=None, mass=0.0) if rng.random() < 0.8 else SecondLine(hangs="ball", mass=150.0),
        sheave_efficiency=rng.choice((1.0, 0.99, 0.985, 0.98, 0.96, 1 / 1.04, 1 / 1.09)),
        rope=_rope(rng, d),
        dead_end=DeadEnd(
            fitting="wedge socket",
            rope_diameter=d,
            efficiency=rng.choice((0.8, 0.8, 0.9, 0.75)),
            tail=20 * d,
            goes_through_sheaves=False,
        ),
        blocks={"main": main, "ball": ball},
        switch=Switch(
            trips=rng.uniform(0.7, 1.6),
            margin=rng.uniform(0.1, 0.5),
            stops=("hoist",),
            weight_on_even="dead-end fall",
            weight_on_odd="last fall",
            weight_source="5-1",
        ),
        indicator=None,
        override=(),
        keepers=(),
        keepers_on_file=True,
        patterns=(),
        falls_table=None,
        fleet=Fleet(sheave=radians(rng.uniform(2.5, 8)), drum=radians(rng.uniform(1, 4))),
        stowed=() if rng.random() < 0.7 else None,
        rereeve=(),
        charts=(),
        sources={},
        fingerprint="0" * 16,
    )
    book = replace(book, stowed=_stowed(rng, book), falls_table=_falls_table(rng, book), charts=_charts(rng, book))
    patterns = [_pattern(rng, book, book.blocks["main"], falls) for falls in range(1, 13) if rng.random() < 0.85]
    patterns.append(_pattern(rng, book, ball, 1))
    return replace(book, patterns=tuple(_confirmed(rng, book, p) for p in patterns if p is not None))


def _boom(rng: Random) -> Boom:
    sections = rng.choice((2, 3))
    shortest, each = rng.uniform(8, 12), rng.uniform(5, 8)
    steps: list[tuple[float, ...]] = [(0.0,) * sections]
    for number in range(sections):
        before = steps[-1]
        for out in (46.0, 92.0, 100.0) if rng.random() < 0.4 else (100.0,):
            steps.append((*before[:number], out, *before[number + 1 :]))
    if rng.random() < 0.15:
        steps.append((50.0,) + (0.0,) * (sections - 1))
        steps.append((0.0,) * (sections - 1) + (50.0,))
    lengths = tuple(
        BoomLength(
            length=round(shortest + each * sum(step) / 100, 2), code="-".join(f"{x:g}" for x in step), sections=step
        )
        for step in steps
    )
    lowest = {"side": radians(-1.5), "rear": radians(2), "front": radians(4)}
    return Boom(
        foot_x=rng.uniform(-2.0, 0.5),
        foot_z=rng.uniform(2.0, 3.5),
        lengths=lengths,
        head_drop=rng.uniform(0.1, 0.7),
        sag={one.length: round(one.length**2 * 0.0003, 3) for one in lengths},
        lowest=lowest if rng.random() < 0.9 else {"side": radians(10)},
        highest=radians(rng.uniform(76, 84)),
    )


def _row_of_sheaves(count: int, spacing: float) -> dict[int, float]:
    return {k + 1: round((k - (count - 1) / 2) * spacing, 3) for k in range(count)}


def _head(rng: Random, d: float) -> Head:
    spacing = round(rng.uniform(0.08, 0.13), 3)
    sheaves = _row_of_sheaves(rng.choice((1, 2, 3, 4, 5, 6, 7, 7)), spacing)
    diameter = round(d * rng.uniform(18, 24), 3)
    along, below = round(rng.uniform(-0.2, 0.02), 3), round(rng.uniform(0.0, 0.25), 3)
    names = "abcd"[: rng.choice((1, 2, 3, 4))]
    sides = [rng.choice(list(sheaves.values())) + rng.choice((0.0, 0.06, -0.06)) for _ in names]
    return Head(
        sheave_diameter=diameter,
        rope_diameter=d,
        sheaves=sheaves,
        numbered="from the left",
        lead=rng.choice(("over", "over", "over", "under")),
        anchors={
            name: Anchor(side=round(side, 3), along=along, below=below)
            for name, side in zip(names, sides, strict=True)
        },
    )  # fmt: skip


def _block(rng: Random, name: str, d: float, head: Head) -> Block:
    count = rng.choice((1, 2, 3, 4, 5, 6, 7))
    row = dict(head.sheaves) if rng.random() < 0.4 else _row_of_sheaves(count, round(rng.uniform(0.07, 0.13), 3))
    return Block(
        name=name,
        rated=_around(rng, 30000 * len(row) ** 0.5 * d / 0.016, 0.4),
        mass=_around(rng, 12000 * len(row) ** 0.5 * d, 0.9) + 250,
        rope_diameter=d,
        sheaves=row,
        sheave_diameter=round(d * rng.uniform(16, 24), 3),
        becket=Anchor(side=0.0, along=rng.choice((0.0, 0.0, 0.05)), below=-round(rng.uniform(0.0, 0.3), 3)),
        hook=round(rng.uniform(0.6, 1.2), 2),
        touches=1.1,
        stands=0.6,
        clear=0.7,
        mass_centre=round(rng.uniform(0.2, 0.7), 2),
        swivel=rng.random() < 0.85,
    )


def _winch(rng: Random, d: float) -> Winch:
    pull = d * d * rng.uniform(1.4e8, 2.2e8)
    speed = rng.uniform(1.2, 2.2)
    fall_off = [1.0, 0.93, 0.87, 0.81, 0.76, 0.72, 0.68]
    printed = rng.choice((1, 5, 6, 7, 7))
    return Winch(
        name="main",
        at_x=rng.uniform(-4, -2) if rng.random() < 0.9 else None,
        at_z=rng.uniform(2.2, 3.8),
        lead_run=rng.choice((None, rng.uniform(1, 3))),
        winds="over",
        drum=Drum(
            diameter=round(d * rng.uniform(18, 24), 3),
            width=rng.uniform(0.35, 0.8),
            flange=round(d * 40, 3),
            grooved=True,
            pitch=rng.choice((None, d * rng.uniform(1.02, 1.06))),
        ),
        least_wraps=rng.choice((2, 3, 3, 5)),
        pull=tuple(pull * f for f in fall_off[:printed]),
        speed=tuple(speed / f for f in fall_off[:printed]),
        guide_sheaves=rng.choice((0, 0, 0, 1, 2)),
        drag=rng.uniform(0, 600),
    )


def _rope(rng: Random, d: float) -> Rope:
    return Rope(
        construction=rng.choice(("35xK7", "compacted", "6x36-IWRC", "18x7-IWRC")),
        type=rng.choice(("I", "II", None)),
        diameter=d,
        length=rng.uniform(90, 320),
        length_source="log",
        mass=5000 * d * d * rng.uniform(0.9, 1.1),
        breaking_force=1e9 * d * d * rng.uniform(0.7, 1.1),
        grade=rng.choice((None, None, 1960.0, 1770.0)),
        rotation_resistant=rng.random() < 0.85,
        swivel=rng.choice((True, True, True, False, None)),
        torque_factor=rng.choice((0.0, 0.008, 0.01, 0.012, 0.03, 0.08)),
        design_factor=rng.choice((3.5, 5.0, 5.0)),
        spooling_tension=None,
        installed=None,
    )


def _stowed(rng: Random, book: Book) -> tuple[Stowed, ...] | None:
    if rng.random() < 0.75:
        return ()
    masses = {one.length: rng.uniform(50, 600) for one in book.boom.lengths if rng.random() < 0.95}
    return (Stowed(name="swing-away", deduct=masses),)


def _falls_table(rng: Random, book: Book) -> FallsTable:
    if rng.random() < 0.3:
        return FallsTable(printed=False, counts=None, layer=None, page=None, loads={})
    one = book.winch.pull[0] / 9.80665 * rng.uniform(0.9, 1.0)
    counts = rng.choice((("load", "rigging", "block"), ("load", "rigging"), ("load", "rigging", "block", "rope"), None))
    loads = {n: one * n * 0.98**n for n in range(1, 15) if rng.random() < 0.93}
    return FallsTable(printed=True, counts=counts, layer=1, page="6-9", loads=loads)


def _charts(rng: Random, book: Book) -> tuple[Chart, ...]:
    sectors = rng.choice((("all round",), ("all round", "rear"), ("side", "rear"), ("side",)))
    return tuple(_chart(rng, book, sector, f"chart {k}") for k, sector in enumerate(sectors))


def _chart(rng: Random, book: Book, sector: str, name: str) -> Chart:
    rows = []
    capacity = rng.uniform(60, 260) * 1000
    for one in book.boom.lengths:
        if rng.random() < 0.25:
            continue
        step = rng.choice((1.0, 2.0, 2.0, 4.0))
        radii = [3.0 + step * k for k in range(40) if 3.0 + step * k < 0.92 * one.length + book.boom.foot_x]
        radii = [r for r in radii if rng.random() < 0.93][rng.choice((0, 0, 1)) :]
        rated = {r: round(capacity / (r + 0.5) ** 1.25 * (1 - one.length / 150), -2) for r in radii}
        rows.append(ChartRow(code=one.code, sections=one.sections, length=one.length, rated=rated))
    counts = ChartCounts(
        rigging=rng.random() < 0.8,
        block=rng.random() < 0.7,
        rope=rng.choice(("yes", "no", "falls beyond need", "falls beyond need")),
        stowed=rng.random() < 0.8,
    )
    return Chart(
        name=name,
        counterweight=9000.0,
        outriggers="full",
        sector=sector,
        page="8-1",
        counts=counts if rng.random() < 0.9 else None,
        rows=tuple(rows),
    )


# patterns of the random manual


def _pattern(rng: Random, book: Book, block: Block, falls: int) -> Pattern | None:
    on_head, on_block = list(book.head.sheaves), list(block.sheaves)
    if (falls + 1) // 2 > len(on_head) or falls // 2 > len(on_block):
        return None
    start = rng.randint(0, len(on_head) - (falls + 1) // 2)
    heads = on_head[start : start + (falls + 1) // 2]
    if rng.random() < 0.5:
        heads = sorted(rng.sample(on_head, (falls + 1) // 2), key=lambda k: book.head.sheaves[k])
    blocks: list[int] = []
    for head in heads[: falls // 2]:
        left = [k for k in on_block if k not in blocks]
        blocks.append(min(left, key=lambda k: abs(block.sheaves[k] - book.head.sheaves[head])))
    if rng.random() < 0.1:
        rng.shuffle(heads)
    if rng.random() < 0.3:
        heads, blocks = heads[::-1], blocks[::-1]
    path = []
    for k in range(falls):
        path.append(Pass(place="block", sheave=blocks[k // 2]) if k % 2 else Pass(place="head", sheave=heads[k // 2]))
    dead_end = "block"
    if falls % 2 == 0:
        last = block.sheaves[blocks[-1]]
        name = min(book.head.anchors, key=lambda a: abs(book.head.anchors[a].side - last))
        dead_end = f"head {name}"
    pattern = Pattern(
        block=block.name, falls=falls, path=tuple(path), dead_end=dead_end, page=rng.choice(("6-1", "6-2", None)),
        typed=Typed(by="AB", date="2025-01-01"), confirmed=None, picture=None,
    )  # fmt: skip
    return _slipped(rng, pattern) if rng.random() < 0.05 else pattern


def _slipped(rng: Random, pattern: Pattern) -> Pattern:
    """Return the pattern with one slip of the pen [-]."""
    path = list(pattern.path)
    slip = rng.choice(("twice", "swap", "short", "anchor", "side", "none such"))
    if slip == "twice" and len(path) > 2:
        path[2] = path[0]
    elif slip == "swap" and len(path) > 1:
        path[0], path[1] = path[1], path[0]
    elif slip == "short" and len(path) > 1:
        path.pop()
    elif slip == "none such":
        path[-1] = replace(path[-1], sheave=99)
    elif slip == "anchor":
        return replace(pattern, dead_end="head z")
    elif slip == "side":
        return replace(pattern, dead_end="head a" if pattern.falls % 2 else "block")
    return replace(pattern, path=tuple(path))


def _confirmed(rng: Random, book: Book, pattern: Pattern) -> Pattern:
    kind = rng.choices(("sealed", "none", "stale", "typist", "no seal"), weights=(88, 6, 2, 2, 2))[0]
    if kind == "none":
        return pattern
    seal = {"stale": "0123456789abcdef", "no seal": None}.get(kind, slow_seal(book, pattern))
    return replace(pattern, confirmed=Confirmed(by="AB" if kind == "typist" else "CD", date="2025-01-02", seal=seal))


# the lift


def _lift(rng: Random, book: Book, block: Block) -> Lift:
    chart = rng.choice(book.charts)
    boom = rng.choice(book.boom.lengths)
    far = boom.length * rng.uniform(0.15, 0.9) + book.boom.foot_x
    near = max(1.0, far - rng.choice((0.0, 1.0, 3.0, 6.0)) * rng.random())
    reach = (max(boom.length**2 - (far - book.boom.foot_x) ** 2, 0.0)) ** 0.5 + book.boom.foot_z
    bottom = rng.choice((0.0, 0.0, 1.0, -2.0, -15.0))
    top = max(bottom, reach - rng.choice((1.0, 2.0, 4.0, 8.0, 15.0)) * rng.uniform(1.0, 1.5))
    falls = rng.randint(1, max(1, min(2 * len(book.head.sheaves), 2 * len(block.sheaves) + 1)))
    rows = [max(row.rated.values()) for row in chart.rows if row.rated]
    load = min(falls * book.winch.pull[0] / 9.80665, rng.choice(rows) if rows else 5000.0) * rng.uniform(0.05, 1.0)
    return Lift(
        name="random",
        load=load,
        load_basis=rng.choice(BASES),
        rigging=rng.uniform(0, 500),
        chart=chart.name,
        boom=boom.length,
        radius=(near, max(near, far)),
        top=top,
        bottom=bottom,
        handling=None,
        sector=rng.choice((None, "side", "rear")) if chart.sector == "all round" else chart.sector,
        code=boom.code if rng.random() < 0.3 else None,
        counterweight=9000.0,
        outriggers="full",
    )


def _milder(rng: Random, book: Book, lift: Lift) -> tuple[Book, Lift]:
    """Return the case with figures at which many limits pass, so that the last one decides [-]."""
    blocks = {
        name: replace(
            b,
            mass=None if b.mass is None else b.mass * rng.uniform(1.0, 2.0),
            rated=200000.0,
            hook=rng.uniform(1.0, 1.8),
            mass_centre=None if b.mass_centre is None else rng.uniform(0.8, 1.6),
        )
        for name, b in book.blocks.items()
    }
    rope = replace(book.rope, length=rng.uniform(250, 450), torque_factor=rng.choice((0.0, 0.004, 0.008, 0.012)))
    winch = replace(
        book.winch, drag=rng.uniform(0, 200), pull=tuple(p * rng.uniform(1.0, 1.3) for p in book.winch.pull)
    )
    if lift.boom is not None and lift.radius is not None and lift.top is not None:
        far = min(lift.radius[1], 0.75 * lift.boom + book.boom.foot_x)
        near = max(min(lift.radius[0], far), 0.25 * lift.boom + book.boom.foot_x)
        boom, far = lift.boom, max(near, far)
        lift = replace(lift, radius=(min(near, far), far))
        reach = float(max(boom**2 - (far - book.boom.foot_x) ** 2, 0.0) ** 0.5) + book.boom.foot_z
        lift = replace(lift, top=max(lift.bottom or 0.0, reach - rng.uniform(4.5, 12.0)), bottom=rng.uniform(-4.0, 1.0))
        lift = replace(lift, top=max(lift.top or 0.0, lift.bottom or 0.0))
    if lift.load is not None:
        lift = replace(lift, load=lift.load * rng.uniform(0.2, 0.8), load_basis=rng.choice((*BASES, "weighed")))
    fleet = Fleet(sheave=radians(rng.uniform(6, 12)), drum=radians(rng.uniform(2.5, 5)))
    return replace(book, blocks=blocks, rope=rope, winch=winch, fleet=fleet), lift


# what is missing or wrong

Spoiler = Callable[[Random, Book, Lift], tuple[Book, Lift]]


def _without(part: str | None, name: str, gone: Any = None) -> Spoiler:
    def spoil(rng: Random, book: Book, lift: Lift) -> tuple[Book, Lift]:
        if part is None:
            return replace(book, **{name: gone}), lift
        return replace(book, **{part: replace(getattr(book, part), **{name: gone})}), lift

    return spoil


def _lift_without(name: str, *values: Any) -> Spoiler:
    def spoil(rng: Random, book: Book, lift: Lift) -> tuple[Book, Lift]:
        return book, replace(lift, **{name: rng.choice(values or (None,))})

    return spoil


def _blocks_without(name: str, *values: Any) -> Spoiler:
    def spoil(rng: Random, book: Book, lift: Lift) -> tuple[Book, Lift]:
        gone = rng.choice(values or (None,))
        blocks: Mapping[str, Block] = {key: replace(b, **{name: gone}) for key, b in book.blocks.items()}
        return replace(book, blocks=blocks), lift

    return spoil


def _anchors_without(name: str) -> Spoiler:
    """Anchors of head and block lose a figure; seals are made again, as a crew without the figure would have them."""

    def spoil(rng: Random, book: Book, lift: Lift) -> tuple[Book, Lift]:
        gone: dict[str, Any] = {name: None}
        anchors = {key: replace(a, **gone) for key, a in book.head.anchors.items()}
        blocks = {
            key: replace(b, becket=None if b.becket is None else replace(b.becket, **gone))
            for key, b in book.blocks.items()
        }
        book = replace(book, head=replace(book.head, anchors=anchors), blocks=blocks)
        return _resealed(rng, book), lift

    return spoil


def _resealed(rng: Random, book: Book) -> Book:
    if rng.random() < 0.3:
        return book
    patterns = tuple(
        replace(p, confirmed=replace(p.confirmed, seal=slow_seal(book, p)))
        if p.confirmed is not None and p.confirmed.seal not in (None, "0123456789abcdef")
        else p
        for p in book.patterns
    )
    return replace(book, patterns=patterns)


def _chart_without(name: str, *values: Any) -> Spoiler:
    def spoil(rng: Random, book: Book, lift: Lift) -> tuple[Book, Lift]:
        gone = rng.choice(values or (None,))
        return replace(book, charts=tuple(replace(c, **{name: gone}) for c in book.charts)), lift

    return spoil


def _drum_pitch(rng: Random, book: Book, lift: Lift) -> tuple[Book, Lift]:
    drum = replace(book.winch.drum, width=rng.uniform(0.1, 0.3))
    return replace(book, winch=replace(book.winch, drum=drum)), lift


SPOILERS: tuple[Spoiler, ...] = (
    *(_without("winch", n) for n in ("at_x", "least_wraps", "guide_sheaves", "drag", "lead_run")),
    _without("winch", "pull", ()),
    _without("winch", "speed", ()),
    *(_without("rope", n) for n in ("length", "mass", "breaking_force", "torque_factor", "design_factor")),
    *(_without("rope", n) for n in ("rotation_resistant", "swivel")),
    *(_without("dead_end", n) for n in ("rope_diameter", "efficiency", "tail")),
    _without("dead_end", "rope_diameter", 0.0145),
    *(_without("switch", n) for n in ("trips", "margin")),
    *(_without("head", n) for n in ("rope_diameter", "lead")),
    _without("boom", "sag"),
    _without("boom", "sag", {8.0: 0.01}),
    *(_without("fleet", n) for n in ("sheave", "drum")),
    *(_without(None, n) for n in ("second_line", "sheave_efficiency", "falls_table", "stowed")),
    _without(None, "patterns", ()),
    *(_blocks_without(n) for n in ("rated", "mass", "rope_diameter", "sheave_diameter", "hook", "mass_centre")),
    *(_blocks_without(n) for n in ("swivel", "becket")),
    _blocks_without("rope_diameter", 0.0145),
    *(_anchors_without(n) for n in ("along", "below")),
    *(_chart_without(n) for n in ("counterweight", "outriggers", "sector", "counts")),
    _chart_without("rows", ()),
    *(_lift_without(n) for n in ("load", "load_basis", "rigging", "chart", "boom", "radius", "top", "bottom")),
    *(_lift_without(n) for n in ("counterweight", "outriggers", "sector")),
    _lift_without("counterweight", 0.0, 5000.0),
    _lift_without("outriggers", "half"),
    _lift_without("sector", "rear", "front", "side", "over rear"),
    _lift_without("code", "100-0-0", "7-7-7"),
    _lift_without("chart", "no such chart"),
    _lift_without("kind", *OTHER_RULE_BOOKS),
    _lift_without("boom", 12.345, 60.0),
    _lift_without("top", 100.0, 30.0),
    _lift_without("bottom", -60.0),
    _lift_without("radius", (1.0, 80.0), (0.2, 3.0)),
    _drum_pitch,
)
