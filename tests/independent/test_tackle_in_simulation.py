"""Tackles in an independent engine: MuJoCo spatial tendons that wrap round real sheaves.

The engine knows the rope's path, the sheaves and gravity, nothing of becket. It measures the rope, the
ratio of the tackle (its tendon's moment on the sliding block) and the force that holds the block at rest;
becket's functions are then held against what was measured. Without friction: K = 1.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, pi, radians, sin

import mujoco
import pytest

from becket.mechanics.reach import deepest_fall, first_arc, rope_out, sheave_arcs
from becket.mechanics.tackle import lead_line_pull, static_tensions

HEAD, BLOCK, BELOW = 0.21, 0.19, 0.03  # radii; head sites stand this far below the head shaft [m]
HEAD_HEIGHT, MASS, GRAVITY = 12.0, 850.0, 9.80665
FALLS = [2, 3, 4, 5, 6, 8, 12]


@dataclass(frozen=True, kw_only=True)
class Measured:
    """What the engine says of a tackle with the block shaft at a height."""

    length: float  # rope from the first fall's site at the head to its end [m]
    wrapped: float  # of it on the sheaves [m]
    ratio: float  # rope drawn in for each metre the block rises [-]
    pull_at_rest: float  # tendon force that gives the block no acceleration [N]
    ends: float  # rope of the path that a shaft to shaft count leaves out or adds [m]


def _path(falls: int) -> str:
    """The tendon as the engine reads it: a site at the head for each fall, between them the sheave that turns it.

    Round a block sheave the rope goes underneath, round a head sheave over the top; of an odd number the last
    fall ends at the block's shaft.
    """
    elements = ['<site site="top0"/>']
    for fall in range(1, falls):
        number = (fall - 1) // 2
        sheave = (
            f'geom="block{number}" sidesite="under{number}"'
            if fall % 2
            else f'geom="head{number}" sidesite="over{number}"'
        )
        elements.append(f'<geom {sheave}/><site site="top{fall}"/>')
    if falls % 2:
        elements.append('<site site="becket"/>')
    return "".join(elements)


def _model(falls: int) -> str:
    """Head sheaves of radius HEAD and block sheaves of radius BLOCK in a row, every fall plumb.

    Falls stand at x[0], x[1], ...: two block radii apart round a block sheave, two head radii round a head sheave.
    """
    x = [0.0]
    for fall in range(1, falls):
        x.append(x[-1] - 2 * (BLOCK if fall % 2 else HEAD))
    cylinder = 'type="cylinder" euler="90 0 0" contype="0" conaffinity="0" mass="0"'
    world, block = [], []
    for i, place in enumerate(x):
        world.append(f'<site name="top{i}" pos="{place} 0 {HEAD_HEIGHT - BELOW}"/>')
    for i in range(falls - 1):
        middle, number = (x[i] + x[i + 1]) / 2, i // 2
        if i % 2:
            world.append(f'<geom name="head{number}" {cylinder} size="{HEAD} .02" pos="{middle} 0 {HEAD_HEIGHT}"/>')
            world.append(f'<site name="over{number}" pos="{middle} 0 {HEAD_HEIGHT + 2 * HEAD}"/>')
        else:
            block.append(f'<geom name="block{number}" {cylinder} size="{BLOCK} .02" pos="{middle} 0 0"/>')
            block.append(f'<site name="under{number}" pos="{middle} 0 {-2 * BLOCK}"/>')
    block.append(f'<site name="becket" pos="{x[-1]} 0 0"/>')
    return (
        f'<mujoco><option gravity="0 0 {-GRAVITY}"/><worldbody>{"".join(world)}'
        f'<body name="hook" pos="0 0 0"><joint name="hoist" type="slide" axis="0 0 1"/>'
        f'<inertial pos="0 0 0" mass="{MASS}" diaginertia="1 1 1"/>{"".join(block)}</body></worldbody>'
        f'<tendon><spatial name="rope">{_path(falls)}</spatial></tendon>'
        f'<actuator><motor name="winch" tendon="rope"/></actuator></mujoco>'
    )


def _measure(falls: int, height: float) -> Measured:
    model = mujoco.MjModel.from_xml_string(_model(falls))
    data = mujoco.MjData(model)
    data.qpos[0] = height
    mujoco.mj_forward(model, data)
    length, ratio = float(data.ten_length[0]), -float(data.actuator_moment.ravel()[0])
    at_rest = -float(data.qfrc_bias[0]) / ratio  # a rope pulls: negative force on a tendon
    data.ctrl[0] = at_rest
    mujoco.mj_forward(model, data)
    assert abs(float(data.qacc[0])) < 1e-6, "the block does not rest"
    straight = _straight(model, data)
    ends = BELOW * (1 + (falls % 2 == 0))  # first fall begins, an even tackle ends BELOW the head shaft
    return Measured(length=length, wrapped=length - straight, ratio=ratio, pull_at_rest=-at_rest, ends=ends)


def _straight(model: mujoco.MjModel, data: mujoco.MjData) -> float:
    """The straight pieces of the tendon: wrap points in pairs that are not on one sheave."""
    first, count = int(data.ten_wrapadr[0]), int(data.ten_wrapnum[0])
    points, objects = data.wrap_xpos.reshape(-1, 3)[first : first + count], data.wrap_obj.ravel()[first : first + count]
    total = 0.0
    for i in range(count - 1):
        on_one_sheave = objects[i] >= 0 and objects[i] == objects[i + 1]
        if not on_one_sheave:
            total += float(((points[i + 1] - points[i]) ** 2).sum() ** 0.5)
    return total


@pytest.mark.parametrize("falls", FALLS)
@pytest.mark.parametrize("height", [0.0, 7.5])
def test_length_of_the_rope(falls: int, height: float) -> None:
    measured, fall = _measure(falls, height), HEAD_HEIGHT - height
    arcs = sheave_arcs(falls, 2 * BLOCK, 2 * HEAD)
    assert rope_out(0.0, 0.0, falls, fall, arcs, -measured.ends) == pytest.approx(measured.length, abs=1e-6)
    assert deepest_fall(measured.length, 0.0, 0.0, falls, arcs, -measured.ends) == pytest.approx(fall, abs=1e-6)


@pytest.mark.parametrize("falls", FALLS)
def test_rope_on_the_sheaves(falls: int) -> None:
    """The engine's own wrap points: half a turn on every sheave; becket's arcs are those."""
    measured = _measure(falls, 3.0)
    assert measured.wrapped >= 0.999 * pi * (falls - 1) * min(HEAD, BLOCK)
    assert sheave_arcs(falls, 2 * BLOCK, 2 * HEAD) == pytest.approx(measured.wrapped, abs=1e-6)


@pytest.mark.parametrize("falls", FALLS)
def test_ratio_of_the_tackle(falls: int) -> None:
    """Rope that comes in for each metre of hoist, by the engine's moment and by moving the block."""
    assert _measure(falls, 3.0).ratio == pytest.approx(falls, rel=1e-9)
    moved = _measure(falls, 3.0).length - _measure(falls, 3.5).length
    assert moved / 0.5 == pytest.approx(falls, rel=1e-9)


@pytest.mark.parametrize("falls", FALLS)
def test_force_that_holds_the_block(falls: int) -> None:
    held = _measure(falls, 3.0).pull_at_rest
    assert static_tensions(MASS * GRAVITY, falls)[0] == pytest.approx(held, rel=1e-9)
    assert lead_line_pull(MASS * GRAVITY, falls, 1.0, 2) == pytest.approx(held, rel=1e-9)


@pytest.mark.parametrize("falls", [2, 4, 6])
def test_a_tenth_more_pull_raises_the_block(falls: int) -> None:
    """The engine is not blind: with a tenth more the block starts up at a tenth of gravity."""
    model = mujoco.MjModel.from_xml_string(_model(falls))
    data = mujoco.MjData(model)
    data.ctrl[0] = -1.1 * static_tensions(MASS * GRAVITY, falls)[0]
    mujoco.mj_forward(model, data)
    assert float(data.qacc[0]) == pytest.approx(0.1 * GRAVITY, rel=1e-6)


def _lead_model(angle: float, along: float) -> str:
    """A lead line along a boom at an angle, over the head sheave, straight down in front of it."""
    x, z = -HEAD * sin(angle) - along * cos(angle), HEAD_HEIGHT + HEAD * cos(angle) - along * sin(angle)
    return (
        f"<mujoco><worldbody>"
        f'<geom name="head" type="cylinder" euler="90 0 0" size="{HEAD} .02" pos="0 0 {HEAD_HEIGHT}"/>'
        f'<site name="over" pos="0 0 {HEAD_HEIGHT + 2 * HEAD}"/><site name="drum" pos="{x} 0 {z}"/>'
        f'<site name="low" pos="{HEAD} 0 {HEAD_HEIGHT - 5}"/></worldbody>'
        '<tendon><spatial name="rope"><site site="drum"/><geom geom="head" sidesite="over"/><site site="low"/>'
        "</spatial></tendon></mujoco>"
    )


@pytest.mark.parametrize("degrees", [0.0, 20.0, 45.0, 78.0])
def test_rope_on_the_first_head_sheave(degrees: float) -> None:
    """The engine wraps the lead line over the head: a quarter turn and the boom angle."""
    model = mujoco.MjModel.from_xml_string(_lead_model(radians(degrees), 8.0))
    data = mujoco.MjData(model)
    mujoco.mj_forward(model, data)
    assert first_arc(radians(degrees), 2 * HEAD) == pytest.approx(float(data.ten_length[0]) - 8.0 - 5.0, abs=1e-6)
