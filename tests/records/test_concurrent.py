"""Many at once: threads and processes append and read; no gap, none lost, none twice; what is read is of one moment."""

from __future__ import annotations

import subprocess
import sys
import threading
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

from becket.records.kept import Outcome
from becket.records.store import Store
from becket.records.verify import verify
from tests.records.invented import NOON, an_event

THREADS, ROUNDS = 8, 12


def test_threads_leave_no_gap_and_lose_nothing(store: Store) -> None:
    def work(name: int) -> list[Outcome]:
        outcomes: list[Outcome] = []
        for start in range(0, ROUNDS * 3, 3):
            own = [an_event(n + 1, key=f"t{name}.{n}") for n in range(start, start + 3)]
            shared = an_event(start + 1, key=f"shared.{start}")  # each thread delivers it
            outcomes += store.append([*own, shared], NOON)
        return outcomes

    with ThreadPoolExecutor(THREADS) as pool:
        outcomes = [one for each in pool.map(work, range(THREADS)) for one in each]
    assert [one for one in outcomes if one.refused or one.number is None] == []
    new = [one.number for one in outcomes if one.is_new]
    assert sorted(number for number in new if number) == list(range(1, THREADS * ROUNDS * 3 + ROUNDS + 1))
    numbers = {one.key: one.number for one in outcomes}
    assert {one.event.key: one.number for one in store.read(None)} == numbers
    assert verify(store).is_whole


WORK = """
import sys
from becket.records.store import Store
from tests.records.invented import NOON, an_event
name = sys.argv[2]
with Store.open(sys.argv[1]) as store:
    for n in range(1, 41):
        (own, shared) = store.append([an_event(n, key=f"{name}.{n}"), an_event(n, key=f"shared.{n}")], NOON)
        assert own.number and own.is_new and shared.number and not shared.refused
"""


def test_processes_leave_no_gap_and_lose_nothing(url: str) -> None:
    many = [
        subprocess.Popen(
            [sys.executable, "-c", WORK, url, f"p{n}"], stderr=subprocess.PIPE, cwd=Path(__file__).parents[2]
        )
        for n in range(3)
    ]
    assert [process.communicate(timeout=120)[1] for process in many] == [b""] * 3
    with Store.open(url) as store:
        kept = store.read(None)
        assert [one.number for one in kept] == list(range(1, 3 * 40 + 40 + 1))
        assert len({one.event.key for one in kept}) == len(kept)
        assert verify(store).is_whole


def test_who_follows_the_news_misses_nothing(store: Store) -> None:
    done = threading.Event()
    seen: list[int] = []

    def follow() -> None:
        after = 0
        while True:
            was_done = done.is_set()
            news = store.news("demo", after)
            assert all(one.number <= news.head.number for one in news.kept)
            seen.extend(one.number for one in news.kept)
            after = news.head.number
            if was_done:
                return

    def write(name: int) -> None:
        for n in range(1, 26):
            crane = "demo" if n % 2 else "other"
            store.append([an_event(n, key=f"w{name}.{n}", crane=crane)], NOON)

    with ThreadPoolExecutor(5) as pool:
        follower = pool.submit(follow)
        list(pool.map(write, range(4)))
        done.set()
        follower.result()
    assert seen == [one.number for one in store.read("demo")]
    assert len(seen) == 4 * 13


def test_a_document_that_many_keep_at_once_is_kept_once(store: Store) -> None:
    with ThreadPoolExecutor(6) as pool:
        names = list(pool.map(lambda n: store.keep_document("book", f"crane: {n % 3}"), range(24)))
    assert len(set(names)) == 3
    assert len(store.documents("book")) == 3
    assert verify(store).broken_documents == ()
