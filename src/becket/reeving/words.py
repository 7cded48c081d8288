"""The words of a reeving pattern: path, dead end, state.

In:    text as a rigger writes it.
Out:   passes, a normal form of the dead end, a state; and back.
Never: whether the sheaves exist, whether the path makes sense.
"""

from __future__ import annotations

import re
import shlex
import unicodedata
from collections.abc import Iterable

from becket.book.tackle import Pass, State
from becket.errors import UnreadableTextError

_WHOLE = r"[1-9][0-9]{0,2}"
_PASS = re.compile(rf"(head|block)\s+({_WHOLE})(?=[\s,]|$)", re.IGNORECASE | re.ASCII)
_OTHER_SPACES = str.maketrans(dict.fromkeys("\u00a0\u2009\u202f", " "))
_BETWEEN = re.compile(r"\s*,\s*|\s+", re.ASCII)
_PATH_WANTED = 'a path such as "head 3, block 3, head 5, block 5" is wanted, rope from the drum outward'


def read_path(text: str) -> tuple[Pass, ...]:
    """Return the passes of a path, rope from the drum outward [-], shape (passes,).

    Args:
        text: "head 3 block 3" or "head 3, block 3"

    Raises:
        UnreadableTextError: a word that is no pass.

    >>> path_words(read_path("Head 3 block 3, head 5"))
    'head 3, block 3, head 5'
    """
    passes = []
    rest = text.translate(_OTHER_SPACES).strip()
    while rest:
        found = _PASS.match(rest)
        if found is None:
            raise UnreadableTextError(f'path "{text}": cannot read "{_shortened(rest)}"{_stranger(rest)}', _PATH_WANTED)
        passes.append(Pass(place=found[1].lower(), sheave=int(found[2])))
        rest = rest[found.end() :]
        between = _BETWEEN.match(rest)
        if between is not None:
            rest = rest[between.end() :]
    if not passes:
        raise UnreadableTextError("path: nothing stands there", _PATH_WANTED)
    return tuple(passes)


def path_words(path: Iterable[Pass]) -> str:
    """Return a path in words, one for each pass [-].

    Args:
        path: passes, rope from the drum outward

    >>> path_words([Pass(place="head", sheave=4), Pass(place="block", sheave=2)])
    'head 4, block 2'
    """
    return ", ".join(str(one) for one in path)


def read_state(text: str) -> State:
    """Return the state that is written BLOCK:FALLS [-].

    Args:
        text: for example "main:4"

    Raises:
        UnreadableTextError: no block, or falls that are no whole number from 1.

    >>> str(read_state("main:4"))
    'main:4'
    """
    block, _, falls = text.strip().rpartition(":")
    block, falls = block.strip(), falls.strip()
    if not block or not re.fullmatch(_WHOLE, falls):
        raise UnreadableTextError(f'state "{_shortened(text)}"', 'block and falls such as "main:4" are wanted')
    return State(block=block, falls=int(falls))


def read_dead_end(text: str) -> str:
    """Return the normal form of a dead end: "block", or "head NAME" with the anchor's name [-].

    Args:
        text: "block", "head b"; the words "dead end" may stand before it

    Raises:
        UnreadableTextError: neither of them.

    >>> read_dead_end("dead end  head b")
    'head b'
    """
    words = text.split()
    if [word.lower() for word in words[:2]] == ["dead", "end"]:
        words = words[2:]
    if len(words) == 1 and words[0].lower() == "block":
        return "block"
    if len(words) >= 2 and words[0].lower() == "head":
        return " ".join(["head", *words[1:]])
    raise UnreadableTextError(
        f'dead end "{_shortened(text)}"',
        '"block", or "head" with the name of its anchor such as "head b", is wanted',
    )


def shell_word(state: State) -> str:
    """Return the state as it is typed in a command: in quotes where the block's name needs them [-].

    >>> shell_word(State(block="main", falls=4)), shell_word(State(block="hook block", falls=4))
    ('main:4', "'hook block:4'")
    """
    return shlex.quote(str(state)) if re.search(r"[^\w:.+-]", str(state)) else str(state)


def dead_end_anchor(dead_end: str) -> str | None:
    """Return the name of the head anchor of a dead end; None: it is on the block [-].

    Args:
        dead_end: normal form, "block" or "head NAME"

    >>> dead_end_anchor("head b")
    'b'
    """
    return None if dead_end == "block" else dead_end.removeprefix("head ")


def _stranger(text: str) -> str:
    """Name the first letter or mark that only looks as if it were typed on a plain keyboard."""
    odd = next((c for c in _shortened(text) if not c.isascii()), None)
    return "" if odd is None else f", where the {odd} is a {unicodedata.name(odd, 'character without a name').lower()}"


def _shortened(text: str) -> str:
    line = " ".join(text.split())
    return line if len(line) <= 40 else line[:40] + "..."
