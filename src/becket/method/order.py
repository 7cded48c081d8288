"""The order of a method, from what each deed needs and gives.

In:    a scene.
Out:   deeds in an order in which every need is met; or the deeds that no order can reach, with what stops them.
Never: a fixed list of steps; a deed whose needs are not met.
"""

from __future__ import annotations

from dataclasses import dataclass

from becket.method.crane_needs import CONFIRMED, OVERRIDE_ALLOWED
from becket.method.crane_state import CraneState, Deed
from becket.method.deeds import DEEDS, SIGNING, DeedKind, kind_of
from becket.method.needs import Need
from becket.method.scene import Scene, first_state

NO_ORDER_HELPS = (CONFIRMED, OVERRIDE_ALLOWED)


@dataclass(frozen=True, kw_only=True)
class Order:
    """Deeds in order. ``stuck``: the first deed that could not be reached, and the need that stops it."""

    deeds: tuple[Deed, ...]
    stuck: tuple[Deed, Need] | None


def required_deeds(scene: Scene) -> tuple[Deed, ...]:
    """Return every deed that the method must hold, the auxiliary ones left out, in the trade's usual order [-].

    Args:
        scene: of the change

    Source: docs/theory/steps.md, "Order".
    """
    subjects = _subjects(scene)
    return tuple(Deed(kind=kind, of=of) for kind in (*DEEDS, *SIGNING) for of in subjects.get(kind, [""]))


def order_deeds(scene: Scene) -> Order:
    """Return the method's deeds in an order in which every need is met [-].

    At each moment the first deed in the trade's usual order whose needs hold is done; calling the rigger in
    and clearing him out are put in where hands or a motion ask for them. Needs that no order can meet (a pattern that
    is not confirmed, an override that the manual does not list) are left to the proof, which then fails.

    Args:
        scene: of the change

    Source: docs/theory/steps.md, "Order".
    """
    state = first_state(scene)
    remaining = list(required_deeds(scene))
    done: list[Deed] = []
    while remaining:
        found = next((f for deed in remaining if (f := _reach(scene, state, deed)) is not None), None)
        if found is None:
            return Order(deeds=tuple(done), stuck=_what_stops(scene, state, remaining[0]))
        state, lead_in = found
        done += lead_in
        remaining.remove(lead_in[-1])
    return Order(deeds=tuple(done), stuck=None)


def apply_deed(scene: Scene, state: CraneState, deed: Deed) -> CraneState:
    """Return the state after a deed, whether or not its needs were met [-].

    Args:
        scene: of the change
        state: before
        deed: that is done

    Source: docs/theory/steps.md, "Needs and gives".
    """
    return kind_of(deed).gives(scene, state, deed).with_done(deed)


def unmet_needs(scene: Scene, state: CraneState, deed: Deed) -> tuple[Need, ...]:
    """Return the needs of a deed that do not hold [-].

    Args:
        scene: of the change
        state: before
        deed: asked about

    Source: docs/theory/steps.md, "Needs and gives".
    """
    return tuple(need for need in kind_of(deed).needs if not need.test(scene, state, deed))


def _reach(scene: Scene, state: CraneState, deed: Deed) -> tuple[CraneState, list[Deed]] | None:
    """Return the state after a deed and the deeds that lead to it, auxiliary ones first; None: not from here."""
    lead_in = [Deed(kind=kind) for kind in _posture_change(state, kind_of(deed))]
    for auxiliary in lead_in:
        if _unmet_by_order(scene, state, auxiliary):
            return None
        state = apply_deed(scene, state, auxiliary)
    if _unmet_by_order(scene, state, deed):
        return None
    return apply_deed(scene, state, deed), [*lead_in, deed]


def _unmet_by_order(scene: Scene, state: CraneState, deed: Deed) -> tuple[Need, ...]:
    return tuple(need for need in unmet_needs(scene, state, deed) if need not in NO_ORDER_HELPS)


def _posture_change(state: CraneState, kind: DeedKind) -> list[str]:
    if kind.posture == "hands" and state.rigger == "clear":
        return ["call_in"]
    return ["clear_out"] if kind.posture == "motion" and state.rigger == "in" else []


def _subjects(scene: Scene) -> dict[str, list[str]]:
    """Return what each kind of deed is done to; a kind that is not named here is done once, to nothing by name."""
    once_if = {
        "count_in_old": scene.path.block_changes,
        "take_block_away": scene.path.block_changes,
        "exchange_block": scene.path.block_changes,
        "steady_new": scene.path.block_changes,
        "count_out_new": scene.path.block_changes,
        "count_out_block_low": bool(scene.slack_keepers_at_block),
        "override_on": scene.needs_override,
        "override_off": scene.needs_override,
    }
    return {
        **_keeper_subjects(scene),
        "draw_out": [str(p) for p in scene.path.draw_out],
        "thread": [str(p) for p in scene.path.thread],
        **{kind: [""] if is_asked else [] for kind, is_asked in once_if.items()},
    }


def _keeper_subjects(scene: Scene) -> dict[str, list[str]]:
    """Return the keepers of each kind of deed: those of a block that comes or goes are moved while it is bare."""
    pins = [k.name for k in scene.keepers if k.at == "dead end"]
    rest = [k for k in scene.keepers if k.at != "dead end"]
    out = [k for k in rest if not scene.is_new_block(k)]
    back = [k for k in rest if not scene.is_old_block(k)]
    return {
        "tight_keeper_out": [k.name for k in out if k.draw == "tight"],
        "slack_keeper_out": [k.name for k in out if k.draw == "slack"],
        "dead_end_pin_out": pins,
        "bare_keeper_in": [k.name for k in rest if scene.is_old_block(k)],
        "bare_keeper_out": [k.name for k in rest if scene.is_new_block(k)],
        "slack_keeper_in": pins + [k.name for k in back if k.draw == "slack"],
        "tight_keeper_in": [k.name for k in back if k.draw == "tight"],
    }


def _what_stops(scene: Scene, state: CraneState, deed: Deed) -> tuple[Deed, Need]:
    for auxiliary in _posture_change(state, kind_of(deed)):
        unmet = _unmet_by_order(scene, state, Deed(kind=auxiliary))
        if unmet:
            return Deed(kind=auxiliary), unmet[0]
        state = apply_deed(scene, state, Deed(kind=auxiliary))
    return deed, _unmet_by_order(scene, state, deed)[0]
