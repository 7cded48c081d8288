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
