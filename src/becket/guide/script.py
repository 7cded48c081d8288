"""The script of a run: every item that is asked at the crane, in order, with what it is compared with.

In:    a plain object, as it is kept and as a phone holds it.
Out:   frozen records; the plain object again.
Never: an item that has no words; a wanted number in the words of a blind item.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from dataclasses import asdict, dataclass
from sys import intern
from typing import Any

FIELD_KINDS = ("falls", "count", "number", "sheave", "sheaves", "choice", "text", "name", "time")


@dataclass(frozen=True, kw_only=True)
class Field:
    """One value that is entered. ``want`` None: any value is taken as it is read, it is only kept."""

    name: str  # key in what is entered: "angle", "ropes"
    kind: str  # one of FIELD_KINDS
    prompt: str  # what is asked, without the wanted number
    unit: str | None = None  # of a "number", as shown: "deg", "m", "mm", "t", "m/s"
    want: object = None  # number, text, or list of numbers
    tolerance: float | None = None  # of a "number": how far from want is still right
    least: float | None = None  # of a "number": at least this, with want None
    most: float | None = None
    choices: tuple[str, ...] = ()  # of a "choice": words on the plates
    stops: tuple[str, ...] = ()  # of a "choice": words that stop the change until mended
    place: str | None = None  # of "sheave", "sheaves": "head" or "block"
    sheaves: tuple[int, ...] = ()  # the keys of the pad: every sheave that the book has there
    wrong: str = ""  # said when it is not what is wanted; {value} stands for what was entered


@dataclass(frozen=True, kw_only=True)
class Item:
    """One screen of a run."""

    id: str  # "s41", "p2.3"
    number: int | None  # of the step as printed on the change sheet; None: an item of a pause
    part: str  # "steps", "pause-1" ... "pause-4", "sign"
    phase: str
    who: str  # operator, rigger, both
    other: str  # what the other one does: "operator: hands off"
    do: str  # the instruction
    look_for: str | None
    action: str  # what the button says: "Enter the angle read"
    fields: tuple[Field, ...]
    full: str | None = None  # what the printed step says beyond the instruction
    view: str | None = None  # "rigger", "cab", "side"
    picture: str | None = None  # name in the script's pictures
    turned: str | None = None  # name of the picture from the other side
    moves: bool = False  # a crane motion: the phone is put away
    sign: str | None = None  # "no-hands", "overhead", "hold", ... one hazard sign at most
    blind: bool = False  # entered alone, hidden from the other
    group: str | None = None  # blind items with the same word are compared
    by_lot: bool = False  # it and the next item of its group may change places, by lot
    leave: tuple[str, ...] = ()  # what must be true before walking away here
    resume: Mapping[str, object] | None = None  # {"keepers_out", "last_sheave", "block"}: compared on coming back


@dataclass(frozen=True, kw_only=True)
class Group:
    """Blind entries that are compared with each other and with what is wanted."""

    name: str
    compare: str  # "equal" (field by field), "falls" (ropes against sheaves), "indicator" (falls and block)
    items: tuple[str, ...]  # ids
    label: str  # "Falls", "Keepers at the head"


@dataclass(frozen=True, kw_only=True)
class Reeving:
    """A state that the counts may find: falls, the sheaves with rope, the place of the dead end."""

    state: str  # "main:4"
    block: str
    falls: int
    head_sheaves: tuple[int, ...]
    block_sheaves: tuple[int, ...]
    dead_end: str
    is_confirmed: bool


@dataclass(frozen=True, kw_only=True)
class Script:
    """Everything that a run shows and asks, from its first screen to its last."""

    kind: str  # "change", "count"
    crane: str  # id
    crane_name: str
    manual: str
    issue: str | None
    book: str  # fingerprint of the book that it was made from
    before: str | None  # "main:2"; None: a count
    after: str | None
    minutes: float | None  # [min], estimate
    facts: tuple[tuple[str, str], ...]  # label, value: the screen "Before"
    warnings: tuple[str, ...]
    expects: tuple[Reeving, ...]  # a change: the one it ends in; a count: every one on file
    keepers_out: int | None  # pins, bars and plates that come out and go back
    clips_out: int | None
    items: tuple[Item, ...]
    groups: tuple[Group, ...]
    pictures: Mapping[str, str]  # name -> SVG

    def item(self, name: str) -> Item:
        """Return an item by its id [-].

        Args:
            name: id of the item
        """
        return next(item for item in self.items if item.id == name)


def script_as_dict(script: Script) -> dict[str, object]:
    """Return a script as the plain object that a phone keeps [-].

    Args:
        script: any
    """
    plain: dict[str, object] = json.loads(json.dumps(asdict(script)))
    return plain


def script_text(script: Script) -> str:
    """Return the one text of a script that is kept [-].

    Args:
        script: any
    """
    return json.dumps(asdict(script), sort_keys=True, separators=(",", ":"), ensure_ascii=False)


def script_id(text: str) -> str:
    """Return the name of a script: the first 16 hex digits of SHA-256 over its text [-].

    Args:
        text: of the script
    """
    return hashlib.sha256(text.encode()).hexdigest()[:16]


def read_script(text: str) -> Script:
    """Return a kept script [-].

    Args:
        text: as kept
    """
    found = json.loads(text, object_hook=_shared)
    return Script(
        **{
            **found,
            "facts": tuple((label, value) for label, value in found["facts"]),
            "warnings": tuple(found["warnings"]),
            "expects": tuple(Reeving(**_tuples(one)) for one in found["expects"]),
            "items": tuple(_item(one) for one in found["items"]),
            "groups": tuple(Group(**_tuples(one)) for one in found["groups"]),
        }
    )


def _shared(found: dict[str, Any]) -> dict[str, Any]:
    """Its texts, each once in memory however many scripts have it: most of two cranes of one maker are the same."""
    return {name: intern(value) if type(value) is str else value for name, value in found.items()}


def _item(found: Mapping[str, Any]) -> Item:
    plain = _tuples({name: value for name, value in found.items() if name != "fields"})
    return Item(**plain, fields=tuple(_field(one) for one in found["fields"]))


def _field(found: Mapping[str, Any]) -> Field:
    plain = _tuples({name: value for name, value in found.items() if name != "want"})
    return Field(**plain, want=found["want"])


def _tuples(found: Mapping[str, Any]) -> dict[str, Any]:
    return {name: tuple(value) if isinstance(value, list) else value for name, value in found.items()}
