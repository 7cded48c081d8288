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
    "Phones away while anything moves. One motion at a time. Nobody under the boom.",
    "Wind over the limit of the position, lightning, dark: stop, leave it safe.",
    "If anything is not as a step says: stop, nobody moves the crane, find out why.",
)


def _blind(do: str, asks: str, compares: str, look_for: str | None = None) -> Words:
    return Words(do=do, look_for=look_for, asks=asks, blind=True, compares=compares)


WORDS: Mapping[str, Words] = {
    "call_in": Words(
        do="Operator: engine off or locked, key in your pocket, call the rigger in. Then the rigger goes in.",
        look_for="Boom and hook still; no hand out before the call.",
    ),
    "clear_out": Words(
        do="Rigger: come out and show yourself clear. Then the operator takes the crane back.",
        look_for="Hands, tools and chocks clear of rope, sheaves and boom.",
    ),
    "read_stand": _blind(
        "Read counterweight, outriggers and level from the cab's display.", "counterweight, outriggers, level", "stand"
    ),
    "see_stand": _blind(
        "Walk round: read the counterweight plates, look at every outrigger and pad.",
        "counterweight, outriggers, level",
        "stand",
        "Pads flat and whole, ground firm.",
    ),
    "prove_before": Words(
        do="Hook up slowly to the hoist limit switch, under power, on the falls that are on now. Then hook down.",
        look_for="The crane stops before block and head meet. If not: no re-reeving, have it mended.",
        asks="what it stopped",
    ),
    "measure_hook": _blind("Measure from the head shaft to the block shaft.", "metres, to 0.1", "hook height"),
    "read_hook": _blind("Read the hook height under the head from the display.", "metres, to 0.1", "hook height"),
    "lock_winch": Words(
        do="Lock the winch: lever off, tag on. It stays locked until the block hangs again, whole.",
        look_for="From now the boom only derricks: any telescoping voids the hook height.",
    ),
    "read_touch": Words(
        do="Read the boom angle at which the block touched.",
        look_for="Another angle than foretold: the hook was not at its height. Boom up, set the hook again.",
        asks="degrees, to 0.1",
        compares="touch angle",
    ),
    "count_out_block": _blind(
        "Count the keepers and the clips that lie in the box.", "keepers out, clips out", "keepers at the block"
    ),
    "steady": Words(
        do="Chock the block on firm level ground so that it cannot roll or tip when the rope goes slack.",
        look_for="Upright, hook clear of the ground's soft spots; a block falls over as the rope goes slack.",
    ),
    "no_limit_card": Words(
        do="Hang the card in the cab: NO HOIST LIMIT. BOOM DOWN ONLY.",
        look_for="Nothing but boom down until the rigger has the weight back and the lamp has come.",
    ),
    "read_low": Words(
        do="Measure from the ground to the head shaft, and from head shaft to block shaft.",
        look_for="Head clear of the block, within reach of both hands without a step. No ladder.",
        asks="metres, metres",
    ),
    "count_out_head": _blind(
        "Count the keepers and the clips from the head.", "keepers out, clips out", "keepers at the head"
    ),
    "look_sheaves": Words(
        do="Rigger: turn every bare sheave of head and block by hand. Operator: look with him, from the ground.",
        look_for="Groove, flange, bearing: cracks, wear to the rope's print, a sheave that does not turn.",
        asks="seen: good, or what is wrong",
    ),
    "look_end": Words(
        do="Look at the rope's end, wedge and socket.",
        look_for="Broken wires, kinks, crushed strands, core out; wedge and socket of this rope's size.",
        asks="seen: good, or what is wrong",
    ),
    "try_switch": Words(
        do="Lift the switch weight by hand and hold it.",
        look_for="The chain runs free, the weight hangs round one rope only.",
    ),
    "see_lamp": Words(
        do="Look at the cab's display while the rigger holds the weight up.",
        look_for="If the stop does not show, the head stays where it is.",
        asks="what the display showed",
    ),
    "count_in_head": _blind(
        "Count what is left in the box from the head; count the keepers and clips that you put in there.",
        "keepers in, clips in",
        "keepers at the head",
        "Rope under every keeper; each tugged.",
    ),
    "operator_down": Words(do="Come down from the cab, key kept, and go to the head. The rigger stands away from it."),
    "count_sheaves": _blind(
        "Alone at the head: count the sheaves that carry rope and read their numbers.",
        "head sheaves with rope; their numbers; falls",
        "falls",
        "Say no number aloud. Look at sheaves, not at the block.",
    ),
    "place_operator": _blind("Where is the dead end made?", "head anchor by its name, or block", "dead end"),
    "operator_up": Words(do="Back to the cab."),
    "seated": Words(
        do="Ropes tight: look at every sheave and at the drum before anything more.",
        look_for="Rope in every groove, none on a flange or a pin; no turn thrown over another on the drum.",
        asks="seen: good, or what is wrong",
    ),
    "count_in_block": _blind(
        "Count the keepers and clips that you put back; look into the empty box.",
        "keepers in, clips in",
        "keepers at the block",
        "Rope under every keeper; each tugged.",
    ),
    "count_in_old": _blind(
        "Count the keepers and clips back in the old block.", "keepers in, clips in", "keepers at the old block"
    ),
    "count_out_new": _blind(
        "Count the keepers and clips out of the new block.", "keepers out, clips out", "keepers at the block"
    ),
    "count_ropes": _blind(
        "Alone at the block: count the ropes that carry it, the dead end among them.",
        "ropes; falls",
        "falls",
        "Say no number aloud. Follow each rope with the eye from block to head.",
    ),
    "place_rigger": _blind("Where is the dead end made?", "head anchor by its name, or block", "dead end"),
    "compare_counts": Words(
        do="Both counts are shown together: falls, sheave numbers, dead end, keepers, clips, then the pattern.",
        look_for="Any difference: nobody moves the crane. Both count again, each alone.",
    ),
    "set_indicator": Words(
        do="Set the load indicator to the falls and the block that both counted.",
        look_for="Block, counterweight and outriggers on the same page of the display.",
    ),
    "enter_indicator": _blind("Enter what you set.", "falls set, block set", "indicator"),
    "read_indicator": _blind(
        "Read the indicator's display yourself and enter it.", "falls read, block read", "indicator"
    ),
    "look_level": Words(
        do="A hand's width up: look at the block and the falls.",
        look_for="Block level; how far it hangs turned; falls side by side, none wrapped round another.",
        asks="level: yes or no; turned: degrees",
    ),
    "free_winch": Words(do="Take the tag off the winch."),
    "card_off": Words(do="Take the card NO HOIST LIMIT out of the cab."),
    "first_lift": Words(
        do="First lift: small, slow, least height. Nobody under it. The rigger watches the falls.",
        look_for="Turning, wrapping: at the first wrap stop, set down.",
        asks="turns seen",
    ),
    "sign_operator": Words(do="Operator signs: own values only, own digits.", asks="name, licence"),
    "sign_rigger": Words(do="Rigger signs: own values only, own digits.", asks="name, licence"),
}
