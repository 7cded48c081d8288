"""The docs hold what the code names: equations, sources, and docstrings in their fixed order."""

from __future__ import annotations

import ast
import re
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
SOURCE = ROOT / "src" / "becket"
DOCS = ROOT / "docs"
THEORY = DOCS / "theory"
CORE = ("mechanics", "book", "settings", "reeving", "limits", "method", "planning")


@dataclass(frozen=True, kw_only=True)
class Function:
    """A public function of a module, as it stands in the text."""

    where: str  # file and name
    text: str  # docstring, empty when there is none
    args: tuple[str, ...]
    raises: bool


def _may_raise(node: ast.AST) -> bool:
    """Whether a node raises, or calls a check of its module."""
    called = node.func.id if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) else ""
    return isinstance(node, ast.Raise) or called.startswith(("_check", "_positive"))


def _functions(part: str) -> list[Function]:
    found = []
    for path in sorted((SOURCE / part).glob("*.py")):
        for node in ast.parse(path.read_text(encoding="utf-8")).body:
            if isinstance(node, ast.FunctionDef) and not node.name.startswith("_"):
                found.append(
                    Function(
                        where=f"{part}/{path.name}: {node.name}",
                        text=ast.get_docstring(node) or "",
                        args=tuple(a.arg for a in (*node.args.posonlyargs, *node.args.args, *node.args.kwonlyargs)),
                        raises=any(_may_raise(inner) for inner in ast.walk(node)),
                    )
                )
    return found


def _numbers(text: str) -> set[int]:
    """Numbers after ``eq.``: "eq. 3 and 4", "eq. 1 to 3", "eq. 6"."""
    numbers: set[int] = set()
    for first, word, last in re.findall(r"eq\. (\d+)(?: (and|to) (\d+))?", text):
        end = int(last or first)
        numbers |= set(range(int(first), end + 1)) if word == "to" else {int(first), end}
    return numbers


def _page_equations(page: Path) -> list[int]:
    return [int(n) for n in re.findall(r"^\*\*eq\. (\d+)\*\*", page.read_text(encoding="utf-8"), re.MULTILINE)]


@cache
def _named_equations() -> list[tuple[str, str, int]]:
    """Every "docs/theory/PAGE.md, eq. N" in a docstring of the package: where, page, number."""
    named = []
    for path in sorted(SOURCE.rglob("*.py")):
        tree = ast.parse(path.read_text(encoding="utf-8"))
        for node in ast.walk(tree):
            if not isinstance(node, (ast.Module, ast.FunctionDef, ast.ClassDef)):
                continue
            text = " ".join((ast.get_docstring(node) or "").split())
            for page, tail in re.findall(r"docs/(theory/\w+\.md),? (eq\. \d+(?: (?:and|to) \d+)?)", text):
                named += [(path.stem, page, number) for number in sorted(_numbers(tail))]
    return named


@pytest.mark.parametrize("page", sorted({page for _, page, _ in _named_equations()}))
def test_every_equation_named_in_code_stands_on_its_page(page: str) -> None:
    wanted = {number for _, named, number in _named_equations() if named == page}
    assert wanted, page
    assert (DOCS / page).exists(), f"docs/{page} is named in the code and is not there"
    missing = wanted - set(_page_equations(DOCS / page))
    assert not missing, f"docs/{page}: equations {sorted(missing)} are named in the code and not on the page"


@pytest.mark.parametrize("module", sorted(p.stem for p in (SOURCE / "mechanics").glob("*.py") if p.stem != "__init__"))
def test_each_page_of_mechanics_numbers_its_equations_and_uses_them_all(module: str) -> None:
    page = THEORY / f"{module}.md"
    numbers = _page_equations(page)
    assert numbers == list(range(1, len(numbers) + 1)), f"{page.name}: equations are numbered {numbers}"
    named = {number for _, where, number in _named_equations() if where == f"theory/{module}.md"}
    assert named == set(numbers), f"{page.name}: on the page {numbers}, named in the code {sorted(named)}"
    text = page.read_text(encoding="utf-8")
    assert "## When it does not hold" in text
    assert f"`becket.mechanics.{module}`" in text


def test_every_page_named_in_code_exists() -> None:
    gone = [
        f"{path.relative_to(SOURCE)}: {name}"
        for path in sorted(SOURCE.rglob("*.py"))
        for name in re.findall(r"\bdocs/[\w/]+\.md", path.read_text(encoding="utf-8"))
        if not (ROOT / name).exists()
    ]
    assert not gone, gone


def test_docs_name_only_tests_and_pages_that_exist() -> None:
    gone = []
    for page in sorted(DOCS.rglob("*.md")):
        text = page.read_text(encoding="utf-8")
        folder = ""
        for name in re.findall(r"`((?:tests/[\w/]+/)?test_\w+\.py)`", text):
            folder = str(Path(name).parent) if "/" in name else folder
            if not (ROOT / folder / Path(name).name).exists():
                gone.append(f"{page.relative_to(ROOT)}: {name}")
    assert not gone, gone


@pytest.mark.parametrize("function", _functions("mechanics"), ids=lambda f: str(f.where))
def test_docstring_of_mechanics_keeps_the_fixed_order(function: Function) -> None:
    text = function.text
    first = text.split("\n\n")[0]
    assert first.startswith("Return "), f"{function.where}: begins with Return"
    assert re.search(r"\[[^\]]+\](, shape \([^)]*\))?\.$", first), (
        f"{function.where}: the first sentence ends with its unit"
    )
    marks = [text.find(word) for word in ("Args:", "Raises:", "Source:", ">>>")]
    present = [mark for mark in marks if mark >= 0]
    assert present == sorted(present), f"{function.where}: Args, Raises, Source, example in this order"
    assert marks[0] >= 0, f"{function.where}: Args"
    assert marks[2] >= 0, f"{function.where}: Source"
    assert marks[3] >= 0, f"{function.where}: an example"
    assert not (function.raises and marks[1] < 0), f"{function.where}: raises and does not say so"


@pytest.mark.parametrize("function", _functions("mechanics"), ids=lambda f: str(f.where))
def test_every_argument_of_mechanics_has_its_unit(function: Function) -> None:
    body = function.text[function.text.find("Args:") : function.text.find("Source:")]
    for name in function.args:
        entry = re.search(rf"^    {name}: (.*(?:\n        .*)*)", body, re.MULTILINE)
        assert entry is not None, f"{function.where}: {name} is not described"
        assert re.search(r"\[[^\]]+\](, shape \([^)]*\))?$", entry.group(1)), f"{function.where}: {name} has no unit"


@pytest.mark.parametrize("part", CORE)
def test_every_public_function_of_the_core_has_a_docstring(part: str) -> None:
    bare = [function.where for function in _functions(part) if not function.text]
    assert not bare, bare


def test_every_module_says_what_it_is() -> None:
    bare = [
        str(path.relative_to(SOURCE))
        for path in sorted(SOURCE.rglob("*.py"))
        if not ast.get_docstring(ast.parse(path.read_text(encoding="utf-8")))
    ]
    assert not bare, bare
