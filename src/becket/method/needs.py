"""What a deed needs of the crane, each need tied to the rule that it keeps.

In:    a scene, a state of the crane, a deed.
Out:   whether the need is met.
Never: changing the state, an order of deeds.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from becket.book.tackle import Pass
from becket.method.crane_state import CraneState, Deed
from becket.method.scene import Scene
from becket.reeving.change import DEAD_END

Test = Callable[[Scene, CraneState, Deed], bool]


@dataclass(frozen=True, kw_only=True)
class Need:
    """One thing that must hold before a deed. ``why`` says what is wrong where it does not."""

    rule: str
    why: str
    test: Test


def once() -> Need:
    """Return the need that a deed was not done before [-]."""
    return Need(rule="order", why="this was done already", test=lambda scene, state, deed: deed not in state.done)


def after(kind: str, rule: str = "order", of: str = "") -> Need:
    """Return the need that another deed is on the record [-].

    Args:
        kind: of the other deed
        rule: that asks for it
        of: what the other deed was done to
    """
    why = f"'{Deed(kind=kind, of=of)}' comes before this"
    return Need(rule=rule, why=why, test=lambda scene, state, deed: state.has_done(kind, of))


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


ON_GROUND = Need(
    rule="two_counts",
    why="the operator is not on the ground, at the head",
    test=lambda scene, state, deed: state.operator == "ground",
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


def _is_tight_keepers_out(scene: Scene, state: CraneState, deed: Deed) -> bool:
    here = [k for k in scene.keepers if k.draw == "tight" and scene.has_rope_under(k, state)]
    return all(k.name in state.keepers_out for k in here)


TIGHT_KEEPERS_OUT = Need(
    rule="keepers",
    why="a keeper that slack rope jams is still in",
    test=_is_tight_keepers_out,
)


def _is_keeper_moves(scene: Scene, state: CraneState, deed: Deed) -> bool:
    keeper = scene.keeper(deed.of)
    in_reach = state.boom == "low" or (keeper.at == "block" and state.block in ("stands", "steadied"))
    if not in_reach:
        return False
    if not scene.has_rope_under(keeper, state):
        return True
    return state.falls == keeper.draw and (keeper.draw == "tight" or state.boom == "low")


KEEPER_MOVES = Need(
    rule="keepers",
    why="the rope under this keeper is not in the state in which it can be drawn, or its place is out of reach",
    test=_is_keeper_moves,
)


def _is_keeper_here(scene: Scene, state: CraneState, deed: Deed) -> bool:
    keeper = scene.keeper(deed.of)
    return keeper.at != "block" or keeper.block == state.hanging


KEEPER_HERE = Need(
    rule="keepers",
    why="this keeper belongs to the block that does not hang here",
    test=_is_keeper_here,
)


KEEPER_OUT = Need(
    rule="keepers_counted",
    why="this keeper is not out",
    test=lambda scene, state, deed: deed.of in state.keepers_out,
)


KEEPER_IN = Need(
    rule="keepers_counted",
    why="this keeper is not in",
    test=lambda scene, state, deed: deed.of not in state.keepers_out,
)


def _is_head_closed(scene: Scene, state: CraneState, deed: Deed) -> bool:
    head = {k.name for k in scene.keepers if k.at != "block"}
    slack = {k.name for k in scene.keepers if k.at == "block" and k.draw == "slack"}
    return not (head | slack) & (state.keepers_out | state.clips_out)


HEAD_CLOSED = Need(
    rule="keepers_counted",
    why="keepers or clips at the head are still out",
    test=_is_head_closed,
)


ALL_IN = Need(
    rule="keepers_counted",
    why="keepers or clips are still out",
    test=lambda scene, state, deed: not state.keepers_out and not state.clips_out,
)


def _is_path_whole_for_keeper(scene: Scene, state: CraneState, deed: Deed) -> bool:
    keeper = scene.keeper(deed.of)
    if keeper.at == "block" and keeper.block != scene.after.block:
        return not scene.has_rope_under(keeper, state)
    return state.path == scene.after.path and state.rope_end == "fixed"


PATH_WHOLE_FOR_KEEPER = Need(
    rule="keepers_counted",
    why="the keeper goes back over the new path, not before it is whole",
    test=_is_path_whole_for_keeper,
)


SEATED_IF_TIGHT = Need(
    rule="boom_takes_block",
    why="the sheaves were not looked at as the ropes came tight",
    test=lambda scene, state, deed: state.boom != "tight" or state.has_done("seated"),
)


BLOCKS_COUNTED = Need(
    rule="keepers_counted",
    why="keepers of the block taken away, or of the new one, are not counted",
    test=lambda scene, state, deed: (
        not scene.path.block_changes or (state.has_done("count_in_old") and state.has_done("count_out_new"))
    ),
)


NEW_BLOCK_OPEN = Need(
    rule="keepers_counted",
    why="a keeper of the new block that has to come out is still in",
    test=lambda scene, state, deed: all(
        k.name in state.keepers_out for k in scene.keepers if k.at == "block" and k.block == scene.after.block
    ),
)


SLACK = Need(
    rule="dead_end",
    why="the falls are not slack",
    test=lambda scene, state, deed: state.falls == "slack",
)


END_HELD = Need(
    rule="dead_end",
    why="nobody holds the rope's end",
    test=lambda scene, state, deed: state.rope_end == "held" or state.has_done("hold_end"),
)


END_FREE = Need(
    rule="dead_end",
    why="the dead end is not opened",
    test=lambda scene, state, deed: state.dead_end is None and state.rope_end == "held",
)


END_MADE = Need(
    rule="dead_end",
    why="the dead end is not made where the pattern says",
    test=lambda scene, state, deed: state.rope_end == "fixed" and state.dead_end == scene.after.dead_end,
)


DEAD_END_PINS_OUT = Need(
    rule="dead_end",
    why="a keeper of the dead end is still in",
    test=lambda scene, state, deed: all(k.name in state.keepers_out for k in scene.keepers if k.at == DEAD_END),
)


LAST_PASS = Need(
    rule="path",
    why="this is not the last pass of the rope",
    test=lambda scene, state, deed: (
        bool(state.path) and str(state.path[-1]) == deed.of and len(state.path) > len(scene.path.keep)
    ),
)


def _is_next_pass(scene: Scene, state: CraneState, deed: Deed) -> bool:
    passed = next_pass(scene, state)
    return passed is not None and str(passed) == deed.of


NEXT_PASS = Need(
    rule="path",
    why="this is not the next pass of the pattern",
    test=_is_next_pass,
)


def _is_groove_open(scene: Scene, state: CraneState, deed: Deed) -> bool:
    place, _, sheave = deed.of.rpartition(" ")
    passed = Pass(place=place, sheave=int(sheave))
    closing = (k.name for k in scene.keepers if scene.holds(k, passed, state.hanging))
    return all(name in state.keepers_out for name in closing)


GROOVE_OPEN = Need(
    rule="path",
    why="a keeper closes this groove",
    test=_is_groove_open,
)


PATH_BARE = Need(
    rule="path",
    why="the old rope is not drawn out",
    test=lambda scene, state, deed: state.path == scene.path.keep,
)


PATH_WHOLE = Need(
    rule="path",
    why="the path is not complete",
    test=lambda scene, state, deed: state.path == scene.after.path,
)


NEW_BLOCK_HERE = Need(
    rule="path",
    why="the block of the new pattern does not stand here",
    test=lambda scene, state, deed: state.hanging == scene.after.block,
)


def _is_old_block_closed(scene: Scene, state: CraneState, deed: Deed) -> bool:
    old = {k.name for k in scene.keepers if k.at == "block" and k.block == scene.before.block}
    return not old & (state.keepers_out | state.clips_out)


OLD_BLOCK_CLOSED = Need(
    rule="path",
    why="the old block still stands here with its keepers open: they go with it, in and counted",
    test=_is_old_block_closed,
)


SEEN = Need(
    rule="seen",
    why="head sheaves and rope end were not looked at",
    test=lambda scene, state, deed: state.has_done("look_sheaves") and state.has_done("look_end"),
)


COUNTED = Need(
    rule="two_counts",
    why="the counts were not both given and compared",
    test=lambda scene, state, deed: state.has_done("compare_counts"),
)


INDICATOR_READ = Need(
    rule="indicator",
    why="the indicator is not set, or not read by both",
    test=lambda scene, state, deed: (
        state.indicator == "set" and state.has_done("read_indicator") and state.has_done("enter_indicator")
    ),
)


def at_boom(place: str, rule: str) -> Need:
    """Return the need that the boom stands at one of its stops [-].

    Args:
        place: of the boom: work, set, touch, weight window, low, tight, up
        rule: that asks for it
    """
    return Need(
        rule=rule, why=f"the boom is not at its stop '{place}'", test=lambda s, state, deed: state.boom == place
    )


def next_pass(scene: Scene, state: CraneState) -> Pass | None:
    """Return the pass that the pattern wants next, None: nothing, or the rope runs another way [-].

    Args:
        scene: of the change
        state: of the crane
    """
    done = len(state.path)
    path = scene.after.path
    return path[done] if state.path == path[:done] and done < len(path) else None
