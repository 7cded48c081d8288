"""What is asked of boom, its stops and the controls.

In:    one deed with the crane before it.
Out:   fields: what is read, and what it is compared with.
Never: a wanted number in a prompt.
"""

from __future__ import annotations

from math import degrees

from becket.guide.asked import Ask, Asked
from becket.guide.figures_said import degrees_said, down, tenths_said, up, window_of
from becket.guide.script import Field


def sector(asked: Asked) -> tuple[Field, ...]:
    """Return over which side the boom stands [-].

    Args:
        asked: the deed
    """
    want = asked.position.sector
    known = dict.fromkeys([*(row.sector for row in asked.scene.book.rereeve), *asked.scene.book.boom.lowest])
    return (
        Field(
            name="sector",
            kind="choice",
            prompt="The boom stands over the",
            want=want,
            choices=tuple(sorted(known)),
            wrong=f"You entered {{value}}. Step {asked.number} is {want}. Slew, or enter again.",
        ),
    )


def telescoped(asked: Asked) -> tuple[Field, ...]:
    """Return length and code as the display shows them [-].

    Args:
        asked: the deed
    """
    position, number = asked.position, asked.number
    wrong = (
        f"You entered {{value}}. Step {number} is {position.length:.1f} m, {position.code}. Telescope, or enter again."
    )
    return (
        Field(
            name="length",
            kind="number",
            unit="m",
            prompt="Boom length read",
            want=round(position.length, 1),
            tolerance=asked.scene.settings.length_tolerance,
            wrong=wrong,
        ),
        code(asked),
    )


def code(asked: Asked) -> Field:
    """Return the code of the boom length as it is dialled [-].

    Args:
        asked: the deed
    """
    want = asked.position.code
    codes = dict.fromkeys(one.code for one in asked.scene.book.boom.lengths)
    return Field(
        name="code",
        kind="choice",
        prompt="Telescope code read",
        want=want,
        choices=tuple(dict.fromkeys((*codes, want))),
        wrong=f"You entered {{value}}. The position is for {want}. Telescope, or enter again.",
    )


def start_angle(asked: Asked) -> tuple[Field, ...]:
    """Return the angle at which the hook is set [deg].

    Args:
        asked: the deed
    """
    leave = asked.scene.facts.leave
    want = leave.at_angle if leave is not None else asked.scene.settings.leave_angle
    tolerance = round(degrees(asked.scene.settings.angle_tolerance), 2)
    wrong = f"You entered {{value}}°. Step {asked.number} is {degrees_said(want)}. Set it, or enter again."
    return (_angle(want=round(degrees(want), 1), tolerance=tolerance, wrong=wrong),)


def touch_angle(asked: Asked) -> tuple[Field, ...]:
    """Return the angle at which the block touched; the one foretold is told after a wrong one only [deg].

    Args:
        asked: the deed
    """
    lowering = asked.scene.facts.lowering
    angle = lowering.touches_angle if lowering is not None else None
    if angle is None:
        return (_angle(),)
    wrong = (
        f"You entered {{value}}°. It should touch at {degrees_said(angle)}: the hook was set wrong. "
        "Boom up, set it again."
    )
    return (_angle(want=round(degrees(angle), 1), tolerance=asked.touch_tolerance, wrong=wrong),)


def window_angle(asked: Asked) -> tuple[Field, ...]:
    """Return the angle in the weight window [deg].

    Args:
        asked: the deed
    """
    window = window_of(asked.scene)
    if window is None:
        return low_angle(asked)
    said = f"{tenths_said(window[0])} to {tenths_said(window[1])}"
    wrong = f"You entered {{value}}°. Step {asked.number} is {said}. Boom there, or enter again."
    return (_angle(least=window[0], most=window[1], wrong=wrong),)


def low_angle(asked: Asked) -> tuple[Field, ...]:
    """Return the angle of the low position, never under the lowest that is permitted [deg].

    Args:
        asked: the deed
    """
    low, tolerance = asked.position.angle, asked.scene.settings.angle_tolerance
    least = up(degrees(max(low - tolerance, asked.position.lowest)), 1)
    most = down(degrees(low + tolerance), 1)
    wrong = f"You entered {{value}}°. The position is {degrees_said(low)}. Boom there, or enter again."
    return (_angle(least=least, most=most, wrong=wrong),)


def tight_angle(asked: Asked) -> tuple[Field, ...]:
    """Return the angle at which the ropes come tight: far off, and the rope runs another way or is too long [deg].

    Args:
        asked: the deed
    """
    lowering = asked.scene.facts.lowering
    angle = lowering.tight_angle if lowering is not None else None
    if angle is None:
        return (_angle(),)
    wrong = (
        f"You entered {{value}}°. They should come tight at {degrees_said(angle)}. Stop: look at every pass, "
        "the dead end, the tail. Find out why, or enter again."
    )
    return (_angle(want=round(degrees(angle), 1), tolerance=asked.touch_tolerance, wrong=wrong),)


def lift_off_angle(asked: Asked) -> tuple[Field, ...]:
    """Return the angle a hand's width up: from the one foretold, twice the tolerance is given upward [deg].

    Args:
        asked: the deed
    """
    lowering = asked.scene.facts.lowering
    angle = lowering.lift_off_angle if lowering is not None else None
    if angle is None:
        return (_angle(),)
    near, tolerance = round(degrees(angle), 1), asked.touch_tolerance
    wrong = (
        f"You entered {{value}}°. It should lift off at {degrees_said(angle)}. Nobody goes near: look at every pass "
        "and the hook block. Find out why, or enter again."
    )
    return (_angle(least=round(near - tolerance, 1), most=round(near + 2 * tolerance, 1), wrong=wrong),)


def low_measures(asked: Asked) -> tuple[Field, ...]:
    """Return head over ground and head over block, as measured in the low position [m].

    Args:
        asked: the deed
    """
    low, high = asked.position.head_window
    low, high = up(low, 2), down(high, 2)
    block = asked.scene.book.blocks[asked.scene.before.block]
    clear = up(block.clear, 2) if block.clear is not None else None
    return (
        Field(
            name="head",
            kind="number",
            unit="m",
            prompt="Ground to head shaft, measured",
            least=low,
            most=high,
            wrong=f"You entered {{value}} m. In reach and clear: {low:.2f} to {high:.2f} m. Nobody goes in.",
        ),
        Field(
            name="span",
            kind="number",
            unit="m",
            prompt="Head shaft to block shaft, measured",
            least=clear,
            wrong=f"You entered {{value}} m. The block wants {clear or 0:.2f} m clear. Nobody goes in: stop.",
        ),
    )


def controls(asked: Asked) -> tuple[Field, ...]:
    """Return how the controls are locked [-].

    Args:
        asked: the deed
    """
    choices = ("engine off", "controls locked", "neither")
    wrong = "Nobody goes in before the engine is off or the controls are locked."
    prompt = "How is the crane kept still?"
    return (Field(name="controls", kind="choice", prompt=prompt, choices=choices, stops=("neither",), wrong=wrong),)


def _angle(
    *,
    want: float | None = None,
    tolerance: float | None = None,
    least: float | None = None,
    most: float | None = None,
    wrong: str = "",
) -> Field:
    return Field(
        name="angle",
        kind="number",
        unit="deg",
        prompt="Boom angle read",
        want=want,
        tolerance=tolerance,
        least=least,
        most=most,
        wrong=wrong,
    )


ASK_BOOM: dict[str, Ask] = {
    "slew": sector,
    "telescope": telescoped,
    "set_angle": start_angle,
    "read_touch": touch_angle,
    "call_in": controls,
    "down_to_window": window_angle,
    "down_to_low": low_angle,
    "read_low": low_measures,
    "up_to_tight": tight_angle,
    "lift_off": lift_off_angle,
}
