"""The store: once, in order, as it was entered; the same on both engines."""

from __future__ import annotations

import hashlib
from dataclasses import replace

import pytest

from becket.errors import RefusedError, UnreadableTextError
from becket.guide.event import FIRM, canonical_text
from becket.records.chain import BEGINNING, fingerprint_of
from becket.records.kept import Document, Head, Outcome
from becket.records.store import Store
from tests.records.conftest import NewUrl
from tests.records.invented import LATER, NOON, an_event, some


def test_an_empty_store_has_an_end_of_its_own(store: Store) -> None:
    assert store.head() == Head(number=0, hash=BEGINNING)
    assert store.read(None) == store.find(["phone-1.1"]) == ()
    assert store.append([], NOON) == ()


def test_what_is_appended_is_read_as_it_was_entered(store: Store) -> None:
    given = [
        *some(1, 3),
        an_event(4, run=None, person=None, shown={}, entered={"far": 1e300, "big": 2**60, "no": None}),
    ]
    outcomes = store.append(given, NOON)
    assert outcomes == tuple(
        Outcome(key=event.key, number=n, refused=None, is_new=True) for n, event in enumerate(given, 1)
    )
    kept = store.read(None)
    assert [one.event for one in kept] == given
    assert [one.number for one in kept] == [1, 2, 3, 4]
    assert {one.received for one in kept} == {NOON}
    assert [canonical_text(one.event) for one in kept] == [canonical_text(one) for one in given]


def test_each_hash_stands_on_the_one_before(store: Store) -> None:
    store.append(some(1, 2), NOON)
    store.append(some(3, 3), LATER)
    before = "0" * 64
    for number, (event, received) in enumerate(zip(some(1, 3), (NOON, NOON, LATER), strict=True), 1):
        text = before + "\n" + str(number) + "\n" + received + "\n" + canonical_text(event)
        wanted = hashlib.sha256(text.encode("utf-8")).hexdigest()
        kept = store.read(None, after=number - 1)[0]
        assert (kept.before, kept.hash) == (before, wanted)
        before = wanted
    assert store.head() == Head(number=3, hash=before)


def test_the_same_event_again_gets_its_old_number(store: Store) -> None:
    store.append(some(1, 2), NOON)
    again = store.append([an_event(2), an_event(3), an_event(3), an_event(1)], LATER)
    assert [(one.number, one.is_new, one.refused) for one in again] == [
        (2, False, None),
        (3, True, None),
        (3, False, None),
        (1, False, None),
    ]
    assert [one.received for one in store.read(None)] == [NOON, NOON, LATER]


def test_a_key_with_other_content_is_refused_and_holds_up_nothing(store: Store) -> None:
    store.append(some(1, 1), NOON)
    other = replace(an_event(1), entered={"item": "s7", "values": {"sheave": 4}})
    outcomes = store.append([other, an_event(2), replace(an_event(2), tick=99)], LATER)
    assert outcomes == (
        Outcome(
            key="phone-1.1",
            number=None,
            refused="phone-1.1: is kept as event 1 with other content. What is kept cannot be changed; add a note.",
            is_new=False,
        ),
        Outcome(key="phone-1.2", number=2, refused=None, is_new=True),
        Outcome(
            key="phone-1.2",
            number=None,
            refused="phone-1.2: is kept as event 2 with other content. What is kept cannot be changed; add a note.",
            is_new=False,
        ),
    )
    assert [one.event for one in store.read(None)] == some(1, 2)


def test_what_cannot_be_written_is_refused_and_holds_up_nothing(store: Store) -> None:
    half = replace(an_event(1), entered={"word": "\ud800"})
    odd = replace(an_event(2), entered={"number": float("nan")})
    outcomes = store.append([half, odd, an_event(3)], NOON)
    assert [one.refused for one in outcomes] == [
        "phone-1.1: holds half a character, which cannot be written. Enter it again in other words.",
        "phone-1.2: holds what is neither text nor a finite number. Enter it again.",
        None,
    ]
    assert [one.number for one in outcomes] == [None, None, 1]


def test_reading_chooses_by_crane_run_and_number(store: Store) -> None:
    cranes = ("demo", "other", FIRM, "demo", "other", "demo")
    runs = ("a", "a", None, "b", "b", "b")
    pairs = enumerate(zip(cranes, runs, strict=True), 1)
    store.append([an_event(n, crane=crane, run=run) for n, (crane, run) in pairs], NOON)
    assert [one.number for one in store.read(None)] == [1, 2, 3, 4, 5, 6]
    assert [one.number for one in store.read("demo")] == [1, 4, 6]
    assert [one.number for one in store.read("demo", after=1)] == [4, 6]
    assert [one.number for one in store.read(FIRM)] == [3]
    assert [one.number for one in store.read(None, run="b")] == [4, 5, 6]
    assert [one.number for one in store.read("demo", after=4, run="b")] == [6]
    assert store.read("demo", after=6) == store.read("nobody's") == ()
    news = store.news("other", after=2)
    assert [one.number for one in news.kept] == [3, 5]
    assert news.head == store.head()


def test_events_are_found_by_their_keys(store: Store) -> None:
    store.append(some(1, 1200), NOON)
    keys = [f"phone-1.{number}" for number in range(1100, 0, -1)]
    assert [one.number for one in store.find([*keys, "nobody's"])] == list(range(1, 1101))


def test_a_time_of_arrival_that_is_none_is_refused(store: Store) -> None:
    for received in ("", "noon", f"{NOON}\n", "2026-11-30T12:00:00"):
        with pytest.raises(UnreadableTextError, match=r"received: .*a moment as 2026-11-30T15:31:00"):
            store.append(some(1, 1), received)
    assert store.read(None) == ()


def test_it_is_all_there_when_the_store_is_opened_again(url: str) -> None:
    with Store.open(url) as store:
        store.append(some(1, 3), NOON)
        store.keep_document("book", "a: 1\n")
        kept, head = store.read(None), store.head()
    for way in (Store.open, Store.look):
        with way(url) as store:
            assert (store.read(None), tuple(store.every()), store.head()) == (kept, kept, head)
            assert store.documents("book") == (
                Document(kind="book", fingerprint=fingerprint_of("a: 1\n"), text="a: 1\n"),
            )


def test_a_document_is_kept_once_under_its_fingerprint(store: Store) -> None:
    texts = ["crane: a ½\r\n", "crane: b\n", "", "crane: a ½\r\n"]
    names = [store.keep_document("book", text) for text in texts]
    assert names == [hashlib.sha256(text.encode()).hexdigest()[:16] for text in texts]
    assert [one.text for one in store.documents("book")] == texts[:3]
    assert store.document(names[0]) == Document(kind="book", fingerprint=names[0], text=texts[0])
    assert store.document("0" * 16) is None
    assert store.documents("script") == ()


def test_the_same_text_may_be_two_kinds_of_document(store: Store) -> None:
    assert store.keep_document("jobs", "") == store.keep_document("settings", "")
    assert [one.kind for kind in ("jobs", "settings") for one in store.documents(kind)] == ["jobs", "settings"]


def test_a_document_that_cannot_be_kept_is_refused(store: Store) -> None:
    for kind, text, words in (
        ("photo", "a", "kind: 'photo'; one of book, settings, jobs, script"),
        ("book", "a\0b", "a character NUL; text without it"),
        ("book", "\ud800", "half a character; text that can be written as UTF-8"),
    ):
        with pytest.raises(UnreadableTextError) as raised:
            store.keep_document(kind, text)
        assert str(raised.value) == words


def test_two_texts_of_one_fingerprint_are_not_taken_for_each_other(
    store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("becket.records.store.fingerprint_of", lambda text: "0" * 16)
    store.keep_document("book", "a")
    with pytest.raises(RefusedError, match="another text with this fingerprint is kept"):
        store.keep_document("book", "b")


def test_stores_do_not_know_of_each_other(new_url: NewUrl) -> None:
    with Store.open(new_url()) as one, Store.open(new_url()) as other:
        one.append(some(1, 1), NOON)
        assert (one.head().number, other.head().number) == (1, 0)


def test_a_store_is_known_again_and_another_in_its_place_is_not(store: Store, new_url: NewUrl) -> None:
    nothing, goes_on = store.mark()
    assert (nothing.head.number, nothing.documents, goes_on) == (0, 0, True)
    store.append(some(1, 3), NOON)
    store.keep_document("script", "one")
    three, goes_on = store.mark(nothing)
    assert (three.head, three.documents, three.document, goes_on) == (store.head(), 1, fingerprint_of("one"), True)
    assert store.mark(three) == (three, True)
    store.append(some(4, 9), NOON)
    store.keep_document("script", "two")
    assert store.mark(three)[1]
    with Store.open(new_url()) as other:
        assert not other.mark(three)[1]
        other.append(some(1, 9), LATER)
        other.keep_document("script", "one")
        assert not other.mark(three)[1], "other events under the same numbers"
    with Store.open(new_url()) as third:
        third.append(some(1, 9), NOON)
        assert not third.mark(three)[1], "the document is not there"
        third.keep_document("script", "three")
        assert not third.mark(three)[1], "another document under the same number"
