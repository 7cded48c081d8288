"""The way down and up found again by two libraries, sharing no code with the product.

SciPy finds each moment by root finding on a balance of the whole rope, the boom as a complex number.
MuJoCo carries boom, head and block as bodies with two spatial tendons: the lead line and the falls.
"""

from __future__ import annotations

from cmath import exp
from math import degrees, pi, radians

import mujoco
import pytest
from scipy.optimize import brentq

from becket.method.lowering import Sample, lower_and_raise
from tests.method.test_leave import leave, way

FOOT, DRUM = complex(-1.45, 3.05), complex(-3.30, 3.55)
SAG, RADIUS = 0.26, 0.19
SHAFT = {"main": (1.10, 0.60), "ball": (0.72, 0.25)}  # touches, stands
PAIRS = (
    ("main:2", "main:4"),
    ("main:6", "main:4"),
    ("main:4", "main:2"),
    ("main:4", "main:6"),
    ("main:2", "main:5"),
    ("ball:1", "main:4"),
    ("main:4", "ball:1"),
)


def straight_head(angle: float) -> complex:
    return FOOT + complex(33.4, -0.48) * exp(complex(0, angle))


def head_up(angle: float) -> float:
    return straight_head(angle).imag - SAG * exp(complex(0, angle)).real


def turned_rope(falls: int) -> float:
    """Return the rope on the sheaves as half turns counted one by one along the path [m]."""
    turns = sum(1 for i in range(1, falls) if i)  # between fall i and fall i + 1 there is one sheave
    return turns * pi * RADIUS


def whole_rope(angle: float, falls: int, span: float) -> float:
    return abs(straight_head(angle) - DRUM) + falls * span + turned_rope(falls)


@pytest.mark.parametrize(("before", "after"), PAIRS)
def test_scipy_finds_the_same_moments(before: str, after: str) -> None:
    """Touch, tight and lift-off where drum to dead end is as long as it was when the winch was locked."""
    height = leave(before, after).target
    assert height is not None
    (old, a), (new, b) = before.split(":"), after.split(":")
    rope = whole_rope(radians(20), int(a), height)

    def moment(falls: int, shaft: float) -> float:
        return float(
            brentq(lambda q: whole_rope(q, falls, head_up(q) - shaft) - rope, radians(-1.5), radians(24), xtol=1e-12)
        )

    found = lower_and_raise(way(before, after), height)
    assert found.touches_angle == pytest.approx(moment(int(a), SHAFT[old][0]), abs=1e-6)
    assert found.tight_angle == pytest.approx(moment(int(b), SHAFT[new][1]), abs=1e-6)
    assert found.lift_off_angle == pytest.approx(moment(int(b), SHAFT[new][0]), abs=1e-6)


def model_of(falls: int) -> mujoco.MjModel:
    """Return boom on a hinge, head, hanging block; lead line and falls as spatial tendons (x forward, z up)."""
    passes = "".join('<site site="head"/><site site="block"/>' for _ in range((falls + 1) // 2))
    if falls % 2 == 0:
        passes += '<site site="head"/>'
    return mujoco.MjModel.from_xml_string(
        f"""
        <mujoco>
          <compiler angle="radian"/>
          <worldbody>
            <site name="drum" pos="-3.30 0 3.55"/>
            <body pos="-1.45 0 3.05">
              <joint name="derrick" type="hinge" axis="0 -1 0"/>
              <geom type="capsule" fromto="0 0 0 33.4 0 0" size="0.2" mass="1000"/>
              <site name="tip" pos="33.4 0 -0.48"/>
            </body>
            <body name="sagged">
              <joint name="head_x" type="slide" axis="1 0 0"/>
              <joint name="head_z" type="slide" axis="0 0 1"/>
              <geom type="sphere" size="0.1" mass="1"/>
              <site name="head"/>
            </body>
            <body name="hook">
              <joint name="block_x" type="slide" axis="1 0 0"/>
              <joint name="block_z" type="slide" axis="0 0 1"/>
              <geom type="sphere" size="0.1" mass="560"/>
              <site name="block"/>
            </body>
          </worldbody>
          <tendon>
            <spatial name="lead"><site site="drum"/><site site="tip"/></spatial>
            <spatial name="falls">{passes}</spatial>
          </tendon>
        </mujoco>
        """
    )


def rope_in(model: mujoco.MjModel, sample: Sample) -> float:
    """Return lead line and falls of a sample as the tendons measure them [m]."""
    data = mujoco.MjData(model)

    def put(joint: str, value: float) -> None:
        data.qpos[model.joint(joint).qposadr[0]] = value

    put("derrick", sample.angle)
    mujoco.mj_kinematics(model, data)
    tip = data.site("tip").xpos
    put("head_x", tip[0])
    put("head_z", tip[2] - SAG * exp(complex(0, sample.angle)).real)
    put("block_x", tip[0])
    put("block_z", sample.block_height)
    mujoco.mj_kinematics(model, data)
    mujoco.mj_tendon(model, data)
    lead, falls = data.ten_length
    return float(lead + falls)


@pytest.mark.parametrize(("before", "after"), PAIRS)
def test_mujoco_tendons_keep_their_length_while_the_block_hangs(before: str, after: str) -> None:
    """Rope from drum to dead end against angle with the winch locked, old falls down and new falls up, to 1 mm."""
    height = leave(before, after).target
    assert height is not None
    found = lower_and_raise(way(before, after), height)
    for direction, falls in (("down", int(before[-1])), ("up", int(after[-1]))):
        model = model_of(falls)
        hanging = [s for s in found.samples if s.way == direction and s.block == "hangs"]
        lengths = [rope_in(model, s) + turned_rope(falls) for s in hanging[:: max(1, len(hanging) // 12)]]
        assert len(lengths) >= 5
        assert max(abs(length - whole_rope(radians(20), int(before[-1]), height)) for length in lengths) < 1e-3


def test_mujoco_sees_a_wrong_number_of_falls() -> None:
    """The check bites: three falls in the model where two hang is metres off."""
    height = leave("main:2", "main:4").target
    assert height is not None
    hanging = next(s for s in lower_and_raise(way("main:2", "main:4"), height).samples if s.way == "down")
    assert abs(rope_in(model_of(3), hanging) - rope_in(model_of(2), hanging)) > 3.0
    assert round(degrees(hanging.angle), 6) == 20.0
