"""Write every page that is made from code: ``python -m docs.make``.

In:    the scripts ``make_*.py`` of this folder, each with ``pages() -> dict[path, text]``.
Out:   the pages, written where their text changed.
Never: pages that a person writes.
"""

from __future__ import annotations

import importlib
from pathlib import Path

DOCS = Path(__file__).parent


def generated_pages() -> dict[Path, str]:
    """Return every generated page with its text, as the code stands now [-]."""
    pages: dict[Path, str] = {}
    for script in sorted(DOCS.glob("make_*.py")):
        module = importlib.import_module(f"docs.{script.stem}")
        pages |= {DOCS / name: text for name, text in module.pages().items()}
    return pages


def main() -> int:
    """Write the pages whose text changed; return 0 [-]."""
    for path, text in generated_pages().items():
        if not path.exists() or path.read_text(encoding="utf-8") != text:
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, encoding="utf-8")
            print(path.relative_to(DOCS.parent))
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
