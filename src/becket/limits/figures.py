"""Figures that may be missing, carried as such.

In:    numbers, or the reason why there is none.
Out:   numbers, or the reasons of all of them together.
Never: a default in place of a figure.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TypeVar

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Missing:
    """Figures that are not on file, each in words with where manuals print it."""

    figures: tuple[str, ...]

    @property
    def why(self) -> str:
        """The sentence for the crew."""
        return "Not on file: " + "; ".join(self.figures) + "."


@dataclass(frozen=True, slots=True)
class Impossible:
    """The lift cannot stand there at all: a reason to fail."""

    why: str


Figure = float | Missing | Impossible


def worked_out(function: Callable[..., T], *figures: object) -> T | Missing | Impossible:
    """Return what the function makes of the figures, or the troubles of all of them together [-].

    Something impossible goes before something missing: it fails whatever the missing figure is.

    >>> worked_out(max, 1.0, 2.0)
    2.0
    >>> worked_out(max, 1.0, Missing(("drag of the drum",)))
    Missing(figures=('drag of the drum',))
    """
    for figure in figures:
        if figure.__class__ is Missing or figure.__class__ is Impossible:
            return trouble_of(figures)
    return function(*figures)


def trouble_of(figures: tuple[object, ...]) -> Missing | Impossible:
    """Return the troubles among the figures as one [-].

    >>> trouble_of((1.0, Missing(("a",)), Missing(("b", "a"))))
    Missing(figures=('a', 'b'))
    >>> trouble_of((Missing(("a",)), Impossible("Out of reach.")))
    Impossible(why='Out of reach.')
    """
    named: dict[str, None] = {}
    for figure in figures:
        if isinstance(figure, Impossible):
            return figure
        if isinstance(figure, Missing):
            named.update(dict.fromkeys(figure.figures))
    return Missing(tuple(named))


def on_file(value: T | None, field: str, name: str = "") -> T | Missing:
    """Return the value, or which figure is missing and where manuals print it [-].

    Args:
        value: as the book or the lift has it
        field: its path, a key of ``PRINTED``; ``*`` stands for the name
        name: of the block or anchor

    >>> on_file(None, "rope.torque_factor").figures
    ("torque factor of the rope (rope.torque_factor), on the rope's certificate or its maker's sheet",)
    """
    return missing(field, name) if value is None else value


def missing(field: str, name: str = "") -> Missing:
    """Return which figure is missing and where manuals print it [-].

    Args:
        field: its path, a key of ``PRINTED``; ``*`` stands for the name
        name: of the block, anchor or layer

    >>> missing("rope.swivel").why
    "Not on file: whether the rope may run on a swivel (rope.swivel), on the rope maker's sheet."
    """
    words, where = PRINTED[field]
    return Missing((f"{words.replace('*', name)} ({field.replace('*', name)}), {where}",))


_BLOCK = "on the block's plate or the page of the manual on hook blocks"
_HEAD = "in the manual's drawing of the boom head"
_WINCH = "in the manual's data of the hoist"
_SWITCH = "in the manual's page on the hoist limit switch"
_LIFT = "to be given with the lift"

# field path -> what it is, where manuals print it
PRINTED = {
    "sheave_efficiency": ("efficiency of one sheave", "in the manual's data of the hoist, next to the line pull"),
    "boom.sag": ("sag of the level boom at this length", "measured once: boom level, nothing on the hook"),
    "boom.lowest": ("lowest boom angle of this sector", "in the manual's working ranges"),
    "head.rope_diameter": ("rope diameter of the head's grooves", _HEAD),
    "head.lead": ("side on which the lead line meets its head sheave", "in the manual's reeving drawings"),
    "head.anchors.*.along": ("place along the boom of the anchor *", _HEAD),
    "head.anchors.*.below": ("depth under the head shaft of the anchor *", _HEAD),
    "head.anchors": ("anchors for the dead end at the head", _HEAD),
    "winch.at": ("place of the winch drum, or lead_run in its stead", "in the manual's general drawing"),
    "winch.at.z": ("height of the winch drum", "in the manual's general drawing"),
    "winch.least_wraps": ("least wraps on the drum", _WINCH),
    "winch.pull": ("permitted line pull at layer *", _WINCH),
    "winch.speed": ("line speed at layer *", _WINCH),
    "winch.guide_sheaves": ("guide sheaves between drum and head", "in the manual's reeving drawings"),
    "winch.drag": ("pull that turns the empty drum", "measured once with a spring balance, or " + _WINCH),
    "second_line": ("what hangs on the second line", "seen on the crane; none is an answer"),
    "stowed": (
        "what else hangs on the boom",
        "seen on the crane, and on the load chart's page of deductions",
    ),
    "stowed.deduct": ("deduction for * at this boom length", "on the load chart's page of deductions"),
    "rope.length": ("length of the rope now", "in the rope's log, cuts taken off"),
    "rope.mass": ("mass of a metre of rope", "on the rope's certificate"),
    "rope.breaking_force": ("breaking force of the rope", "on the rope's certificate"),
    "rope.design_factor": (
        "design factor of the rope",
        "in the manual's rope page, or in a rule set that the settings name",
    ),
    "rope.torque_factor": ("torque factor of the rope", "on the rope's certificate or its maker's sheet"),
    "rope.rotation_resistant": ("whether the rope is rotation resistant", "on the rope's certificate"),
    "rope.swivel": ("whether the rope may run on a swivel", "on the rope maker's sheet"),
    "dead_end.rope_diameter": ("rope diameter of the dead-end fitting", "stamped on the fitting"),
    "dead_end.efficiency": ("efficiency of the dead-end fitting", "on the fitting maker's sheet"),
    "dead_end.tail": ("tail of rope behind the dead end", "on the fitting maker's sheet"),
    "blocks.*.rated": ("rated load of the block *", _BLOCK),
    "blocks.*.mass": ("mass of the block *", _BLOCK),
    "blocks.*.rope_diameter": ("rope diameter of the grooves of the block *", _BLOCK),
    "blocks.*.sheave_diameter": ("sheave diameter of the block *", _BLOCK),
    "blocks.*.becket": ("place of the dead end on the block *", _BLOCK),
    "blocks.*.becket.above": ("height over the sheave shaft of the dead end on the block *", _BLOCK),
    "blocks.*.hook": ("distance from sheave shaft to hook saddle of the block *", _BLOCK),
    "blocks.*.mass_centre": ("mass centre of the empty block *", _BLOCK),
    "blocks.*.swivel": ("whether the block * has a swivel", _BLOCK),
    "switch.trips": (
        "distance at which the hoist limit switch trips",
        "in the manual's page on the hoist limit switch",
    ),
    "switch.margin": ("margin kept beyond the trip distance", "in the manual's page on the hoist limit switch"),
    "fleet.sheave": ("fleet angle limit at a sheave", "in the manual's rope page or on the rope maker's sheet"),
    "fleet.drum": ("fleet angle limit at the drum", "in the manual's rope page or on the rope maker's sheet"),
    "falls_table": ("the maker's falls table, or that there is none", "in the manual's pages on reeving"),
    "patterns": ("reeving pattern *", "in the manual's pages on reeving"),
    "charts": ("load chart *", "in the manual's load charts, to be typed with its rows"),
    "charts.*.counterweight": ("counterweight of the chart *", "at the top of the chart's page"),
    "charts.*.outriggers": ("outriggers of the chart *", "at the top of the chart's page"),
    "charts.*.sector": ("sector of the chart *", "at the top of the chart's page"),
    "lift.load": ("load of the lift", _LIFT),
    "lift.rigging": ("mass of the rigging", _LIFT),
    "lift.boom": ("boom length of the lift", _LIFT),
    "lift.radius": ("radius of the lift", _LIFT),
    "lift.top": ("highest place of the hook", _LIFT),
    "lift.bottom": ("lowest place of the hook", _LIFT),
    "lift.chart": ("name of the load chart", _LIFT),
    "lift.sector": ("sector of the lift", _LIFT),
    "lift.code": ("telescoping code of the boom", "in the manual's table of boom lengths"),
}
