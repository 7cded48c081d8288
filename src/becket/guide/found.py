"""What the rounds of a run found: the last round of a group, the pattern that was counted, the block that was named.

In:    a script, the round each group is in, the rounds that were compared.
Out:   one of them, or None.
Never: a round that was broken off or is being counted anew.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from becket.guide.run_state import Round
from becket.guide.script import Group, Reeving, Script


def last_round(group: Group, rounds: Mapping[str, int], kept: Iterable[Round]) -> Round | None:
    """Return the compared round of a group, if it is the one that the group is in [-].

    Args:
        group: of blind items
        rounds: the round that each group is in
        kept: every compared round
    """
    return next((one for one in kept if one.group == group.name and one.round == rounds[group.name]), None)


def pattern_found(script: Script, rounds: Mapping[str, int], kept: Iterable[Round]) -> Reeving | None:
    """Return the pattern that both persons counted in the last round of falls; None: none yet [-].

    Args:
        script: of the run
        rounds: the round that each group is in
        kept: every compared round
    """
    all_kept = tuple(kept)
    for group in script.groups:
        last = last_round(group, rounds, all_kept) if group.compare == "falls" else None
        if last is not None and last.agreed:
            return next((one for one in script.expects if one.state == last.finds), None)
    return None


def block_named(script: Script, rounds: Mapping[str, int], kept: Iterable[Round]) -> object:
    """Return the block that both persons read off its plate, before they counted; None: they were not asked [-].

    Args:
        script: of the run
        rounds: the round that each group is in
        kept: every compared round
    """
    all_kept = tuple(kept)
    for group in script.groups:
        last = last_round(group, rounds, all_kept) if group.compare == "equal" else None
        if last is not None and last.agreed and "block" in last.entries[0].values:
            return last.entries[0].values["block"]
    return None
