"""A crane book and a job sheet of any size for the benchmark: invented.

In:    a folder, the number of lift groups, a seed.
Out:   crane.yaml with 36 confirmed patterns, jobs.yaml with so many groups.
Never: figures of a real crane; timing.
"""

from __future__ import annotations

from datetime import datetime, timedelta
from pathlib import Path
from random import Random

from becket.intake.book import read_book
from becket.intake.settings import read_settings
from becket.reeving.seal import seal_of

BLOCKS = {"light": ("90 t", "1500 kg"), "main": ("100 t", "1700 kg"), "heavy": ("110 t", "1900 kg")}
FALLS = range(2, 14)
SHEAVES = 14  # half a pitch apart: a pattern uses every other one, so that it is in the middle
BOOMS = ("21.0 m", "29.5 m", "38.0 m")
RADII = ("6 m to 8 m", "8 m to 10 m", "8 m to 14 m", "12 m")

BOOK = """\
becket: 1
crane: {{name: Bench 120, serial: B-1}}
manual: {{title: Operating manual Bench 120, issue: "A, 2024"}}
boom:
  foot: {{x: -1.60 m, z: 3.00 m}}
  lengths:
    - {{length: 12.5 m, code: "0-0-0"}}
    - {{length: 21.0 m, code: "100-0-0"}}
    - {{length: 29.5 m, code: "100-100-0"}}
    - {{length: 37.2 m, code: "100-100-92"}}
    - {{length: 38.0 m, code: "100-100-100"}}
  head_drop: 0.50 m
  sag: {{12.5 m: 0.02 m, 21.0 m: 0.06 m, 29.5 m: 0.14 m, 37.2 m: 0.30 m, 38.0 m: 0.32 m}}
  lowest: {{side: -1.8 deg, rear: 1.0 deg, front: 3.5 deg}}
  highest: 81 deg
head:
  sheave_diameter: 0.42 m
  rope_diameter: 19 mm
  sheaves: {{{sheaves}}}
  numbered: from the left, seen from the cab
  lead: over
  anchors:
{anchors}
winch:
  name: main
  at: {{x: -3.55 m, z: 3.60 m}}
  winds: over
  drum: {{diameter: 0.52 m, width: 1.60 m, flange: 0.98 m, grooved: yes, pitch: 19.8 mm}}
  least_wraps: {{value: 3, source: "manual 5-2"}}
  pull: [62 kN, 58 kN, 54.5 kN, 51.5 kN, 49 kN, 46.5 kN, 44.5 kN, 42.5 kN]
  speed: [105 m/min, 112 m/min, 119 m/min, 126 m/min, 133 m/min, 140 m/min, 147 m/min, 154 m/min]
  guide_sheaves: 0
  drag: 300 N
second_line: none
sheave_ratio: {{value: 1.02, source: "manual 5-3"}}
rope:
  construction: 35xK7
  type: I
  diameter: 19 mm
  length: {{value: 600 m, source: "log 2026-01-10"}}
  mass: 1.75 kg/m
  breaking_force: 335 kN
  rotation_resistant: yes
  swivel: {{value: yes, source: "rope maker's sheet"}}
  torque_factor: {{value: 0.006, source: "rope certificate"}}
  design_factor: {{value: 5, source: "29 CFR 1926.1414(e)(2)(iii)"}}
  installed: 2026-01-10
dead_end:
  fitting: wedge socket
  rope_diameter: 19 mm
  efficiency: {{value: 0.80, source: "socket maker's sheet"}}
  tail: {{value: 0.38 m, source: "socket maker's sheet"}}
  goes_through_sheaves: no
blocks:
{blocks}
switch: {{trips: 1.1 m, margin: 0.4 m, stops: [hoist, telescope out, derrick down], \
weight_on: {{even: dead-end fall, odd: last fall, source: "manual 7-5"}}}}
indicator: {{asks: [falls, block], page: 8-2}}
override:
  - {{stops: derrick down, when: [block set down, switch weight off], page: 7-5}}
keepers:
  - {{name: head bar, at: head, holds: [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14], draw: slack, lock: spring clip}}
  - {{name: socket pin, at: dead end, draw: slack, lock: split pin}}
{keepers}
patterns:
{patterns}
falls_table: none
fleet: {{sheave: 4 deg, drum: 3 deg, source: "rope maker's sheet"}}
stowed: []
rereeve:
  - {{counterweight: 20 t, outriggers: full, sector: side, length: 37.2 m, lowest: -1.8 deg, highest: 24 deg, \
rated: 2.6 t, wind: 9 m/s, page: 7-3}}
  - {{counterweight: 20 t, outriggers: full, sector: side, length: 38.0 m, lowest: -1.8 deg, highest: 24 deg, \
rated: 2.5 t, wind: 9 m/s, page: 7-3}}
charts:
  - name: full
    counterweight: 20 t
    outriggers: full
    sector: all round
    page: 9-4
    counts: {{rigging: yes, block: yes, rope: falls beyond need, stowed: yes}}
    rows:
      "100-0-0 21.0 m": {{6 m: 44 t, 8 m: 36 t, 10 m: 29 t, 12 m: 24 t, 14 m: 20 t}}
      "100-100-0 29.5 m": {{6 m: 40 t, 8 m: 33 t, 10 m: 27 t, 12 m: 22 t, 14 m: 18 t}}
      "100-100-100 38.0 m": {{6 m: 34 t, 8 m: 28 t, 10 m: 24 t, 12 m: 20 t, 14 m: 16 t}}
"""

BLOCK = """\
  {name}: {{rated: {rated}, mass: {mass}, rope_diameter: 19 mm, sheaves: {{{sheaves}}}, sheave_diameter: 0.42 m, \
becket: {{side: 0 m, along: 0 m, above: 0.28 m}}, hook: 1.70 m, touches: 1.15 m, stands: 0.62 m, clear: 0.70 m, \
mass_centre: 1.25 m, swivel: yes}}"""

JOB = """\
  - job: {name}
    site: Site {name}
    from: {start}
    to: {end}
    leave_by: {leave_by}
    counterweight: 20 t
    outriggers: full
    people: 2
    free_radius: {room}
    lines_near: no
    lifts:"""

LIFT = """\
      - {{name: lift {number}, count: {count}, load: {load} t, load_basis: weighed, rigging: 150 kg, chart: full, \
boom: {boom}, radius: {radius}, top: {top} m, bottom: 0 m, handling: {handling} min}}"""

SHEET = """\
becket: 1
crane: Bench 120
rigged: {block: main, falls: 4}
rates: {currency: EUR, customer: 490 /h, own: 180 /h, overtime: 120 /h, billing_step: 15 min, minimum: 4 h}
yard: {free_radius: 45 m, setup: 45 min, people: 2}
daylight: 06:00 to 20:00
carried: {light: crane, main: crane, heavy: lorry}
jobs:
"""


def write_book(folder: Path) -> Path:
    """Return the crane book written into a folder, every pattern sealed [-]."""
    path = folder / "crane.yaml"
    path.write_text(_book({}), encoding="utf-8")
    book = read_book(path, read_settings(None)).book
    seals = {(pattern.block, pattern.falls): seal_of(book, pattern) for pattern in book.patterns}
    path.write_text(_book(seals), encoding="utf-8")
    return path


def _book(seals: dict[tuple[str, int], str]) -> str:
    sides = {sheave: round(0.065 * (sheave - 7.5), 4) for sheave in range(1, SHEAVES + 1)}
    sheaves = ", ".join(f"{sheave}: {side} m" for sheave, side in sides.items())
    anchors = "\n".join(f"    a{s}: {{side: {side} m, along: -0.12 m, below: 0.18 m}}" for s, side in sides.items())
    blocks = "\n".join(
        BLOCK.format(name=name, rated=rated, mass=mass, sheaves=sheaves) for name, (rated, mass) in BLOCKS.items()
    )
    numbers = ", ".join(map(str, sides))
    keepers = "\n".join(
        f"  - {{name: {name} bolt, at: block {name}, holds: [{numbers}], draw: tight, lock: lynch pin}}"
        for name in BLOCKS
    )
    patterns = "\n".join(_pattern(block, falls, seals.get((block, falls))) for block in BLOCKS for falls in FALLS)
    return BOOK.format(sheaves=sheaves, anchors=anchors, blocks=blocks, keepers=keepers, patterns=patterns)


def _pattern(block: str, falls: int, seal: str | None) -> str:
    heads = -(-falls // 2)
    head = SHEAVES // 2 + 1 - heads
    block_sheave = head + falls % 2
    passes = [f"head {head + i}" if i % 2 == 0 else f"block {block_sheave + i - 1}" for i in range(falls)]
    dead_end = "block" if falls % 2 else f"head a{block_sheave + falls - 2}"
    confirmed = f", confirmed: {{by: CD, date: 2026-01-12, seal: {seal}}}" if seal else ""
    return (
        f"  - {{block: {block}, falls: {falls}, path: {' '.join(passes)}, dead_end: {dead_end}, page: 7-{falls}, "
        f"typed: {{by: AB, date: 2026-01-11}}{confirmed}}}"
    )


def write_jobs(folder: Path, groups: int, seed: int = 1) -> Path:
    """Return the job sheet written into a folder [-].

    Args:
        folder: to write into
        groups: lift groups [-]
        seed: the same seed gives the same sheet
    """
    dice = Random(seed)
    lines = [SHEET]
    day = datetime(2026, 3, 2, 7)
    number = 0
    while number < groups:
        count = min(dice.randint(3, 8), groups - number)
        booked = dice.choice([6, 7, 8])
        room = dice.choice(["42 m", "42 m", "40 m", "12 m"])
        end, leave_by = day + timedelta(hours=booked), day + timedelta(hours=16)
        name = f"J-{day:%j}-{number}"
        lines.append(JOB.format(name=name, start=_moment(day), end=_moment(end), leave_by=_moment(leave_by), room=room))
        for _ in range(count):
            number += 1
            lines.append(_lift(dice, number))
        day += timedelta(days=1)
    path = folder / "jobs.yaml"
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")
    return path


def _lift(dice: Random, number: int) -> str:
    load = dice.choice([1, 1.5, 2, 3, 4, 6, 8, 12, 15, 18])
    return LIFT.format(
        number=number,
        count=1 if load > 8 else dice.randint(3, 9),
        load=load,
        boom=dice.choice(BOOMS),
        radius=dice.choice(RADII),
        top=dice.choice([5, 8, 11]),
        handling=dice.choice([5, 6, 8, 10]),
    )


def _moment(moment: datetime) -> str:
    return f"{moment:%Y-%m-%d %H:%M}"
