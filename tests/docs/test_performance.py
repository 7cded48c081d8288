"""The page of measured figures names every benchmark, and none that is not there."""

from __future__ import annotations

import re
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]


def test_every_benchmark_stands_on_the_page_and_nothing_else() -> None:
    text = (ROOT / "docs" / "performance.md").read_text(encoding="utf-8")
    named = set(re.findall(r"benchmarks\.([a-z_]+)", text)) | set(re.findall(r"^\| `([a-z_]+)` \|", text, re.MULTILINE))
    there = {path.stem for path in (ROOT / "benchmarks").glob("*.py")} - {"__init__", "run"}
    assert named == there


def test_every_option_on_the_page_is_read_by_its_benchmark() -> None:
    text = (ROOT / "docs" / "performance.md").read_text(encoding="utf-8")
    found = re.findall(r"benchmarks\.([a-z_]+) (--[a-z]+)", text)
    assert found
    for name, option in found:
        assert option in (ROOT / "benchmarks" / f"{name}.py").read_text(encoding="utf-8"), (name, option)
