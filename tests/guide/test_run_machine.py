"""A run under anything that two phones may send, held against a model of eight lines that is not the fold."""

from __future__ import annotations

from random import Random

from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, rule

from becket.guide.event import Event
from becket.guide.run import fold_run
from becket.guide.sealed import sealed_keys
from tests.guide.play import Play
from tests.guide.small import FOUND, small_change

ORDER = [item.id for item in small_change().items]
FALLS = ("f1", "f2")
PAUSE = ("p1", "p2", "p3")
WRONG: dict[str, dict[str, object]] = {
    "a2": {"angle": 3},
    "p1": {"people": 2},
    "p3": {"ground": "soft"},
    "a3": {"sheave": 4},
}


class RunMachine(RuleBasedStateMachine):
    """The model: which items are done, how often the falls and the pause were begun anew, whether it is stopped."""

    def __init__(self) -> None:
        super().__init__()
        self.play = Play(small_change()).start()
        self.done: list[str] = []
        self.falls_round = self.pause_round = 1
        self.differs = self.total_differs = self.wrong_head = 0
        self.followed = self.is_stopped = False
        self.attempts = 0
        self.signed: set[str] = set()
        self.twice: list[Event] = []

    def _next(self) -> str | None:
        return next((name for name in ORDER if name not in self.done), None)

    def _round(self, name: str) -> int:
        return self.falls_round if name in FALLS else self.pause_round if name in PAUSE else 1

    @property
    def is_open(self) -> bool:
        """Whether an entry of the next item counts."""
        return not self.is_stopped and not self.differs and self._next() is not None

    @rule(device=st.sampled_from(["phone-1", "phone-2"]))
    def enters_right(self, device: str) -> None:
        name = self._next()
        if not self.is_open or name is None:
            return
        self.play.device = device
        self.play.enter(name, counted=self._round(name))
        self.done.append(name)
        if name == "f2" and self.wrong_head:
            self.differs, self.total_differs, self.followed = 1, self.total_differs + 1, False

    @rule()
    def enters_several(self) -> None:
        for _ in range(6):
            self.enters_right("phone-1")

    @rule()
    def enters_wrong(self) -> None:
        name = self._next()
        if not self.is_open or name is None:
            return
        if name in WRONG:
            self.play.enter(name, WRONG[name], counted=self._round(name))
            self.attempts += 1
        elif name == "f1":
            self.play.enter(name, {"sheaves": [3, 4], "ends_on": "head"}, counted=self.falls_round)
            self.done.append(name)
            self.wrong_head = 1

    @rule(name=st.sampled_from(ORDER), stale=st.booleans())
    def enters_out_of_turn(self, name: str, stale: bool) -> None:
        if not self.is_open or name != self._next():
            if {name, self._next()} != {"i1", "i2"}:
                self.play.enter(name, counted=self._round(name) + stale)
        else:
            self.play.enter(name, counted=self._round(name) + 1)

    @rule()
    def counts_again(self) -> None:
        self.play.write("count_again", {"group": "falls", "round": self.falls_round})
        if self.differs and not self.is_stopped and (self.total_differs < 2 or self.followed):
            self.differs = self.wrong_head = 0
            self.falls_round += 1
            self.done = [name for name in self.done if name not in FALLS]

    @rule()
    def follows(self) -> None:
        self.play.write("followed_by_hand", {"group": "falls", "round": self.falls_round})
        if self.differs and not self.is_stopped:
            self.followed = True

    @rule()
    def interrupts(self) -> None:
        self.play.write("interrupted", {"part": "pause-1"})
        begun = [name for name in PAUSE if name in self.done]
        if begun and len(begun) < len(PAUSE) and not self.is_stopped:
            self._pause_again()

    @rule()
    def stops(self) -> None:
        self.play.write("stopped", {"left": [], "told": "Mo"})
        self.is_stopped = True

    @rule(is_kept=st.booleans())
    def resumes(self, is_kept: bool) -> None:
        keeps = small_change().item(self._next() or "t1").resume is not None and self._next() is not None
        self.play.write("resumed", FOUND if is_kept else {**FOUND, "block": "hangs"})
        if self.is_stopped:
            self.is_stopped = False
            begun = [name for name in PAUSE if name in self.done]
            if begun and ((keeps and not is_kept) or len(begun) < len(PAUSE)):
                self._pause_again()

    def _pause_again(self) -> None:
        self.pause_round += 1
        self.done = [name for name in self.done if name not in PAUSE]
        self.signed = set()

    @rule(role=st.sampled_from(["operator", "rigger"]))
    def signs(self, role: str) -> None:
        if len(self.signed) < 2:
            self.play.sign(role)
            if self._next() is None and not self.is_stopped and not self.differs:
                self.signed.add(role)

    @rule(place=st.integers(0, 200))
    def delivers_twice(self, place: int) -> None:
        self.twice.append(self.play.events[place % len(self.play.events)])

    @invariant()
    def is_as_the_model_says(self) -> None:
        if len(self.signed) == 2:
            assert fold_run(self.play.script, self.play.events).result == "main:4"
            return
        many = [*self.play.events, *self.twice]
        Random(len(many)).shuffle(many)
        state = fold_run(self.play.script, many)
        assert {name for name, item in state.items.items() if item.done} == set(self.done)
        assert (state.status == "stopped", state.differ is not None) == (self.is_stopped, bool(self.differs))
        assert (state.rounds["falls"], state.rounds["pause-1"]) == (self.falls_round, self.pause_round)
        assert sum(len(item.attempts) for item in state.items.values()) == self.attempts
        assert set(state.signed) == self.signed
        if "f1" in self.done and "f2" not in self.done:
            own = [event.key for event in self.play.events if event.entered.get("item") == "f1"]
            assert own[-1] in sealed_keys(self.play.script, many) or self.falls_round > 1
            assert state.items["f1"].values == {"sealed": True}

    def teardown(self) -> None:
        """Nothing is left open."""


RunMachine.TestCase.settings = settings(max_examples=60, stateful_step_count=30, deadline=None)
TestRunMachine = RunMachine.TestCase
