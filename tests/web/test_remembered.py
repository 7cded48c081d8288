"""What was worked out before: once for a key, never more than the bound, the longest unasked goes."""

from __future__ import annotations

import pytest

from becket.web.remembered import Remembered


def test_the_work_is_done_once_for_a_key_also_where_it_gives_none() -> None:
    found: Remembered[int | None] = Remembered(3)
    done: list[str] = []
    for key in ("a", "b", "a", "b"):
        assert found.once(key, lambda key=key: done.append(key)) is None  # type: ignore[misc]
    assert done == ["a", "b"]


def test_what_was_asked_for_longest_ago_goes() -> None:
    found: Remembered[str] = Remembered(2)
    for key in ("a", "b", "a", "c"):
        found.once(key, lambda key=key: key)  # type: ignore[misc]
    assert len(found) == 2
    assert found.once("a", lambda: "new") == "a"
    assert found.once("b", lambda: "new") == "new"
    assert len(found) == 2


def test_what_fails_is_not_remembered() -> None:
    found: Remembered[int] = Remembered(2)
    with pytest.raises(LookupError):
        found.once("a", lambda: [][0])
    assert len(found) == 0
    assert found.once("a", lambda: 7) == 7


def test_forgotten_is_worked_out_anew_and_what_is_kept_replaces() -> None:
    found: Remembered[int] = Remembered(2)
    assert found.keep("a", 1) == 1
    assert found.keep("a", 2) == 2
    found.forget()
    assert found.once("a", lambda: 3) == 3
