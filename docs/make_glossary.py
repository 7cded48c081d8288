"""The page ``glossary.md``: the words of the trade, as the search of a pack knows them.

In:    the table of words that ships with the package.
Out:   one page.
Never: a word that is not in the table.
"""

from __future__ import annotations

from becket.pack.trade_words import trade_words

HEAD = """# Glossary

One word for one thing. The words in brackets are heard for the same thing and are accepted in search;
where a word is also a brand, the generic word stands.

| word | means | also heard |
| --- | --- | --- |"""

FOOT = """In the United Kingdom and Australia "jib" is the main boom; in the United States it is a fly extension.
becket says boom, and answers `unknown` for a fly extension."""


def pages() -> dict[str, str]:
    """Return the page with its text [-]."""
    rows = [f"| {one.word} | {one.means} | {one.also_heard} |".replace("|  |", "| |") for one in trade_words()]
    return {"glossary.md": "\n".join([HEAD, *rows, "", FOOT]) + "\n"}
