"""What each person is asked alone: counts, places, settings, and with whom each is compared.

In:    one deed with the crane before it.
Out:   fields whose words hold no wanted value; groups that are compared.
Never: a wanted value in a prompt; what was wrong with an entry before both are in.
"""

from __future__ import annotations

from dataclasses import dataclass

from becket.guide.asked import Ask, Asked, dead_end_places, sheave_keys
from becket.guide.script import Field


@dataclass(frozen=True, kw_only=True)
class Compared:
    """The group that blind entries of one kind of deed belong to."""

    group: str
    label: str
    compare: str = "equal"
    by_lot: bool = False  # nothing physical settles which of the two comes first


GROUP_OF: dict[str, Compared] = {
    "read_stand": Compared(group="stand", label="Counterweight, outriggers, level", by_lot=True),
    "see_stand": Compared(group="stand", label="Counterweight, outriggers, level"),
    "measure_hook": Compared(group="hook height", label="Hook under the head", by_lot=True),
    "read_hook": Compared(group="hook height", label="Hook under the head"),
    "count_out_block": Compared(group="out at the block", label="Keepers out at the block"),
    "override_off": Compared(group="override after boom down", label="Override after boom down"),
    "count_out_block_low": Compared(group="out at the block, rope slack", label="Keepers out at the block, rope slack"),
    "count_out_head": Compared(group="out at the head", label="Keepers out at head and dead end"),
    "count_in_old": Compared(group="in at the old block", label="Keepers back at the old block"),
    "count_out_new": Compared(group="out at the new block", label="Keepers out at the new block"),
    "count_in_head": Compared(group="in at the head", label="Keepers back at head and dead end"),
    "count_sheaves": Compared(group="falls", label="Falls", compare="falls"),
    "count_ropes": Compared(group="falls", label="Falls", compare="falls"),
    "place_operator": Compared(group="dead end", label="Dead end"),
    "place_rigger": Compared(group="dead end", label="Dead end"),
    "count_in_block": Compared(group="in at the block", label="Keepers back at the block"),
    "box_rigger": Compared(group="left in the box", label="Left in the keeper box"),
    "box_operator": Compared(group="left in the box", label="Left in the keeper box"),
    "enter_indicator": Compared(group="indicator", label="Load indicator", compare="indicator", by_lot=True),
    "read_indicator": Compared(group="indicator", label="Load indicator", compare="indicator"),
    "enter_override": Compared(group="override", label="Override", by_lot=True),
    "see_override": Compared(group="override", label="Override"),
}


def stand(asked: Asked) -> tuple[Field, ...]:
    """Return counterweight, outriggers and level [-].

    Args:
        asked: the deed
    """
    book, position = asked.scene.book, asked.position
    named = [*(row.outriggers for row in book.rereeve), *(chart.outriggers for chart in book.charts)]
    known = dict.fromkeys(name for name in named if name)
    return (
        Field(
            name="counterweight",
            kind="number",
            unit="t",
            prompt="Counterweight on the crane",
            want=round(position.counterweight / 1000, 3),
            tolerance=asked.scene.settings.plate_tolerance / 1000,
        ),
        Field(
            name="outriggers",
            kind="choice",
            prompt="How do the outriggers stand?",
            want=position.outriggers,
            choices=(*known, "another way"),
        ),
        Field(
            name="level",
            kind="choice",
            prompt="Level, against the manual's limit",
            want="within it",
            choices=("within it", "over it"),
        ),
    )


def hook_height(asked: Asked) -> tuple[Field, ...]:
    """Return the hook under the head, shaft to shaft: within the setting, never past the bounds of the height [m].

    Args:
        asked: the deed
    """
    leave, tolerance = asked.scene.facts.leave, asked.scene.settings.hook_tolerance
    target = leave.target if leave is not None else None
    if leave is not None and target is not None:
        tolerance = max(0.0, min(tolerance, target - leave.least, leave.most - target))
    return (
        Field(
            name="height",
            kind="number",
            unit="m",
            prompt="Head shaft to block shaft",
            want=target,
            tolerance=round(tolerance, 3) if target is not None else None,
        ),
    )


def keepers_out(asked: Asked) -> tuple[Field, ...]:
    """Return how many keepers and clips came out, where the deed counts [-].

    Where more of the block come out later, the first count is "so far": the last one counts them all.

    Args:
        asked: the deed
    """
    names = [k.name for k in asked.scene.keepers if _is_counted(asked, k.name) and k.name in asked.state.keepers_out]
    clips = [name for name in names if name in asked.state.clips_out]
    comes_again = asked.deed.kind == "count_out_block" and bool(asked.scene.slack_keepers_at_block)
    return _keepers("so_far" if comes_again else "out", len(names), len(clips))


def keepers_in(asked: Asked) -> tuple[Field, ...]:
    """Return how many keepers and clips went back, where the deed counts [-].

    Args:
        asked: the deed
    """
    back = [k for k in asked.scene.keepers if _is_counted(asked, k.name) and k.name not in asked.state.keepers_out]
    return _keepers("in", len(back), len([k for k in back if k.lock]))


def keepers_left(asked: Asked) -> tuple[Field, ...]:
    """Return how many keepers and clips are left in the box [-].

    Args:
        asked: the deed
    """
    return _keepers("left", len(asked.state.keepers_out), len(asked.state.clips_out))


def head_sheaves(asked: Asked) -> tuple[Field, ...]:
    """Return the head sheaves with rope, and on what the rope ends [-].

    Args:
        asked: the deed
    """
    return sheaves_and_end(sheave_keys(asked.scene.book, "head", ""))


def block_ropes(asked: Asked) -> tuple[Field, ...]:
    """Return the ropes that carry the block, and its sheaves with rope [-].

    Args:
        asked: the deed
    """
    return ropes_and_sheaves(sheave_keys(asked.scene.book, "block", asked.scene.after.block))


def sheaves_and_end(keys: tuple[int, ...]) -> tuple[Field, ...]:
    """Return what the operator sees at the head [-].

    Args:
        keys: every sheave of the head
    """
    return (
        Field(name="sheaves", kind="sheaves", prompt="Head sheaves with rope", place="head", sheaves=keys),
        Field(name="ends_on", kind="choice", prompt="On what does the rope end?", choices=("head", "block")),
    )


def ropes_and_sheaves(keys: tuple[int, ...]) -> tuple[Field, ...]:
    """Return what the rigger sees at the block; at a ball, which has no sheaves, "none" is the answer [-].

    Args:
        keys: every sheave of the block
    """
    return (
        Field(name="ropes", kind="falls", prompt="Ropes that carry the block, dead end counted"),
        Field(name="block_sheaves", kind="sheaves", prompt="Block sheaves with rope", place="block", sheaves=keys),
    )


def place(asked: Asked) -> tuple[Field, ...]:
    """Return where the dead end is made [-].

    Args:
        asked: the deed
    """
    choices, want = dead_end_places(asked.scene.book), asked.scene.after.dead_end
    return (Field(name="place", kind="choice", prompt="The dead end is made at", want=want, choices=choices),)


def indicator(asked: Asked) -> tuple[Field, ...]:
    """Return what the load indicator is set to [-].

    Args:
        asked: the deed
    """
    after = asked.scene.after
    return indicator_fields(tuple(sorted(asked.scene.book.blocks)), after.falls, after.block)


def indicator_fields(blocks: tuple[str, ...], falls: int | None, block: str | None) -> tuple[Field, ...]:
    """Return falls and block as the load indicator is set [-].

    Args:
        blocks: on file
        falls: wanted; None: any
        block: wanted; None: any
    """
    return (
        Field(name="falls", kind="falls", prompt="Falls set on the indicator", want=falls),
        Field(name="block", kind="choice", prompt="Block set on the indicator", want=block, choices=blocks),
    )


def override(asked: Asked) -> tuple[Field, ...]:
    """Return how the override stands and where its key is [-].

    Args:
        asked: the deed
    """
    return (
        Field(name="override", kind="choice", prompt="The override stands", want="off", choices=("off", "on")),
        Field(name="key", kind="choice", prompt="Its key is", want="out", choices=("out", "in")),
    )


def override_is_on(asked: Asked) -> tuple[Field, ...]:
    """Return that the override is on, for the one motion that the manual lists [-].

    Args:
        asked: the deed
    """
    wrong = f"You entered {{value}}. Step {asked.number} is on. Turn it, or enter again."
    prompt = "How does the override stand?"
    return (Field(name="override", kind="choice", prompt=prompt, want="on", choices=("off", "on"), wrong=wrong),)


def _keepers(way: str, keepers: int, clips: int) -> tuple[Field, ...]:
    words = {"out": "drawn", "so_far": "drawn so far", "in": "put back", "left": "left in the box"}[way]
    return (
        Field(name=f"keepers_{way}", kind="count", prompt=f"Keepers {words}", want=keepers),
        Field(name=f"clips_{way}", kind="count", prompt=f"Clips {words}", want=clips),
    )


def _is_counted(asked: Asked, name: str) -> bool:
    """Whether a keeper is of the place that the deed counts: head and dead end, or one block."""
    keeper, scene, kind = asked.scene.keeper(name), asked.scene, asked.deed.kind
    if kind in ("count_out_head", "count_in_head"):
        return keeper.at != "block"
    if keeper.at != "block":
        return False
    is_old = kind in ("count_out_block", "count_out_block_low", "count_in_old")
    return keeper.block == (scene.before.block if is_old else scene.after.block)


ASK_ALONE: dict[str, Ask] = {
    "read_stand": stand,
    "see_stand": stand,
    "measure_hook": hook_height,
    "read_hook": hook_height,
    "count_out_block": keepers_out,
    "count_out_block_low": keepers_out,
    "count_out_head": keepers_out,
    "count_out_new": keepers_out,
    "count_in_old": keepers_in,
    "count_in_head": keepers_in,
    "count_in_block": keepers_in,
    "box_rigger": keepers_left,
    "box_operator": keepers_left,
    "count_sheaves": head_sheaves,
    "count_ropes": block_ropes,
    "place_operator": place,
    "place_rigger": place,
    "enter_indicator": indicator,
    "read_indicator": indicator,
    "override_on": override_is_on,
    "override_off": override,
    "enter_override": override,
    "see_override": override,
}
