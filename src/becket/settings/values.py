"""Named values of the method, each with its reason.

In:    values in SI, read from ``settings.csv`` and a crew's ``becket.settings.yaml`` by the intake.
Out:   one frozen record; nothing numeric of the method stands anywhere else.
Never: files, units.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, kw_only=True)
class Settings:
    """The values in force. ``replaced`` names those that the crew replaced, with the crew's source."""

    estimate_allowance: float  # [-]
    estimate_use_most: float  # [-]
    dead_end_share: float  # [-]
    overhaul_ratio_least: float  # [-]
    overhaul_margin: float  # [-]
    twist_pass: float  # [rad]
    twist_fail: float  # [rad]
    tilt_pass: float  # [rad]
    tilt_fail: float  # [rad]
    rub_distance: float  # [-]
    pitch_share: float  # [-]
    hand_height: float  # [m]
    work_room: float  # [m]
    slope_most: float  # [rad]
    leave_angle: float  # [rad]
    leave_rope_per_fall: float  # [m]
    leave_rope_dead_end: float  # [m]
    leave_slack_most: float  # [m]
    leave_plumb_share: float  # [-]
    leave_factor: float  # [-]
    leave_step: float  # [m]
    switch_up_clear: float  # [m]
    weight_window_clear: float  # [m]
    weight_reach: float  # [m]
    touch_tolerance: float  # [rad]
    angle_tolerance: float  # [rad]
    length_tolerance: float  # [m]
    hook_tolerance: float  # [m]
    ground_tolerance: float  # [m]
    switch_tolerance: float  # [m]
    plate_tolerance: float  # [kg]
    wedge_tolerance: float  # [m]
    prepare: float  # [s]
    telescope_speed: float  # [m/s]
    derrick_speed: float  # [rad/s]
    stop: float  # [s]
    stops: float  # [-]
    keeper_out: float  # [s]
    keeper_in: float  # [s]
    pass_out: float  # [s]
    pass_in: float  # [s]
    metre: float  # [s]
    dead_end_make: float  # [s]
    switch_weight: float  # [s]
    inspection: float  # [s]
    counts: float  # [s]
    indicator: float  # [s]
    limit_test: float  # [s]
    spooling: float  # [s]
    block_exchange: float  # [s]
    block_from_lorry: float  # [s]
    pace: float  # [-]
    records_needed: float  # [-]
    records_least_share: float  # of the minutes planned when the change began [-]
    file_size_most: float  # [byte]
    file_depth_most: float  # [-]
    file_values_most: float  # [-]
    rules: str | None = None  # name of the rule set chosen
    reasons: Mapping[str, str] = field(default_factory=dict)  # setting -> reason or source
    replaced: Mapping[str, str] = field(default_factory=dict)  # setting -> the crew's source

    def named(self, name: str) -> str:
        """Return how a text names a setting that decides: its name, and its source if it was replaced [-]."""
        source = self.replaced.get(name)
        return f"setting {name}" + (f" (replaced: {source})" if source else "")
