"""The settings in force: how a text names one, what a crew replaced."""

from __future__ import annotations

from dataclasses import FrozenInstanceError, fields, replace

import pytest

from becket.settings.values import Settings
from tests.crane import invented_settings

TEXTS = {"rules", "reasons", "replaced"}


def test_a_text_names_a_setting_and_who_replaced_it() -> None:
    shipped = invented_settings()
    assert shipped.named("tilt_pass") == "setting tilt_pass"
    crew = replace(shipped, tilt_pass=0.1, replaced={"tilt_pass": "our riggers, 2026-01-08"})
    assert crew.named("tilt_pass") == "setting tilt_pass (replaced: our riggers, 2026-01-08)"
    assert crew.named("tilt_fail") == "setting tilt_fail"


def test_no_value_of_the_method_has_a_default_in_code() -> None:
    """Each comes from the shipped table, where its reason stands beside it."""
    one = invented_settings()
    for name in {field.name for field in fields(Settings)} - TEXTS:
        left = {field.name: getattr(one, field.name) for field in fields(Settings) if field.name != name}
        with pytest.raises(TypeError, match=name):
            Settings(**left)


def test_no_rule_set_is_chosen_for_the_crew() -> None:
    assert invented_settings().rules is None


def test_values_are_not_written_to() -> None:
    with pytest.raises(FrozenInstanceError):
        invented_settings().tilt_pass = 0.5  # type: ignore[misc]
    assert all(
        isinstance(getattr(invented_settings(), one.name), float) for one in fields(Settings) if one.name not in TEXTS
    )


@pytest.mark.parametrize(("less", "more"), [("twist_pass", "twist_fail"), ("tilt_pass", "tilt_fail")])
def test_what_passes_ends_before_what_fails(less: str, more: str) -> None:
    assert 0 < getattr(invented_settings(), less) < getattr(invented_settings(), more)
