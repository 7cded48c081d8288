"""What must be true before anybody walks away, and what is found on coming back.

In:    a scene, the state of the crane.
Out:   sentences; keepers out, last sheave with rope, where the block stands.
Never: a number in a sentence.
"""

from __future__ import annotations

from becket.method.crane_state import CraneState
from becket.method.scene import Scene

STANDS = ("hangs", "on the ground", "away")  # where a block can be found


def before_walking_away(scene: Scene, state: CraneState) -> tuple[str, ...]:
    """Return what must be true before walking away from a crane in this state [-].

    Args:
        scene: of the change
        state: of the crane

    Source: docs/theory/script.md, "Walking away".
    """
    return (
        _block(state),
        *(("Rigger out of the rope, tools out.",) if state.rigger == "in" else ()),
        *(("Operator away from the head, key kept.",) if state.operator == "ground" else ()),
        *_controls(state),
        *_rope_end(state),
        *(("Keepers in the box: count them.",) if state.keepers_out else ()),
        *_switch(state),
        *_second_line(scene),
        *(("Area stays closed.",) if state.area else ()),
    )


def found_on_return(state: CraneState) -> dict[str, object]:
    """Return what whoever comes back finds [-].

    Args:
        state: of the crane

    Source: docs/theory/script.md, "Coming back".
    """
    return {
        "keepers_out": len(state.keepers_out),
        "last_sheave": str(state.path[-1]) if state.path else "none",
        "block": {"hangs": "hangs", "away": "away"}.get(state.block, "on the ground"),
    }


def _block(state: CraneState) -> str:
    return {
        "hangs": "Block hangs still, nobody under it.",
        "stands": "Block on the ground, upright.",
        "steadied": "Block on the ground, chocked.",
        "away": "Old block tied down. Nothing under the head.",
    }[state.block]


def _controls(state: CraneState) -> tuple[str, ...]:
    off = "Engine off or controls locked, key in pocket."
    return (off, "Winch locked, tag on.") if state.winch == "locked" else (off,)


def _rope_end(state: CraneState) -> tuple[str, ...]:
    if state.rope_end == "fixed":
        return ()
    return ("Free end tied to the boom.",) if state.block == "away" else ("Free end tied to the block.",)


def _switch(state: CraneState) -> tuple[str, ...]:
    on = ("Override off, key out.",) if state.override == "on" else ()
    weight = ("Switch weight hung up.",) if state.weight == "off" else ()
    card_hangs = state.has_done("no_limit_card") and not state.has_done("card_off")
    return (*on, *weight, *(("Card in the cab: NO HOIST LIMIT.",) if card_hangs else ()))


def _second_line(scene: Scene) -> tuple[str, ...]:
    second = scene.book.second_line
    return ("Second line still stowed.",) if second is not None and second.hangs else ()
