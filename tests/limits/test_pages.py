"""Each limit has its page, and its docstring says when it fails and when it is unknown."""

from __future__ import annotations

import inspect

import pytest

from becket.limits.registry import LIMITS
from docs.make import DOCS
from docs.make_limits import pages


def test_no_page_is_stale_and_none_is_left_over() -> None:
    made = {DOCS / name: text for name, text in pages().items()}
    assert set((DOCS / "limits").glob("*.md")) == set(made)
    for path, text in made.items():
        assert path.read_text(encoding="utf-8") == text, f"run `make docs`: {path.name}"


@pytest.mark.parametrize("name", list(LIMITS))
def test_a_limit_says_when_it_fails(name: str) -> None:
    text = inspect.getdoc(LIMITS[name]) or ""
    assert text.startswith("Return whether ")
    assert "Fail:" in text
    assert "nknown" in text
    assert "Source: " in text


@pytest.mark.parametrize("name", list(LIMITS))
def test_a_page_carries_the_words_of_the_code(name: str) -> None:
    page = (DOCS / "limits" / f"{name}.md").read_text(encoding="utf-8")
    assert page.startswith(f"# {name}\n")
    assert "Fail:" in page
    assert "Args:" not in page
