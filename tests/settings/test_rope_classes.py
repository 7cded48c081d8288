"""Rope classes: only what the table names; compacted rope never."""

from __future__ import annotations

import pytest

from becket.settings.rope_classes import class_of, rope_classes


@pytest.mark.parametrize(
    ("construction", "rope_class", "core", "force_factor"),
    [
        ("6x36WS-IWRC", "6x36", "IWRC", 0.356),
        ("6x36WS FC", "6x36", "FC", 0.33),
        ("6x19S-IWRC", "6x19", "IWRC", 0.356),
        ("8x19W-FC", "8x19", "FC", 0.293),
        ("6x37M-WSC", "6x37M", "WSC", 0.346),
        ("18x7-FC", "18x7", "FC", 0.328),
        ("34x7-IWRC", "34x7", "IWRC", 0.318),
        ("35(W)x7", "35(W)x7", "IWRC", 0.36),
    ],
)
def test_a_class_on_file(construction: str, rope_class: str, core: str, force_factor: float) -> None:
    found = class_of(construction)
    assert found is not None
    assert (found.rope_class, found.core, found.force_factor) == (rope_class, core, force_factor)


@pytest.mark.parametrize(
    "construction",
    [
        None,
        "",
        "35xK7",  # compacted
        "35(W)xK7",
        "6xK36WS-IWRC",
        "K6x36WS-IWRC",
        "6x36WS-EPIWRC",
        "6x36WS-EPIWRC(K)",
        "6x36WS-IWRC(K)",
        "6x36WS",  # two cores have this class: which one decides
        "34x7",
        "6x25F-IWRC",  # of a class by a list that is not on file
        "6x41WS-IWRC",
        "6x37-IWRC",  # 6x37M is another
        "35x7",
        "6x36WS-IWRC 1960",
        "\u0666x36WS-IWRC",
    ],
)
def test_what_is_never_estimated(construction: str | None) -> None:
    assert class_of(construction) is None


def test_a_row_from_memory_says_so() -> None:
    memory = [one for one in rope_classes() if one.is_from_memory]
    assert [one.rope_class for one in memory] == ["35(W)x7"]
    assert memory[0].source == "from memory, not seen in print"
    assert len(rope_classes()) == 26
