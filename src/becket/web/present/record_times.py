"""Entry times of a record: entered while the work was done, or all at once afterwards.

In:    what a record is told from.
Out:   sentences: entries that lie seconds apart, a clock that went back, entries that came to the server much later.
Never: a score of a person; a clock set right.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from becket.web.present.record_kept import KeptLike, RunKept, seconds_between, server_moment

STEPS_LEAST = 5  # steps in a row; fewer may be entered together after one hand action
STEP_SECONDS = 10.0  # from one step's entry to the next: nobody draws a keeper or threads a pass in less
PAUSE_SECONDS = 3.0  # from one item of a pause to the next: reading the words alone takes longer
CLOCKS_APART = 120.0  # seconds by which a device's clock runs ahead of the server: no delivery explains it


@dataclass(frozen=True, kw_only=True)
class Bunch:
    """Entries that follow one another faster than the work can be done."""

    first: KeptLike
    last: KeptLike
    count: int


def tell_times(run: RunKept) -> tuple[str, ...]:
    """Return what the entry times say [-].

    Args:
        run: what the record is told from
    """
    return (*(_bunched(run, one) for one in bunches(run)), *_clocks(run))


def bunches(run: RunKept) -> tuple[Bunch, ...]:
    """Return runs of entries that were made faster than the work can be done [-].

    Args:
        run: what the record is told from
    """
    entered = [one for one in run.of_kind("entered") if one.event.key not in run.apart]
    parts = [part for part in _parts(run, entered) if len(part) >= STEPS_LEAST]
    return tuple(Bunch(first=part[0], last=part[-1], count=len(part)) for part in parts)


def _parts(run: RunKept, entered: Sequence[KeptLike]) -> Iterator[list[KeptLike]]:
    part: list[KeptLike] = []
    for one in entered:
        if part and not _is_fast(run, part[-1], one):
            yield part
            part = []
        part.append(one)
    if part:
        yield part


def _is_fast(run: RunKept, before: KeptLike, after: KeptLike) -> bool:
    if before.event.device != after.event.device:
        return False
    item = run.items.get(str(after.event.entered.get("item")))
    most = PAUSE_SECONDS if item and item.part.startswith("pause") else STEP_SECONDS
    return 0 <= seconds_between(before.event.at, after.event.at) <= most


def _bunched(run: RunKept, bunch: Bunch) -> str:
    names = [_item_name(run, one) for one in (bunch.first, bunch.last)]
    seconds = seconds_between(bunch.first.event.at, bunch.last.event.at)
    words = {"first": names[0], "last": names[1], "at": run.at(bunch.first.event.at)}
    return run.word("record.bunched", count=bunch.count, seconds=f"{seconds:.0f}", **words)


def _item_name(run: RunKept, one: KeptLike) -> str:
    return item_name(run, str(one.event.entered.get("item")))


def item_name(run: RunKept, name: str) -> str:
    """Return an item as people call it: step 15, or an item of a pause [-].

    Args:
        run: with the script
        name: id of the item
    """
    item = run.items.get(name)
    if item is None:
        return name
    if item.number is not None:
        return run.word("record.step", number=item.number)
    return run.word("record.item", part=item.part.replace("-", " "), item=name.rpartition(".")[2])


def _clocks(run: RunKept) -> Iterator[str]:
    last: dict[str, KeptLike] = {}
    for one in run.kept:
        before = last.get(one.event.device)
        if before is not None and seconds_between(before.event.at, one.event.at) < 0:
            words = {"device": run.devices[one.event.device], "before": run.at(before.event.at)}
            yield run.word("record.clock_back", **words, after=run.at(one.event.at))
        last[one.event.device] = one
    for device, letter in run.devices.items():
        ahead = [one for one in run.kept if one.event.device == device]
        most = max(ahead, key=lambda one: seconds_between(one.received, one.event.at))
        if seconds_between(most.received, most.event.at) > CLOCKS_APART:
            words = {"device": letter, "at": run.at(most.event.at), "server": run.at(server_moment(most))}
            yield run.word("record.clock_ahead", **words)
