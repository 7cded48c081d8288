"""The script of a change: the method's steps as screens, with what is asked, compared and left safe at each.

In:    a crane book, settings, a change that passes, pictures drawn elsewhere.
Out:   a script.
Never: a script for a change that does not pass; an order of its own; a wanted value in the words of a blind item.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from itertools import pairwise

from becket.book.crane import Book
from becket.errors import RefusedError
from becket.guide.ask_boom import ASK_BOOM
from becket.guide.ask_counts import ASK_ALONE, GROUP_OF
from becket.guide.ask_hoist import ASK_HOIST
from becket.guide.ask_rope import ASK_ROPE
from becket.guide.ask_site import ASK_SITE
from becket.guide.asked import Asked
from becket.guide.before import facts_before, reeving_of, warnings_before
from becket.guide.figures_said import figures_of, on_the_phone
from becket.guide.instructions import Instruction, instruction_of, said_in_nine
from becket.guide.leave import before_walking_away, found_on_return
from becket.guide.pauses import PAUSES, Question
from becket.guide.script import Field, Group, Item, Script
from becket.guide.wanted import tells_what_is_wanted
from becket.method.change import Change
from becket.method.crane_state import Deed
from becket.method.deeds import SIGNING
from becket.method.order import apply_deed, order_deeds
from becket.method.scene import Scene, first_state, scene_of
from becket.method.step import Step
from becket.settings.values import Settings
from becket.verdict import Verdict

ASKS = {**ASK_SITE, **ASK_BOOM, **ASK_ROPE, **ASK_HOIST, **ASK_ALONE}
_LITTLE = {"a", "an", "and", "at", "in", "is", "it", "its", "of", "put", "the", "then", "to"}
VIEWS = ("rigger", "cab")  # first seen, turned
_SENTENCE = re.compile(r"(?<=[.!?])\s+")


@dataclass(frozen=True, kw_only=True)
class _Moment:
    """One deed of the method with its printed step and the crane before it."""

    asked: Asked
    step: Step


def change_script(
    book: Book,
    settings: Settings,
    change: Change,
    *,
    crane: str,
    fingerprint: str,
    pictures: Mapping[str, str] | None = None,
) -> Script:
    """Return the script of a change: every screen in the order of its proved steps [-].

    Args:
        book: the crane
        settings: values of the method
        change: worked out, passing
        crane: its id
        fingerprint: of the book's text as it is kept
        pictures: name -> SVG, named as ``picture_names`` has them

    Raises:
        RefusedError: the change does not pass; says why.

    Source: docs/theory/script.md.
    """
    scene = _scene(book, settings, change)
    moments = _moments(scene, change.steps)
    drawn = pictures or {}
    items = _with_pauses(scene, moments, set(drawn))
    return Script(
        kind="change",
        crane=crane,
        crane_name=book.crane,
        manual=book.manual_title,
        issue=book.manual_issue,
        book=fingerprint,
        before=str(change.before),
        after=str(change.after),
        minutes=change.minutes.total / 60 if change.minutes is not None else None,
        facts=facts_before(book, change),
        warnings=warnings_before(change),
        expects=(reeving_of(book, scene.after),),
        keepers_out=len(scene.keepers),
        clips_out=sum(1 for keeper in scene.keepers if keeper.lock),
        items=items,
        groups=groups_of(items),
        pictures=dict(drawn),
    )


def groups_of(items: tuple[Item, ...]) -> tuple[Group, ...]:
    """Return the groups of the blind items, in the order in which they come [-].

    Args:
        items: of a script
    """
    known = {one.group: one for one in GROUP_OF.values()}
    names = dict.fromkeys(item.group for item in items if item.group)
    return tuple(
        Group(
            name=name,
            compare=known[name].compare,
            items=tuple(item.id for item in items if item.group == name),
            label=known[name].label,
        )
        for name in names
    )


def _scene(book: Book, settings: Settings, change: Change) -> Scene:
    if change.verdict is not Verdict.PASS:
        broken = [f"rule {rule.name}: {rule.why}" for rule in change.rules if rule.verdict is not Verdict.PASS]
        why = [reason.why for reason in change.reasons if reason.verdict is not Verdict.PASS] or broken
        said = "; ".join(why) or "it is not proved"
        raise RefusedError(f"{change.before} to {change.after} does not pass, so there is no script: {said}")
    scene = scene_of(book, settings, change.facts)
    if scene is None:
        raise RefusedError(f"{change.before} to {change.after}: no path, no position or no rope to leave")
    return scene


def _moments(scene: Scene, steps: tuple[Step, ...]) -> tuple[_Moment, ...]:
    state, moments = first_state(scene), []
    for deed, step in zip(order_deeds(scene).deeds, steps, strict=True):
        moments.append(_Moment(asked=Asked(scene=scene, state=state, deed=deed, number=step.number), step=step))
        state = apply_deed(scene, state, deed)
    return tuple(moment for moment in moments if moment.asked.deed.kind not in SIGNING)


def _with_pauses(scene: Scene, moments: tuple[_Moment, ...], drawn: set[str]) -> tuple[Item, ...]:
    deeds = tuple(moment.asked.deed for moment in moments)
    at = {pause.place(deeds): pause for pause in PAUSES}
    items: list[Item] = []
    for i, moment in enumerate(moments):
        if i in at:
            questions = at[i].questions(moment.asked)
            items += [_pause_item(at[i].name, k, one, moment) for k, one in enumerate(questions, start=1)]
        items.append(_item(scene, moment, drawn))
    return _with_lots(tuple(items), deeds)


def _item(scene: Scene, moment: _Moment, drawn: set[str]) -> Item:
    asked, step = moment.asked, moment.step
    deed, ask = asked.deed, ASKS.get(asked.deed.kind)
    said = instruction_of(_row(scene, deed))
    fields = ask(asked) if ask is not None else ()
    do = said_in_nine(said.do, figures_of(scene, deed))
    group = GROUP_OF[deed.kind].group if step.blind else None
    picture, turned = _pictures(said, asked, drawn)
    return Item(
        id=f"s{step.number}",
        number=step.number,
        part="steps",
        phase=step.phase,
        who=step.who,
        other=said.other,
        do=do,
        look_for=_told(step, _SENTENCE.split(on_the_phone(step.look_for)) if step.look_for else [], fields),
        action=said.action,
        fields=fields,
        full=_told(step, _beyond(step, do), fields),
        view=said.view if picture else None,
        picture=picture,
        turned=turned,
        moves=said.moves,
        sign=said.sign,
        blind=step.blind,
        group=group,
        leave=before_walking_away(scene, asked.state),
        resume=found_on_return(asked.state),
    )


def _pause_item(part: str, place: int, question: Question, moment: _Moment) -> Item:
    asked = moment.asked
    return Item(
        id=f"p{part[-1]}.{place}",
        number=None,
        part=part,
        phase=moment.step.phase,
        who=question.who,
        other="both: hands off, nothing moves",
        do=question.do,
        look_for=None,
        action=question.action,
        fields=(question.field,),
        leave=before_walking_away(asked.scene, asked.state),
        resume=found_on_return(asked.state),
    )


def _row(scene: Scene, deed: Deed) -> str:
    """The row of the catalogue: a few kinds of deed have a variant."""
    if deed.kind == "down_to_low" and scene.is_low_in_window:
        return "down_to_low.stays"
    if deed.kind == "open_dead_end" and not scene.takes_wedge_out:
        return "open_dead_end.whole"
    return deed.kind


def _beyond(step: Step, do: str) -> list[str]:
    """The sentences of the printed step that say more than the instruction: two words more, or a figure."""
    short, sentences = _bare(do), _SENTENCE.split(on_the_phone(step.do))
    more = {one: _bare(one) - short for one in sentences}
    return [
        one for one in sentences if len(more[one]) > 1 or any(char.isdigit() for word in more[one] for char in word)
    ]


def _told(step: Step, sentences: list[str], fields: tuple[Field, ...]) -> str | None:
    """Sentences as one text; blind: nothing that is wanted."""
    kept = [one for one in sentences if one and not (step.blind and tells_what_is_wanted(one, fields))]
    return " ".join(kept) or None


def _bare(text: str) -> set[str]:
    """The words of a text by which it says something."""
    return set(re.sub(r"[^\w −.]", "", text).lower().replace(". ", " ").rstrip(".").split()) - _LITTLE


def _pictures(said: Instruction, asked: Asked, drawn: set[str]) -> tuple[str | None, str | None]:
    name = picture_stem(said, asked)
    if name is None:
        return None, None
    if name == "side":
        return ("side", None) if "side" in drawn else (None, None)
    rigger, cab = (f"{name}-{view}" for view in VIEWS)
    return (rigger, cab) if {rigger, cab} <= drawn else (None, None)


def picture_stem(said: Instruction, asked: Asked) -> str | None:
    """Return the name of an item's picture without its view: "thread-3", "draw-1", "side"; None: it has none [-].

    Args:
        said: its row of the catalogue
        asked: its deed
    """
    threaded, drawn_out = asked.scene.path.thread, asked.scene.path.draw_out
    if said.picture == "thread":
        order = [str(one) for one in threaded]
        return f"thread-{order.index(asked.deed.of) + 1 if asked.deed.of else len(order) + 1}"
    if said.picture == "after":
        return f"thread-{len(threaded) + 1}"
    if said.picture == "draw":
        return f"draw-{[str(one) for one in drawn_out].index(asked.deed.of) + 1}"
    return said.picture


def _with_lots(items: tuple[Item, ...], deeds: tuple[Deed, ...]) -> tuple[Item, ...]:
    """Items of a group that stand side by side and that nothing physical orders may change places."""
    kind_of_item = {f"s{number}": deed.kind for number, deed in enumerate(deeds, start=1)}
    pairs = {
        first.id
        for first, second in pairwise(items)
        if first.group is not None and first.group == second.group and GROUP_OF[kind_of_item[first.id]].by_lot
    }
    return tuple(replace(item, by_lot=item.id in pairs) for item in items)
