"""Accounts: names, roles that count at once, invitations, phones that are signed in, what is written down of it."""

from __future__ import annotations

import re
import sqlite3
import stat
from collections.abc import Iterator
from pathlib import Path

import pytest

from becket.errors import CannotWriteError, RefusedError, TooOftenError
from becket.web.account import Rights
from becket.web.accounts import FILE
from becket.web.first_link import first_link
from becket.web.roles import ROLES
from becket.web.signed_in import COOKIE
from tests.web.accounts_at import HERE, PASSWORD, Shared
from tests.web.asking import OWN, Phone, demo_folder

NEW = "seven wet ladders"


@pytest.fixture
def shared(tmp_path: Path) -> Iterator[Shared]:
    """Yield a shared server without an account."""
    found = Shared(demo_folder(tmp_path / "data"))
    yield found
    found.house.close()


@pytest.fixture
def office(shared: Shared) -> Phone:
    """Return the phone of an administrator."""
    return shared.phone_of(shared.account("Cy Moor", "administrator"))


def form(phone: Phone, path: str, **fields: str) -> str:
    """Return the page that answers a form, where it goes on to included."""
    answer = phone.post(path, files={name: (None, value) for name, value in fields.items()})
    assert answer.status_code in (200, 303, 422), answer.text
    return str(phone.get(answer.headers["location"]).text if answer.status_code == 303 else answer.text)


def invitation_in(page: str) -> str:
    """Return the path of the invitation that a page shows."""
    found = re.search(r"http://localhost(/invited/[\w-]+)", page)
    assert found is not None, page
    return found[1]


def test_an_invited_person_sets_a_password_and_is_in(shared: Shared, office: Phone) -> None:
    page = form(office, "/accounts", name="  Ada   Quill ", role="crew", cranes="hazel-70")
    path = invitation_in(page)
    assert "<svg" in page
    assert path not in office.get("/accounts").text  # shown once
    phone = shared.stranger()
    assert "Your name here is Ada Quill" in phone.get(path).text
    answer = phone.post(path, files={"password": (None, NEW), "again": (None, NEW)})
    assert (answer.status_code, answer.headers["location"]) == (303, "/")
    cookie = {part.strip() for part in answer.headers["set-cookie"].split(";")}
    assert {"HttpOnly", "SameSite=strict", "Path=/", "Max-Age=7776000"} <= cookie
    assert "Secure" not in cookie
    assert phone.get("/c/hazel-70/now").status_code == 200
    again = shared.stranger().get(path)
    assert again.status_code == 403
    assert "It was used, withdrawn, or is older than a week." in again.text


@pytest.mark.parametrize(
    ("password", "again", "said"),
    [
        ("short", "short", "Too short: 12 letters or more."),
        ("x" * 129, "x" * 129, "Too long: at most 128 letters."),
        ("adaquill2026", "adaquill2026", "Too easy to guess."),
        ("four grey herons", "four gray herons", "The two are not the same."),
    ],
)
def test_a_password_that_is_not_taken_leaves_the_invitation_good(
    shared: Shared, office: Phone, password: str, again: str, said: str
) -> None:
    path = invitation_in(form(office, "/accounts", name="Ada Quill", role="crew", every="yes"))
    phone = shared.stranger()
    answer = phone.post(path, files={"password": (None, password), "again": (None, again)})
    assert answer.status_code == 422
    assert said in answer.text
    assert not phone.cookies
    assert shared.stranger().get(path).status_code == 200


def test_an_invitation_is_over_after_a_week_and_when_another_is_made(shared: Shared, office: Phone) -> None:
    first = invitation_in(form(office, "/accounts", name="Ada Quill", role="crew", every="yes"))
    account = shared.entrance.accounts.named("ada quill")
    assert account is not None
    second = invitation_in(form(office, f"/accounts/{account.id}", do="renew"))
    phone = shared.stranger()
    assert [phone.get(path).status_code for path in (first, second)] == [403, 200]
    shared.clock.go(days=6, hours=23)
    assert phone.get(second).status_code == 200
    shared.clock.go(hours=1)
    assert phone.get(second).status_code == 403


def test_a_withdrawn_invitation_takes_an_account_that_was_never_used_with_it(shared: Shared, office: Phone) -> None:
    path = invitation_in(form(office, "/accounts", name="Ada Quill", role="crew", every="yes"))
    account = shared.entrance.accounts.named("ada quill")
    assert account is not None
    assert "invitation withdrawn" in form(office, f"/accounts/{account.id}", do="withdraw")
    assert shared.stranger().get(path).status_code == 403
    assert shared.entrance.accounts.named("ada quill") is None


def test_a_renewed_invitation_signs_every_phone_out_when_it_is_used(shared: Shared, office: Phone) -> None:
    account = shared.account("Ada Quill", "crew")
    old = shared.phone_of(account)
    path = invitation_in(form(office, f"/accounts/{account.id}", do="renew"))
    assert old.get("/account").status_code == 200
    shared.stranger().post(path, files={"password": (None, NEW), "again": (None, NEW)})
    assert old.get("/account").status_code == 401
    assert shared.entrance.sign_in("Ada Quill", PASSWORD, HERE) is None
    assert shared.entrance.sign_in("Ada Quill", NEW, HERE) is not None


def test_a_used_invitation_leads_to_where_one_signs_in(shared: Shared, office: Phone) -> None:
    path = invitation_in(form(office, "/accounts", name="Ada Quill", role="crew", every="yes"))
    shared.stranger().post(path, files={"password": (None, NEW), "again": (None, NEW)})
    page = shared.stranger().get(path)
    assert page.status_code == 403
    assert 'href="/sign-in">Sign in</a>' in page.text


@pytest.mark.parametrize("path", ["/account", "/accounts", "/files", "/kept"])
def test_the_pages_of_the_crane_stay_at_hand_on_a_page_of_the_firm(office: Phone, path: str) -> None:
    """Two cranes: from the list of pages on, side and foot lead back to the crane that was looked at."""
    listed = office.get("/pages?crane=hazel-70").text
    assert f'href="{path}?crane=hazel-70"' in listed
    page = office.get(f"{path}?crane=hazel-70")
    assert page.status_code == 200
    for there in ("now", "week", "record"):
        assert f'href="/c/hazel-70/{there}"' in page.text
    assert '<nav class="foot"' in page.text
    assert '<nav class="foot"' not in office.get(path).text, "the control: with two cranes it is not guessed"


def test_a_role_and_cranes_count_at_once(shared: Shared, office: Phone) -> None:
    account = shared.account("Ada Quill", "crew")
    phone = shared.phone_of(account)
    assert phone.get("/c/rowan-30/now").status_code == 200
    assert phone.post("/files", files={"none": b""}).status_code == 403
    form(office, f"/accounts/{account.id}", do="change", role="supervisor", cranes="hazel-70")
    assert phone.get("/c/rowan-30/now").status_code == 404
    assert phone.post("/files", files={"none": b""}).status_code == 422


def test_an_account_that_is_off_is_out_at_once_and_cannot_come_in(shared: Shared, office: Phone) -> None:
    account = shared.account("Ada Quill", "crew")
    phone = shared.phone_of(account)
    form(office, f"/accounts/{account.id}", do="off")
    assert phone.get("/").status_code == 401
    assert shared.entrance.sign_in("Ada Quill", PASSWORD, HERE) is None
    assert "switch the account on first" in form(office, f"/accounts/{account.id}", do="renew")
    form(office, f"/accounts/{account.id}", do="on")
    assert phone.get("/").status_code == 401  # it signs in anew
    assert shared.entrance.sign_in("Ada Quill", PASSWORD, HERE) is not None


def test_nobody_changes_the_own_account_and_a_name_is_there_once(shared: Shared, office: Phone) -> None:
    own = shared.entrance.accounts.named("Cy Moor")
    assert own is not None
    for todo in ("change", "off", "renew", "withdraw"):
        assert "Another administrator changes it." in form(
            office, f"/accounts/{own.id}", do=todo, role="crew", every="yes"
        )
    assert shared.entrance.accounts.one(own.id) == own
    assert "has an account already" in form(office, "/accounts", name="CY  MOOR", role="crew", every="yes")
    assert office.post(f"/accounts/{own.id}", files={"do": (None, "remove")}).status_code == 409
    assert office.get("/accounts/no-such").status_code == 404


@pytest.mark.parametrize(
    ("role", "cranes", "said"),
    [
        ("king", None, "role king: there is none"),
        ("crew", frozenset[str](), "no crane is chosen"),
        ("administrator", frozenset({"hazel-70"}), "choose every crane, or another role"),
    ],
)
def test_rights_that_mean_nothing_are_refused(role: str, cranes: frozenset[str] | None, said: str) -> None:
    with pytest.raises(RefusedError, match=said):
        Rights(role=role, cranes=cranes)


def test_every_crane_and_single_ones_is_not_guessed_at(shared: Shared, office: Phone) -> None:
    said = form(office, "/accounts", name="Ada Quill", role="crew", every="yes", cranes="hazel-70")
    assert "take one of the two away" in said
    assert shared.entrance.accounts.named("Ada Quill") is None


@pytest.mark.parametrize("name", ["", "   ", "x" * 61, "a\x00b"])
def test_a_name_that_is_none_is_refused(shared: Shared, office: Phone, name: str) -> None:
    before = shared.entrance.accounts.all()
    assert "write first and last name" in form(office, "/accounts", name=name, role="crew", every="yes")
    assert shared.entrance.accounts.all() == before


def test_a_password_is_changed_by_the_old_one_and_signs_the_other_phones_out(shared: Shared) -> None:
    account = shared.account("Ada Quill", "crew")
    phone, other = shared.phone_of(account), shared.phone_of(account)
    fields = {"do": "password", "password": NEW, "again": NEW}
    assert "The password until now is wrong." in form(phone, "/account", old="not this one", **fields)
    assert "Too easy to guess." in form(
        phone, "/account", old=PASSWORD, do="password", password="a" * 20, again="a" * 20
    )
    assert other.get("/account").status_code == 200
    assert "The password is changed." in form(phone, "/account", old=PASSWORD, **fields)
    assert (phone.get("/account").status_code, other.get("/account").status_code) == (200, 401)
    assert shared.entrance.sign_in("ada quill", NEW, HERE) is not None


def test_phones_are_listed_and_signed_out_one_by_one_and_everywhere(shared: Shared) -> None:
    account = shared.account("Ada Quill", "crew")
    stranger_too = shared.phone_of(shared.account("Bo Fenn", "crew"))
    shared.entrance.signed_in.end_all(account.id)
    one, two, three = (shared.phone_of(account) for _ in range(3))
    page = one.get("/account").text
    assert page.count("Last seen 2026-11-30 08:00") == 2
    assert page.count("This phone") == 1
    device = next(
        found.id for found in shared.entrance.signed_in.devices(account.id, two.cookies[COOKIE]) if found.is_this
    )
    stranger_too.post("/account", files={"do": (None, "end"), "device": (None, device)})
    assert two.get("/account").status_code == 200  # of another account: left alone
    one.post("/account", files={"do": (None, "end"), "device": (None, device)})
    assert [phone.get("/account").status_code for phone in (one, two, three)] == [200, 401, 200]
    one.post("/account", files={"do": (None, "end_all")})
    assert [phone.get("/account").status_code for phone in (one, three, stranger_too)] == [401, 401, 200]


def test_signing_out_ends_this_phone_alone_and_clears_nothing_of_it(shared: Shared) -> None:
    account = shared.account("Ada Quill", "crew")
    phone, other = shared.phone_of(account), shared.phone_of(account)
    token = phone.cookies[COOKIE]
    answer = phone.post("/sign-out", files={"none": b""})
    assert (answer.status_code, answer.headers["location"]) == (303, "/sign-in")
    assert "clear-site-data" not in answer.headers
    assert shared.entrance.signed_in.whose(token) is None
    assert other.get("/account").status_code == 200
    assert "stays on this phone" in phone.get("/sign-in").text


def test_a_phone_stays_signed_in_for_90_days(shared: Shared) -> None:
    phone = shared.phone_of(shared.account("Ada Quill", "crew"))
    shared.clock.go(days=89, hours=23)
    assert phone.get("/account").status_code == 200
    shared.clock.go(hours=1)
    assert phone.get("/account").status_code == 401


def test_what_was_changed_is_written_down(shared: Shared, office: Phone) -> None:
    form(office, "/accounts", name="Ada Quill", role="crew", cranes="hazel-70")
    account = shared.entrance.accounts.named("Ada Quill")
    assert account is not None
    form(office, f"/accounts/{account.id}", do="change", role="inspector", every="yes")
    form(office, f"/accounts/{account.id}", do="off")
    found = [(one.by, one.account, one.what, one.detail) for one in shared.entrance.accounts.logged()]
    assert found[:3] == [
        ("Cy Moor", "Ada Quill", "off", ""),
        ("Cy Moor", "Ada Quill", "changed", "inspector; every crane"),
        ("Cy Moor", "Ada Quill", "invited", "crew; hazel-70"),
    ]
    page = office.get("/accounts").text
    assert "<b>Ada Quill</b>: role or cranes changed, inspector; every crane" in page


def test_the_first_start_invites_an_administrator_and_so_does_the_option(shared: Shared) -> None:
    first = first_link("http://localhost", shared.house, shared.entrance)
    assert "as the administrator" in first.what
    newer = first_link("http://localhost", shared.house, shared.entrance)
    path, old = newer.address.removeprefix("http://localhost"), first.address.removeprefix("http://localhost")
    phone = shared.stranger()
    assert phone.get(old).status_code == 403  # the newest counts
    phone.post(path, files={"password": (None, NEW), "again": (None, NEW)})
    assert phone.get("/accounts").status_code == 200
    assert first_link("http://localhost", shared.house, shared.entrance).address == "http://localhost/sign-in"
    again = first_link("http://localhost", shared.house, shared.entrance, is_invitation=True)
    assert "/invited/" in again.address
    assert phone.get("/accounts").status_code == 200  # until it is used


def test_an_administrator_who_was_demoted_and_switched_off_is_one_again_by_the_option(shared: Shared) -> None:
    account = shared.account("administrator", "crew", frozenset({"hazel-70"}))
    shared.entrance.accounts.switch(account, "x", is_on=False)
    token = shared.entrance.invite_administrator()
    assert shared.entrance.accept(token, NEW, HERE) is not None
    assert shared.entrance.accounts.has_administrator()


def test_a_link_opens_nothing_on_a_shared_server_and_its_phones_are_not_known(shared: Shared) -> None:
    session = shared.house.sessions.use_link(shared.house.sessions.new_link())
    assert session is not None
    phone = shared.stranger()
    phone.cookies.set("becket", session, domain="localhost.local")
    assert phone.get("/c/hazel-70/now").status_code == 401
    for answer in (phone.get(f"/open/{shared.house.sessions.new_link()}"), phone.get("/link")):
        assert answer.status_code == 403
        assert "This server is entered by name and password" in answer.text


def test_an_account_counts_nothing_where_nothing_is_shared(shared: Shared, phone: Phone) -> None:
    token = shared.entrance.signed_in.begin(shared.account("Ada Quill", "administrator").id, "")
    for path in ("/sign-in", "/account", "/accounts", "/accounts/x", "/invited/x"):
        answer = phone.get(path)
        assert answer.status_code == 404
        assert "becket serve --shared" in answer.text
    assert phone.post("/sign-out", files={"none": b""}).status_code == 404
    phone.cookies.clear()
    phone.cookies.set(COOKIE, token, domain="localhost.local")
    assert phone.get("/c/hazel-70/now").status_code == 401


def test_the_file_is_for_its_owner_alone_and_holds_no_token_and_no_password(shared: Shared) -> None:
    account = shared.account("Ada Quill", "crew")
    tokens = [shared.entrance.invitations.make(account, "x"), shared.entrance.signed_in.begin(account.id, "")]
    path = shared.folder / FILE
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    data = path.read_bytes()
    assert not any(one.encode() in data for one in (*tokens, PASSWORD))


def test_a_damaged_file_says_what_is_lost_with_it(tmp_path: Path) -> None:
    folder = demo_folder(tmp_path / "data")
    (folder / FILE).write_bytes(b"not a database, and long enough to be looked at" * 20)
    with pytest.raises(CannotWriteError, match=r"is damaged\. Remove it and start again: accounts, invitations"):
        Shared(folder)


@pytest.mark.parametrize("headers", [{}, {"origin": "http://evil.example"}, {"sec-fetch-site": "same-site"}])
@pytest.mark.parametrize("path", ["/sign-in", "/sign-out", "/account", "/accounts", "/accounts/x", "/invited/x"])
def test_a_foreign_write_changes_nothing(shared: Shared, office: Phone, path: str, headers: dict[str, str]) -> None:
    answer = office.post(path, headers=headers, files={"name": (None, "Cy Moor"), "password": (None, PASSWORD)})
    assert answer.status_code == 403
    assert "Another site asked this phone to write here." in answer.text
    assert "set-cookie" not in answer.headers
    assert office.get("/account").status_code == 200


@pytest.mark.parametrize("path", ["/sign-in", "/sign-out", "/account", "/accounts", "/invited/x"])
def test_a_form_that_any_page_can_send_is_not_taken(shared: Shared, office: Phone, path: str) -> None:
    answer = office.post(path, headers={**OWN, "content-type": "application/x-www-form-urlencoded"}, content=b"a=b")
    assert answer.status_code == 415
    assert len(ROLES) == 5


def test_a_file_that_is_locked_is_told(shared: Shared, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("becket.web.side_file._PATIENCE", 0.01)
    held = sqlite3.connect(shared.folder / FILE)
    held.execute("BEGIN EXCLUSIVE")
    with pytest.raises(CannotWriteError, match="Stop other programs that use it"):
        shared.entrance.sign_in("x", "y", HERE)
    held.close()


def test_wrong_invitations_are_waited_for_too(shared: Shared) -> None:
    for _ in range(20):
        assert shared.entrance.invited("x", HERE.address) is None
    with pytest.raises(TooOftenError):
        shared.entrance.invited("x", HERE.address)
