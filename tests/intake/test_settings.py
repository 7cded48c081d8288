"""Settings: what ships, what a crew replaces, and every message in full."""

# ruff: noqa: E501 (messages and lines of files stand here as they are)

from __future__ import annotations

from dataclasses import fields
from math import radians
from pathlib import Path

import pytest

from becket.intake.settings import read_settings
from becket.settings.values import Settings
from tests.intake.reading import Case, settings_messages, written


def test_what_ships_is_in_si_and_has_a_reason() -> None:
    shipped = read_settings(None)
    assert shipped.twist_pass == radians(20)
    assert shipped.dead_end_share == 0.8
    assert shipped.prepare == 360.0
    assert shipped.telescope_speed == pytest.approx(0.1)
    assert shipped.derrick_speed == pytest.approx(radians(1))
    assert shipped.file_size_most == 16e6
    assert shipped.rules is None
    assert not shipped.replaced
    names = {one.name for one in fields(Settings)} - {"rules", "reasons", "replaced"}
    assert set(shipped.reasons) == names
    assert all(shipped.reasons.values())


def test_a_folder_without_settings_has_the_shipped_ones(tmp_path: Path) -> None:
    assert read_settings(tmp_path) == read_settings(None)


def test_a_crew_replaces_single_settings_with_a_source(tmp_path: Path) -> None:
    text = "rules: ASME B30.5-2018\nhand_height: {value: 5 ft, source: our riggers}\nstops: {value: 4, source: log}\n"
    written(tmp_path / "becket.settings.yaml", text)
    settings = read_settings(tmp_path)
    assert (settings.hand_height, settings.stops, settings.rules) == (1.524, 4.0, "ASME B30.5-2018")
    assert settings.replaced == {"hand_height": "our riggers", "stops": "log"}
    assert settings.named("hand_height") == "setting hand_height (replaced: our riggers)"
    assert settings.work_room == read_settings(None).work_room


CASES: dict[str, Case] = {
    "unknown name": (
        (("{}", "hand_hight: {value: 1.6 m, source: crew}"),),
        ['1:1: hand_hight: "hand_hight" is not a key here; did you mean "hand_height"?'],
    ),
    "unknown name, nothing near": (
        (("{}", "zzzzz: {value: 1.6 m, source: crew}"),),
        [
            '1:1: zzzzz: "zzzzz" is not a key here; keys here: becket, rules, estimate_allowance, estimate_use_most, dead_end_share, overhaul_ratio_least, overhaul_margin, twist_pass, twist_fail, tilt_pass, tilt_fail, rub_distance, pitch_share, hand_height, work_room, slope_most, leave_angle, leave_rope_per_fall, leave_rope_dead_end, leave_slack_most, leave_plumb_share, leave_factor, leave_step, switch_up_clear, weight_window_clear, weight_reach, touch_tolerance, angle_tolerance, length_tolerance, hook_tolerance, ...'
        ],
    ),
    "no source": (
        (("{}", "hand_height: 1.6 m"),),
        ["1:1: hand_height: has no source; {value: figure, source: text}: who says so, and where"],
    ),
    "no source inside": (
        (("{}", "hand_height: {value: 1.6 m}"),),
        ["1:1: hand_height: has no source; {value: figure, source: text}: who says so, and where"],
    ),
    "no value": (
        (("{}", "hand_height: {source: crew}"),),
        ["1:14: hand_height.value: is missing; the figure"],
    ),
    "unit": (
        (("{}", "hand_height: {value: 1.6, source: crew}"),),
        ["1:22: hand_height: 1.6 has no unit; a length in m, mm, ft or in"],
    ),
    "negative": (
        (("{}", "hand_height: {value: -1.6 m, source: crew}"),),
        ["1:22: hand_height: -1.6 m is out of range; a length in m, mm, ft or in, from 0 up"],
    ),
    "rules": (
        (("{}", "rules: ASME B30.5-2081"),),
        ['1:8: rules: "ASME B30.5-2081" is no rule set; did you mean "ASME B30.5-2018"?'],
    ),
    "rules, nothing near": (
        (("{}", "rules: zzz"),),
        [
            '1:8: rules: "zzz" is no rule set; rule sets on file: 29 CFR 1926 Subpart CC, ASME B30.5-2018, Ohio 4123:1-3-07, 8 CCR 4929, DGUV Vorschrift 54, NSW guide, Alberta OHS Code'
        ],
    ),
    "pass over fail": (
        (("{}", "tilt_pass: {value: 6 deg, source: crew}"),),
        ["1:12: tilt_pass: tilt_pass is over tilt_fail; tilt_pass up to tilt_fail"],
    ),
    "fail under pass": (
        (("{}", "twist_fail: {value: 6 deg, source: crew}"),),
        ["1:13: twist_fail: twist_pass is over twist_fail; twist_pass up to twist_fail"],
    ),
    "limit": (
        (("{}", "file_depth_most: {value: 0, source: crew}"),),
        ["1:26: file_depth_most: 0 is out of range; a plain number without a unit, from 1 up"],
    ),
    "list": (
        (("{}", "[]"),),
        ["1:1: file: a list stands there; settings, each {value: figure, source: text}"],
    ),
}


@pytest.mark.parametrize("name", CASES)
def test_message(name: str, tmp_path: Path) -> None:
    changes, wanted = CASES[name]
    assert settings_messages(tmp_path, changes[0][1]) == wanted
