"""Signing in: the page, wrong passwords and the waits after them, hashes, where it goes on to."""

from __future__ import annotations

import threading
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any, Literal

import pytest
from argon2 import PasswordHasher, extract_parameters

from becket.errors import TooOftenError
from becket.web.entrance import Comes, Entrance
from becket.web.guard import own_path
from becket.web.passwords import AT_ONCE, WAITING, Passwords, our_hasher, tidy, why_not_taken
from becket.web.tries import FREE, LONGEST, network_of
from tests.web.accounts_at import HERE, PASSWORD, WEAK, Shared
from tests.web.asking import Phone, demo_folder


@pytest.fixture
def shared(tmp_path: Path) -> Iterator[Shared]:
    """Yield a shared server with one account."""
    found = Shared(demo_folder(tmp_path / "data"))
    found.account("Ada Quill", "crew")
    yield found
    found.house.close()


def sign_in(phone: Phone, name: str = "Ada Quill", password: str = PASSWORD, to: str = "/") -> Any:
    """Return the answer to the form."""
    return phone.post(
        "/sign-in", files={key: (None, one) for key, one in (("name", name), ("password", password), ("to", to))}
    )


def wrong(shared: Shared, name: str = "Ada Quill", address: str = HERE.address) -> int:
    """Return how long one is told to wait for the next try after a wrong one; 0: it was looked at."""
    try:
        assert shared.entrance.sign_in(name, "wrong as can be", Comes(address=address, device="")) is None
    except TooOftenError as error:
        return error.seconds
    return 0


def test_a_page_that_needs_it_is_the_sign_in_page_and_leads_back(shared: Shared) -> None:
    phone = shared.stranger()
    asked = phone.get("/c/hazel-70/change?x=1")
    assert asked.status_code == 401
    assert 'name="to" value="/c/hazel-70/change?x=1"' in asked.text
    assert "Hazel" not in asked.text
    assert 'data-may=""' in asked.text
    answer = sign_in(phone, "ADA  quill", to="/c/hazel-70/change?x=1")
    assert (answer.status_code, answer.headers["location"]) == (303, "/c/hazel-70/change?x=1")
    assert phone.get("/c/hazel-70/now").status_code == 200


def test_a_program_is_told_in_json(shared: Shared) -> None:
    answer = shared.stranger().post("/api/events", json={"events": []})
    assert answer.status_code == 401
    assert "This phone is not signed in." in answer.json()["refused"]


@pytest.mark.parametrize(
    "to",
    [
        "//evil.example",
        "https://evil.example",
        "/\\evil.example",
        "\\\\evil",
        "",
        "javascript:x",
        "/sign-out",
        "/a b",
        "/a\nb",
    ],
)
def test_it_goes_on_to_nobody_else(shared: Shared, to: str) -> None:
    assert own_path(to) == "/"
    assert sign_in(shared.stranger(), to=to).headers["location"] == "/"


def test_a_name_that_is_not_there_has_the_answer_of_a_wrong_password(shared: Shared) -> None:
    wrong_one = sign_in(shared.stranger(), password="wrong as can be")
    no_one = sign_in(shared.stranger(), name="Bo Fenn", password="wrong as can be")
    assert wrong_one.status_code == no_one.status_code == 403
    assert "Name or password is wrong." in no_one.text
    assert wrong_one.text.replace("Ada Quill", "X") == no_one.text.replace("Bo Fenn", "X")
    assert "set-cookie" not in wrong_one.headers


def test_a_name_that_is_not_there_costs_one_hash_as_a_wrong_password_does(tmp_path: Path) -> None:
    looked: list[str] = []

    class Counted(PasswordHasher):
        def verify(self, hash: str | bytes, password: str | bytes) -> Literal[True]:
            looked.append(str(hash).split("$")[3])
            return super().verify(hash, password)

    shared = Shared(demo_folder(tmp_path / "counted"))
    shared.entrance.passwords = Passwords(Counted(time_cost=1, memory_cost=8, parallelism=1))
    account = shared.account("Ada Quill", "crew")
    off = shared.account("Bo Fenn", "crew")
    shared.entrance.accounts.switch(off, "x", is_on=False)
    for name in ("Ada Quill", "Bo Fenn", "Nobody Here"):
        assert shared.entrance.sign_in(name, "wrong as can be", HERE) is None
    assert looked == ["m=8,t=1,p=1"] * 3
    assert shared.entrance.sign_in("Bo Fenn", PASSWORD, HERE) is None  # off
    assert account.has_password
    shared.house.close()


def test_the_waits_after_wrong_passwords_grow_and_a_right_one_inside_is_refused_too(shared: Shared) -> None:
    assert [wrong(shared) for _ in range(FREE["name"])] == [0] * 5
    waits = []
    for _ in range(8):
        waits.append(wrong(shared))
        with pytest.raises(TooOftenError, match="Wait"):
            shared.entrance.sign_in("Ada Quill", PASSWORD, Comes(address="198.51.100.1", device=""))
        shared.clock.go(seconds=waits[-1])
        assert wrong(shared, address=f"203.0.113.{len(waits)}") == 0
    assert waits == [30, 60, 120, 240, 480, 900, 900, 900]
    shared.clock.go(seconds=LONGEST)
    assert shared.entrance.sign_in("Ada Quill", PASSWORD, HERE) is not None
    assert [wrong(shared) for _ in range(FREE["name"])] == [0] * 5  # a right one begins anew


def test_a_wait_survives_a_new_start_and_holds_up_nobody_else(shared: Shared) -> None:
    shared.account("Bo Fenn", "crew")
    for _ in range(5):
        wrong(shared)
    again = Entrance(shared.folder, Passwords(WEAK), shared.clock)
    with pytest.raises(TooOftenError, match=r"Wrong too often\. Wait 30 s, then try again\."):
        again.sign_in("Ada Quill", PASSWORD, HERE)
    assert again.sign_in("Bo Fenn", PASSWORD, HERE) is not None


def test_an_address_waits_whatever_the_names_and_a_right_password_does_not_free_it(shared: Shared) -> None:
    for number in range(FREE["address"] - 1):
        assert wrong(shared, f"name {number}") == 0
    assert shared.entrance.sign_in("Ada Quill", PASSWORD, HERE) is not None
    assert wrong(shared, "one more") == 0
    assert wrong(shared, "and one") == 30
    assert wrong(shared, "and one", address="198.51.100.1") == 0
    assert network_of("2001:db8::1") == network_of("2001:db8::ffff:1") != network_of("2001:db8:1::1")


def test_an_address_is_forgotten_after_an_hour_and_a_name_after_a_day(shared: Shared) -> None:
    for number in range(FREE["address"]):
        wrong(shared, f"name {number // 4}")
    assert wrong(shared, "another") == 30
    shared.clock.go(minutes=59)
    assert wrong(shared, "another") == 0
    assert wrong(shared, "another") == 60
    shared.clock.go(minutes=61)
    assert [wrong(shared, f"again {number}") for number in range(FREE["address"] - 1)] == [0] * 19
    for number in range(4):
        assert wrong(shared, address=f"203.0.113.{number}") == 0
    shared.clock.go(hours=23)
    assert wrong(shared) == 0
    assert wrong(shared) == 30
    shared.clock.go(hours=25)
    assert [wrong(shared) for _ in range(5)] == [0] * 5


def test_many_at_once_are_no_more_tries_than_one_after_another(shared: Shared) -> None:
    said: list[int] = []
    threads = [threading.Thread(target=lambda: said.append(wrong(shared))) for _ in range(12)]
    for one in threads:
        one.start()
    for one in threads:
        one.join()
    assert said.count(0) <= FREE["name"]


def test_the_page_says_how_long_and_so_does_a_header(shared: Shared) -> None:
    phone = shared.stranger()
    for _ in range(5):
        sign_in(phone, password="wrong as can be")
    answer = sign_in(phone)
    assert (answer.status_code, answer.headers["retry-after"]) == (429, "30")
    assert "Wrong too often. Wait 30 s, then try again." in answer.text
    assert "set-cookie" not in answer.headers


def test_who_signs_in_on_a_phone_takes_the_place_of_who_was_there(shared: Shared) -> None:
    phone = shared.phone_in("office")
    before = dict(phone.cookies)["becket-account"]
    assert sign_in(phone).status_code == 303
    assert shared.entrance.signed_in.whose(before) is None
    assert dict(phone.cookies)["becket-account"] != before


def test_a_cookie_of_https_stays_with_https(shared: Shared) -> None:
    from httpx import ASGITransport, AsyncClient

    async def once() -> str:
        async with AsyncClient(transport=ASGITransport(app=shared.app), base_url="https://localhost") as client:
            fields: Any = {"name": (None, "Ada Quill"), "password": (None, PASSWORD)}
            answer = await client.post("/sign-in", headers={"sec-fetch-site": "same-origin"}, files=fields)
            return str(answer.headers["set-cookie"])

    import asyncio

    from tests.web.asking import ASKING

    assert "Secure" in ASKING.submit(asyncio.run, once()).result()


def test_the_shipped_parameters_are_argon2id_with_64_mib() -> None:
    found = extract_parameters(our_hasher().hash("four grey herons"))
    assert (found.type.name, found.time_cost, found.memory_cost, found.parallelism) == ("ID", 3, 65536, 4)
    assert (found.salt_len, found.hash_len) == (16, 32)
    assert Passwords.__init__.__defaults__ == (None,)


def test_a_password_is_hashed_anew_when_the_parameters_change(shared: Shared) -> None:
    account = shared.entrance.accounts.named("Ada Quill")
    assert account is not None
    before = shared.entrance.accounts.password(account.id)
    stronger = Entrance(
        shared.folder, Passwords(PasswordHasher(time_cost=2, memory_cost=16, parallelism=1)), shared.clock
    )
    assert stronger.sign_in("Ada Quill", "wrong as can be", HERE) is None
    assert stronger.accounts.password(account.id) == before
    assert stronger.sign_in("Ada Quill", PASSWORD, HERE) is not None
    after = stronger.accounts.password(account.id)
    assert after is not None
    assert extract_parameters(after).time_cost == 2
    assert stronger.sign_in("Ada Quill", PASSWORD, HERE) is not None


def test_a_password_is_the_same_however_its_letters_are_put_together() -> None:
    passwords = Passwords(WEAK)
    kept = passwords.hashed("caf\u00e9 au lait 4")
    assert tidy("e\u0301") == "\u00e9"
    assert passwords.is_same(kept, "cafe\u0301 au lait 4")
    assert not passwords.is_same(kept, "cafe au lait 4")
    assert not passwords.is_same("no hash", "cafe au lait 4")
    assert not passwords.is_same(None, "nobody has this password")


@pytest.mark.parametrize(
    "password",
    [
        "aaaaaaaaaaaa",
        "abcabcabcabc",
        "123456789012",
        "210987654321",
        "qwertyuiopas",
        "abcdefghijkl",
        "password12345",
        "Password-2026",
        "PASSWORDPASSWORD",
        "ada quill 2026",
        "Ada.Quill.1234",
        "adaquilladaquill",
        "becket-123456",
        "qwertyuiop12",
        "qwertyuiop1!",
        "Asdfghjkl.123",
        "1234567890ab",
        "abcd1234efgh",
    ],
)
def test_a_handful_of_trivial_passwords_is_not_taken(password: str) -> None:
    assert why_not_taken(password, "Ada Quill") == "accounts.fault.trivial"


@pytest.mark.parametrize(
    "password",
    [
        "four grey herons",
        "x7#kPq29.Lm!",
        "contraseña de ada",
        "ada likes wet ladders",
        "4711 0815 2323",
        "ラダーと鷺と四羽の灰色",
    ],
)
def test_any_other_is_taken_whatever_its_letters(password: str) -> None:
    assert why_not_taken(password, "Ada Quill") == (None if len(password) >= 12 else "accounts.fault.short")


def test_few_are_hashed_at_once_and_who_finds_no_room_is_told() -> None:
    inside, most, gate = [0], [0], threading.Event()

    class Slow(PasswordHasher):
        def verify(self, hash: str | bytes, password: str | bytes) -> Literal[True]:
            inside[0] += 1
            most[0] = max(most[0], inside[0])
            gate.wait(60)
            inside[0] -= 1
            return super().verify(hash, password)

    passwords = Passwords(Slow(time_cost=1, memory_cost=8, parallelism=1))
    threads = [threading.Thread(target=passwords.is_same, args=(None, "x")) for _ in range(AT_ONCE + WAITING)]
    for one in threads:
        one.start()
    while passwords._room._value:
        time.sleep(0.005)
    with pytest.raises(TooOftenError, match=r"Too many sign in at this moment\. Wait 3 s"):
        passwords.is_same(None, "x")
    gate.set()
    for one in threads:
        one.join()
    assert most == [AT_ONCE]
