"""What a deed needs of boom, block, winch, switch and people, each need tied to the rule that it keeps.

In:    a scene, a state of the crane, a deed.
Out:   needs; each says whether it is met.
Never: changing the state, an order of deeds.
"""

from __future__ import annotations

from becket.method.crane_state import CraneState, Deed
from becket.method.needs import Need
from becket.method.scene import Scene

AREA_SET = Need(
    rule="configuration",
    why="position, pattern or area are not settled",
    test=lambda scene, state, deed: state.area,
)


CONFIRMED = Need(
    rule="configuration",
    why="the pattern is not confirmed against the manual",
    test=lambda scene, state, deed: scene.facts.is_confirmed,
)


RIGGER_CLEAR = Need(
    rule="hands",
    why="the rigger has not shown himself clear",
    test=lambda scene, state, deed: state.rigger == "clear",
)


IN_CAB = Need(
    rule="hands",
    why="the operator is not in the cab",
    test=lambda scene, state, deed: state.operator == "cab",
)


ISOLATED = Need(
    rule="hands",
    why="controls are not isolated",
    test=lambda scene, state, deed: state.controls == "isolated",
)


RIGGER_IN = Need(
    rule="hands",
    why="the rigger is not at the work, called in",
    test=lambda scene, state, deed: state.rigger == "in",
)


LIVE = Need(
    rule="hands",
    why="controls are isolated: nothing moves",
    test=lambda scene, state, deed: state.controls == "live",
)


BLOCK_STANDS = Need(
    rule="hands",
    why="the block does not stand",
    test=lambda scene, state, deed: state.block in ("stands", "steadied"),
)


STEADIED = Need(
    rule="hands",
    why="the block is not steadied",
    test=lambda scene, state, deed: state.block == "steadied",
)


LENGTH_SET = Need(
    rule="length_first",
    why="the boom length is not set",
    test=lambda scene, state, deed: state.length_set,
)


HOOK_SET = Need(
    rule="length_first",
    why="the hook height is not set and agreed, or telescoping voided it",
    test=lambda scene, state, deed: state.hook_set,
)


HOOK_READ = Need(
    rule="length_first",
    why="the hook height was not read by both",
    test=lambda scene, state, deed: state.has_done("measure_hook") and state.has_done("read_hook"),
)


WINCH_LOCKED = Need(
    rule="winch",
    why="the winch is not locked",
    test=lambda scene, state, deed: state.winch == "locked",
)


WINCH_FREE = Need(
    rule="winch",
    why="the winch is locked",
    test=lambda scene, state, deed: state.winch == "free",
)


HANGS_WHOLE = Need(
    rule="winch",
    why="the block does not hang with every keeper in and the dead end made",
    test=lambda scene, state, deed: state.block == "hangs" and not state.keepers_out and state.rope_end == "fixed",
)


BLOCK_HANGS = Need(
    rule="boom_takes_block",
    why="the block does not hang",
    test=lambda scene, state, deed: state.block == "hangs",
)


SWITCH_LIVE = Need(
    rule="switch",
    why="the hoist limit is not proved, or its weight is off",
    test=lambda scene, state, deed: state.switch == "proved" and state.weight == "line",
)


WEIGHT_OFF = Need(
    rule="switch",
    why="the switch weight is still on: it comes off in the weight window",
    test=lambda scene, state, deed: state.weight == "off",
)


WEIGHT_ON = Need(
    rule="switch",
    why="the switch weight is on already",
    test=lambda scene, state, deed: state.weight == "line",
)


def _is_weight_on_its_line(scene: Scene, state: CraneState, deed: Deed) -> bool:
    line = scene.path.switch_weight_after
    return line is not None and state.weight == "line" and state.weight_line == line


WEIGHT_ON_ITS_LINE = Need(
    rule="switch",
    why="the weight is not round the line that the book names",
    test=_is_weight_on_its_line,
)


SWITCH_TRIED = Need(
    rule="switch",
    why="the switch is not tried by hand",
    test=lambda scene, state, deed: state.switch == "tried by hand",
)


NOT_ON_SLACK = Need(
    rule="switch",
    why="slack rope is no proof: the falls are slack or the block stands",
    test=lambda scene, state, deed: state.falls == "tight" and state.block == "hangs",
)


def _is_override_allowed(scene: Scene, state: CraneState, deed: Deed) -> bool:
    position = scene.facts.position.position
    return position is not None and position.override is not None


OVERRIDE_ALLOWED = Need(
    rule="override",
    why="the manual does not list this override for re-reeving",
    test=_is_override_allowed,
)


OVERRIDE_ON_IF_NEEDED = Need(
    rule="override",
    why="the override is not on for this motion",
    test=lambda scene, state, deed: state.override == "on" or not scene.needs_override,
)


OVERRIDE_OFF = Need(
    rule="override",
    why="the override is on",
    test=lambda scene, state, deed: state.override == "off",
)


OVERRIDE_ON = Need(
    rule="override",
    why="the override is off",
    test=lambda scene, state, deed: state.override == "on",
)


STEADY_FIRST = Need(
    rule="steady_then_slack",
    why="the block is not steadied before the falls go slack",
    test=lambda scene, state, deed: state.block == "steadied",
)


OVERRIDE_SEEN = Need(
    rule="override",
    why="both have not entered that the override is off",
    test=lambda scene, state, deed: state.has_done("enter_override") and state.has_done("see_override"),
)


INDICATOR_READ = Need(
    rule="indicator",
    why="the indicator is not set, or not read by both",
    test=lambda scene, state, deed: (
        state.indicator == "set" and state.has_done("read_indicator") and state.has_done("enter_indicator")
    ),
)
