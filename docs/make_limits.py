"""The pages ``limits/``: one for each limit of the registry, from its docstring.

In:    the registry of limits.
Out:   one page a limit, and an index.
Never: words that are not in the code.
"""

from __future__ import annotations

import inspect

from becket.limits.registry import LIMITS


def pages() -> dict[str, str]:
    """Return every page with its text [-]."""
    made = {f"limits/{name}.md": _page(name) for name in LIMITS}
    made["limits/index.md"] = _index()
    return made


def _page(name: str) -> str:
    parts = _parts(name)
    module = LIMITS[name].__module__
    return (
        f"# {name}\n\nMade from the code by `make docs`. Module `{module}`.\n\n"
        + "\n\n".join(parts)
        + "\n\n[All limits](index.md), [theory](../theory/limits.md), [glossary](../glossary.md)\n"
    )


def _index() -> str:
    rows = "\n".join(f"| {i} | [{name}]({name}.md) | {_parts(name)[0]} |" for i, name in enumerate(LIMITS, 1))
    head = "# Limits\n\nMade from the code by `make docs`, in the order in which they run."
    return f"{head}\n\n| | limit | returns |\n| --- | --- | --- |\n{rows}\n"


def _parts(name: str) -> list[str]:
    """The paragraphs of a limit's docstring, the arguments left out; double backticks made single."""
    text = inspect.getdoc(LIMITS[name]) or ""
    paragraphs = [" ".join(line.strip() for line in part.splitlines()) for part in text.split("\n\n")]
    return [part.replace("``", "`") for part in paragraphs if not part.startswith("Args:")]
