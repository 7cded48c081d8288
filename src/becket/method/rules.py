"""The rules of a method, proved by walking its deeds over the state of the crane.

In:    a scene and deeds in the order in which they are printed.
Out:   for every rule a verdict, the step that breaks it and why.
Never: repairing an order; a pass for a rule that no deed was asked about.
"""

from __future__ import annotations

from dataclasses import dataclass

from becket.method.crane_state import CraneState, Deed
from becket.method.deeds import SIGNING
from becket.method.order import apply_deed, required_deeds, unmet_needs
from becket.method.scene import Scene, first_state
from becket.method.step import RuleAnswer
from becket.verdict import Verdict

RULES: dict[str, str] = {
    "configuration": "Nothing starts before position, pattern, area and people are settled.",
    "length_first": "Telescope, set the hook, lock the winch; telescoping voids the hook height.",
    "winch": "The winch stands still from the block's setting down until it hangs again, whole.",
    "hands": "No hand near while anything can move; nobody moves the crane before the rigger is clear.",
    "keepers": "Keepers that slack rope jams move while the falls are tight; the others at the low position.",
    "steady_then_slack": "The block is chocked before the falls go slack.",
    "switch": "The hoist limit is live until the weight window, back before the head leaves reach, proved under power.",
    "override": "Only what the manual lists, for that one motion, off before anyone goes in.",
    "dead_end": "Opened with the falls slack and the end held; made where the pattern says.",
    "path": "Drawn out from the end, threaded in the order of the pattern, through open grooves.",
    "seen": "Head sheaves and rope end are looked at before the first pass.",
    "keepers_counted": "Every keeper and clip that came out is in again, counted.",
    "two_counts": "Operator and rigger count apart, from their own sight, and the counts are compared.",
    "indicator": "Set after the counts agree, read by both before the block leaves the ground.",
    "boom_takes_block": "Set down and picked up on the boom; stop as the ropes come tight, stop again off the ground.",
    "first_lift": "Limit proved, rope spooled under tension, then a small first lift.",
    "broken_off": "A change that is not whole cannot be closed.",
    "order": "No step depends on one that comes later; none is missing.",
}


@dataclass(frozen=True, kw_only=True)
class Break:
    """One rule broken at one step. ``step`` 0: at the end, nothing closes it."""

    rule: str
    step: int
    deed: Deed | None
    why: str


def walk(scene: Scene, deeds: tuple[Deed, ...]) -> tuple[Break, ...]:
    """Return every rule that a list of deeds breaks, in the order of the steps [-].

    Args:
        scene: of the change
        deeds: as printed, step 1 first

    Source: docs/theory/steps.md, "Proof".
    """
    state = first_state(scene)
    breaks: list[Break] = []
    for number, deed in enumerate(deeds, start=1):
        breaks += [
            Break(rule=need.rule, step=number, deed=deed, why=need.why) for need in unmet_needs(scene, state, deed)
        ]
        if deed.kind in SIGNING:
            breaks += [replace_step(b, number) for b in left_open(scene, state, signing=True)]
        state = apply_deed(scene, state, deed)
    return (*breaks, *left_open(scene, state, signing=False))


def prove_rules(scene: Scene, deeds: tuple[Deed, ...]) -> tuple[RuleAnswer, ...]:
    """Return a verdict for every rule over a list of deeds [-].

    Args:
        scene: of the change
        deeds: as printed, step 1 first

    Source: docs/theory/steps.md, "Proof".
    """
    breaks = [*walk(scene, deeds), *_closed_too_early(scene, deeds)]
    return tuple(_answer(rule, [b for b in breaks if b.rule == rule]) for rule in RULES)


def left_open(scene: Scene, state: CraneState, *, signing: bool) -> list[Break]:
    """Return what keeps a change from being closed in a state [-].

    Args:
        scene: of the change
        state: of the crane
        signing: whether the signatures themselves are still to come

    Source: docs/theory/steps.md, "What must hold at the end".
    """
    wanted = [deed for deed in required_deeds(scene) if not (signing and deed.kind in SIGNING)]
    missing = [str(deed) for deed in wanted if deed not in state.done]
    found = [
        ("order", bool(missing), f"not done: {', '.join(missing)}"),
        ("path", state.path != scene.after.path, "the rope does not run as the pattern says"),
        ("dead_end", state.rope_end != "fixed" or state.dead_end != scene.after.dead_end, "the dead end is not made"),
        ("keepers_counted", bool(state.keepers_out or state.clips_out), "keepers or clips are out"),
        ("override", state.override != "off", "the override is on"),
        ("switch", state.switch != "proved" or state.weight != "line", "the hoist limit is not proved"),
        ("winch", state.winch != "free" or state.block != "hangs", "the block does not hang on a free winch"),
        ("indicator", state.indicator != "set", "the indicator is not set"),
        ("hands", state.rigger != "clear" or state.operator != "cab", "a person is still at the block or the head"),
    ]
    return [Break(rule=rule, step=0, deed=None, why=why) for rule, is_open, why in found if is_open]


def replace_step(broken: Break, number: int) -> Break:
    """Return a break tied to a step [-].

    Args:
        broken: found at the end
        number: of the step
    """
    return Break(rule=broken.rule, step=number, deed=broken.deed, why=broken.why)


def _closed_too_early(scene: Scene, deeds: tuple[Deed, ...]) -> list[Break]:
    """Return a break for every step at which a change broken off there could be closed."""
    state = first_state(scene)
    wanted = frozenset(deed for deed in required_deeds(scene) if deed.kind not in SIGNING)
    found = []
    for number, deed in enumerate(deeds, start=1):
        if deed.kind in SIGNING:
            break
        if wanted <= state.done and not left_open(scene, state, signing=True):
            found.append(Break(rule="broken_off", step=number, deed=deed, why="the change could be closed before this"))
        state = apply_deed(scene, state, deed)
    return found


def _answer(rule: str, breaks: list[Break]) -> RuleAnswer:
    if not breaks:
        return RuleAnswer(name=rule, verdict=Verdict.PASS, step=None)
    first = breaks[0]
    return RuleAnswer(name=rule, verdict=Verdict.FAIL, step=first.step or None, why=first.why)
