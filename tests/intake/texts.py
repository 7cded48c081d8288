"""An invented crane's files as text, for tests of reading.

In:    changes, old text to new.
Out:   text of a crane book, of a job sheet in YAML and in CSV.
Never: files of a real crane.
"""

# ruff: noqa: E501 (messages and lines of files stand here as they are)

from __future__ import annotations

BOOK = """\
becket: 1
crane: {name: Alder 25, serial: A25-3}
manual: {title: Operating manual Alder 25, issue: C}
boom:
  foot: {x: -1.2 m, z: 2.6 m}
  lengths:
    - {length: 9.5 m, code: "0-0"}
    - {length: 16 m, code: "100-0"}
    - {length: 22.5 m, code: "100-100"}
  head_drop: 0.4 m
  sag: {9.5 m: 10 mm, 16 m: 40 mm, 22.5 m: 110 mm}
  sag_source: measured by AB, 2025-01-05
  lowest: {side: -2 deg, rear: 1 deg}
  highest: 80 deg
head:
  sheave_diameter: 300 mm
  rope_diameter: 14 mm
  sheaves: {1: -0.2 m, 2: 0 m, 3: 0.2 m}
  lead: over
  anchors:
    left: {side: -0.1 m, along: -0.1 m, below: 0.12 m}
    right: {side: 0.1 m, along: -0.1 m, below: 0.12 m}
winch:
  name: main
  at: {x: -2.4 m, z: 2.9 m}
  winds: over
  drum: {diameter: 300 mm, width: 440 mm, flange: 560 mm, grooved: yes, pitch: 14.6 mm}
  least_wraps: 3
  pull: [34 kN, 31 kN, 29 kN, 27 kN]
  speed: [90 m/min, 98 m/min, 106 m/min, 114 m/min]
  guide_sheaves: 1
  drag: 300 N
second_line: none
sheave_efficiency: {value: 0.98, source: manual 4-2}
rope:
  construction: 35(W)x7
  type: II
  diameter: 14 mm
  length: {value: 120 m, source: log 2025-01-05}
  mass: 0.98 kg/m
  breaking_force: 170 kN
  rotation_resistant: yes
  swivel: no
  torque_factor: 0.02
  design_factor: 5
  spooling_tension: 2 %
  installed: 2024-05-06
dead_end:
  fitting: wedge socket
  rope_diameter: 14 mm
  efficiency: 0.8
  tail: 280 mm
  goes_through_sheaves: no
blocks:
  hook:
    rated: 25 t
    mass: 240 kg
    rope_diameter: 14 mm
    sheaves: {1: -0.1 m, 2: 0.1 m}
    sheave_diameter: 300 mm
    becket: {side: 0 m, along: 0 m, above: 0.2 m}
    hook: 0.8 m
    touches: 0.9 m
    stands: 0.5 m
    clear: 0.6 m
    mass_centre: 0.35 m
    swivel: yes
switch:
  trips: 1.0 m
  margin: 0.25 m
  margin_source: manual 5-2
  stops: [hoist, telescope out]
  weight_on: {even: dead-end fall, odd: last fall, source: manual 5-3}
indicator: {asks: [falls, block], page: 7-1}
override:
  - {stops: derrick down, when: [block set down], page: 5-5}
keepers:
  - {name: head bar, at: head, holds: [1, 2, 3], draw: slack, lock: spring clip}
  - {name: block bar, at: block hook, holds: [1, 2], draw: tight, lock: lynch pin}
  - {name: end pin, at: dead end, draw: slack, lock: split pin}
patterns:
  - {block: hook, falls: 2, path: head 2 block 1, dead_end: head right, page: 6-2, typed: {by: AB, date: 2025-01-05}}
  - block: hook
    falls: 3
    path: head 1, block 1, head 2
    dead_end: block
    page: 6-3
    typed: {by: AB, date: 2025-01-05}
falls_table: {counts: [load, rigging, block], layer: 1, page: 6-1, loads: {1: 3.3 t, 2: 6.5 t, 3: 9.6 t}}
fleet: {sheave: 4 deg, drum: 2 deg, source: rope maker's sheet}
stowed:
  - {name: fly, deduct: {9.5 m: 300 kg, 16 m: 250 kg, 22.5 m: 200 kg}}
rereeve:
  - {counterweight: 3 t, outriggers: full, sector: side, length: 16 m, lowest: -2 deg, highest: 20 deg, rated: 0.9 t}
charts:
  - name: full
    counterweight: 3 t
    outriggers: full
    sector: all round
    page: 8-1
    counts: {rigging: yes, block: yes, rope: no, stowed: yes}
    rows:
      "0-0 9.5 m": {3 m: 25 t, 6 m: 12 t}
      "100-0 16 m": {3 m: 16 t, 6 m: 9 t, 12 m: 3.5 t}
"""

JOBS = """\
becket: 1
crane: Alder 25
rigged: {block: hook, falls: 2}
rates: {currency: EUR, customer: 180 /h, own: 90 /h, overtime: 60 /h, billing_step: 15 min, minimum: 4 h}
yard: {free_radius: 30 m, setup: 30 min, people: 2}
daylight: 07:00 to 17:00
carried: {hook: crane}
jobs:
  - job: A-1
    site: Mill
    from: 2027-02-01 07:00
    to: 2027-02-01 12:00
    leave_by: 2027-02-01 13:00
    counterweight: 3 t
    outriggers: full
    people: 2
    free_radius: 20 m
    lines_near: no
    lifts:
      - {name: beam, count: 4, load: 2 t, load_basis: weighed, rigging: 60 kg, chart: full, boom: 16 m, radius: 4 m to 6 m, top: 9 m, bottom: 0 m, handling: 5 min}
  - job: A-2
    from: 2027-02-02 07:00
    to: 2027-02-02 12:00
    lifts:
      - {name: tank, load: 4 t, boom: 9.5 m, radius: 5 m}
"""

CSV = """\
crane;rigged.block;rigged.falls;rates.currency;rates.customer;carried.hook;job;from;to;counterweight;name;count;load;boom;radius;top
Alder 25;hook;2;EUR;180 /h;crane;A-1;2027-02-01 07:00;2027-02-01 12:00;3 t;beam;4;2,5 t;16 m;4 m to 6 m;9 m
;;;;;;;;;;wall;2;1,25 t;16 m;4,5 m;"8,5 m"
;;;;;;A-2;2027-02-02 07:00;2027-02-02 12:00;;tank;;4 t;9,5 m;5 m;
"""


def altered(text: str, *changes: tuple[str, str]) -> str:
    """Return the text with each change made once; an old text that does not stand there is an error of the test."""
    for old, new in changes:
        assert text.count(old) >= 1, old
        text = text.replace(old, new, 1)
    return text
