"""The script of a count: two people find out, each alone, what is rigged now.

In:    a crane book.
Out:   a script that wants nothing: no number of falls, no pattern, in no field.
Never: a pattern that is not on file; a wanted value.
"""

from __future__ import annotations

from dataclasses import dataclass

from becket.book.crane import Book
from becket.guide.ask_counts import indicator_fields, ropes_and_sheaves, sheaves_and_end
from becket.guide.asked import dead_end_places, sheave_keys
from becket.guide.before import reeving_of
from becket.guide.script import Field, Group, Item, Script
from becket.settings.values import Settings

PHASE = "Count"
_LEAVE = ("Engine off or controls locked, key in pocket.", "Nothing is lifted before both have counted.")


@dataclass(frozen=True, kw_only=True)
class _Pair:
    """One thing that both enter, each alone: operator first, the lot may turn them."""

    group: str
    label: str
    compare: str
    do: tuple[str, str]  # operator, rigger
    look_for: tuple[str | None, str | None]
    fields: tuple[tuple[Field, ...], tuple[Field, ...]]


def count_script(book: Book, settings: Settings, *, crane: str, fingerprint: str) -> Script:
    """Return the script of a count [-].

    Args:
        book: the crane
        settings: in force
        crane: its id
        fingerprint: of the book's text as it is kept

    Source: docs/theory/script.md, "A count".
    """
    pairs = _pairs(book)
    first = (_still(),)
    items = (*first, *(item for k, pair in enumerate(pairs) for item in _two(pair, len(first) + 2 * k + 1)))
    last = _limit(len(items) + 1)
    return Script(
        kind="count",
        crane=crane,
        crane_name=book.crane,
        manual=book.manual_title,
        issue=book.manual_issue,
        book=fingerprint,
        before=None,
        after=None,
        minutes=None,
        facts=(("Who counts", "two people, each alone"), ("Where", "operator at the head, rigger at the block")),
        warnings=("Say no number aloud until both have hidden theirs.",),
        expects=tuple(reeving_of(book, pattern) for pattern in book.patterns),
        keepers_out=None,
        clips_out=None,
        items=(*items, last),
        groups=_groups(pairs, items),
        pictures={},
    )


def _groups(pairs: tuple[_Pair, ...], items: tuple[Item, ...]) -> tuple[Group, ...]:
    """Block, sheaves and ropes are one group: a number of falls says which pattern only with its block."""
    return tuple(
        Group(
            name=name,
            compare=pair.compare,
            items=tuple(item.id for item in items if item.group == name),
            label=pair.label,
        )
        for name, pair in {pair.group: pair for pair in pairs}.items()
    )


def _pairs(book: Book) -> tuple[_Pair, ...]:
    blocks = tuple(sorted(book.blocks))
    block = (Field(name="block", kind="choice", prompt="Name on the block", choices=(*blocks, "another")),)
    place = (Field(name="place", kind="choice", prompt="The dead end is made at", choices=dead_end_places(book)),)
    indicator = indicator_fields(blocks, None, None)
    return (
        _Pair(
            group="falls",
            label="Falls",
            compare="falls",
            do=("Alone: read the name on the block.", "Alone: read the name on the block."),
            look_for=("Its plate, not the indicator.", "Its plate, not the indicator."),
            fields=(block, block),
        ),
        _Pair(
            group="falls",
            label="Falls",
            compare="falls",
            do=("Alone: which head sheaves have rope over them?", "Alone at the block: count ropes carrying it."),
            look_for=(
                "Say no number aloud. Look at the sheaves, not at the block.",
                "Dead end counted. Say no number aloud. Follow each rope from block to head.",
            ),
            fields=(
                sheaves_and_end(sheave_keys(book, "head", "")),
                ropes_and_sheaves(sheave_keys(book, "block", "")),
            ),
        ),
        _Pair(
            group="dead end",
            label="Dead end",
            compare="equal",
            do=("Alone: where is the dead end made?", "Alone: where is the dead end made?"),
            look_for=(None, None),
            fields=(place, place),
        ),
        _Pair(
            group="indicator",
            label="Load indicator",
            compare="indicator",
            do=(
                "Alone: read falls and block from the indicator.",
                "Alone: read falls and block from the indicator.",
            ),
            look_for=("Read it, set nothing.", "Read it, set nothing."),
            fields=(indicator, indicator),
        ),
    )


def _two(pair: _Pair, number: int) -> tuple[Item, Item]:
    def item(k: int) -> Item:
        who, away = ("operator", "rigger") if k == 0 else ("rigger", "operator")
        return Item(
            id=f"c{number + k}",
            number=number + k,
            part="steps",
            phase=PHASE,
            who=who,
            other=f"{away}: stands away, says nothing",
            do=pair.do[k],
            look_for=pair.look_for[k],
            action="Enter what you see",
            fields=pair.fields[k],
            blind=True,
            group=pair.group,
            by_lot=k == 0,
            leave=_LEAVE,
        )

    return item(0), item(1)


def _still() -> Item:
    controls = Field(
        name="controls",
        kind="choice",
        prompt="How is the crane kept still?",
        choices=("engine off", "controls locked", "neither"),
        stops=("neither",),
        wrong="Nobody counts before the engine is off or the controls are locked.",
    )
    do = "Engine off or controls locked, key in pocket."
    return _plain(1, "operator", do, "Enter how it is kept still", (controls,))


def _limit(number: int) -> Item:
    choices = ("tried, it stopped", "not tried since it was reeved", "it did not stop")
    tried = Field(
        name="limit",
        kind="choice",
        prompt="The hoist limit switch, as rigged now",
        choices=choices,
        stops=choices[1:],
        wrong="Nothing is lifted before the hoist limit switch has stopped the hook as it is rigged now.",
    )
    do = "Hook up slowly to the hoist limit switch."
    return _plain(number, "operator", do, "Enter what it did", (tried,), moves=True)


def _plain(number: int, who: str, do: str, action: str, fields: tuple[Field, ...], *, moves: bool = False) -> Item:
    return Item(
        id=f"c{number}",
        number=number,
        part="steps",
        phase=PHASE,
        who=who,
        other="rigger: stands clear" if moves else "nobody moves the crane",
        do=do,
        look_for=None,
        action=action,
        fields=fields,
        moves=moves,
        sign="overhead" if moves else None,
        leave=_LEAVE,
    )
