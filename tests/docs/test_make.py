"""Pages made from code are not stale."""

from __future__ import annotations

from docs.make import DOCS, generated_pages


def test_every_generated_page_is_as_the_code_would_write_it() -> None:
    pages = generated_pages()
    assert pages, "no script docs/make_*.py was found"
    stale = [
        str(path.relative_to(DOCS))
        for path, text in pages.items()
        if not path.exists() or path.read_text(encoding="utf-8") != text
    ]
    assert not stale, f"run `make docs`: {stale}"
