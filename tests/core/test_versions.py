"""The core stands on the standard library alone, and imports in every Python of this machine from 3.11 on."""

from __future__ import annotations

import ast
import shutil
import subprocess
import sys
from functools import cache
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
SOURCE = ROOT / "src"
CORE = ("mechanics", "book", "settings", "reeving", "limits", "method", "planning")
VERSIONS = ("3.11", "3.12", "3.13", "3.14")


def _core_files() -> list[Path]:
    package = SOURCE / "becket"
    files = [package / name for name in ("__init__.py", "errors.py", "verdict.py")]
    for part in CORE:
        files += sorted((package / part).rglob("*.py"))
    return files


def _module(path: Path) -> str:
    return ".".join(path.relative_to(SOURCE).with_suffix("").parts).removesuffix(".__init__")


def _imported(path: Path) -> set[str]:
    """Whole names of what a file imports, wherever in the file."""
    names: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            names |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: a relative import"
            names.add(node.module or "")
    return names


@pytest.mark.parametrize("path", _core_files(), ids=_module)
def test_core_imports_the_standard_library_and_itself(path: Path) -> None:
    inside = {"becket", "becket.errors", "becket.verdict", *(f"becket.{part}" for part in CORE)}
    for name in _imported(path):
        own = name == "becket" or ".".join(name.split(".")[:2]) in inside
        assert own or name.split(".")[0] in sys.stdlib_module_names, f"{_module(path)} imports {name}"


@cache
def _interpreter(version: str) -> str | None:
    """A Python of this version that starts, or none: the running one, one on the path, one of pyenv's."""
    if version == f"{sys.version_info.major}.{sys.version_info.minor}":
        return sys.executable
    installed = sorted((Path.home() / ".pyenv" / "versions").glob(f"{version}.*/bin/python"))
    for found in filter(None, (shutil.which(f"python{version}"), *map(str, installed))):
        tried = subprocess.run(
            [found, "-c", "import sys; print(sys.version)"], capture_output=True, text=True, check=False
        )
        if tried.returncode == 0 and tried.stdout.startswith(f"{version}."):
            return found
    return None


IMPORT_ALL = """
import doctest, importlib, sys, warnings
warnings.simplefilter("error")
sys.path.insert(0, sys.argv[1])
for name in sys.argv[2:]:
    importlib.import_module(name)
failed = sum(doctest.testmod(sys.modules[name]).failed for name in sys.argv[2:])
assert not failed, f"{failed} examples fail"
roots = {name.split(".")[0] for name in sys.modules}
print(sorted(roots - set(sys.stdlib_module_names) - {"becket", "__main__"}))
"""


@pytest.mark.parametrize("version", VERSIONS)
def test_core_imports_without_third_party_packages(version: str) -> None:
    """Isolated (-I) and without site packages (-S): nothing beside the standard library can be imported."""
    python = _interpreter(version)
    if python is None:
        pytest.skip(f"no Python {version} on this machine")
    command = [python, "-I", "-S", "-B", "-c", IMPORT_ALL, str(SOURCE), *(_module(path) for path in _core_files())]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    assert done.stdout.strip() == "[]", f"Python {version} also loaded {done.stdout.strip()}"


def test_at_least_the_running_python_was_tried() -> None:
    assert any(_interpreter(version) for version in VERSIONS)


def test_isolation_isolates() -> None:
    """The check can fail: a third-party package is not importable in that mode."""
    done = subprocess.run(
        [sys.executable, "-I", "-S", "-c", "import yaml"], capture_output=True, text=True, check=False
    )
    assert done.returncode != 0
    assert "ModuleNotFoundError" in done.stderr
