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
    second = scene.book.second_line
    line = (
        "What hangs on the second line is not on file: look, stow it."
        if second is None
        else f"Second line: {second.hangs}; stowed or tied back."
        if second.hangs
        else "No second line."
    )
    wind = (
        f"Wind under {position.wind:.0f} m/s." if position.wind is not None else "Wind limit not on file: see manual."
    )
    return Words(
        do=f"Close the area under the boom's whole sweep: {_up(position.free_radius_needed, 1):.1f} m from the slewing "
        f"axis, over the {position.sector}.",
        look_for=f"No overhead lines. {wind} {line} Ground at the block firm and level.",
        asks="; ".join((*scene.facts.position.asked, "wind")),
    )


def _slew(scene: Scene, deed: Deed) -> Words:
    position = _position(scene)
    return Words(
        do=f"Slew over the {position.sector}.",
        look_for=f"Page {position.page or 'not on file'}: counterweight {position.counterweight / 1000:g} t, "
        f"outriggers {position.outriggers}. Not so: stop, not permitted.",
    )


def _telescope(scene: Scene, deed: Deed) -> Words:
    position = _position(scene)
    return Words(
        do=f"Telescope to {position.length:.1f} m ({position.code}). Winch pays out with it.",
        look_for="Hook keeps its distance to the head, a second line too. Nobody below.",
        asks="length and code read",
    )


def _set_angle(scene: Scene, deed: Deed) -> Words:
    return Words(
        do=f"Boom to {degrees(_start(scene)):.1f} deg.",
        look_for="Hook well clear of the head and of the ground.",
        asks="degrees, to 0.1",
    )


def _set_hook(scene: Scene, deed: Deed) -> Words:
    leave = scene.facts.leave
    target = leave.target if leave is not None and leave.target is not None else 0.0
    return Words(
        do=f"Set the hook block {target:.1f} m under the head. Shaft to shaft.",
        look_for=f"Boom at {degrees(_start(scene)):.1f} deg: the height holds for this angle only.",
    )


def _down_to_touch(scene: Scene, deed: Deed) -> Words:
    return Words(
        do="Boom down until the block touches. Stop, ropes tight.",
        look_for="Block upright, firm level ground, nobody near. Never on the winch.",
    )


def _read_touch(scene: Scene, deed: Deed) -> Words:
    tolerance = degrees(scene.settings.touch_tolerance)
    return Words(
        do="Read the boom angle at which the block touched.",
        look_for=f"Over {tolerance:g} deg off the sheet's angle: the hook was set wrong. Boom up, set it again.",
        asks="degrees, to 0.1",
        compares="touch angle",
    )


def _keeper_out(scene: Scene, deed: Deed) -> Words:
    state = "Ropes tight, block on the ground." if scene.keeper(deed.of).draw == "tight" else "Rope slack."
    return Words(do=_draw(scene, deed), look_for=f"{state} Hold it: it falls free.")


def _bare_keeper_out(scene: Scene, deed: Deed) -> Words:
    return Words(do=_draw(scene, deed), look_for="New block chocked, no rope on it.")


def _keeper_in(scene: Scene, deed: Deed) -> Words:
    keeper = scene.keeper(deed.of)
    under = "rope under it"
    if keeper.at == "dead end":
        under = "in its empty anchor" if scene.after.dead_end == "block" else "the dead end on it"
    return Words(do=_put_back(scene, deed), look_for=f"Right through, {under}.")


def _bare_keeper_in(scene: Scene, deed: Deed) -> Words:
    return Words(do=_put_back(scene, deed), look_for="Old block, no rope on it. Nothing of it stays in the box.")


def _count_out_block(scene: Scene, deed: Deed) -> Words:
    return _count_out(scene, is_last=not scene.slack_keepers_at_block)


def _count_out_block_low(scene: Scene, deed: Deed) -> Words:
    return _count_out(scene, is_last=True)


def _count_out(scene: Scene, *, is_last: bool) -> Words:
    """Return the words of a count at the block that hangs now; the last one is compared with what goes back."""
    group = "keepers at the old block" if scene.path.block_changes else "keepers at the block"
    return Words(
        do="Count keepers and clips out: block.",
        asks="keepers out, clips out",
        blind=True,
        compares=group if is_last else None,
    )


def _down_to_window(scene: Scene, deed: Deed) -> Words:
    lowering = scene.facts.lowering
    window = lowering.weight_window if lowering is not None else None
    angles = "no angle is known"
    if scene.is_low_in_window:
        angles = f"{degrees(_position(scene).angle):.1f} deg"
    elif window is not None and lowering is not None:
        high = min(window[1], lowering.touches_angle if lowering.touches_angle is not None else window[1])
        angles = f"{_up(degrees(window[0]), 1):.1f} to {_down(degrees(high), 1):.1f} deg"
    return Words(
        do=f"Boom down into {angles}. Stop: falls slack, switch weight in reach.",
        look_for="Slack falls stay in the sheaves. Weight not yet on the block.",
    )


def _weight_off(scene: Scene, deed: Deed) -> Words:
    line = scene.path.switch_weight_before
    return Words(
        do=f"Take the switch weight off the {line or 'line it hangs on'}. Hang it up.",
        look_for="From now the crane has no hoist limit.",
    )


def _override_on(scene: Scene, deed: Deed) -> Words:
    override = _position(scene).override
    page = f", manual page {override.page}" if override is not None else ""
    return Words(do=f"Override on, for boom down only{page}.", look_for="Rigger clear. Nothing else is moved.")


def _down_to_low(scene: Scene, deed: Deed) -> Words:
    position = _position(scene)
    angle = f"{degrees(position.angle):.1f} deg"
    return Words(
        do=f"Boom stays at {angle}: read it." if scene.is_low_in_window else f"Boom down to {angle}. Stop.",
        look_for=f"Head {position.head_height:.2f} m above the ground. Head and block do not meet.",
        asks="degrees, to 0.1",
    )


def _override_off(scene: Scene, deed: Deed) -> Words:
    return Words(do="Override off, key out.", asks="off or on; key out or in", blind=True, compares="override")


def _hold_end(scene: Scene, deed: Deed) -> Words:
    fitting = scene.book.dead_end.fitting or "fitting"
    return Words(
        do=f"Hold the rope's end. Say what you hold up: {fitting}, pin.",
        look_for="Falls slack. A loose end runs; a wedge that falls crushes a hand.",
        asks="what is held up by hand",
    )


def _dead_end_pin_out(scene: Scene, deed: Deed) -> Words:
    return Words(do=_draw(scene, deed), look_for="Rope's end held. Nothing pulls at it.")


def _open_dead_end(scene: Scene, deed: Deed) -> Words:
    fitting = scene.book.dead_end.fitting or "fitting"
    if not scene.takes_wedge_out:
        return Words(do=f"Take the {fitting} out of its anchor.", look_for="The end stays in hand or tied.")
    unknown = "" if scene.path.fitting_comes_off else " Whether it passes the sheaves is not on file: take it off."
    return Words(
        do=f"Take the {fitting} out. Name the wedge, drive it out.",
        look_for=f"Wedge in hand before it is loose. End stays tied.{unknown}",
    )


def _draw_out(scene: Scene, deed: Deed) -> Words:
    return Words(do=f"Draw the rope out of {deed.of}.", look_for="Lay it along the boom, not under the block. No turn.")


def _take_block_away(scene: Scene, deed: Deed) -> Words:
    return Words(
        do=f"Mark the ground under the head's plumb. Take {scene.before.block} away by other means.",
        look_for="This crane has no rope on it. Nobody between. Tie it down, card on it: NO ROPE.",
    )


def _exchange_block(scene: Scene, deed: Deed) -> Words:
    return Words(
        do=f"Set {scene.after.block} on the mark, by other means.",
        look_for="Nobody between. Groove, pins and rating are of this crane and rope.",
        asks="from its plate: name, rating, mass",
    )


def _thread(scene: Scene, deed: Deed) -> Words:
    return Words(
        do=f"Thread {deed.of}. Pull it tight before the next.",
        look_for="In the groove. Chalk line straight: no turn.",
        asks="sheave number read",
    )


def _make_dead_end(scene: Scene, deed: Deed) -> Words:
    end, after = scene.book.dead_end, scene.after
    place = f"at {after.dead_end}" if after.dead_end != "block" else f"at the becket of {after.block}"
    tail = (
        f"tail {_up(end.tail, 2):.2f} m" if end.tail is not None else "tail not on file: ask the socket maker's sheet"
    )
    return Words(
        do=f"Make the dead end {place}: {end.fitting or 'fitting'}, {tail}.",
        look_for="Live rope straight through the pin's line. Wedge the right way. Tail never clamped to the live rope.",
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
    return Words(
        do=f"Boom up until the ropes come tight{_about(angle)}. Stop.",
        look_for="Slow. The block still stands. Rigger watches every sheave.",
    )


def _lift_off(scene: Scene, deed: Deed) -> Words:
    angle = scene.facts.lowering.lift_off_angle if scene.facts.lowering is not None else None
    return Words(
        do=f"Boom up: block off the ground{_about(angle)}. Stop a hand's width up.",
        look_for="Never on the winch. The block goes straight up, not dragged.",
    )


def _prove_switch(scene: Scene, deed: Deed) -> Words:
    others = [motion for motion in scene.book.switch.stops if motion != "hoist"]
    more = f" Then, each slowly: {', '.join(others)}." if others else ""
    return Words(
        do=f"Hook up slowly to the hoist limit switch.{more}",
        look_for="Under power, ropes tight: each motion stops. Slack rope is no proof.",
        asks="what it stopped, and how far under the head",
    )


def _spool(scene: Scene, deed: Deed) -> Words:
    rope, wraps = scene.book.rope, scene.book.winch.least_wraps
    pull, force = "the tension of the rope maker's sheet (not on file)", ""
    if rope.spooling_tension is not None and rope.breaking_force is not None:
        tension = rope.spooling_tension * rope.breaking_force
        load = tension * scene.after.falls / GRAVITY
        pull = f"about {_up(load / 1000, 1):.1f} t, block counted"
        force = f"{_up(tension / 1000, 1):.1f} kN in the rope. "
    least = f"never under {wraps:g} wraps" if wraps is not None else "least wraps not on file: see the manual"
    return Words(
        do=f"Lower to the next lift's least wraps. Raise again under {pull}.",
        look_for=f"{force}On the drum {least}. Turns side by side, none crossing, none loose.",
        asks="wraps at the lowest hook; spooling seen",
    )


def _draw(scene: Scene, deed: Deed) -> str:
    lock = scene.keeper(deed.of).lock
    return f"Draw {deed.of}{f' and its {lock}' if lock else ''}. Into the box."


def _put_back(scene: Scene, deed: Deed) -> str:
    lock = scene.keeper(deed.of).lock
    return f"Put {deed.of}{f' and its {lock}' if lock else ''} back. Tug{' each' if lock else ' it'}."


def _about(angle: float | None) -> str:
    return f", about {degrees(angle):.1f} deg" if angle is not None else ""


def _up(value: float, digits: int) -> float:
    """Return a value rounded up in its last shown digit, hair's breadths of the float left out."""
    return ceil(round(value * 10.0**digits, 6)) / 10.0**digits


def _down(value: float, digits: int) -> float:
    return floor(round(value * 10.0**digits, 6)) / 10.0**digits


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
    "read_touch": _read_touch,
    "tight_keeper_out": _keeper_out,
    "slack_keeper_out": _keeper_out,
    "bare_keeper_out": _bare_keeper_out,
    "bare_keeper_in": _bare_keeper_in,
    "count_out_block": _count_out_block,
    "count_out_block_low": _count_out_block_low,
    "dead_end_pin_out": _dead_end_pin_out,
    "down_to_window": _down_to_window,
    "weight_off": _weight_off,
    "override_on": _override_on,
    "down_to_low": _down_to_low,
    "override_off": _override_off,
    "hold_end": _hold_end,
    "open_dead_end": _open_dead_end,
    "draw_out": _draw_out,
    "take_block_away": _take_block_away,
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
