"""YAML text to nodes.

In:    text, limits.
Out:   words, lists and mappings with their places.
Never: tags, aliases, numbers; deep or endless structures; recursion.
"""

from __future__ import annotations

import re
from typing import Any

import yaml

from becket.intake.files import place_in
from becket.intake.nodes import Node, Pairs, Sequence, Span, Word
from becket.intake.page import Page
from becket.settings.values import Settings
from becket.units import shortened

LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)  # the one in C where it was built: 15 times as fast
_TAB_INDENT = re.compile(r"^ *\t", re.MULTILINE)


def read_yaml(text: str, page: Page, settings: Settings) -> Node | None:
    """Return the one document of the text, None where a fault says why not [-].

    Args:
        text: the file's text, without byte order mark [-]
        page: takes the faults [-]
        settings: the limits of depth and of values
    """
    if tab := _TAB_INDENT.search(text):
        page.fault(place_in(text, tab.end() - 1), "file", "a tab stands in the indent", "spaces")
        return None
    composer = _Composer(page, settings)
    try:
        for event in yaml.parse(text, Loader=LOADER):
            if not composer.take(event):
                return None
    except yaml.MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        place = Span(line=mark.line + 1, column=mark.column + 1) if mark else None
        page.fault(place, "file", f"cannot be read as YAML: {shortened(_problem(error))}", _YAML_HELP)
        return None
    except (yaml.YAMLError, RecursionError) as error:
        page.fault(None, "file", f"cannot be read as YAML: {shortened(type(error).__name__)}", _YAML_HELP)
        return None
    if composer.document is None:
        page.fault(None, "file", "holds nothing but comments", "a file as docs/files.md shows")
    return composer.document


_YAML_HELP = (
    "brackets, quotes, colons and indents that close; text with ': ' or ' #' in it stands in quotes; look in the line "
    "above too"
)


def _problem(error: yaml.MarkedYAMLError) -> str:
    return " ".join((error.problem or error.context or "no reason given").split())


class _Composer:
    """Builds nodes from parse events with a stack of its own."""

    def __init__(self, page: Page, settings: Settings) -> None:
        self.page = page
        self.depth_most = int(settings.file_depth_most)
        self.values_most = int(settings.file_values_most)
        self.document: Node | None = None
        self.values = 0
        self.open: list[Sequence | Pairs] = []
        self.names: list[str] = []  # of each open one: its key or place in its parent
        self.keys: list[Word | None] = []  # of each open mapping: the key that waits for its value
        self.seen: list[dict[str, int]] = []  # of each open mapping: key -> line

    def take(self, event: yaml.Event) -> bool:
        """Return whether to go on [-]."""
        if isinstance(event, yaml.ScalarEvent):
            return self._word(event)
        if isinstance(event, (yaml.SequenceStartEvent, yaml.MappingStartEvent)):
            return self._start(event)
        if isinstance(event, (yaml.SequenceEndEvent, yaml.MappingEndEvent)):
            self.open.pop().end = _end(event)
            self.names.pop()
            self.keys.pop()
            self.seen.pop()
        elif isinstance(event, yaml.AliasEvent):
            name = shortened(str(event.anchor))
            self.page.fault(_span(event), "file", f"the alias *{name} stands there", "the value itself, written out")
            return False
        elif isinstance(event, yaml.DocumentStartEvent):
            return self._document(event)
        return True

    def _document(self, event: Any) -> bool:
        if event.version is not None or event.tags:
            self.page.fault(_span(event), "file", "a YAML directive stands there", "no line that begins with %")
            return False
        if self.document is not None:
            self.page.fault(_span(event), "file", "a second document begins there", "one document, no line ---")
            return False
        return True

    def _word(self, event: Any) -> bool:
        mark = event.start_mark
        word = Word(
            line=mark.line + 1,
            column=mark.column + 1,
            start=mark.index,
            end=event.end_mark.index,
            text=event.value,
            quoted=bool(event.style),
        )
        if event.tag is not None or event.anchor is not None:
            self._refuse_tag(event)
        return self._put(word)

    def _start(self, event: Any) -> bool:
        mark = event.start_mark
        place = {"line": mark.line + 1, "column": mark.column + 1, "start": mark.index}
        if event.tag is not None or event.anchor is not None:
            self._refuse_tag(event)
        if len(self.open) >= self.depth_most:
            found = f"nested deeper than {self.depth_most}"
            self.page.fault(_span(event), "file", found, "a flatter file (setting file_depth_most)")
            return False
        node: Sequence | Pairs
        if isinstance(event, yaml.MappingStartEvent):
            node = Pairs(pairs=[], flow=bool(event.flow_style), **place)
        else:
            node = Sequence(items=[], **place)
        name = self._name_of_next()
        if not self._put(node):
            return False
        self.open.append(node)
        self.names.append(name)
        self.keys.append(None)
        self.seen.append({})
        return True

    def _refuse_tag(self, event: Any) -> None:
        if event.tag is not None:
            found, wanted = f"the tag {shortened(str(event.tag))} stands there", "plain values without tags"
        else:
            found, wanted = f"the anchor &{shortened(str(event.anchor))} stands there", "plain values without anchors"
        self.page.fault(_span(event), "file", found, wanted)

    def _put(self, node: Node) -> bool:
        self.values += 1
        if self.values > self.values_most:
            found = f"more than {self.values_most} values"
            self.page.fault(node, "file", found, "a smaller file (setting file_values_most)")
            return False
        if not self.open:
            self.document = node
            return True
        parent = self.open[-1]
        if isinstance(parent, Sequence):
            parent.items.append(node)
            return True
        key = self.keys[-1]
        if key is not None:
            self.keys[-1] = None
            parent.pairs.append((key, node))
            return True
        return self._key(node)

    def _name_of_next(self) -> str:
        if not self.open:
            return ""
        parent, key = self.open[-1], self.keys[-1]
        return f"[{len(parent.items)}]" if isinstance(parent, Sequence) else shortened(key.text) if key else ""

    def _key(self, node: Node) -> bool:
        if not isinstance(node, Word):
            self.page.fault(node, "file", "a list or a mapping stands as a key", "a word as the key")
            return False
        self.keys[-1] = node
        seen = self.seen[-1]
        if node.text in seen:
            found = f'the key "{shortened(node.text)}" stands twice, first in line {seen[node.text]}'
            path = ".".join([*self.names[1:], shortened(node.text)]).replace(".[", "[")
            self.page.fault(node, path, found, "each key once")
        seen[node.text] = node.line
        return True


def _end(event: Any) -> int:
    return int(event.end_mark.index)


def _span(event: Any) -> Span:
    return Span(line=event.start_mark.line + 1, column=event.start_mark.column + 1)
