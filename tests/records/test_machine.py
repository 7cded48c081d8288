"""Any sequence of appends, duplicates, quarrels and openings leaves what a plain dict would hold."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, rule, run_state_machine_as_test

from becket.guide.event import FIRM, Event, canonical_text
from becket.records.chain import fingerprint_of
from becket.records.store import Store
from becket.records.verify import verify
from tests.records.conftest import NewUrl
from tests.records.invented import NOON, an_event

KEYS = st.integers(1, 8)
VALUES = st.recursive(
    st.none() | st.booleans() | st.integers(-(2**53), 2**53) | st.floats(allow_nan=False, allow_infinity=False)
    | st.text(st.characters(codec="utf-8"), max_size=12),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text("ab\"\\\n½", max_size=3), inner, max_size=3),
    max_leaves=6,
)  # fmt: skip
EVENTS = st.builds(
    lambda key, value, crane, run: an_event(1, key=f"k{key}", entered={"v": value}, crane=crane, run=run),
    KEYS,
    VALUES,
    st.sampled_from(("demo", "other", FIRM)),
    st.sampled_from((None, "a", "b")),
)


class Machine(RuleBasedStateMachine):
    """The store beside a list of events."""

    def __init__(self) -> None:
        super().__init__()
        self.kept: list[Event] = []
        self.texts: list[str] = []
        self.store = Store.open(self.new_url())

    def new_url(self) -> str:
        """Return the address of an empty store; replaced by the test."""
        raise NotImplementedError

    @rule(events=st.lists(EVENTS, max_size=4))
    def append(self, events: list[Event]) -> None:
        """Compare every outcome with what a list would say."""
        for event, outcome in zip(events, self.store.append(events, NOON), strict=True):
            places = [n for n, one in enumerate(self.kept, 1) if one.key == event.key]
            assert outcome.key == event.key
            if not places:
                self.kept.append(event)
                assert (outcome.number, outcome.is_new, outcome.refused) == (len(self.kept), True, None)
            elif canonical_text(self.kept[places[0] - 1]) == canonical_text(event):
                assert (outcome.number, outcome.is_new, outcome.refused) == (places[0], False, None)
            else:
                assert outcome.refused is not None
                assert (outcome.number, outcome.is_new) == (None, False)

    @rule(number=KEYS)
    def again(self, number: int) -> None:
        """Deliver what is kept once more."""
        if number <= len(self.kept):
            self.append([self.kept[number - 1]])

    @rule(number=KEYS, tick=st.integers(2, 9))
    def quarrel(self, number: int, tick: int) -> None:
        """Deliver a kept key with another tick."""
        if number <= len(self.kept):
            self.append([replace(self.kept[number - 1], tick=tick)])

    @rule(text=st.text(st.characters(codec="utf-8", exclude_characters="\0"), max_size=5))
    def keep(self, text: str) -> None:
        """Keep a document."""
        assert self.store.keep_document("book", text) == fingerprint_of(text)
        if text not in self.texts:
            self.texts.append(text)

    @rule()
    def reopen(self) -> None:
        """Close the store and open it again."""
        url = self.address
        self.store.close()
        self.store = Store.open(url)

    @property
    def address(self) -> str:
        """The address of the open store."""
        return self.store.database.engine.url.render_as_string(hide_password=False).replace("+psycopg", "")

    @invariant()
    def is_as_the_list(self) -> None:
        """Compare all that can be read."""
        kept = self.store.read(None)
        assert [canonical_text(one.event) for one in kept] == [canonical_text(one) for one in self.kept]
        assert [one.number for one in kept] == list(range(1, len(self.kept) + 1))
        assert [one.number for one in self.store.read("demo", run="a")] == [
            n for n, one in enumerate(self.kept, 1) if (one.crane, one.run) == ("demo", "a")
        ]
        assert [one.text for one in self.store.documents("book")] == self.texts
        assert self.store.head().number == len(self.kept)

    def teardown(self) -> None:
        """Verify the chain once at the end."""
        assert verify(self.store).is_whole
        self.store.close()


def test_the_store_is_as_a_list(new_url: NewUrl, engine: str) -> None:
    class Bound(Machine):
        def new_url(self) -> str:
            return new_url()

    run_state_machine_as_test(
        Bound,
        settings=settings(
            max_examples={"sqlite": 30, "postgresql": 8}[engine],
            stateful_step_count=20,
            deadline=None,
            suppress_health_check=list(HealthCheck),
        ),
    )
