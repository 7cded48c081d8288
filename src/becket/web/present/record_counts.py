"""The blind counts of a record: who entered what, when, and that the other's answer was hidden until then.

In:    what a record is told from.
Out:   sections: whether the counts were independent, then one a group and round.
Never: a value of a round that is not complete; "independent" where the record does not show it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from becket.cards.record_told import Line, Section
from becket.guide.run_state import Round as ComparedRound
from becket.guide.script import Group
from becket.web.present.record_kept import KeptLike, RunKept, joined, seconds_between
from becket.web.present.record_values import SHEAVES, said_values, values_of

HANDED_OVER_LEAST = 15.0  # seconds; to hand a phone over, walk, and enter four digits and a count takes longer


@dataclass(frozen=True, kw_only=True)
class Round:
    """The entries of one group in one round."""

    group: Group
    number: int
    entries: tuple[KeptLike, ...]
    place: int  # among the rounds, in the order of the script
    asked: int  # how many persons the method asks
    is_complete: bool
    compared: ComparedRound | None  # what the fold says of it: agreed, why

    @property
    def persons(self) -> set[str | None]:
        """Who entered [-]."""
        return {one.event.person for one in self.entries}

    @property
    def is_of_two(self) -> bool:
        """Whether the method asks two persons: the others are one person's count against what is wanted [-]."""
        return self.asked > 1

    @property
    def devices(self) -> set[str]:
        """On what [-]."""
        return {one.event.device for one in self.entries}


def tell_counts(run: RunKept) -> tuple[Section, ...]:
    """Return whether the counts were independent, then every round of every group [-].

    Args:
        run: what the record is told from
    """
    rounds = rounds_of(run)
    if not rounds:
        none = (run.word("record.counts_none"),)
        return (Section(name="counts", title=run.word("record.counts"), says=none),)
    says = _independence(run, rounds) if run.broken is None else (run.word("record.broken_counts"),)
    head = Section(name="counts", title=run.word("record.counts"), says=tuple(says))
    shown = sorted((one for one in rounds if _is_told(one)), key=_place)
    return (head, *(_section(run, one) for one in shown))


def rounds_of(run: RunKept) -> tuple[Round, ...]:
    """Return the rounds of every group, in the order of the script [-].

    Args:
        run: what the record is told from
    """
    found: dict[tuple[str, int], list[KeptLike]] = {}
    for one in run.of_kind("entered"):
        group = run.groups.get(str(one.event.entered.get("item")))
        if group is not None and one.event.key not in run.apart:
            found.setdefault((group.name, _round(one)), []).append(one)
    order = {group.name: place for place, group in enumerate(run.script.groups)}
    keys = sorted(found, key=lambda key: (order[key[0]], key[1]))
    return tuple(_made(run, key, place, found[key]) for place, key in enumerate(keys))


def _is_told(one: Round) -> bool:
    """One person's count that is right stands under its subject; every other round stands here."""
    return one.is_of_two or one.compared is None or not one.compared.agreed


def _place(one: Round) -> tuple[int, int]:
    """The falls first, then the indicator, then the others; rounds in their order."""
    first = {"falls": 0, "indicator": 1}.get(one.group.compare, 2 if one.is_of_two else 3)
    return first, one.place


def _made(run: RunKept, key: tuple[str, int], place: int, entries: Sequence[KeptLike]) -> Round:
    name, number = key
    group = next(group for group in run.script.groups if group.name == name)
    of_both = (one for one in run.state.rounds_kept if one.group == name and one.round == number)
    entered = {str(one.event.entered.get("item")) for one in entries}
    return Round(
        group=group,
        number=number,
        entries=tuple(entries),
        place=place,
        asked=len({run.items[one].who for one in group.items if one in run.items}),
        is_complete=entered >= set(group.items) and not any(one.event.key in run.sealed for one in entries),
        compared=next(of_both, None),
    )


def _independence(run: RunKept, rounds: Sequence[Round]) -> list[str]:
    says = [_verdict(run, rounds)]
    letters = sorted({run.devices[name] for one in rounds for name in one.devices})
    one_device = len(letters) == 1
    rounds = [one for one in rounds if one.is_of_two]
    says.append(run.word("record.one_device" if one_device else "record.two_devices", devices=joined(letters)))
    for one in rounds:
        if len(one.entries) > 1 and len(one.persons) == 1:
            says.append(run.word("record.one_person", label=one.group.label, round=one.number))
        if one.is_complete and one.number > 1:
            says.append(run.word("record.seen_before", label=one.group.label, round=one.number, last=one.number - 1))
        gap = _gap(one)
        if one.is_complete and gap is not None and gap < HANDED_OVER_LEAST:
            words = {"label": one.group.label, "round": one.number, "seconds": f"{gap:.0f}"}
            says.append(run.word("record.fast_hand_over", **words))
    if _operator_called_in(run):
        says.append(run.word("record.called_in"))
    return says


def _verdict(run: RunKept, rounds: Sequence[Round]) -> str:
    of_two = [one for one in rounds if one.is_of_two]
    if not of_two or not all(one.is_complete for one in of_two):
        return run.word("record.counts_open")
    if any(len(one.persons) == 1 for one in of_two):
        return run.word("record.not_independent")
    again = [one.group.label for one in of_two if one.number > 1]
    if again:
        return run.word("record.independent_first", labels=joined(sorted(set(again))))
    return run.word("record.independent")


def _gap(one: Round) -> float | None:
    """Return how long lay between two persons' entries on one device, by its clock [s]."""
    if len(one.persons) < 2 or len(one.devices) != 1:
        return None
    pairs = zip(one.entries, one.entries[1:], strict=False)
    gaps = [seconds_between(a.event.at, b.event.at) for a, b in pairs if a.event.person != b.event.person]
    return min((gap for gap in gaps if gap >= 0), default=None)


def _operator_called_in(run: RunKept) -> bool:
    """Return whether the operator entered sheaves called in: the number was known before the count."""
    for one in run.of_kind("entered"):
        item = run.items.get(str(one.event.entered.get("item")))
        if one.event.role == "operator" and item and not item.blind and any(f.kind in SHEAVES for f in item.fields):
            return True
    return False


def _section(run: RunKept, one: Round) -> Section:
    lines = tuple(_line(run, one, entry) for entry in one.entries)
    title = run.word("record.round", label=one.group.label, round=one.number)
    name = f"count-{one.place}"
    return Section(
        name=name, title=title, says=(_outcome(run, one),), lines=lines, is_count=True, is_folded=_is_folded(one)
    )


def _is_folded(one: Round) -> bool:
    """Falls, indicator and every difference are seen at once; the other counts open with one tap."""
    agreed = one.compared is not None and one.compared.agreed
    return agreed and one.group.compare not in ("falls", "indicator")


def _outcome(run: RunKept, one: Round) -> str:
    if not one.is_complete or one.compared is None:
        return run.word("record.round_open")
    why = (one.compared.why or "").rstrip(".")
    if one.compared.agreed:
        return run.word("record.round_agreed" if one.is_of_two else "record.round_right")
    return run.word("record.round_differs", why=why) if why else run.word("record.round_differs_bare")


def _line(run: RunKept, one: Round, entry: KeptLike) -> Line:
    event = entry.event
    label = run.word("record.person", role=run.word(f"record.role.{event.role}"), name=run.name_of(event.person))
    if not one.is_complete:
        return Line(label=label, value=run.word("record.hidden"), below=(run.said_by(entry),))
    item = run.items.get(str(event.entered.get("item")))
    values = "; ".join(f"{value.asked}: {value.said}" for value in said_values(item, values_of(event)))
    below = (run.said_by(entry), *([_hidden_until(run, one, entry)] if one.is_of_two else []))
    return Line(label=label, value=values, below=below)


def _hidden_until(run: RunKept, one: Round, entry: KeptLike) -> str:
    """Return until when the other's answer was hidden: both are shown with the last entry of the round."""
    event, last = entry.event, one.entries[-1].event
    others = [other.event for other in one.entries if other.event.person != event.person]
    if not others:
        return run.word("record.nobody_else")
    words = {"other": run.word(f"record.role.{others[0].role}").lower(), "at": run.at(last.at)}
    own = run.word(f"record.role.{event.role}").lower()
    return run.word("record.hidden_until", **words, device=run.devices[last.device], own=own)


def _round(one: KeptLike) -> int:
    number = one.event.entered.get("round")
    return number if isinstance(number, int) else 1
