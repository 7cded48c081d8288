"""What a person reads at each deed of one change, in a rigger's words.

In:    a scene, a deed.
Out:   the words, with the figures of this crane and change.
Never: a count, a setting or a number of falls where a value is asked for; the other person's answer.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from math import ceil, degrees, floor

from becket.mechanics.overhaul import GRAVITY
from becket.method.crane_state import Deed
from becket.method.position import BoomPosition
from becket.method.scene import Scene
from becket.method.step_words import WORDS, Words


def words_of(scene: Scene, deed: Deed) -> Words:
    """Return what a person reads at a deed [-].

    Args:
        scene: of the change
        deed: of the method

    Source: docs/theory/steps.md, "Words".
    """
    if deed.kind in WORDS:
        return WORDS[deed.kind]
    return WRITTEN[deed.kind](scene, deed)


def _close_area(scene: Scene, deed: Deed) -> Words:
    position = _position(scene)
    asked = scene.facts.position.asked
    second = scene.book.second_line
    line = (
        "what hangs on the second line is not on file: look, and stow it"
        if second is None
        else f"second line: {second.hangs}; stowed or tied back"
        if second.hangs
        else "no second line"
    )
    wind = (
        f"wind under {position.wind:.0f} m/s" if position.wind is not None else "wind limit not on file: see the manual"
    )
    return Words(
        do=(
            f"Brief both: signals, who calls stop, phones away. Close the area under the boom's whole sweep: "
            f"{position.free_radius_needed:.1f} m from the slewing axis, over the {position.sector}."
        ),
        look_for=f"No overhead lines; {wind}; {line}; ground at the block firm and level.",
        asks="; ".join(asked) if asked else None,
    )


def _slew(scene: Scene, deed: Deed) -> Words:
    position = _position(scene)
    return Words(
        do=f"Slew over the {position.sector}.",
        look_for=f"Page {position.page or 'not on file'}: counterweight {position.counterweight / 1000:g} t, "
        f"outriggers {position.outriggers}. "
        "Another: this position is not permitted, stop.",
    )


def _telescope(scene: Scene, deed: Deed) -> Words:
    position = _position(scene)
    return Words(
        do=f"Telescope to {position.length:.1f} m ({position.code}); let the winch pay out as the boom runs out.",
        look_for="Hook to head stays as it is; nobody under the head; the second line as well.",
        asks="length and code read",
    )


def _set_angle(scene: Scene, deed: Deed) -> Words:
    return Words(do=f"Boom to {degrees(_start(scene)):.1f} deg.", look_for="Hook to head.", asks="degrees, to 0.1")


def _set_hook(scene: Scene, deed: Deed) -> Words:
    leave = scene.facts.leave
    target = leave.target if leave is not None and leave.target is not None else 0.0
    return Words(
        do=f"Set the hook {target:.1f} m under the head, shaft to shaft.",
        look_for=f"Boom at {degrees(_start(scene)):.1f} deg: the height holds for this angle only.",
    )


def _down_to_touch(scene: Scene, deed: Deed) -> Words:
    return Words(
        do="Boom down until the block touches, upright, ropes tight. Stop there.",
        look_for="On the boom, never on the winch. Block over firm level ground; nobody near it.",
    )


def _keeper_out(scene: Scene, deed: Deed) -> Words:
    keeper = scene.keeper(deed.of)
    clip = f", its {keeper.lock} with it," if keeper.lock else ""
    rope = "ropes tight, block on the ground" if keeper.draw == "tight" else "rope slack"
    return Words(do=f"Draw {keeper.name}{clip} into the box.", look_for=f"{rope.capitalize()}; hold it, it falls free.")


def _keeper_in(scene: Scene, deed: Deed) -> Words:
    keeper = scene.keeper(deed.of)
    clip = f" and its {keeper.lock}" if keeper.lock else ""
    under = "the dead end on it" if keeper.at == "dead end" else "rope under it"
    if keeper.at == "dead end" and scene.after.dead_end == "block":
        under = "in its empty anchor"
    return Words(do=f"Put {keeper.name}{clip} back. Tug each.", look_for=f"Through to the other side, {under}.")


def _down_to_window(scene: Scene, deed: Deed) -> Words:
    lowering = scene.facts.lowering
    window = lowering.weight_window if lowering is not None else None
    angles = (
        f"{ceil(10 * degrees(window[0])) / 10:.1f} to {floor(10 * degrees(window[1])) / 10:.1f} deg"
        if window
        else "no angle"
    )
    return Words(
        do=f"Boom down until the falls are slack and the switch weight is in reach: {angles}. Stop there.",
        look_for="Slack falls stay in the sheaves; the weight not yet on the block.",
    )


def _weight_off(scene: Scene, deed: Deed) -> Words:
    line = scene.path.switch_weight_before
    return Words(
        do=f"Take the switch weight off the {line or 'line it hangs on'} and hang it up.",
        look_for="From now the crane has no hoist limit.",
    )


def _override_on(scene: Scene, deed: Deed) -> Words:
    override = _position(scene).override
    page = f", manual page {override.page}" if override is not None else ""
    return Words(do=f"Override on, for boom down only{page}.", look_for="Rigger clear; nothing else is moved.")


def _down_to_low(scene: Scene, deed: Deed) -> Words:
    position = _position(scene)
    return Words(
        do=f"Boom down to {degrees(position.angle):.1f} deg. Stop there.",
        look_for=f"Head {position.head_height:.2f} m above the ground; head and block do not meet.",
        asks="degrees, to 0.1",
    )


def _override_off(scene: Scene, deed: Deed) -> Words:
    return Words(
        do="Override off, key out.", asks="override: off or on; key: out or in", blind=True, compares="override"
    )


def _hold_end(scene: Scene, deed: Deed) -> Words:
    fitting = scene.book.dead_end.fitting or "fitting"
    return Words(
        do=f"Hold the rope's end; say aloud what you hold up by hand: {fitting}, wedge, pin.",
        look_for="Falls slack. A loose end runs; a wedge that falls crushes a hand.",
    )


def _dead_end_pin_out(scene: Scene, deed: Deed) -> Words:
    keeper = scene.keeper(deed.of)
    clip = f" and its {keeper.lock}" if keeper.lock else ""
    return Words(do=f"Draw {keeper.name}{clip}, the end held. Into the box.", look_for="Nothing pulls at the end.")


def _open_dead_end(scene: Scene, deed: Deed) -> Words:
    fitting = scene.book.dead_end.fitting or "fitting"
    if not scene.takes_wedge_out:
        return Words(do=f"Take the {fitting} out of its anchor; keep the end in hand or tied.")
    said = "" if scene.path.fitting_comes_off else " Whether it passes the sheaves is not on file: take it off."
    return Words(
        do=f"Take the {fitting} out; drive the wedge out and take it off the rope.{said}",
        look_for="The wedge in hand before it is loose. Keep the end tied.",
    )


def _draw_out(scene: Scene, deed: Deed) -> Words:
    return Words(do=f"Draw the rope out of {deed.of}.", look_for="Rope to the side, along the boom; no turn put in.")


def _exchange_block(scene: Scene, deed: Deed) -> Words:
    return Words(
        do=f"Mark the plumb of {scene.before.block}; take it away by other means. "
        f"Set {scene.after.block} on the mark, chocked.",
        look_for="This crane has no rope on it: other means. Nobody between. Groove, pins and rating of the new block.",
        asks="block: its name, rating and mass from the plate",
    )


def _thread(scene: Scene, deed: Deed) -> Words:
    return Words(
        do=f"Thread {deed.of}. Pull it tight before the next.",
        look_for="In the groove; the mark along the rope shows no turn.",
        asks="sheave number read",
    )


def _make_dead_end(scene: Scene, deed: Deed) -> Words:
    end, after = scene.book.dead_end, scene.after
    place = f"at {after.dead_end}" if after.dead_end != "block" else f"at the becket of {after.block}"
    tail = f"tail {end.tail:.2f} m" if end.tail is not None else "tail: length not on file, see the socket's maker"
    return Words(
        do=f"Make the dead end {place}: {end.fitting or 'fitting'}, {tail}.",
        look_for="Live rope straight through the pin's line; tail never clamped to the live rope; wedge the right way.",
        asks="tail measured",
    )


def _weight_on(scene: Scene, deed: Deed) -> Words:
    line = scene.path.switch_weight_after
    return Words(
        do=f"Hang the switch weight round the {line or 'line that the book does not name'}.",
        look_for="Round one rope, chain free.",
    )


def _up_to_tight(scene: Scene, deed: Deed) -> Words:
    angle = scene.facts.lowering.tight_angle if scene.facts.lowering is not None else None
    foretold = f"; about {degrees(angle):.1f} deg" if angle is not None else ""
    return Words(
        do=f"Boom up until the ropes come tight and the block still stands{foretold}. Stop there.",
        look_for="Slow; block does not move.",
    )


def _lift_off(scene: Scene, deed: Deed) -> Words:
    angle = scene.facts.lowering.lift_off_angle if scene.facts.lowering is not None else None
    foretold = f"; about {degrees(angle):.1f} deg" if angle is not None else ""
    return Words(
        do=f"Boom up: the block leaves the ground{foretold}. Stop a hand's width up.",
        look_for="On the boom, never on the winch. The block goes straight up; not dragged.",
    )


def _prove_switch(scene: Scene, deed: Deed) -> Words:
    others = [motion for motion in scene.book.switch.stops if motion != "hoist"]
    more = f" Then, each slowly: {', '.join(others)}." if others else ""
    return Words(
        do=f"Hook up slowly to the hoist limit switch, under power.{more}",
        look_for="Each motion that the switch stops is stopped. Slack rope is no proof.",
        asks="what it stopped, and how far under the head",
    )


def _spool(scene: Scene, deed: Deed) -> Words:
    rope = scene.book.rope
    if rope.spooling_tension is None or rope.breaking_force is None:
        pull = "the tension that the rope's maker asks for (not on file: see the rope maker's sheet)"
    else:
        tension = rope.spooling_tension * rope.breaking_force
        load = tension * scene.after.falls / GRAVITY
        pull = f"{tension / 1000:.1f} kN in the rope, about {load / 1000:.1f} t on the hook, block counted"
    return Words(
        do=f"Lower to the least wraps of the next lift, where height allows; raise again under {pull}.",
        look_for="Turns side by side, no crossing, none loose under another.",
        asks="wraps at the lowest hook; spooling seen",
    )


def _position(scene: Scene) -> BoomPosition:
    position = scene.facts.position.position
    if position is None:
        raise LookupError("a scene has a position")
    return position


def _start(scene: Scene) -> float:
    way = scene.facts.way
    if way is None:
        raise LookupError("a scene has a way")
    return way.start


WRITTEN: Mapping[str, Callable[[Scene, Deed], Words]] = {
    "close_area": _close_area,
    "slew": _slew,
    "telescope": _telescope,
    "set_angle": _set_angle,
    "set_hook": _set_hook,
    "down_to_touch": _down_to_touch,
    "tight_keeper_out": _keeper_out,
    "slack_keeper_out": _keeper_out,
    "dead_end_pin_out": _dead_end_pin_out,
    "down_to_window": _down_to_window,
    "weight_off": _weight_off,
    "override_on": _override_on,
    "down_to_low": _down_to_low,
    "override_off": _override_off,
    "hold_end": _hold_end,
    "open_dead_end": _open_dead_end,
    "draw_out": _draw_out,
    "exchange_block": _exchange_block,
    "thread": _thread,
    "make_dead_end": _make_dead_end,
    "slack_keeper_in": _keeper_in,
    "tight_keeper_in": _keeper_in,
    "weight_on": _weight_on,
    "up_to_tight": _up_to_tight,
    "lift_off": _lift_off,
    "prove_switch": _prove_switch,
    "spool": _spool,
}
