"""What is asked of people and site: signals, room, ground, slope, wind.

In:    one deed with the crane before it.
Out:   fields: what is measured, and what it is compared with.
Never: a wanted number in a prompt; a site figure in place of one that was measured.
"""

from __future__ import annotations

from math import degrees

from becket.guide.asked import Ask, Asked
from becket.guide.figures_said import down, up
from becket.guide.script import Field
from becket.method.site import ground_at_head


def how_signalled(asked: Asked) -> tuple[Field, ...]:
    """Return how both signal [-].

    Args:
        asked: the deed
    """
    return (Field(name="signals", kind="choice", prompt="How do you signal?", choices=("hands", "radio")),)


def area(asked: Asked) -> tuple[Field, ...]:
    """Return the figures of the site: room, ground, slope, wind [-].

    Args:
        asked: the deed
    """
    return (
        free_radius(asked),
        _ground(asked),
        Field(
            name="slope",
            kind="number",
            unit="deg",
            prompt="Slope of the ground under the block",
            least=0.0,
            most=down(degrees(asked.scene.settings.slope_most), 1),
            wrong="You entered {value}°. Too steep: the block would not stand. Another place, or stop.",
        ),
        wind(asked),
    )


def free_radius(asked: Asked) -> Field:
    """Return the clear room that is paced or measured [m].

    Args:
        asked: the deed
    """
    need = up(asked.position.free_radius_needed, 1)
    return Field(
        name="free_radius",
        kind="number",
        unit="m",
        prompt="Clear room from the slewing axis, measured",
        least=need,
        wrong=f"You entered {{value}} m. {need:.1f} m are needed. Make room, or stop.",
    )


def wind(asked: Asked) -> Field:
    """Return the wind that is read; the position's limit where it is on file [m/s].

    Args:
        asked: the deed
    """
    most = asked.position.wind
    limit = f"The position allows {most:.0f} m/s." if most is not None else ""
    return Field(
        name="wind",
        kind="number",
        unit="m/s",
        prompt="Wind read" if most is not None else "Wind read. Its limit is not on file: see the manual",
        least=0.0,
        most=most,
        wrong=f"You entered {{value}} m/s. {limit} Wait, or stop.".replace("  ", " "),
    )


def _ground(asked: Asked) -> Field:
    """Ground at the head: within the setting, and so that the head stays in its window."""
    position, tolerance = asked.position, asked.scene.settings.ground_tolerance
    level = ground_at_head(asked.scene.facts.site)
    low, high = position.head_window
    least = up(level + max(-tolerance, position.head_height - high), 2)
    most = down(level + min(tolerance, position.head_height - low), 2)
    return Field(
        name="ground",
        kind="number",
        unit="m",
        prompt="Ground at the head over the ground at the crane; lower is minus",
        least=least,
        most=most,
        wrong=f"You entered {{value}} m. This script is for {least:+.2f} to {most:+.2f} m. "
        "Stop: work the change out anew for this ground.",
    )


ASK_SITE: dict[str, Ask] = {"brief": how_signalled, "close_area": area}
