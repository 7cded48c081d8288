"""Contradictions among figures of boom, drum, blocks, charts and positions.

In:    a crane book.
Out:   contradictions.
Never: a figure that is missing: it contradicts nothing; a rule set.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from math import degrees

from becket.book.boom import BoomLength
from becket.book.charts import Position
from becket.book.crane import Book
from becket.limits.contradiction import Contradiction, number
from becket.mechanics.drum import pull_at_layer, square_rise
from becket.mechanics.overhaul import GRAVITY
from becket.mechanics.tackle import lead_line_pull

_LENGTH_SLACK = 0.0005  # two boom lengths nearer than this are one: half a millimetre of print [m]
_DIAMETER_SLACK = 1e-6  # two nominal diameters nearer than this are one [m]
_ANGLE_SLACK = 1e-9  # [rad]


def diameters_differ(book: Book) -> Iterator[Contradiction]:
    """Yield grooves and sockets made for another rope [-]."""
    made_for = [("head.rope_diameter", "the head", book.head.rope_diameter)]
    made_for += [
        (f"blocks.{b.name}.rope_diameter", f"the block {b.name}", b.rope_diameter) for b in book.blocks.values()
    ]
    made_for.append(("dead_end.rope_diameter", "the dead-end fitting", book.dead_end.rope_diameter))
    for field, what, diameter in made_for:
        if diameter is not None and abs(diameter - book.rope.diameter) > _DIAMETER_SLACK:
            why = f"the rope is {number(1000 * book.rope.diameter)} mm; {what} is made for {number(1000 * diameter)} mm"
            yield Contradiction(name="diameters_differ", why=why, fields=("rope.diameter", field))


def table_above_pull(book: Book) -> Iterator[Contradiction]:
    """Yield entries of the maker's falls table that the line pull of its layer cannot give [-].

    Source: docs/theory/tackle.md, eq. 6.
    """
    table, eta, guides = book.falls_table, book.sheave_efficiency, book.winch.guide_sheaves
    permitted = _table_pull(book)
    if table is None or eta is None or guides is None or permitted is None:
        return
    layer = table.layer or 1
    for falls, mass in sorted(table.loads.items()):
        pull = lead_line_pull(mass * GRAVITY, falls, eta, guides)
        if pull > permitted:
            why = (
                f"{number(mass)} kg on {falls} falls pull {pull / 1000:.2f} kN at the drum; layer {layer} permits "
                f"{permitted / 1000:.2f} kN with a sheave efficiency of {number(eta)}"
            )
            fields = (f"falls_table.loads[{falls}]", "winch.pull", "sheave_efficiency")
            yield Contradiction(name="table_above_pull", why=why, fields=fields)


def table_falls_with_falls(book: Book) -> Iterator[Contradiction]:
    """Yield entries of the maker's falls table that permit less with more falls [-]."""
    table = book.falls_table
    for (few, less), (many, more) in pairwise(sorted(table.loads.items()) if table else ()):
        if more < less:
            why = f"{number(more)} kg on {many} falls is less than {number(less)} kg on {few} falls"
            fields = (f"falls_table.loads[{few}]", f"falls_table.loads[{many}]")
            yield Contradiction(name="table_falls_with_falls", why=why, fields=fields)


def pull_rises_with_layer(book: Book) -> Iterator[Contradiction]:
    """Yield layers that permit more pull than the layer below [-]."""
    for layer, (below, above) in enumerate(pairwise(book.winch.pull), 1):
        if above > below:
            why = (
                f"layer {layer + 1} permits {above / 1000:g} kN, layer {layer} {below / 1000:g} kN; "
                "the pull of a drum goes down from layer to layer"
            )
            fields = (f"winch.pull[{layer - 1}]", f"winch.pull[{layer}]")
            yield Contradiction(name="pull_rises_with_layer", why=why, fields=fields)


def speed_falls_with_layer(book: Book) -> Iterator[Contradiction]:
    """Yield layers on which the rope is slower than on the layer below [-]."""
    for layer, (below, above) in enumerate(pairwise(book.winch.speed), 1):
        if above < below:
            why = (
                f"layer {layer + 1} runs at {number(60 * above)} m/min, layer {layer} at {number(60 * below)} m/min; "
                "the speed of a drum goes up from layer to layer"
            )
            fields = (f"winch.speed[{layer - 1}]", f"winch.speed[{layer}]")
            yield Contradiction(name="speed_falls_with_layer", why=why, fields=fields)


def drum_sizes(book: Book) -> Iterator[Contradiction]:
    """Yield sizes of the drum that leave no room for the rope [-]."""
    drum, rope = book.winch.drum, book.rope.diameter
    if drum.flange is not None and drum.flange < drum.diameter + 2 * rope:
        why = f"a flange of {number(drum.flange)} m over a drum of {number(drum.diameter)} m has no room for one layer"
        yield Contradiction(name="drum_sizes", why=why, fields=("winch.drum.flange", "winch.drum.diameter"))
    if drum.pitch is not None and drum.pitch < rope - _DIAMETER_SLACK:
        why = f"turns {number(1000 * drum.pitch)} mm apart have no room for a rope of {number(1000 * rope)} mm"
        yield Contradiction(name="drum_sizes", why=why, fields=("winch.drum.pitch", "rope.diameter"))


def sag_falls_with_length(book: Book) -> Iterator[Contradiction]:
    """Yield longer booms that sag less than shorter ones [-]."""
    for (short, more), (long, less) in pairwise(sorted((book.boom.sag or {}).items())):
        if less < more:
            why = (
                f"the boom of {number(long)} m sags {number(less)} m, the shorter one of {number(short)} m "
                f"{number(more)} m; a longer boom sags more"
            )
            yield Contradiction(name="sag_falls_with_length", why=why, fields=("boom.sag", "boom.lengths"))


def lowest_above_highest(book: Book) -> Iterator[Contradiction]:
    """Yield lowest boom angles that are not under the highest, of the boom and of the positions [-]."""
    angles = [
        (f"boom.lowest.{sector}", "boom.highest", low, book.boom.highest) for sector, low in book.boom.lowest.items()
    ]
    angles += [
        (f"rereeve[{index}].lowest", f"rereeve[{index}].highest", row.lowest, row.highest)
        for index, row in enumerate(book.rereeve)
    ]
    for low_field, high_field, low, high in angles:
        if low > high:
            why = f"the lowest angle {_degrees(low)} is above the highest {_degrees(high)}"
            yield Contradiction(name="lowest_above_highest", why=why, fields=(low_field, high_field))


def position_beyond_boom(book: Book) -> Iterator[Contradiction]:
    """Yield positions at a boom length or angle that the boom does not have [-]."""
    for index, row in enumerate(book.rereeve):
        field = f"rereeve[{index}]"
        if not _is_length(book.boom.lengths, row.length):
            why = f"{number(row.length)} m is no boom length; on file: {_lengths(book.boom.lengths)}"
            yield Contradiction(name="position_beyond_boom", why=why, fields=(f"{field}.length", "boom.lengths"))
        yield from _angles_beyond(book, row, field)


def position_under_block(book: Book) -> Iterator[Contradiction]:
    """Yield positions that are rated under every block that is reeved over sheaves, empty [-]."""
    masses = {b.name: b.mass for b in book.blocks.values() if b.mass is not None and b.sheaves}
    if not masses:
        return
    lightest = min(masses, key=lambda name: masses[name])
    for index, row in enumerate(book.rereeve):
        if row.rated is not None and row.rated < masses[lightest]:
            why = f"rated {number(row.rated)} kg; the empty block {lightest} alone is {number(masses[lightest])} kg"
            fields = (f"rereeve[{index}].rated", f"blocks.{lightest}.mass")
            yield Contradiction(name="position_under_block", why=why, fields=fields)


def block_heights(book: Book) -> Iterator[Contradiction]:
    """Yield blocks that stand higher than they touch, or touch lower than their hook is long [-]."""
    for block in book.blocks.values():
        field = f"blocks.{block.name}"
        if block.stands is not None and block.touches is not None and block.stands > block.touches:
            why = (
                f"set down, the block {block.name} stands at {number(block.stands)} m, above the "
                f"{number(block.touches)} m at which its hook first touches the ground"
            )
            yield Contradiction(name="block_heights", why=why, fields=(f"{field}.stands", f"{field}.touches"))
        if block.touches is not None and block.hook is not None and block.touches < block.hook:
            why = (
                f"the block {block.name} touches with its shaft {number(block.touches)} m up, but its saddle is "
                f"{number(block.hook)} m under the shaft and would be in the ground"
            )
            yield Contradiction(name="block_heights", why=why, fields=(f"{field}.touches", f"{field}.hook"))


def switch_trips_too_late(book: Book) -> Iterator[Contradiction]:
    """Yield blocks that meet the head before the hoist limit switch trips [-]."""
    trips = book.switch.trips
    for block in book.blocks.values():
        if trips is not None and block.clear is not None and trips < block.clear:
            why = (
                f"the switch trips at {number(trips)} m shaft to shaft; the block {block.name} is clear of the head "
                f"from {number(block.clear)} m on"
            )
            fields = ("switch.trips", f"blocks.{block.name}.clear")
            yield Contradiction(name="switch_trips_too_late", why=why, fields=fields)


def switch_does_not_stop_hoist(book: Book) -> Iterator[Contradiction]:
    """Yield a hoist limit switch that does not stop the hoist [-]."""
    if book.switch.stops and "hoist" not in book.switch.stops:
        why = f"the hoist limit switch stops {', '.join(book.switch.stops)}, but not the hoist"
        yield Contradiction(name="switch_does_not_stop_hoist", why=why, fields=("switch.stops", "switch.trips"))


def rated_rises_with_radius(book: Book) -> Iterator[Contradiction]:
    """Yield chart rows in which a longer radius is rated higher [-]."""
    for index, chart in enumerate(book.charts):
        for row in chart.rows:
            for (near, less), (far, more) in pairwise(sorted(row.rated.items())):
                if more > less:
                    why = (
                        f"{chart.name}, {row.code} {number(row.length)} m: {number(more)} kg at {number(far)} m is "
                        f"more than {number(less)} kg at {number(near)} m"
                    )
                    fields = (f"charts[{index}].rows", f"charts[{index}].name")
                    yield Contradiction(name="rated_rises_with_radius", why=why, fields=fields)


def chart_beyond_boom(book: Book) -> Iterator[Contradiction]:
    """Yield chart rows of a boom length or telescoping code that the boom does not have [-]."""
    for index, chart in enumerate(book.charts):
        for row in chart.rows:
            same = [one for one in book.boom.lengths if abs(one.length - row.length) <= _LENGTH_SLACK]
            if not any(one.code is None or one.code == row.code for one in same):
                why = (
                    f"{chart.name}: no boom length is {number(row.length)} m with the code {row.code}; on file: "
                    f"{_lengths(book.boom.lengths)}"
                )
                fields = (f"charts[{index}].rows", "boom.lengths")
                yield Contradiction(name="chart_beyond_boom", why=why, fields=fields)


def _table_pull(book: Book) -> float | None:
    """The pull at the layer of the falls table; the table names no layer: the greatest."""
    pull, table = book.winch.pull, book.falls_table
    if not pull or table is None:
        return None
    if table.layer is None:
        return max(pull)
    if table.layer <= len(pull):
        return pull[table.layer - 1]
    if len(pull) > 1:
        return None
    diameter, rope = book.winch.drum.diameter, book.rope.diameter
    return pull_at_layer(pull[0], table.layer, diameter, rope, square_rise(rope))


def _angles_beyond(book: Book, row: Position, field: str) -> Iterator[Contradiction]:
    lowest = book.boom.lowest.get(row.sector)
    if lowest is not None and row.lowest < lowest - _ANGLE_SLACK:
        why = f"the boom cannot go under {_degrees(lowest)} over the {row.sector}; the row says {_degrees(row.lowest)}"
        fields = (f"{field}.lowest", f"boom.lowest.{row.sector}")
        yield Contradiction(name="position_beyond_boom", why=why, fields=fields)
    if row.highest > book.boom.highest + _ANGLE_SLACK:
        why = f"the boom cannot go over {_degrees(book.boom.highest)}; the row says {_degrees(row.highest)}"
        yield Contradiction(name="position_beyond_boom", why=why, fields=(f"{field}.highest", "boom.highest"))


def _is_length(lengths: tuple[BoomLength, ...], length: float) -> bool:
    return any(abs(one.length - length) <= _LENGTH_SLACK for one in lengths)


def _lengths(lengths: tuple[BoomLength, ...]) -> str:
    return ", ".join(f"{number(one.length)} m ({one.code})" for one in lengths)


def _degrees(angle: float) -> str:
    return f"{number(degrees(angle))} deg"
