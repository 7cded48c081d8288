"""A second statement of the rules of a method, written by hand from the rules' own words.

In:    a job as plain text and numbers, the list of what was done so far, the next deed.
Out:   why that deed may not be done now; nothing: it may.
Never: anything of the product's needs, gives, states or orders. It keeps no state: it reads the log backwards.

Of the product it shares the names of the deeds, nothing else. Rule numbers are those of docs/theory/steps.md.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

Log = Sequence[tuple[str, str]]

BOOM = {
    "telescope": "anywhere",
    "set_angle": "set",
    "down_to_touch": "touching",
    "down_to_window": "window",
    "down_to_low": "low",
    "up_to_tight": "tight",
    "lift_off": "up",
}
MOVES_SOMETHING = {*BOOM, "slew", "prove_before", "set_hook", "override_on", "override_off", "prove_switch", "spool"}
MOVES_SOMETHING |= {"first_lift"}
HANDS_NEAR = {
    *("tight_keeper_out", "count_out_block", "steady", "weight_off", "read_low", "slack_keeper_out", "hold_end"),
    *("dead_end_pin_out", "mark_rope", "open_dead_end", "draw_out", "look_sheaves", "look_end", "bare_keeper_in"),
    *("take_block_away", "exchange_block", "steady_new", "bare_keeper_out", "thread", "make_dead_end"),
    *("slack_keeper_in", "weight_on", "try_switch", "tight_keeper_in", "count_in_block", "count_ropes", "box_rigger"),
}
AT_THE_HEAD = {
    *("read_low", "slack_keeper_out", "hold_end", "dead_end_pin_out", "mark_rope", "open_dead_end", "draw_out"),
    *("look_sheaves", "look_end", "see_sheaves", "bare_keeper_in", "take_block_away", "exchange_block", "steady_new"),
    *("bare_keeper_out", "thread", "make_dead_end", "slack_keeper_in", "weight_on", "try_switch"),
    *("count_out_head", "count_out_block_low", "count_in_head", "operator_down", "count_sheaves", "place_operator"),
}
CHOCKS_NOT_ASKED = {
    *("tight_keeper_out", "count_out_block", "steady", "steady_new", "exchange_block", "tight_keeper_in"),
    *("count_in_block", "count_ropes", "box_rigger"),
}
MAY_REPEAT = {"call_in", "clear_out"}


@dataclass(frozen=True, kw_only=True)
class Pin:
    """One keeper that comes out, as the manual lists it."""

    name: str
    at: str
    block: str | None
    holds: tuple[int, ...]
    draw: str


@dataclass(frozen=True, kw_only=True)
class Job:
    """One change in plain words."""

    old: tuple[str, ...]
    new: tuple[str, ...]
    shared: int
    old_block: str
    new_block: str
    pins: tuple[Pin, ...]
    override_needed: bool  # the switch stops the boom on its last metres down
    override_listed: bool
    confirmed: bool
    everything: frozenset[tuple[str, str]]  # that must be on the record before a signature


def why_not(job: Job, log: Log, kind: str, of: str = "") -> list[str]:
    """Return why a deed may not be done after what the log says [-]."""
    found = []
    if kind not in MAY_REPEAT and (kind, of) in log:
        found.append("18: done already")
    if kind in MOVES_SOMETHING:
        found += _motion(log)
    if kind in HANDS_NEAR:
        found += _hands(log, kind)
    if kind in AT_THE_HEAD and _boom(log) != "low":
        found.append("4: at the head only in the low position")
    return found + ([] if kind not in OWN else OWN[kind](job, log, of))


def _last(log: Log, *kinds: str) -> str | None:
    return next((kind for kind, of in reversed(log) if kind in kinds), None)


def _did(log: Log, *kinds: str) -> bool:
    return set(kinds) <= {kind for kind, of in log}


def _boom(log: Log) -> str:
    return BOOM.get(_last(log, *BOOM) or "", "anywhere")


def _isolated(log: Log) -> bool:
    return _last(log, "call_in", "clear_out") == "call_in"


def _in_cab(log: Log) -> bool:
    return _last(log, "operator_down", "operator_up") != "operator_down"


def _on_the_ground(log: Log) -> bool:
    """A block lies on the ground; it was set down, and neither lifted nor carried away."""
    return _last(log, "down_to_touch", "lift_off", "take_block_away", "exchange_block") in (
        "down_to_touch",
        "exchange_block",
    )


def _hangs(log: Log) -> bool:
    return _last(log, "down_to_touch", "lift_off") != "down_to_touch"


def _chocked(log: Log) -> bool:
    return _on_the_ground(log) and _last(log, "steady", "take_block_away", "steady_new") in ("steady", "steady_new")


def _slack(log: Log) -> bool:
    return _last(log, "down_to_window", "up_to_tight") == "down_to_window"


def _locked(log: Log) -> bool:
    return _last(log, "lock_winch", "free_winch") == "lock_winch"


def _override(log: Log) -> bool:
    return _last(log, "override_on", "override_off") == "override_on"


def _weight_is_off(log: Log) -> bool:
    return _last(log, "weight_off", "weight_on") == "weight_off"


def _limit_live(log: Log) -> bool:
    return not _weight_is_off(log) and (
        _last(log, "prove_before", "weight_off", "try_switch", "prove_switch") in ("prove_before", "prove_switch")
    )


def _tried(log: Log) -> bool:
    return _last(log, "prove_before", "weight_off", "try_switch", "prove_switch") == "try_switch"


def _hook_is_set(log: Log) -> bool:
    return _last(log, "telescope", "set_angle", "set_hook") == "set_hook"


def _hook_agreed(log: Log) -> bool:
    return _hook_is_set(log) and _did(log, "measure_hook", "read_hook")


def _block(job: Job, log: Log) -> str | None:
    last = _last(log, "take_block_away", "exchange_block")
    return job.old_block if last is None else job.new_block if last == "exchange_block" else None


def _rope(job: Job, log: Log) -> list[str]:
    rope = list(job.old)
    for kind, of in log:
        if kind == "draw_out" and rope:
            rope.pop()
        elif kind == "thread":
            rope.append(of)
    return rope


def _end_made(log: Log) -> bool:
    return _last(log, "open_dead_end", "make_dead_end") != "open_dead_end"


def _new_end_made(log: Log) -> bool:
    return _last(log, "open_dead_end", "make_dead_end") == "make_dead_end"


def _out(log: Log) -> set[str]:
    out: set[str] = set()
    for kind, of in log:
        if kind in ("tight_keeper_out", "slack_keeper_out", "dead_end_pin_out", "bare_keeper_out"):
            out.add(of)
        elif kind in ("tight_keeper_in", "slack_keeper_in", "bare_keeper_in"):
            out.discard(of)
    return out


def _pin(job: Job, name: str) -> Pin:
    return next(pin for pin in job.pins if pin.name == name)


def _covers(pin: Pin, one: str, block: str | None) -> bool:
    place, number = one.split()
    return pin.at == place and int(number) in pin.holds and (place == "head" or pin.block == block)


def _has_rope(job: Job, log: Log, pin: Pin) -> bool:
    if pin.at == "dead end":
        return _end_made(log)
    return any(_covers(pin, one, _block(job, log)) for one in _rope(job, log))


def _motion(log: Log) -> list[str]:
    found = [] if _did(log, "close_area") else ["1: area open"]
    found += ["4: rigger in, controls isolated"] if _isolated(log) else []
    return found + ([] if _in_cab(log) else ["4: nobody in the cab"])


def _hands(log: Log, kind: str) -> list[str]:
    found = [] if _did(log, "close_area") else ["1: area open"]
    found += [] if _isolated(log) else ["4: controls live"]
    if kind != "exchange_block" and not _on_the_ground(log):
        found.append("4: the block does not stand")
    if kind not in CHOCKS_NOT_ASKED and not _chocked(log):
        found.append("4: the block is not chocked")
    return found


def _wants(*asked: tuple[bool, str]) -> list[str]:
    return [why for holds, why in asked if not holds]


def _keeper(job: Job, log: Log, of: str, *, out: bool) -> list[str]:
    """Rules 5 and 12: the rope under a keeper is tight or slack as its kind wants; in reach; the block is here."""
    pin = _pin(job, of)
    tight = not _slack(log)
    rope_right = not _has_rope(job, log, pin) or (tight if pin.draw == "tight" else not tight and _boom(log) == "low")
    in_reach = _boom(log) == "low" or (pin.at == "block" and _on_the_ground(log))
    return _wants(
        (pin.at != "block" or pin.block == _block(job, log), "5: its block is not here"),
        ((of in _out(log)) is not out, "12: it is there already"),
        (rope_right, "5: rope not as this keeper wants it"),
        (in_reach, "5: out of reach"),
    )


def _rope_whole(job: Job, log: Log) -> bool:
    return tuple(_rope(job, log)) == job.new


def _bare(job: Job, log: Log) -> bool:
    return tuple(_rope(job, log)) == job.old[: job.shared]


def _out_of(job: Job, log: Log, choose: Callable[[Pin], bool]) -> bool:
    return all(pin.name in _out(log) for pin in job.pins if choose(pin))


def _none_out_of(job: Job, log: Log, choose: Callable[[Pin], bool]) -> bool:
    return not any(pin.name in _out(log) for pin in job.pins if choose(pin))


def _jams(job: Job) -> Callable[[Pin], bool]:
    return lambda pin: pin.at == "block" and pin.block == job.old_block and pin.draw == "tight"


def _old_slack(job: Job) -> Callable[[Pin], bool]:
    return lambda pin: pin.at == "block" and pin.block == job.old_block and pin.draw == "slack"


def _head_items(pin: Pin) -> bool:
    return pin.at in ("head", "dead end") or pin.draw == "slack"


def _head_closed(job: Job, log: Log) -> bool:
    return _none_out_of(job, log, _head_items)


def _all_in(log: Log) -> bool:
    return not _out(log)


def _thread(job: Job, log: Log, of: str) -> list[str]:
    rope = _rope(job, log)
    done = len(rope)
    is_next = tuple(rope) == job.new[:done] and done < len(job.new) and job.new[done] == of
    closed = [pin.name for pin in job.pins if _covers(pin, of, _block(job, log)) and pin.name not in _out(log)]
    return _wants(
        (not _end_made(log), "9: the end is not free"),
        (_did(log, "look_sheaves", "see_sheaves", "look_end"), "11: not looked at"),
        (_block(job, log) == job.new_block, "10: another block"),
        (is_next, "10: not the next pass"),
        (not closed, "10: closed keeper"),
    )


def _draw_out(job: Job, log: Log, of: str) -> list[str]:
    rope = _rope(job, log)
    closed = [pin.name for pin in job.pins if _covers(pin, of, _block(job, log)) and pin.name not in _out(log)]
    return _wants(
        (not _end_made(log), "9: the end is not free"),
        (_slack(log), "9: falls tight"),
        (len(rope) > job.shared and rope[-1] == of, "10: not from the end"),
        (not closed, "10: closed keeper"),
    )


def _compare(job: Job, log: Log, of: str) -> list[str]:
    wanted = ["count_out_block", "count_out_head", "count_in_head", "count_in_block", "box_rigger", "box_operator"]
    wanted += ["count_out_block_low"] if any(_old_slack(job)(pin) for pin in job.pins) else []
    wanted += ["count_in_old", "count_out_new"] if job.old_block != job.new_block else []
    return _wants(
        (_all_in(log), "12: keepers out"),
        (_did(log, *wanted), "12: keepers not counted"),
        (_did(log, "count_sheaves", "place_operator", "count_ropes", "place_rigger"), "13: a count is missing"),
    )


def _up_to_tight(job: Job, log: Log, of: str) -> list[str]:
    return _wants(
        (_locked(log), "3: winch"),
        (_chocked(log), "6: block loose"),
        (_rope_whole(job, log), "10: path"),
        (_new_end_made(log), "9: dead end"),
        (_head_closed(job, log), "12: head open"),
        (not _override(log), "8: override on"),
        (not _weight_is_off(log), "7: weight off"),
        (_tried(log) and _did(log, "see_lamp"), "7: switch not tried"),
        (_did(log, "count_in_head"), "12: head not counted"),
        (_did(log, "count_sheaves", "place_operator"), "13: operator did not count while he could see"),
        (_boom(log) == "low", "15: from the low position"),
    )


def _lift_off(job: Job, log: Log, of: str) -> list[str]:
    return _wants(
        (_locked(log), "3: winch"),
        (_did(log, "compare_counts"), "13: not compared"),
        (_all_in(log), "12: keepers out"),
        (_did(log, "set_indicator", "enter_indicator", "read_indicator"), "14: indicator"),
        (_new_end_made(log), "9: dead end"),
        (not _override(log), "8: override on"),
        (_did(log, "enter_override", "see_override"), "8: override not entered by both"),
        (not _weight_is_off(log) and _did(log, "weight_on"), "7: weight off"),
        (_tried(log), "7: switch not tried"),
        (_boom(log) == "tight", "15: no stop as the ropes came tight"),
    )


def _sign(job: Job, log: Log, of: str) -> list[str]:
    return _wants((job.everything <= set(log), "17: not whole"))


def _down_to_touch(job: Job, log: Log, of: str) -> list[str]:
    return _wants(
        (_did(log, "telescope"), "2: length"),
        (_hook_agreed(log), "2: hook height"),
        (_locked(log), "3: winch"),
        (_limit_live(log), "7: limit"),
        (_hangs(log), "15: hangs"),
        (_boom(log) == "set", "15: from where the hook was set"),
    )


def _call_in(job: Job, log: Log, of: str) -> list[str]:
    return _wants(
        (_did(log, "close_area"), "1: area open"),
        (not _isolated(log), "4: called already"),
        (_on_the_ground(log), "4: the block does not stand"),
        (not _override(log), "8: override on"),
    )


OWN: dict[str, Callable[[Job, Log, str], list[str]]] = {
    "call_in": _call_in,
    "clear_out": lambda j, g, of: _wants((_isolated(g), "4: nobody is in"), (_in_cab(g), "4: cab empty")),
    "brief": lambda j, g, of: _wants((j.confirmed, "1: pattern")),
    "close_area": lambda j, g, of: _wants((j.confirmed, "1: pattern"), (_did(g, "brief"), "1: not briefed")),
    "read_stand": lambda j, g, of: _wants((_did(g, "close_area"), "1: area")),
    "see_stand": lambda j, g, of: _wants((_did(g, "close_area"), "1: area")),
    "slew": lambda j, g, of: _wants((_did(g, "read_stand", "see_stand"), "1: stand not read by both")),
    "prove_before": lambda j, g, of: _wants(
        (_hangs(g), "7: slack rope is no proof"), (not _locked(g), "3: winch"), (_did(g, "slew"), "1: sector")
    ),
    "telescope": lambda j, g, of: _wants(
        (_limit_live(g), "7: limit"),
        (_hangs(g), "2: hangs"),
        (not _locked(g), "3: winch"),
        (not _override(g), "8: override"),
    ),
    "set_angle": lambda j, g, of: _wants(
        (_did(g, "telescope"), "2: length first"), (_limit_live(g), "7: limit"), (_hangs(g), "2: hangs")
    ),
    "set_hook": lambda j, g, of: _wants(
        (_did(g, "telescope"), "2: length first"),
        (_boom(g) == "set", "2: angle"),
        (_limit_live(g), "7: limit"),
        (not _locked(g), "3: winch"),
    ),
    "measure_hook": lambda j, g, of: _wants((_hook_is_set(g), "2: hook"), (not _locked(g), "2: before the lock")),
    "read_hook": lambda j, g, of: _wants((_hook_is_set(g), "2: hook"), (not _locked(g), "2: before the lock")),
    "lock_winch": lambda j, g, of: _wants((_hook_agreed(g), "2: hook height"), (not _locked(g), "3: locked")),
    "down_to_touch": _down_to_touch,
    "read_touch": lambda j, g, of: _wants((_boom(g) == "touching", "2: angle of touching")),
    "tight_keeper_out": lambda j, g, of: (
        _wants((_did(g, "read_touch"), "2: angle not read")) + _keeper(j, g, of, out=True)
    ),
    "count_out_block": lambda j, g, of: _wants(
        (_boom(g) == "touching", "12: before the slack"), (_out_of(j, g, _jams(j)), "12: keeper in")
    ),
    "steady": lambda j, g, of: _wants(
        (_did(g, "read_touch"), "2: angle not read"), (_boom(g) == "touching", "6: before the slack")
    ),
    "down_to_window": lambda j, g, of: _wants(
        (_locked(g), "3: winch"),
        (_chocked(g), "6: block loose"),
        (_out_of(j, g, _jams(j)), "5: slack rope jams a keeper"),
        (_limit_live(g), "7: limit"),
        (_boom(g) == "touching", "15: from touching"),
        (_did(g, "count_out_block"), "12: not counted"),
    ),
    "weight_off": lambda j, g, of: _wants(
        (_boom(g) == "window", "7: in the window"), (not _weight_is_off(g), "7: off")
    ),
    "no_limit_card": lambda j, g, of: _wants((_weight_is_off(g), "7: the weight is on")),
    "override_on": lambda j, g, of: _wants(
        (j.override_listed, "8: not in the manual"),
        (not _override(g), "8: on"),
        (_weight_is_off(g), "8: weight on"),
        (_chocked(g), "8: block not set down"),
        (_boom(g) == "window", "8: for that motion only"),
    ),
    "down_to_low": lambda j, g, of: _wants(
        (_locked(g), "3: winch"),
        (_weight_is_off(g), "7: weight on"),
        (_did(g, "no_limit_card"), "7: no card"),
        (_override(g) or not j.override_needed, "8: switch stops the boom"),
        (_chocked(g), "6: block loose"),
        (_boom(g) == "window", "7: from the window"),
    ),
    "override_off": lambda j, g, of: _wants((_override(g), "8: off"), (_boom(g) == "low", "8: after the motion")),
    "read_low": lambda j, g, of: _wants((not _override(g), "8: override on")),
    "slack_keeper_out": lambda j, g, of: (
        _wants((_did(g, "read_low"), "4: reach not measured"), (not _override(g), "8: override on"))
        + _keeper(j, g, of, out=True)
    ),
    "hold_end": lambda j, g, of: _wants(
        (_slack(g), "9: tight"), (_did(g, "read_low"), "4: reach not measured"), (not _override(g), "8: override on")
    ),
    "dead_end_pin_out": lambda j, g, of: _wants(
        (_slack(g), "9: tight"),
        (_did(g, "hold_end"), "9: end loose"),
        (of not in _out(g), "12: out already"),
        (not _override(g), "8: override on"),
    ),
    "count_out_block_low": lambda j, g, of: _wants((_out_of(j, g, _old_slack(j)), "12: keeper in")),
    "count_out_head": lambda j, g, of: _wants((_out_of(j, g, lambda pin: pin.at != "block"), "12: keeper in")),
    "mark_rope": lambda j, g, of: _wants((_slack(g), "9: tight"), (_did(g, "hold_end"), "9: end loose")),
    "open_dead_end": lambda j, g, of: _wants(
        (_slack(g), "9: tight"),
        (_did(g, "hold_end"), "9: end loose"),
        (_out_of(j, g, lambda pin: pin.at == "dead end"), "9: pin in"),
        (_did(g, "mark_rope"), "10: no mark to see turns by"),
        (_did(g, "count_out_head"), "12: not counted"),
    ),
    "draw_out": _draw_out,
    "look_sheaves": lambda j, g, of: _wants((_bare(j, g), "11: not bare"), (not _end_made(g), "11: not bare")),
    "look_end": lambda j, g, of: _wants((_bare(j, g), "11: not bare"), (not _end_made(g), "11: not bare")),
    "see_sheaves": lambda j, g, of: _wants(
        (_bare(j, g), "11: not bare"),
        (_isolated(g), "4: cab left live"),
        (_in_cab(g), "11: he comes from the cab"),
        (_chocked(g), "4: block loose"),
        (_did(g, "look_sheaves"), "11: turned first"),
    ),
    "bare_keeper_in": lambda j, g, of: _wants(
        (of in _out(g), "12: in already"),
        (_pin(j, of).block == _block(j, g), "5: its block is not here"),
        (not _has_rope(j, g, _pin(j, of)), "5: rope under it"),
        (_bare(j, g), "10: rope still in"),
    ),
    "count_in_old": lambda j, g, of: _wants(
        (_bare(j, g), "10: rope still in"),
        (_none_out_of(j, g, lambda pin: pin.block == j.old_block), "12: keeper out"),
    ),
    "take_block_away": lambda j, g, of: _wants(
        (not _end_made(g) and _bare(j, g), "10: rope still in"),
        (_none_out_of(j, g, lambda pin: pin.block == j.old_block), "12: keeper out"),
        (_did(g, "count_in_old"), "12: not counted"),
    ),
    "exchange_block": lambda j, g, of: _wants(
        (_last(g, "take_block_away", "exchange_block") == "take_block_away", "10: the old block stands here"),
        (not _end_made(g) and _bare(j, g), "10: rope"),
    ),
    "steady_new": lambda j, g, of: _wants((_block(j, g) == j.new_block, "6: the new block is not here")),
    "bare_keeper_out": lambda j, g, of: _wants(
        (of not in _out(g), "12: out already"),
        (_block(j, g) == j.new_block == _pin(j, of).block, "5: its block is not here"),
        (not _has_rope(j, g, _pin(j, of)), "5: rope under it"),
    ),
    "count_out_new": lambda j, g, of: _wants(
        (_chocked(g) and _block(j, g) == j.new_block, "12: the new block is not here, chocked"),
        (_out_of(j, g, lambda pin: pin.block == j.new_block), "12: keeper in"),
    ),
    "thread": _thread,
    "make_dead_end": lambda j, g, of: _wants(
        (not _end_made(g), "9: made"),
        (_did(g, "look_sheaves", "see_sheaves", "look_end"), "11: not looked at"),
        (_rope_whole(j, g), "10: path not complete"),
        (_block(j, g) == j.new_block, "10: another block"),
    ),
    "slack_keeper_in": lambda j, g, of: (
        _wants((_rope_whole(j, g) and _end_made(g), "12: not over the new path")) + _keeper(j, g, of, out=False)
    ),
    "weight_on": lambda j, g, of: _wants(
        (_new_end_made(g) and _rope_whole(j, g), "7: after the dead end"), (_weight_is_off(g), "7: on")
    ),
    "try_switch": lambda j, g, of: _wants((not _weight_is_off(g) and _did(g, "weight_on"), "7: weight off")),
    "see_lamp": lambda j, g, of: _wants((_tried(g), "7: not lifted"), (_in_cab(g), "7: he sees it from the cab")),
    "count_in_head": lambda j, g, of: _wants((_head_closed(j, g), "12: open"), (_new_end_made(g), "12: end")),
    "operator_down": lambda j, g, of: _wants(
        (_isolated(g), "4: live"),
        (_in_cab(g), "4: down already"),
        (_head_closed(j, g), "13: open"),
        (_new_end_made(g), "13: end"),
    ),
    "count_sheaves": lambda j, g, of: _wants(
        (_isolated(g), "4: live"),
        (not _in_cab(g), "13: from his own sight"),
        (_head_closed(j, g), "13: open"),
        (_new_end_made(g), "13: end"),
    ),
    "place_operator": lambda j, g, of: _wants(
        (_isolated(g), "4: live"), (not _in_cab(g), "13: from his own sight"), (_new_end_made(g), "13: end")
    ),
    "operator_up": lambda j, g, of: _wants(
        (_isolated(g), "4: live"), (not _in_cab(g), "4: up"), (_did(g, "count_sheaves", "place_operator"), "13: count")
    ),
    "up_to_tight": _up_to_tight,
    "seated": lambda j, g, of: _wants((_boom(g) == "tight", "15: not tight")),
    "tight_keeper_in": lambda j, g, of: (
        _wants((_rope_whole(j, g) and _end_made(g), "12: not over the new path"), (_did(g, "seated"), "15: not seen"))
        + _keeper(j, g, of, out=False)
    ),
    "count_in_block": lambda j, g, of: _wants(
        (_boom(g) == "tight", "12: at the stop"), (_did(g, "seated"), "15: not seen"), (_all_in(g), "12: out")
    ),
    "count_ropes": lambda j, g, of: _wants(
        (_boom(g) == "tight", "13: tight falls"), (_did(g, "seated"), "15: not seen"), (_all_in(g), "12: out")
    ),
    "box_rigger": lambda j, g, of: _wants((_boom(g) == "tight", "12: at the stop"), (_all_in(g), "12: out")),
    "box_operator": lambda j, g, of: _wants(
        (_boom(g) == "tight", "12: at the stop"),
        (_all_in(g), "12: out"),
        (_isolated(g), "4: live"),
        (_in_cab(g), "12: cab"),
    ),
    "place_rigger": lambda j, g, of: _wants((_boom(g) == "tight", "13: tight falls"), (_new_end_made(g), "13: end")),
    "compare_counts": _compare,
    "set_indicator": lambda j, g, of: _wants(
        (_did(g, "compare_counts"), "14: counts agree first"),
        (_in_cab(g), "14: cab"),
        (_boom(g) == "tight", "14: stop"),
    ),
    "enter_indicator": lambda j, g, of: _wants((_did(g, "set_indicator"), "14: not set")),
    "read_indicator": lambda j, g, of: _wants(
        (_did(g, "set_indicator"), "14: not set"), (_isolated(g), "4: the rigger comes to the cab of a live crane")
    ),
    "enter_override": lambda j, g, of: _wants(
        (not _override(g), "8: on"), (_in_cab(g), "8: cab"), (_boom(g) == "tight", "8: at the closing stop")
    ),
    "see_override": lambda j, g, of: _wants(
        (not _override(g), "8: on"),
        (_isolated(g), "4: the rigger comes to the cab of a live crane"),
        (_boom(g) == "tight", "8: at the closing stop"),
    ),
    "lift_off": _lift_off,
    "look_level": lambda j, g, of: _wants((_hangs(g) and _boom(g) == "up", "15: not off the ground")),
    "free_winch": lambda j, g, of: _wants(
        (_hangs(g) and _all_in(g) and _end_made(g), "3: not whole"),
        (_locked(g), "3: free"),
        (_did(g, "look_level"), "15: not looked at"),
    ),
    "prove_switch": lambda j, g, of: _wants(
        (not _locked(g), "3: winch"),
        (_hangs(g) and not _slack(g), "7: slack rope is no proof"),
        (not _weight_is_off(g) and _did(g, "weight_on"), "7: weight off"),
        (_did(g, "free_winch"), "16: proved on the old falls is not proved on the new"),
        (not _override(g), "8: override on"),
    ),
    "card_off": lambda j, g, of: _wants((_did(g, "prove_switch") and _limit_live(g), "7: no limit")),
    "spool": lambda j, g, of: _wants(
        (_did(g, "prove_switch") and _limit_live(g), "16: limit first"), (not _locked(g), "3: winch")
    ),
    "first_lift": lambda j, g, of: _wants(
        (_did(g, "spool"), "16: spool first"),
        (_limit_live(g), "7: limit"),
        (_did(g, "set_indicator", "enter_indicator", "read_indicator"), "14: indicator"),
    ),
    "sign_operator": _sign,
    "sign_rigger": _sign,
}
