"""What a deed needs of rope, keepers, dead end and counts, each need tied to the rule that it keeps.

In:    a scene, a state of the crane, a deed.
Out:   needs; each says whether it is met.
Never: changing the state, an order of deeds.
"""

from __future__ import annotations

from becket.method.crane_state import CraneState, Deed
from becket.method.needs import Need, next_pass
from becket.method.scene import Scene
from becket.reeving.change import DEAD_END
from becket.reeving.words import read_path

ON_GROUND = Need(
    rule="two_counts",
    why="the operator is not on the ground, at the head",
    test=lambda scene, state, deed: state.operator == "ground",
)


def _is_tight_keepers_out(scene: Scene, state: CraneState, deed: Deed) -> bool:
    """Whether every keeper of the standing block that slack rope jams is out, rope under it or not."""
    here = [k for k in scene.keepers if k.draw == "tight" and k.at == "block" and k.block == scene.before.block]
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


HEAD_OPEN = Need(
    rule="keepers_counted",
    why="a keeper at the head that has to come out is still in",
    test=lambda scene, state, deed: all(k.name in state.keepers_out for k in scene.keepers if k.at != "block"),
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


PATH_WHOLE_FOR_KEEPER = Need(
    rule="keepers_counted",
    why="the keeper goes back over the new path, not before it is whole",
    test=lambda scene, state, deed: state.path == scene.after.path and state.rope_end == "fixed",
)


BARE = Need(
    rule="keepers",
    why="rope lies under this keeper: the block is not bare",
    test=lambda scene, state, deed: not scene.has_rope_under(scene.keeper(deed.of), state),
)


def _is_slack_block_open(scene: Scene, state: CraneState, deed: Deed) -> bool:
    return all(k.name in state.keepers_out for k in scene.slack_keepers_at_block)


SLACK_BLOCK_OPEN = Need(
    rule="keepers_counted",
    why="a keeper of the block that has to come out is still in",
    test=_is_slack_block_open,
)


def _are_blocks_counted(scene: Scene, state: CraneState, deed: Deed) -> bool:
    wanted = ["count_in_old", "count_out_new"] if scene.path.block_changes else []
    wanted += ["count_out_block_low"] if scene.slack_keepers_at_block else []
    return all(state.has_done(kind) for kind in wanted)


BLOCKS_COUNTED = Need(
    rule="keepers_counted",
    why="keepers of a block are not counted: slack ones, those of the block taken away, or of the new one",
    test=_are_blocks_counted,
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
    why="the dead end is not made anew where the pattern says",
    test=lambda scene, state, deed: (
        state.rope_end == "fixed" and state.dead_end == scene.after.dead_end and state.has_done("make_dead_end")
    ),
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
    (passed,) = read_path(deed.of)
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


OLD_BLOCK_AWAY = Need(
    rule="path",
    why="the old block is not taken away",
    test=lambda scene, state, deed: state.block == "away",
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
    why="head sheaves and rope end were not looked at, the sheaves by both",
    test=lambda scene, state, deed: all(state.has_done(k) for k in ("look_sheaves", "see_sheaves", "look_end")),
)


COUNTED = Need(
    rule="two_counts",
    why="the counts were not both given and compared",
    test=lambda scene, state, deed: state.has_done("compare_counts"),
)
