"""What the reeving that is on can do, as text.

In:    the answer about one state.
Out:   greatest load, lowest hook, what governs each, every limit.
Never: computing a limit.
"""

from __future__ import annotations

from becket.book.crane import Book
from becket.cli.lines import plain_name, wrapped
from becket.cli.text_falls import opened_text
from becket.figures import shown
from becket.limits.answer import RiggedAnswer
from becket.verdict import Verdict

HEADS = {Verdict.PASS: "", Verdict.FAIL: "FAIL. ", Verdict.UNKNOWN: "NOT PROVEN. "}


def limits_text(book: Book, answer: RiggedAnswer, system: str) -> str:
    """Return the whole answer, at most 80 columns wide [-].

    Args:
        book: the crane
        answer: what the state can do
        system: "metric" or "us"
    """
    at_load = "At that load" if answer.greatest_load is not None else "With nothing on the hook"
    return "\n\n".join(
        [
            wrapped(f"{HEADS[answer.verdict]}{book.crane} rigged {answer.state}."),
            "\n".join([_load(answer, system), _hook(answer, system)]),
            opened_text(f"{at_load}, limit by limit", answer.limits, system),
        ]
    )


def _load(answer: RiggedAnswer, system: str) -> str:
    if answer.greatest_load is None:
        return wrapped(
            f"Greatest load on the hook: none can be named ({plain_name(answer.load_governs or 'unknown')})."
        )
    load = shown(answer.greatest_load, "mass", system, "down")
    return wrapped(
        f"Greatest load on the hook, rigging counted: {load}. Governs: {plain_name(answer.load_governs or 'nothing')}."
    )


def _hook(answer: RiggedAnswer, system: str) -> str:
    if answer.lowest_hook is None:
        return wrapped(f"Lowest hook: unknown ({plain_name(answer.hook_governs or 'unknown')}).")
    low = shown(answer.lowest_hook, "length", system, "up")
    return wrapped(
        f"Lowest hook above the ground at the crane: {low}. Governs: {plain_name(answer.hook_governs or 'nothing')}."
    )
