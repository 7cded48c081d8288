"""A run as far as it has come: what the rules of run_rules.py write down, and the state that follows from it.

In:    a script; what the rules found.
Out:   the state of the run.
Never: a rule; one person's count shown before both are in.
"""

from __future__ import annotations

from dataclasses import replace

from becket.guide.closing import what_is_missing
from becket.guide.compare import COUNTERS
from becket.guide.event import Event
from becket.guide.found import pattern_found
from becket.guide.run_state import SEALED, Attempt, ItemState, Resume, Round, RunState, Signature, Stop
from becket.guide.script import Group, Item, Reeving, Script
from becket.guide.turn import SIGN, items_in_turn, partners, pauses


class Course:
    """One run, in the middle of being gone through."""

    def __init__(self, script: Script) -> None:
        self.script = script
        self.turn = items_in_turn(script, 0)
        self.partners = partners(script)
        self.rounds = dict.fromkeys((*(group.name for group in script.groups), *pauses(script)), 1)
        self.people: dict[str, str | None] = dict.fromkeys(COUNTERS)
        self.started: str | None = None
        self.done: dict[str, ItemState] = {}
        self.attempts: dict[str, tuple[Attempt, ...]] = {}
        self.kept: list[Round] = []
        self.complete: dict[str, int] = {}  # group -> last round in which all have counted
        self.differ: Round | None = None
        self.followed = False
        self.waiting: str | None = None  # group whose counts are in, but one of them is still sealed here
        self.stop: Stop | None = None
        self.resume: Resume | None = None
        self.signed: dict[str, Signature] = {}
        self.closed_by: Event | None = None
        self.devices: dict[str, None] = {}
        self.counters: set[str] = set()  # devices of blind counts
        self.out_of_turn: list[str] = []
        self.late: list[str] = []

    def current(self) -> Item | None:
        """Return the first item that is not done; None: all are, or the run has not begun."""
        if self.started is None:
            return None
        return next((item for item in self.turn if not self.is_done(item)), None)

    def is_done(self, item: Item) -> bool:
        """Return whether an item is done in its round; an item to sign is done when its person has signed."""
        if item.part == SIGN:
            return item.who in self.signed if item.who in COUNTERS else len(self.signed) == len(COUNTERS)
        return item.id in self.done

    def round_of(self, item: Item) -> int:
        """Return the round in which an item is asked."""
        return self.rounds.get(item.group or item.part, 1)

    def is_ready_to_sign(self) -> bool:
        """Return whether nothing but the two signatures is asked."""
        item = self.current()
        is_past = self.started is not None and (item is None or item.part == SIGN)
        return is_past and self.differ is None and self.waiting is None and self.stop is None

    def state(self) -> RunState:
        """Return the run as it is now."""
        state = self._state()
        return state if self.closed_by else replace(state, missing=what_is_missing(self.script, state))

    def _state(self) -> RunState:
        at = self._at()
        return RunState(
            status="closed" if self.closed_by else "stopped" if self.stop else "open",
            at=at.id if at else None,
            round=self.round_of(at) if at else None,
            screen=self._screen(),
            order=tuple(item.id for item in self.turn),
            items={item.id: self._item(item) for item in self.turn},
            rounds=dict(self.rounds),
            differ=self.differ,
            rounds_kept=tuple(self.kept),
            people=dict(self.people),
            stop=self.stop,
            resume=self.resume,
            signed=dict(self.signed),
            missing=(),
            devices=tuple(self.devices),
            one_device=len(self.counters) == 1,
            out_of_turn=tuple(self.out_of_turn),
            late=tuple(self.late),
            started=self.started,
            ended=self.closed_by.at if self.closed_by else None,
            result=self.result() if self.closed_by else None,
        )

    def result(self) -> str | None:
        """Return the state that the counts found; None: none yet."""
        found = self.found()
        return found.state if found else None

    def found(self) -> Reeving | None:
        """Return the pattern that the counts found; None: none yet."""
        return pattern_found(self.script, self.rounds, self.kept)

    def _at(self) -> Item | None:
        group = self.differ.group if self.differ else self.waiting
        if group is None or self.closed_by:
            return self.current()
        return next(item for item in self.turn if item.group == group)

    def _screen(self) -> str:
        if self.closed_by:
            return "closed"
        if self.stop:
            return "stopped"
        if self.differ:
            return "follow_by_hand" if self.has_to_follow() else "differ"
        if self.waiting:
            return "waiting"
        if self.resume and self.resume.differs:
            return "not_as_kept"
        return "sign" if self.is_ready_to_sign() else "item"

    def has_to_follow(self) -> bool:
        """Return whether the rope has to be followed by hand before both count again."""
        differed = [one for one in self.kept if self.differ and one.group == self.differ.group and not one.agreed]
        return len(differed) >= 2 and not self.followed

    def _item(self, item: Item) -> ItemState:
        attempts = self.attempts.get(item.id, ())
        done = self.done.get(item.id)
        if done is None and item.part == SIGN and item.who in self.signed:
            one = self.signed[item.who]
            done = ItemState(done=True, by=one.by, role=item.who, device=one.device, at=one.at, values={}, round=1)
        if done is None:
            return ItemState(done=False, round=self.round_of(item), attempts=attempts)
        is_hidden = self.is_blind(item) and self.complete.get(item.group or "") != done.round
        return replace(done, attempts=attempts, values=SEALED if is_hidden else done.values)

    def is_blind(self, item: Item) -> bool:
        """Return whether an item is counted alone and compared."""
        return item.blind and any(group.name == item.group for group in self.script.groups)

    def group(self, name: str | None) -> Group | None:
        """Return a group by its name; None: there is none."""
        return next((group for group in self.script.groups if group.name == name), None)
