"""The deeds of a method: who does each, what it needs, what it gives.

In:    a scene, a state, a deed.
Out:   one registry: kind -> needs and gives. The list here is the list that is printed and proved.
Never: an order (it follows from the needs), words for people.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

from becket.method import crane_needs as c
from becket.method import needs as n
from becket.method import rope_needs as r
from becket.method.crane_state import CraneState, Deed
from becket.method.needs import Need
from becket.method.scene import Scene

Give = Callable[[Scene, CraneState, Deed], CraneState]


@dataclass(frozen=True, kw_only=True)
class DeedKind:
    """One kind of deed. ``posture``: "hands" (isolated, rigger in), "motion" (live, rigger clear) or "" (neither)."""

    who: str  # operator, rigger, both
    phase: str
    posture: str
    needs: tuple[Need, ...]
    gives: Give
    repeats: bool = False  # may stand in a method more than once


PHASES = (
    "Before",
    "Set the hook",
    "H1 Block on the ground, ropes tight",
    "H2 Switch weight",
    "H3 At the head",
    "H4 Ropes tight, block on the ground",
    "H5 Indicator, lift off",
    "Prove and spool",
    "Record",
)
BEFORE, SET, TOUCH, WINDOW, LOW, TIGHT, UP, PROVE, RECORD = PHASES
HANDS = (c.AREA_SET, c.ISOLATED, c.RIGGER_IN)
MOTION = (c.AREA_SET, c.LIVE, c.RIGGER_CLEAR, c.IN_CAB)


def _kind(who: str, phase: str, posture: str, needs: tuple[Need, ...], gives: Give | None = None) -> DeedKind:
    common = {"hands": HANDS, "motion": MOTION, "": ()}[posture]
    return DeedKind(
        who=who,
        phase=phase,
        posture=posture,
        needs=(n.once(), *common, *needs),
        gives=gives or (lambda s, state, d: state),
    )


def _set(**changes: object) -> Give:
    return lambda scene, state, deed: replace(state, **changes)  # type: ignore[arg-type]


def _aux(who: str, needs: tuple[Need, ...], **changes: object) -> DeedKind:
    return DeedKind(who=who, phase="", posture="", needs=needs, gives=_set(**changes), repeats=True)


def _steady(scene: Scene, state: CraneState, deed: Deed) -> CraneState:
    return replace(state, block="steadied") if state.block == "stands" else state


def _keeper_out(scene: Scene, state: CraneState, deed: Deed) -> CraneState:
    clip = frozenset({deed.of}) if scene.keeper(deed.of).lock else frozenset()
    return replace(state, keepers_out=state.keepers_out | {deed.of}, clips_out=state.clips_out | clip)


def _keeper_in(scene: Scene, state: CraneState, deed: Deed) -> CraneState:
    return replace(state, keepers_out=state.keepers_out - {deed.of}, clips_out=state.clips_out - {deed.of})


def _draw_out(scene: Scene, state: CraneState, deed: Deed) -> CraneState:
    return replace(state, path=state.path[:-1])


def _thread(scene: Scene, state: CraneState, deed: Deed) -> CraneState:
    passed = n.next_pass(scene, state)
    return replace(state, path=(*state.path, passed)) if passed is not None else state


def _make_dead_end(scene: Scene, state: CraneState, deed: Deed) -> CraneState:
    return replace(state, dead_end=scene.after.dead_end, rope_end="fixed")


def _weight_on(scene: Scene, state: CraneState, deed: Deed) -> CraneState:
    return replace(state, weight="line", weight_line=scene.path.switch_weight_after)


def _exchange(scene: Scene, state: CraneState, deed: Deed) -> CraneState:
    return replace(state, hanging=scene.after.block, block="stands")


AUXILIARY: Mapping[str, DeedKind] = {
    "call_in": _aux(
        "both", (c.LIVE, c.RIGGER_CLEAR, c.OVERRIDE_OFF, c.BLOCK_STANDS, c.AREA_SET), controls="isolated", rigger="in"
    ),
    "clear_out": _aux("both", (c.ISOLATED, c.RIGGER_IN, c.IN_CAB), controls="live", rigger="clear"),
}

DEEDS: Mapping[str, DeedKind] = {
    "brief": _kind("both", BEFORE, "", (c.CONFIRMED,)),
    "close_area": _kind("both", BEFORE, "", (c.CONFIRMED, n.after("brief", "configuration")), _set(area=True)),
    "read_stand": _kind("operator", BEFORE, "", (c.AREA_SET,)),
    "see_stand": _kind("rigger", BEFORE, "", (c.AREA_SET,)),
    "slew": _kind(
        "operator", BEFORE, "motion", (n.after("read_stand", "configuration"), n.after("see_stand", "configuration"))
    ),
    "prove_before": _kind(
        "operator",
        BEFORE,
        "motion",
        (c.BLOCK_HANGS, c.WINCH_FREE, n.after("slew", "configuration")),
        _set(switch="proved"),
    ),
    "telescope": _kind(
        "operator",
        SET,
        "motion",
        (c.SWITCH_LIVE, c.BLOCK_HANGS, c.WINCH_FREE, c.OVERRIDE_OFF),
        _set(length_set=True, hook_set=False, boom="work"),
    ),
    "set_angle": _kind(
        "operator", SET, "motion", (c.LENGTH_SET, c.SWITCH_LIVE, c.BLOCK_HANGS), _set(boom="set", hook_set=False)
    ),
    "set_hook": _kind(
        "operator",
        SET,
        "motion",
        (c.LENGTH_SET, n.at_boom("set", "length_first"), c.SWITCH_LIVE, c.WINCH_FREE),
        _set(hook_set=True),
    ),
    "measure_hook": _kind("rigger", SET, "", (c.HOOK_SET, c.WINCH_FREE)),
    "read_hook": _kind("operator", SET, "", (c.HOOK_SET, c.WINCH_FREE)),
    "lock_winch": _kind("operator", SET, "", (c.HOOK_SET, c.HOOK_READ, c.WINCH_FREE), _set(winch="locked")),
    "down_to_touch": _kind(
        "operator",
        TOUCH,
        "motion",
        (
            c.LENGTH_SET,
            c.HOOK_SET,
            c.HOOK_READ,
            c.WINCH_LOCKED,
            c.SWITCH_LIVE,
            c.BLOCK_HANGS,
            n.at_boom("set", "boom_takes_block"),
        ),
        _set(boom="touch", block="stands"),
    ),
    "read_touch": _kind("operator", TOUCH, "", (n.at_boom("touch", "length_first"),)),
    "tight_keeper_out": _kind(
        "rigger",
        TOUCH,
        "hands",
        (c.BLOCK_STANDS, n.after("read_touch", "length_first"), r.KEEPER_HERE, r.KEEPER_IN, r.KEEPER_MOVES),
        _keeper_out,
    ),
    "count_out_block": _kind(
        "rigger", TOUCH, "hands", (c.BLOCK_STANDS, n.at_boom("touch", "keepers_counted"), r.TIGHT_KEEPERS_OUT)
    ),
    "steady": _kind(
        "rigger",
        TOUCH,
        "hands",
        (c.BLOCK_STANDS, n.after("read_touch", "length_first"), n.at_boom("touch", "steady_then_slack")),
        _steady,
    ),
    "down_to_window": _kind(
        "operator",
        WINDOW,
        "motion",
        (
            c.WINCH_LOCKED,
            c.STEADY_FIRST,
            r.TIGHT_KEEPERS_OUT,
            c.SWITCH_LIVE,
            n.at_boom("touch", "boom_takes_block"),
            n.after("count_out_block", "keepers_counted"),
        ),
        _set(boom="weight window", falls="slack"),
    ),
    "weight_off": _kind(
        "rigger",
        WINDOW,
        "hands",
        (c.STEADIED, n.at_boom("weight window", "switch"), c.WEIGHT_ON),
        _set(weight="off", switch="dead"),
    ),
    "no_limit_card": _kind("operator", WINDOW, "", (c.WEIGHT_OFF,)),
    "override_on": _kind(
        "operator",
        WINDOW,
        "motion",
        (c.OVERRIDE_ALLOWED, c.OVERRIDE_OFF, c.WEIGHT_OFF, c.STEADIED, n.at_boom("weight window", "override")),
        _set(override="on"),
    ),
    "down_to_low": _kind(
        "operator",
        WINDOW,
        "motion",
        (
            c.WINCH_LOCKED,
            c.WEIGHT_OFF,
            n.after("no_limit_card", "switch"),
            c.OVERRIDE_ON_IF_NEEDED,
            c.STEADIED,
            n.at_boom("weight window", "switch"),
        ),
        _set(boom="low"),
    ),
    "override_off": _kind(
        "operator", WINDOW, "motion", (c.OVERRIDE_ON, n.at_boom("low", "override")), _set(override="off")
    ),
    "read_low": _kind("rigger", LOW, "hands", (c.STEADIED, n.at_boom("low", "hands"), c.OVERRIDE_OFF)),
    "slack_keeper_out": _kind(
        "rigger",
        LOW,
        "hands",
        (
            c.STEADIED,
            n.at_boom("low", "hands"),
            c.OVERRIDE_OFF,
            n.after("read_low", "hands"),
            r.KEEPER_HERE,
            r.KEEPER_IN,
            r.KEEPER_MOVES,
        ),
        _keeper_out,
    ),
    "hold_end": _kind(
        "rigger",
        LOW,
        "hands",
        (c.STEADIED, n.at_boom("low", "hands"), r.SLACK, c.OVERRIDE_OFF, n.after("read_low", "hands")),
    ),
    "dead_end_pin_out": _kind(
        "rigger",
        LOW,
        "hands",
        (c.STEADIED, n.at_boom("low", "hands"), r.SLACK, r.END_HELD, c.OVERRIDE_OFF, r.KEEPER_IN),
        _keeper_out,
    ),
    "count_out_block_low": _kind("rigger", LOW, "", (n.at_boom("low", "keepers_counted"), r.SLACK_BLOCK_OPEN)),
    "count_out_head": _kind("rigger", LOW, "", (n.at_boom("low", "keepers_counted"), r.HEAD_OPEN)),
    "mark_rope": _kind(
        "rigger",
        LOW,
        "hands",
        (c.STEADIED, n.at_boom("low", "hands"), r.SLACK, n.after("hold_end", "dead_end")),
    ),
    "open_dead_end": _kind(
        "rigger",
        LOW,
        "hands",
        (
            c.STEADIED,
            n.at_boom("low", "hands"),
            r.SLACK,
            r.END_HELD,
            r.DEAD_END_PINS_OUT,
            n.after("mark_rope", "path"),
            n.after("count_out_head", "keepers_counted"),
        ),
        _set(rope_end="held", dead_end=None),
    ),
    "draw_out": _kind(
        "rigger",
        LOW,
        "hands",
        (c.STEADIED, n.at_boom("low", "hands"), r.SLACK, r.END_FREE, r.LAST_PASS, r.GROOVE_OPEN),
        _draw_out,
    ),
    "look_sheaves": _kind("rigger", LOW, "hands", (c.STEADIED, n.at_boom("low", "hands"), r.END_FREE, r.PATH_BARE)),
    "see_sheaves": _kind(
        "operator",
        LOW,
        "",
        (c.ISOLATED, c.IN_CAB, c.STEADIED, n.at_boom("low", "seen"), r.PATH_BARE, n.after("look_sheaves", "seen")),
    ),
    "look_end": _kind("rigger", LOW, "hands", (c.STEADIED, n.at_boom("low", "hands"), r.END_FREE, r.PATH_BARE)),
    "bare_keeper_in": _kind(
        "rigger",
        LOW,
        "hands",
        (c.STEADIED, n.at_boom("low", "hands"), r.KEEPER_OUT, r.KEEPER_HERE, r.BARE, r.PATH_BARE),
        _keeper_in,
    ),
    "count_in_old": _kind("rigger", LOW, "", (r.PATH_BARE, r.OLD_BLOCK_CLOSED)),
    "take_block_away": _kind(
        "both",
        LOW,
        "hands",
        (
            c.STEADIED,
            n.at_boom("low", "hands"),
            r.END_FREE,
            r.PATH_BARE,
            r.OLD_BLOCK_CLOSED,
            n.after("count_in_old", "keepers_counted"),
        ),
        _set(block="away", hanging=""),
    ),
    "exchange_block": _kind(
        "both", LOW, "hands", (n.at_boom("low", "hands"), r.END_FREE, r.PATH_BARE, r.OLD_BLOCK_AWAY), _exchange
    ),
    "steady_new": _kind("rigger", LOW, "hands", (c.BLOCK_STANDS, n.at_boom("low", "hands"), r.NEW_BLOCK_HERE), _steady),
    "bare_keeper_out": _kind(
        "rigger",
        LOW,
        "hands",
        (c.STEADIED, n.at_boom("low", "hands"), r.KEEPER_IN, r.KEEPER_HERE, r.BARE, r.NEW_BLOCK_HERE),
        _keeper_out,
    ),
    "count_out_new": _kind("rigger", LOW, "", (c.STEADIED, r.NEW_BLOCK_HERE, r.NEW_BLOCK_OPEN)),
    "thread": _kind(
        "rigger",
        LOW,
        "hands",
        (c.STEADIED, n.at_boom("low", "hands"), r.END_FREE, r.SEEN, r.NEW_BLOCK_HERE, r.NEXT_PASS, r.GROOVE_OPEN),
        _thread,
    ),
    "make_dead_end": _kind(
        "rigger",
        LOW,
        "hands",
        (c.STEADIED, n.at_boom("low", "hands"), r.END_FREE, r.SEEN, r.PATH_WHOLE, r.NEW_BLOCK_HERE),
        _make_dead_end,
    ),
    "slack_keeper_in": _kind(
        "rigger",
        LOW,
        "hands",
        (c.STEADIED, n.at_boom("low", "hands"), r.KEEPER_OUT, r.KEEPER_HERE, r.KEEPER_MOVES, r.PATH_WHOLE_FOR_KEEPER),
        _keeper_in,
    ),
    "weight_on": _kind(
        "rigger",
        LOW,
        "hands",
        (c.STEADIED, n.at_boom("low", "hands"), r.END_MADE, r.PATH_WHOLE, c.WEIGHT_OFF),
        _weight_on,
    ),
    "try_switch": _kind(
        "rigger",
        LOW,
        "hands",
        (c.STEADIED, n.at_boom("low", "hands"), c.WEIGHT_ON_ITS_LINE),
        _set(switch="tried by hand"),
    ),
    "see_lamp": _kind("operator", LOW, "", (c.SWITCH_TRIED, c.IN_CAB)),
    "count_in_head": _kind("rigger", LOW, "", (n.at_boom("low", "keepers_counted"), r.HEAD_CLOSED, r.END_MADE)),
    "operator_down": _kind(
        "operator",
        LOW,
        "",
        (c.ISOLATED, c.IN_CAB, n.at_boom("low", "two_counts"), r.HEAD_CLOSED, r.END_MADE),
        _set(operator="ground"),
    ),
    "count_sheaves": _kind(
        "operator", LOW, "", (c.ISOLATED, r.ON_GROUND, n.at_boom("low", "two_counts"), r.HEAD_CLOSED, r.END_MADE)
    ),
    "place_operator": _kind("operator", LOW, "", (c.ISOLATED, r.ON_GROUND, n.at_boom("low", "two_counts"), r.END_MADE)),
    "operator_up": _kind(
        "operator",
        LOW,
        "",
        (c.ISOLATED, r.ON_GROUND, n.after("count_sheaves", "two_counts"), n.after("place_operator", "two_counts")),
        _set(operator="cab"),
    ),
    "up_to_tight": _kind(
        "operator",
        TIGHT,
        "motion",
        (
            c.WINCH_LOCKED,
            c.STEADIED,
            r.PATH_WHOLE,
            r.END_MADE,
            r.HEAD_CLOSED,
            c.OVERRIDE_OFF,
            c.WEIGHT_ON_ITS_LINE,
            c.SWITCH_TRIED,
            n.after("see_lamp", "switch"),
            n.after("count_in_head", "keepers_counted"),
            n.after("count_sheaves", "two_counts"),
            n.after("place_operator", "two_counts"),
            n.at_boom("low", "boom_takes_block"),
        ),
        _set(boom="tight", falls="tight"),
    ),
    "seated": _kind("both", TIGHT, "", (n.at_boom("tight", "boom_takes_block"),)),
    "tight_keeper_in": _kind(
        "rigger",
        TIGHT,
        "hands",
        (
            c.BLOCK_STANDS,
            n.after("seated", "boom_takes_block"),
            r.KEEPER_OUT,
            r.KEEPER_HERE,
            r.KEEPER_MOVES,
            r.PATH_WHOLE_FOR_KEEPER,
        ),
        _keeper_in,
    ),
    "count_in_block": _kind(
        "rigger",
        TIGHT,
        "hands",
        (c.BLOCK_STANDS, n.after("seated", "boom_takes_block"), n.at_boom("tight", "keepers_counted"), r.ALL_IN),
    ),
    "count_ropes": _kind(
        "rigger",
        TIGHT,
        "hands",
        (c.BLOCK_STANDS, n.after("seated", "boom_takes_block"), n.at_boom("tight", "two_counts"), r.ALL_IN),
    ),
    "box_rigger": _kind("rigger", TIGHT, "hands", (c.BLOCK_STANDS, n.at_boom("tight", "keepers_counted"), r.ALL_IN)),
    "box_operator": _kind(
        "operator", TIGHT, "", (c.ISOLATED, n.at_boom("tight", "keepers_counted"), r.ALL_IN, c.IN_CAB)
    ),
    "place_rigger": _kind("rigger", TIGHT, "", (n.at_boom("tight", "two_counts"), r.END_MADE)),
    "compare_counts": _kind(
        "both",
        TIGHT,
        "",
        (
            r.ALL_IN,
            *(n.after(k, "two_counts") for k in ("count_sheaves", "place_operator", "count_ropes", "place_rigger")),
            r.BLOCKS_COUNTED,
            *(
                n.after(k, "keepers_counted")
                for k in (
                    "count_out_block",
                    "count_out_head",
                    "count_in_head",
                    "count_in_block",
                    "box_rigger",
                    "box_operator",
                )
            ),
        ),
    ),
    "set_indicator": _kind(
        "operator", UP, "", (r.COUNTED, c.IN_CAB, n.at_boom("tight", "indicator")), _set(indicator="set")
    ),
    "enter_indicator": _kind("operator", UP, "", (n.after("set_indicator", "indicator"),)),
    "read_indicator": _kind(
        "rigger",
        UP,
        "",
        (
            c.ISOLATED,
            n.after("set_indicator", "indicator"),
        ),
    ),
    "enter_override": _kind("operator", UP, "", (c.OVERRIDE_OFF, c.IN_CAB, n.at_boom("tight", "override"))),
    "see_override": _kind("rigger", UP, "", (c.ISOLATED, c.OVERRIDE_OFF, n.at_boom("tight", "override"))),
    "lift_off": _kind(
        "operator",
        UP,
        "motion",
        (
            c.WINCH_LOCKED,
            r.COUNTED,
            r.ALL_IN,
            c.INDICATOR_READ,
            r.END_MADE,
            c.OVERRIDE_OFF,
            c.OVERRIDE_SEEN,
            c.WEIGHT_ON_ITS_LINE,
            c.SWITCH_TRIED,
            n.at_boom("tight", "boom_takes_block"),
        ),
        _set(boom="up", block="hangs"),
    ),
    "look_level": _kind("rigger", UP, "", (c.BLOCK_HANGS, n.at_boom("up", "boom_takes_block"))),
    "free_winch": _kind(
        "operator",
        PROVE,
        "",
        (c.HANGS_WHOLE, c.WINCH_LOCKED, n.after("look_level", "boom_takes_block")),
        _set(winch="free"),
    ),
    "prove_switch": _kind(
        "operator",
        PROVE,
        "motion",
        (c.WINCH_FREE, c.NOT_ON_SLACK, c.WEIGHT_ON_ITS_LINE, c.OVERRIDE_OFF, n.after("free_winch", "switch")),
        _set(switch="proved"),
    ),
    "card_off": _kind("operator", PROVE, "", (c.SWITCH_LIVE, n.after("prove_switch", "switch"))),
    "spool": _kind("operator", PROVE, "motion", (c.SWITCH_LIVE, c.WINCH_FREE, n.after("prove_switch", "first_lift"))),
    "first_lift": _kind("both", PROVE, "motion", (c.SWITCH_LIVE, c.INDICATOR_READ, n.after("spool", "first_lift"))),
}

SIGNING: Mapping[str, DeedKind] = {
    "sign_operator": _kind("operator", RECORD, "", (n.after("first_lift", "broken_off"),)),
    "sign_rigger": _kind("rigger", RECORD, "", (n.after("first_lift", "broken_off"),)),
}


def kind_of(deed: Deed) -> DeedKind:
    """Return what a deed needs and gives [-].

    Args:
        deed: of a method

    Source: docs/theory/steps.md, "Needs and gives".
    """
    for table in (DEEDS, AUXILIARY, SIGNING):
        if deed.kind in table:
            return table[deed.kind]
    raise KeyError(deed.kind)
