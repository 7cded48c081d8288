"""Two phones write one run, each with what it has heard of: whatever order it comes in, the state is the same."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from random import Random

from hypothesis import given, settings
from hypothesis import strategies as st

from becket.guide.event import Event, order_of
from becket.guide.run import fold_run, run_as_dict
from becket.guide.script import Script
from becket.guide.sealed import sealed_keys
from tests.guide.play import Play
from tests.guide.small import small_change
from tests.guide.wild import wild_run

SCRIPT: Script = small_change()
RIGHT = tuple(Play(SCRIPT).whole().events)


def two_streams(seed: int) -> tuple[tuple[Event, ...], tuple[Event, ...]]:
    """Return what each of two phones writes: they hear of each other now and then, their ticks run side by side.

    Args:
        seed: of the chance
    """
    chance = Random(seed)
    written: Sequence[Event] = RIGHT if chance.random() < 0.3 else wild_run(SCRIPT, seed)
    known = {"a": 0, "b": 0}  # the greatest tick that each has seen
    streams: dict[str, list[Event]] = {"a": [], "b": []}
    hears = chance.choice((0.2, 0.6, 0.95))
    for event in written:
        phone = chance.choice("ab")
        if chance.random() < hears:
            known[phone] = max(known.values())
        known[phone] += 1
        streams[phone].append(replace(event, device=phone, tick=known[phone], key=f"{phone}.{len(streams[phone]):04}"))
    return tuple(streams["a"]), tuple(streams["b"])


@st.composite
def merges(draw: st.DrawFn) -> tuple[tuple[Event, ...], tuple[Event, ...]]:
    """Draw the events of two phones and one way in which they come in: any order, some twice, some hidden first."""
    one, other = two_streams(draw(st.integers(0, 10_000)))
    together = (*one, *other)
    order = draw(st.permutations(together))
    twice = draw(st.lists(st.sampled_from(together), max_size=5))
    return together, (*order, *twice)


@given(merges())
@settings(max_examples=150, deadline=None)
def test_any_order_of_two_streams_gives_the_same_state(case: tuple[tuple[Event, ...], tuple[Event, ...]]) -> None:
    together, came = case
    in_order = sorted(together, key=order_of)
    assert run_as_dict(fold_run(SCRIPT, came)) == run_as_dict(fold_run(SCRIPT, in_order))
    assert sealed_keys(SCRIPT, came) == sealed_keys(SCRIPT, in_order)


@given(merges(), st.integers(0, 40))
@settings(max_examples=100, deadline=None)
def test_a_copy_that_was_hidden_first_changes_nothing(
    case: tuple[tuple[Event, ...], tuple[Event, ...]], cut: int
) -> None:
    """What the server hid while a count was open comes again whole: the whole one counts, whichever came first."""
    together, came = case
    early = sorted(together, key=order_of)[:cut]
    hidden = sealed_keys(SCRIPT, early)
    copies = tuple(
        replace(one, entered={"item": one.entered["item"], "round": one.entered.get("round"), "sealed": True})
        for one in early
        if one.key in hidden
    )
    whole = run_as_dict(fold_run(SCRIPT, together))
    assert run_as_dict(fold_run(SCRIPT, (*copies, *came))) == whole
    assert run_as_dict(fold_run(SCRIPT, (*came, *copies))) == whole


def test_two_phones_that_hear_of_each_other_close_a_run() -> None:
    """The control: streams are not all out of turn; some close, some do not, and one tick is written by both phones."""
    states = [fold_run(SCRIPT, sum(two_streams(seed), ())) for seed in range(200)]
    closed = [state.status == "closed" for state in states]
    assert 0 < sum(closed) < len(closed)
    assert any(len(state.devices) == 2 for state, is_closed in zip(states, closed, strict=True) if is_closed)
    assert any({x.tick for x in one} & {x.tick for x in other} for one, other in map(two_streams, range(20)))
