"""becket never invents a reeving pattern: no source of the package makes one but the reading of a book.

The source is looked at, not the behaviour: who calls ``Pattern(...)`` or ``Pass(...)``, who replaces a path, who
returns patterns, and what functions are called.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

import becket

SOURCE = Path(next(iter(becket.__path__)))
READS = ("intake/",)  # makes patterns of what stands in a book
WORDS = "reeving/words.py"  # makes passes of words
FINDERS = {
    "reeving/pattern.py": {"find_pattern"},
    "limits/path_contradictions.py": {"_patterns"},
    "web/pages/confirm.py": {"_pattern"},
}
PROPOSING = re.compile(
    r"(propose|suggest|invent|generate|guess|derive|create|design|build|make|new|best|optimal|optimi[sz]e|recommend)"
    r"\w*_?(pattern|path|reeving|reeve)s?\b|(pattern|path|reeving)s?_?(propos|suggest|generat|invent)"
)
SEALED_WORDS = {"path", "dead_end", "falls", "block"}


def slips(name: str, text: str) -> Iterator[str]:
    """Yield what in a source could make a pattern."""
    tree = ast.parse(text)
    is_reader = name.startswith(READS)
    for node in ast.walk(tree):
        if isinstance(node, ast.ImportFrom):
            for alias in node.names:
                if alias.name in ("Pattern", "Pass") and alias.asname:
                    yield f"{name}: {alias.name} under another name"
        if isinstance(node, ast.Call):
            called = _called(node.func)
            if called == "Pattern" and not is_reader:
                yield f"{name}:{node.lineno}: makes a Pattern"
            if called == "Pass" and not is_reader and name != WORDS:
                yield f"{name}:{node.lineno}: makes a Pass"
            if called == "replace" and not is_reader and _replaces_words_of_a_pattern(node):
                yield f"{name}:{node.lineno}: replaces the words of a pattern"
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            if PROPOSING.search(node.name):
                yield f"{name}:{node.lineno}: {node.name} sounds as if it proposed one"
            returned = ast.unparse(node.returns) if node.returns else ""
            is_allowed = is_reader or node.name in FINDERS.get(name, set()) or _only_reads_a_field(node)
            if _is_pattern(returned) and not is_allowed:
                yield f"{name}:{node.lineno}: {node.name} returns {returned}"


def _called(function: ast.expr) -> str:
    if isinstance(function, ast.Attribute):
        return function.attr
    return function.id if isinstance(function, ast.Name) else ""


def _replaces_words_of_a_pattern(call: ast.Call) -> bool:
    first = ast.unparse(call.args[0]) if call.args else ""
    named = {keyword.arg for keyword in call.keywords}
    return "pattern" in first.lower() and (bool(named & SEALED_WORDS) or None in named)


def _only_reads_a_field(function: ast.FunctionDef | ast.AsyncFunctionDef) -> bool:
    """A property of a record that gives back what the record holds: a docstring, maybe, and ``return self...``."""
    last = function.body[-1]
    is_property = any(ast.unparse(one) == "property" for one in function.decorator_list)
    returns = ast.unparse(last.value) if isinstance(last, ast.Return) and last.value is not None else ""
    others = [
        one for one in function.body[:-1] if not (isinstance(one, ast.Expr) and isinstance(one.value, ast.Constant))
    ]
    return is_property and not others and re.fullmatch(r"self(\.\w+)+", returns) is not None


def _is_pattern(returned: str) -> bool:
    return bool(re.search(r"(?<![\w.])Pattern\b(?!\[str\])", returned))


def sources() -> dict[str, str]:
    """Return every source of the package by its path in it."""
    return {path.relative_to(SOURCE).as_posix(): path.read_text("utf-8") for path in sorted(SOURCE.rglob("*.py"))}


def test_no_source_of_the_package_makes_a_pattern() -> None:
    every = sources()
    assert "reeving/pattern.py" in every
    assert [slip for name, text in every.items() for slip in slips(name, text)] == []


@pytest.mark.parametrize(
    "text",
    [
        "from becket.book.tackle import Pattern\nx = Pattern(block='main', falls=2)",
        "import becket.book.tackle as t\nx = t.Pattern(block='main')",
        "from becket.book.tackle import Pattern as P",
        "from becket.book.tackle import Pass\nx = (Pass(place='head', sheave=1),)",
        "from dataclasses import replace\ndef f(pattern): return replace(pattern, path=())",
        "from dataclasses import replace\ndef f(pattern, d): return replace(pattern, **d)",
        "def likely(book) -> 'Pattern | None': ...",
        "def all_ways(book) -> list[Pattern]: ...",
        "def propose_pattern(book): ...",
        "def build_path(falls): ...",
        "class A:\n    def suggest_reeving(self): ...",
    ],
)
def test_the_look_would_see_one(text: str) -> None:
    assert list(slips("planning/some.py", text))


def test_reading_a_book_may_make_one() -> None:
    assert not list(slips("intake/tackle.py", "x = Pattern(block='main', path=())"))
