"""The page of one change: the sentences of the method, one after the other, each with its kind.

In:    a change as worked out.
Out:   kinds and sentences; NOT FOR USE where so.
Never: a step, a rule or a figure that the change does not have.
"""

from __future__ import annotations

from becket.cards.change_sheet import NOT_FOR_USE
from becket.drawing.hatch import NOT_CONFIRMED
from becket.figures import said, shown, whole_minutes, window
from becket.method.change import Change
from becket.method.leave import RopeToLeave
from becket.method.lowering import Lowering
from becket.method.position import BoomPosition
from becket.method.step import Step
from becket.verdict import Verdict

PageLine = tuple[str, ...]  # kind, then sentences
_PEOPLE = {"operator": "OPERATOR", "rigger": "RIGGER", "both": "BOTH"}


def change_lines(change: Change, system: str) -> tuple[PageLine, ...]:
    """Return the page of a change line by line [-].

    Args:
        change: as worked out
        system: "metric" or "us"
    """
    return (
        *_verdict(change, system),
        *(_position(change.position, system) if change.position else _no_position(change, system)),
        *(_rope(change.rope_to_leave, system) if change.rope_to_leave else ()),
        *_path(change, system),
        *(_on_the_way(change.simulation, system) if change.simulation else ()),
        *_steps(change, system),
        *_rules(change, system),
    )


def _verdict(change: Change, system: str) -> list[PageLine]:
    lines: list[PageLine] = []
    if change.verdict is not Verdict.PASS:
        lines.append(("stop", f"{NOT_FOR_USE}: {change.verdict}"))
    if not change.is_confirmed:
        lines.append(("hatch", NOT_CONFIRMED))
    if change.minutes:
        basis = "the crew's own records" if change.minutes.from_records else "estimate"
        without = f"; not counted: {', '.join(change.minutes.not_counted)}" if change.minutes.not_counted else ""
        lines.append(("text", f"Time: {whole_minutes(change.minutes.total)} ({basis}{without})."))
    kept = [one for one in change.reasons if one.verdict is not Verdict.PASS]
    if kept:
        lines.append(("head", "What keeps it from use"))
        lines += [_judged(one.verdict, one.name, said(one.why, system)) for one in kept]
    return lines


def _judged(verdict: Verdict, name: str, why: str) -> PageLine:
    return (str(verdict), name.replace("_", " "), why)


def _no_position(change: Change, system: str) -> list[PageLine]:
    if any(reason.name == "position" for reason in change.reasons):
        return []  # said above
    return [("head", "No position"), ("text", said(change.why_no_position or "Unknown.", system))]


def _position(position: BoomPosition, system: str) -> list[PageLine]:
    low, high = position.head_window
    texts = [
        f"Boom {shown(position.length, 'length', system)}, code {position.code}, at "
        f"{shown(position.angle, 'angle', system)} over the {position.sector}.",
        f"Head {shown(position.head_height, 'length', system)} above the ground, window "
        f"{window(low, high, 'length', system)}.",
        f"Head at radius {shown(position.radius, 'length', system, 'up')}. Clear room needed from the slewing axis: "
        f"{shown(position.free_radius_needed, 'length', system, 'up')}.",
        f"Counterweight {shown(position.counterweight, 'mass', system)}, outriggers {position.outriggers}"
        + (f", wind to {position.wind:.1f} m/s" if position.wind is not None else ", wind limit not on file")
        + f". Manual page {position.page or 'not on file'}.",
    ]
    if position.override:
        page = f", page {position.override.page}" if position.override.page else ""
        texts.append(f"The last metres need the override for {position.override.stops}, as the manual allows{page}.")
    return [("head", "Position"), *(("text", text) for text in texts)]


def _rope(leave: RopeToLeave, system: str) -> list[PageLine]:
    angle = shown(leave.at_angle, "angle", system)
    if leave.target is None:
        first = f"No height will do, boom at {angle}."
    else:
        target = shown(leave.target, "length", system, "up")
        first = f"Hook block {target} under the head, shaft to shaft, boom at {angle}. Then lock the winch."
    return [
        ("head", "Rope to leave"),
        ("text", first),
        ("text", f"Least {shown(leave.least, 'length', system, 'up')}: {said(leave.least_because, system)}."),
        ("text", f"Most {shown(leave.most, 'length', system, 'down')}: {said(leave.most_because, system)}."),
    ]


def _path(change: Change, system: str) -> list[PageLine]:
    def listed(things: tuple[object, ...], nothing: str = "nothing") -> str:
        return ", ".join(str(thing) for thing in things) or nothing

    return [
        ("head", "Rope"),
        ("text", f"Stays rigged: {listed(change.keep)}."),
        ("text", f"Draw out, from the dead end back: {listed(change.draw_out)}."),
        ("text", f"Thread, toward the dead end: {listed(change.thread)}."),
        ("text", f"Keepers out and in: {listed(change.keepers, 'none')}."),
        ("text", f"Rope pulled through, in all: {shown(change.rope_pulled, 'length', system, 'up')}."),
    ]


def _on_the_way(run: Lowering, system: str) -> list[PageLine]:
    reach = "?" if run.weight_window is None else window(*run.weight_window, "angle", system)
    return [
        ("head", "On the way down and up, winch locked"),
        ("pair", "block touches, upright, at", shown(run.touches_angle, "angle", system)),
        ("pair", "switch weight comes off at", reach),
        ("pair", "head to block in the low position", shown(run.span_at_low, "length", system, "down")),
        ("pair", "slack on the old falls there", shown(run.slack_at_low, "length", system, "up")),
        ("pair", "lead line takes on the way down", shown(run.lead_change, "length", system, "up")),
        ("pair", "new falls tight at", shown(run.tight_angle, "angle", system)),
        ("pair", "block leaves the ground at", shown(run.lift_off_angle, "angle", system)),
        ("pair", "head beside the plumb there", shown(run.off_plumb, "length", system, "up")),
        ("pair", "least distance head to block", shown(run.least_head_clearance, "length", system, "down")),
        ("pair", "left over what must stay clear", shown(run.clear_over_block, "length", system, "down")),
    ]


def _steps(change: Change, system: str) -> list[PageLine]:
    lines: list[PageLine] = []
    phase = ""
    for step in change.steps:
        if step.phase != phase:
            phase = step.phase
            lines.append(("head", phase.replace("_", " ").capitalize()))
        lines.append(_step(step, system))
    return lines


def _step(step: Step, system: str) -> PageLine:
    look = f"Look: {said(step.look_for, system)}" if step.look_for else ""
    alone = ", alone and hidden from the other" if step.blind else ""
    enter = f"Enter{alone}: {step.value_asked}" if step.value_asked else ""
    return ("step", str(step.number), _PEOPLE.get(step.who, step.who.upper()), said(step.do, system), look, enter)


def _rules(change: Change, system: str) -> list[PageLine]:
    if not change.rules:
        return []
    lines: list[PageLine] = [("head", "Rules, each proved over the steps")]
    for rule in change.rules:
        where = f", step {rule.step}" if rule.step is not None else ""
        lines.append(_judged(rule.verdict, f"{rule.name}{where}", said(rule.why, system) if rule.why else ""))
    return lines
