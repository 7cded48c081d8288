"""The figures of one deed as the phone says them: rounded as the printed steps round them.

In:    a scene, a deed.
Out:   placeholder -> text; what is not known is left out.
Never: a figure that the core does not have; rounding toward danger.
"""

from __future__ import annotations

import re
from math import ceil, degrees, floor

from becket.mechanics.overhaul import GRAVITY
from becket.method.crane_state import Deed
from becket.method.scene import Scene


def figures_of(scene: Scene, deed: Deed) -> dict[str, str]:
    """Return what the texts of the catalogue name, as far as it is known [-].

    Args:
        scene: of the change
        deed: of the method
    """
    return {
        **_names(scene, deed),
        **{name: said for name, said in _measures(scene).items() if said is not None},
    }


def _names(scene: Scene, deed: Deed) -> dict[str, str]:
    after = scene.after
    found: dict[str, str | None] = {
        "pass": deed.of,
        "keeper": deed.of,
        "lock": _lock(scene, deed),
        "fitting": scene.book.dead_end.fitting,
        "anchor": after.dead_end if after.dead_end != "block" else f"the becket of {after.block}",
        "line_before": scene.path.switch_weight_before,
        "line_after": scene.path.switch_weight_after,
        "old_block": scene.before.block,
        "new_block": after.block,
    }
    return {name: text for name, text in found.items() if text}


def _measures(scene: Scene) -> dict[str, str | None]:
    position, leave, lowering = scene.facts.position.position, scene.facts.leave, scene.facts.lowering
    if position is None:
        return {}
    target = leave.target if leave is not None else None
    return {
        "room": f"{up(position.free_radius_needed, 1):.1f} m",
        "sector": position.sector,
        "length": f"{position.length:.1f} m",
        "code": position.code,
        "start": degrees_said(leave.at_angle) if leave is not None else None,
        "target": f"{target:.1f} m" if target is not None else None,
        "low": degrees_said(position.angle),
        "window": _window_said(scene) if lowering is not None else None,
        "pull": _pull_said(scene),
    }


def window_of(scene: Scene) -> tuple[float, float] | None:
    """Return the angles between which the boom stops for the switch weight, rounded into the window [deg].

    Args:
        scene: of the change

    Source: docs/theory/method.md, "The way down and up".
    """
    position, lowering = scene.facts.position.position, scene.facts.lowering
    if position is None or lowering is None or lowering.weight_window is None or scene.is_low_in_window:
        return None
    least, most = lowering.weight_window
    high = min(most, lowering.touches_angle if lowering.touches_angle is not None else most)
    return up(degrees(least), 1), down(degrees(high), 1)


def degrees_said(angle: float) -> str:
    """Return an angle in tenths of a degree, with a true minus [-].

    Args:
        angle: [rad]

    >>> degrees_said(-0.0314159), degrees_said(-0.0001)
    ('−1.8°', '0.0°')
    """
    return tenths_said(degrees(angle))


def tenths_said(angle: float) -> str:
    """Return an angle that is in degrees already [-].

    Args:
        angle: [deg]
    """
    text = f"{angle:.1f}"
    return ("0.0" if text == "-0.0" else text).replace("-", "−") + "°"


def on_the_phone(sentence: str) -> str:
    """Return a sentence of the method with the signs that the phone uses: a true minus, the degree sign [-].

    Args:
        sentence: of a printed step

    >>> on_the_phone("Boom down into -0.9 to 1.2 deg. Code 100-100-0.")
    'Boom down into −0.9 to 1.2°. Code 100-100-0.'
    """
    return re.sub(r" deg\b", "°", re.sub(r"(?<![\w.-])-(?=\d)", "−", sentence))


def up(value: float, digits: int) -> float:
    """Return a value rounded up in its last shown digit, hair's breadths of the float left out [as given].

    Args:
        value: any
        digits: shown after the point
    """
    return ceil(round(value * 10.0**digits, 6)) / 10.0**digits


def down(value: float, digits: int) -> float:
    """Return a value rounded down in its last shown digit, hair's breadths of the float left out [as given].

    Args:
        value: any
        digits: shown after the point
    """
    return floor(round(value * 10.0**digits, 6)) / 10.0**digits


def _lock(scene: Scene, deed: Deed) -> str | None:
    return next((keeper.lock for keeper in scene.keepers if keeper.name == deed.of), None)


def _window_said(scene: Scene) -> str | None:
    window, position = window_of(scene), scene.facts.position.position
    if window is not None:
        return f"{tenths_said(window[0])} to {tenths_said(window[1])}"
    return degrees_said(position.angle) if position is not None and scene.is_low_in_window else None


def _pull_said(scene: Scene) -> str | None:
    rope = scene.book.rope
    if rope.spooling_tension is None or rope.breaking_force is None:
        return None
    load = rope.spooling_tension * rope.breaking_force * scene.after.falls / GRAVITY
    return f"{up(load / 1000, 1):.1f} t"
