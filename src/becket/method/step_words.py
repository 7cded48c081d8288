"""What a person reads at the deeds that read the same on every crane, in a rigger's words.

In:    nothing.
Out:   what to do, what to look for, what value is entered, whether alone and hidden, what it is compared with.
Never: a count, a setting or a number of falls where a value is asked for; the other person's answer.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True)
class Words:
    """One deed as it is read. ``compares``: entries with the same word here are compared by the machine."""

    do: str
    look_for: str | None = None
    asks: str | None = None
    blind: bool = False
    compares: str | None = None


CAUTIONS = (
    "The maker's manual, the load chart, local law and the competent persons on site govern. Not a load indicator.",
    "Phones away while anything moves. One motion at a time, one person at the rope. Nobody under the boom.",
    "Wind over the limit of the position, lightning, dark: stop, leave it safe.",
    "If anything is not as a step says: stop, nobody moves the crane, find out why.",
    "Broken off: hang the state card on the hook and in the cab. Not signed. Whoever goes on starts the pause again.",
)


def _blind(do: str, asks: str, compares: str, look_for: str | None = None) -> Words:
    return Words(do=do, look_for=look_for, asks=asks, blind=True, compares=compares)


WORDS: Mapping[str, Words] = {
    "brief": Words(
        do="Brief both: who does what, signals, who calls stop. Phones away.",
        look_for="Two people, named. Each can stop the work.",
    ),
    "call_in": Words(
        do="Operator: engine off or locked, key in pocket. Call the rigger in.",
        look_for="Boom and hook still. No hand near before the call.",
    ),
    "clear_out": Words(
        do="Rigger: come out, show yourself clear. Operator: take the crane back.",
        look_for="Hands and tools clear of rope, sheaves and boom. Chocks stay.",
    ),
    "read_stand": _blind(
        "Read counterweight, outriggers and level from the display.", "counterweight, outriggers, level", "stand"
    ),
    "see_stand": _blind(
        "Walk round: read the counterweight plates, see every outrigger and pad.",
        "counterweight, outriggers, level",
        "stand",
        "Pads flat and whole, ground firm.",
    ),
    "prove_before": Words(
        do="Override off. Hook up slowly to the hoist limit switch. Hook down again.",
        look_for="It stops before block and head meet. If not: no re-reeving, have it mended.",
        asks="what it stopped",
    ),
    "measure_hook": _blind(
        "Measure hook block under head, shaft to shaft.",
        "metres, to 0.1",
        "hook height",
        "From the ground, by laser or a marked line. Nobody under it.",
    ),
    "read_hook": _blind(
        "Read hook height under the head from the display.",
        "metres, to 0.1",
        "hook height",
        "Shaft to shaft. Differs from the rigger's or from what was wanted: set it again.",
    ),
    "lock_winch": Words(
        do="Lock the winch: lever off, tag on.",
        look_for="Locked until the block hangs again, whole. Only the boom goes up and down; no telescoping.",
    ),
    "steady": Words(
        do="Chock the block. It must not roll or tip.",
        look_for="Upright, on firm level ground. It tips as the rope goes slack.",
    ),
    "no_limit_card": Words(
        do="Hang the card in the cab: NO HOIST LIMIT. BOOM DOWN ONLY.",
        look_for="Nothing but boom down until weight and lamp are back.",
    ),
    "read_low": Words(
        do="Measure ground to head shaft. Then head shaft to block shaft.",
        look_for="Head clear of the block. Both hands reach the head, no step, no ladder.",
        asks="metres, metres",
    ),
    "count_out_head": _blind(
        "Count keepers and clips out: head and dead end.",
        "keepers out, clips out",
        "keepers at the head",
    ),
    "mark_rope": Words(
        do="Chalk a straight line along the rope's last metres.",
        look_for="Straight now. Later it shows any turn put in.",
    ),
    "look_sheaves": Words(
        do="Turn every bare sheave by hand, head and block. Look.",
        look_for="Groove, flange, bearing: cracks, rope print, a sheave that sticks.",
        asks="seen: good, or what is wrong",
    ),
    "see_sheaves": Words(
        do="Key kept: come down. Look at sheaves and rope end yourself. Go back.",
        look_for="From the ground, your own eyes. The rigger stands away.",
        asks="seen: good, or what is wrong",
    ),
    "look_end": Words(
        do="Look at the rope's end, wedge and socket.",
        look_for="Broken wires, kinks, crushed strands, core out. Wedge and socket of this rope's size.",
        asks="seen: good, or what is wrong",
    ),
    "steady_new": Words(
        do="Chock the new block. It must not roll or tip.",
        look_for="Upright, on firm level ground.",
    ),
    "try_switch": Words(
        do="Lift the switch weight by hand and hold it.",
        look_for="Chain runs free. Weight round one rope only.",
    ),
    "see_lamp": Words(
        do="Look at the display. The rigger holds the weight up.",
        look_for="The stop shows, lamp or message. If not, the boom stays down.",
        asks="what the display showed",
    ),
    "count_in_head": _blind(
        "Count keepers and clips put back: head and dead end.",
        "keepers in, clips in",
        "keepers at the head",
        "Rope under every keeper. Each tugged.",
    ),
    "operator_down": Words(
        do="Come down, key kept. Go to the head alone.", look_for="The rigger stands away from the head."
    ),
    "count_sheaves": _blind(
        "Alone: count the head sheaves with rope, read their numbers.",
        "head sheaves with rope; their numbers; falls",
        "falls",
        "Say no number aloud. Look at the sheaves, not at the block.",
    ),
    "place_operator": _blind("Where is the dead end made?", "head anchor by its name, or block", "dead end"),
    "operator_up": Words(do="Back to the cab."),
    "seated": Words(
        do="Ropes tight: both look at every sheave and the drum.",
        look_for="Rope in every groove, none on a flange or pin. No turn over another on the drum.",
        asks="seen: good, or what is wrong",
    ),
    "count_in_block": _blind(
        "Count keepers and clips put back: block.",
        "keepers in, clips in",
        "keepers at the block",
        "Rope under every keeper. Each tugged.",
    ),
    "count_in_old": _blind(
        "Count keepers and clips put back: old block.", "keepers in, clips in", "keepers at the old block"
    ),
    "count_out_new": _blind(
        "Count keepers and clips out: new block.", "keepers out, clips out", "keepers at the block"
    ),
    "count_ropes": _blind(
        "Alone at the block: count the ropes that carry it, dead end included.",
        "ropes; falls",
        "falls",
        "Say no number aloud. Follow each rope from block to head.",
    ),
    "box_rigger": _blind("Count what is left in the keeper box.", "keepers left, clips left", "left in the box"),
    "box_operator": _blind(
        "The rigger brings the box to the cab: count what is left in it.",
        "keepers left, clips left",
        "left in the box",
        "Any left is open somewhere: stop, find where.",
    ),
    "place_rigger": _blind("Where is the dead end made?", "head anchor by its name, or block", "dead end"),
    "compare_counts": Words(
        do="Show both entries: falls, sheave numbers, dead end, keepers, clips. Then the pattern.",
        look_for="Any difference: nobody moves the crane. Both count again, each alone.",
    ),
    "set_indicator": Words(
        do="Set the load indicator: falls and block both counted.",
        look_for="Block, counterweight and outriggers right as well.",
    ),
    "enter_indicator": _blind("Enter what you set. Both entered: read it aloud.", "falls, block", "indicator"),
    "read_indicator": _blind(
        "Read the indicator yourself, enter it. Both entered: read it aloud.", "falls, block", "indicator"
    ),
    "enter_override": _blind("How does the override stand, where is its key?", "off or on; key out or in", "override"),
    "see_override": _blind(
        "Look in the cab: how does the override stand, where is its key?", "off or on; key out or in", "override"
    ),
    "look_level": Words(
        do="Block a hand's width up: look at block and falls.",
        look_for="Block level. How far it hangs turned. Falls side by side, none wrapped.",
        asks="level: yes or no; turned: degrees",
    ),
    "free_winch": Words(do="Take the tag off the winch."),
    "card_off": Words(do="Take the card out of the cab: NO HOIST LIMIT."),
    "first_lift": Words(
        do="First lift: small, slow, low. The rigger watches the falls.",
        look_for="Nobody under it. Turning, wrapping: at the first wrap stop, set down.",
        asks="turns seen",
    ),
    "sign_operator": Words(do="Operator signs: own values only, own sign-in.", asks="name, licence"),
    "sign_rigger": Words(do="Rigger signs: own values only, own sign-in.", asks="name, licence"),
}
