"""YAML to nodes: words stay words, places are those of the text, with or without the parser in C."""

from __future__ import annotations

import pytest
import yaml

from becket.intake import yaml_nodes
from becket.intake.nodes import Node, Pairs, Sequence, Word
from becket.intake.page import Page
from tests.intake.reading import SETTINGS
from tests.intake.texts import BOOK, JOBS

WORDS = "[4:1, 010, no, yes, ~, null, 1e3, .inf, 2025-03-11, 0x1F, 1_000, true, =, <<]"


def nodes_of(text: str) -> Node | None:
    """Return the nodes of a text without faults."""
    page = Page("a.yaml")
    node = yaml_nodes.read_yaml(text, page, SETTINGS)
    assert not page.faults
    return node


def test_every_word_stays_the_text_that_was_written() -> None:
    node = nodes_of(WORDS)
    assert isinstance(node, Sequence)
    assert [item.text for item in node.items if isinstance(item, Word)] == WORDS.strip("[]").split(", ")


def words_of(node: Node) -> list[Word]:
    """Return every key and word of a node."""
    if isinstance(node, Word):
        return [node]
    parts = node.items if isinstance(node, Sequence) else [part for pair in node.pairs for part in pair]
    return [word for part in parts for word in words_of(part)]


@pytest.mark.parametrize("text", [BOOK, JOBS, BOOK.replace("\n", "\r\n"), "a: {b: \U0001f3d7, c: 'd'}\n"])
def test_line_column_and_span_are_those_of_the_text(text: str) -> None:
    node = nodes_of(text)
    assert isinstance(node, Pairs)
    lines = text.splitlines()
    for word in words_of(node):
        assert text[word.start : word.end].strip("\"'") == word.text
        assert lines[word.line - 1][word.column - 1 :].startswith(text[word.start : word.end])


@pytest.mark.parametrize("text", [BOOK, JOBS, WORDS])
def test_the_parser_in_python_gives_the_same(text: str, monkeypatch: pytest.MonkeyPatch) -> None:
    fast = nodes_of(text)
    monkeypatch.setattr(yaml_nodes, "LOADER", yaml.SafeLoader)
    slow = nodes_of(text)
    assert fast is not None
    assert slow is not None
    every = [(word.text, word.line, word.column, word.start, word.end) for word in words_of(fast)]
    assert every == [(word.text, word.line, word.column, word.start, word.end) for word in words_of(slow)]


HELP = (
    "brackets, quotes, colons and indents that close; text with ': ' or ' #' in it stands in quotes; look in the line"
    " above too"
)


@pytest.mark.parametrize(
    ("error", "found"),
    [
        (yaml.reader.ReaderError("a.yaml", 3, 0x2028, "unicode", "odd"), "ReaderError"),
        (yaml.YAMLError(), "YAMLError"),
        (RecursionError(), "RecursionError"),
        (yaml.MarkedYAMLError(), "no reason given"),
        (yaml.MarkedYAMLError(context="while reading\n a key"), "while reading a key"),
        (yaml.MarkedYAMLError(context="while reading", problem="x" * 90), "x" * 57 + "..."),
    ],
)
def test_an_error_of_the_parser_that_names_no_place(
    error: Exception, found: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """None is known to come of a text that is let through to the parser; if one does, it is a line, no traceback."""

    def fails(text: str, **loader: object) -> None:
        raise error

    monkeypatch.setattr(yaml, "parse", fails)
    page = Page("a.yaml")
    assert yaml_nodes.read_yaml("a: 1", page, SETTINGS) is None
    assert [str(fault) for fault in page.faults] == [f"a.yaml:0:0: file: cannot be read as YAML: {found}; {HELP}"]


def test_a_place_of_the_context_where_the_problem_has_none(monkeypatch: pytest.MonkeyPatch) -> None:
    def fails(text: str, **loader: object) -> None:
        raise yaml.MarkedYAMLError(problem="odd", context_mark=yaml.Mark("a.yaml", 9, 4, 2, None, 0))

    monkeypatch.setattr(yaml, "parse", fails)
    page = Page("a.yaml")
    assert yaml_nodes.read_yaml("a: 1", page, SETTINGS) is None
    assert [str(fault) for fault in page.faults] == [f"a.yaml:5:3: file: cannot be read as YAML: odd; {HELP}"]
