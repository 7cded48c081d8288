"""The change from one reeving to another, as text.

In:    the change as worked out.
Out:   position, rope to leave, threading, what happens on the way, steps, rules; NOT FOR USE where so.
Never: a step or a rule that the change does not have.
"""

from __future__ import annotations

from becket.book.crane import Book
from becket.cli.lines import listed, plain_name, wrapped
from becket.cli.text_pattern import NOT_CONFIRMED
from becket.figures import said, shown, whole_minutes, window
from becket.method.change import Change
from becket.method.leave import RopeToLeave
from becket.method.lowering import Lowering
from becket.method.position import BoomPosition
from becket.method.step import Step
from becket.method.step_words import CAUTIONS
from becket.verdict import Verdict

NOT_FOR_USE = "NOT FOR USE"
LETTERS = {"operator": "O", "rigger": "R", "both": "O R"}


def change_text(book: Book, change: Change, system: str) -> str:
    """Return the whole answer, at most 80 columns wide [-].

    Args:
        book: the crane
        change: as worked out
        system: "metric" or "us"
    """
    parts = [
        _head(book, change),
        _reasons(change, system),
        _position(change.position, system) if change.position else _no_position(change, system),
        _rope(change.rope_to_leave, system) if change.rope_to_leave else "",
        _path(change, system),
        _on_the_way(change.simulation, system) if change.simulation else "",
        _cautions(change),
        _steps(change, system),
        _rules(change, system),
    ]
    return "\n\n".join(part for part in parts if part)


def _head(book: Book, change: Change) -> str:
    lines = [f"{change.before} to {change.after}, {book.crane}. {book.manual_title}, issue {book.manual_issue or '?'}."]
    if change.verdict is not Verdict.PASS:
        lines.append(f"{NOT_FOR_USE}: {change.verdict}.")
    if not change.is_confirmed:
        lines.append(f"{NOT_CONFIRMED}.")
    if change.minutes:
        basis = "the crew's own records" if change.minutes.from_records else "estimate"
        without = f"; not counted: {listed(change.minutes.not_counted)}" if change.minutes.not_counted else ""
        lines.append(f"Time: {whole_minutes(change.minutes.total)} ({basis}{without}).")
    return "\n".join(wrapped(line) for line in lines)


def _reasons(change: Change, system: str) -> str:
    said_below = ("position",)  # under its own heading
    open_ones = [r for r in change.reasons if r.verdict is not Verdict.PASS and r.name not in said_below]
    lines = [wrapped(f"{plain_name(one.name)}: {said(one.why, system)}", f"{one.verdict!s:<7}  ") for one in open_ones]
    return "\n".join(["What keeps it from use", *lines]) if lines else ""


def _no_position(change: Change, system: str) -> str:
    return "\n".join(["No position", wrapped(said(change.why_no_position or "unknown", system), "  ")])


def _position(position: BoomPosition, system: str) -> str:
    low, high = position.head_window
    page = f"manual page {position.page}" if position.page else "page not on file"
    wind = f", wind to {position.wind:.1f} m/s" if position.wind is not None else ""
    texts = [
        f"Boom {shown(position.length, 'length', system)} ({position.code}) at "
        f"{shown(position.angle, 'angle', system)} over the {position.sector}, head "
        f"{shown(position.head_height, 'length', system)} above the ground "
        f"(window {window(low, high, 'length', system)}).",
        f"Counterweight {shown(position.counterweight, 'mass', system)}, outriggers {position.outriggers}{wind}; "
        f"{page}.",
        f"Head at radius {shown(position.radius, 'length', system, 'up')}; clear room needed from the slewing axis "
        f"{shown(position.free_radius_needed, 'length', system, 'up')}.",
    ]
    if position.override:
        page = f", page {position.override.page}" if position.override.page else ""
        texts.append(f"The last metres need the override for {position.override.stops}, as the manual allows{page}.")
    return "\n".join(["Position", *(wrapped(text, "  ") for text in texts)])


def _rope(leave: RopeToLeave, system: str) -> str:
    angle = shown(leave.at_angle, "angle", system)
    if leave.target is None:
        head = f"No height will do, boom at {angle}."
    else:
        target = shown(leave.target, "length", system, "up")
        head = f"Hook block {target} under the head, shaft to shaft, boom at {angle}. Then lock the winch."
    texts = [
        head,
        f"Least {shown(leave.least, 'length', system, 'up')}: {said(leave.least_because, system)}.",
        f"Most {shown(leave.most, 'length', system, 'down')}: {said(leave.most_because, system)}.",
    ]
    return "\n".join(["Rope to leave", *(wrapped(text, "  ", "    ") for text in texts)])


def _path(change: Change, system: str) -> str:
    pulled = shown(change.rope_pulled, "length", system, "up")
    texts = [
        f"Stays rigged: {listed(change.keep)}.",
        f"Draw out, from the dead end back: {listed(change.draw_out)}.",
        f"Thread, toward the dead end: {listed(change.thread)}.",
        f"Keepers out and in: {listed(change.keepers, 'none')}.",
        f"Rope pulled through, in all: {pulled}.",
    ]
    return "\n".join(["Rope", *(wrapped(text, "  ", "    ") for text in texts)])


def _on_the_way(run: Lowering, system: str) -> str:
    reach = "?" if run.weight_window is None else window(*run.weight_window, "angle", system)
    rows = (
        ("block touches, upright, at", shown(run.touches_angle, "angle", system)),
        ("switch weight comes off at", reach),
        ("head to block in the low position", shown(run.span_at_low, "length", system, "down")),
        ("slack on the old falls there", shown(run.slack_at_low, "length", system, "up")),
        ("lead line takes on the way down", shown(run.lead_change, "length", system, "up")),
        ("new falls tight at", shown(run.tight_angle, "angle", system)),
        ("block leaves the ground at", shown(run.lift_off_angle, "angle", system)),
        ("head beside the plumb there", shown(run.off_plumb, "length", system, "up")),
        ("least distance head to block", shown(run.least_head_clearance, "length", system, "down")),
        ("left over what must stay clear", shown(run.clear_over_block, "length", system, "down")),
    )
    return "\n".join(["On the way down and up, winch locked", *(f"  {name:<36}{figure:>20}" for name, figure in rows)])


def _cautions(change: Change) -> str:
    """Return the lines that hold for every step; the first of them ends every answer anyway."""
    lines = [wrapped(line, "  ") for line in CAUTIONS[1:]]
    return "\n".join(["At every step", *lines]) if change.steps else ""


def _steps(change: Change, system: str) -> str:
    lines, phase = [], ""
    for step in change.steps:
        if step.phase != phase:
            phase = step.phase
            lines.append(f"  {plain_name(phase)}")
        lines.append(_step(step, system))
    return "\n".join(["Steps (O operator, R rigger)", *lines]) if lines else ""


def _step(step: Step, system: str) -> str:
    lines = [wrapped(said(step.do, system), f"{step.number:>4}  {LETTERS.get(step.who, step.who):<4}")]
    if step.look_for:
        lines.append(wrapped(f"Look: {said(step.look_for, system)}", " " * 10))
    if step.value_asked:
        alone = ", alone and hidden from the other" if step.blind else ""
        lines.append(wrapped(f"Enter{alone}: {step.value_asked}", " " * 10))
    return "\n".join(lines)


def _rules(change: Change, system: str) -> str:
    if not change.steps and change.rules:
        return wrapped(f"No steps, so no rule is proved: {said(change.rules[0].why, system)}.")
    lines = [
        wrapped(
            plain_name(rule.name)
            + (f", step {rule.step}" if rule.step is not None else "")
            + (f": {said(rule.why, system)}" if rule.why else ""),
            f"{rule.verdict!s:<7}  ",
        )
        for rule in change.rules
    ]
    return "\n".join(["Rules, each proved over the steps", *lines]) if lines else ""
