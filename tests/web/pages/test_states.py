"""Week, Falls, Pattern, Change, Files, Settings: the states that are not the usual one."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import datetime
from pathlib import Path

import pytest

from becket.book.tackle import State
from becket.web.present.week import money
from tests.web.asking import Phone
from tests.web.pages.standing import change_begun, change_done, crew, demo_phone, get, keep, read, start_of
from tests.web.run_answered import Writer

TWO, FOUR = (State(block="main", falls=falls) for falls in (2, 4))
BASE = "/c/hazel-70"


@pytest.fixture
def phone(tmp_path: Path) -> Iterator[Phone]:
    """A phone at a server with the demo's cranes."""
    found = demo_phone(tmp_path / "data")
    crew(found.house)
    yield found
    found.house.close()


def in_sheet(phone: Phone, old: str, new: str) -> None:
    """Replace words in the job sheet of the first crane."""
    sheet = phone.house.folder / "hazel-70.jobs.yaml"
    text = sheet.read_text()
    assert old in text
    sheet.write_text(text.replace(old, new))


def in_book(phone: Phone, old: str, new: str) -> None:
    """Replace words in the book of the first crane."""
    book = phone.house.folder / "hazel-70.crane.yaml"
    text = book.read_text()
    assert old in text
    book.write_text(text.replace(old, new, 1))


def test_lift_without_its_mass_cannot_be_answered(phone: Phone) -> None:
    """Falls asks for the weight slip, Week hatches the lift and says so in its title."""
    in_sheet(phone, "name: pump, count: 1, load: 13.2 t, load_basis: weighed,", "name: pump, count: 1,")
    text = read(get(phone, f"{BASE}/falls/3"))
    assert "Unknown: mass of the load. Falls cannot be answered. Ask for the weight slip." in text
    assert "%" not in text
    page = get(phone, f"{BASE}/week")
    assert "Unknown: 1." in read(page)
    assert 'class="plate week-row hatch"' in page


def test_nothing_proven_names_what_is_missing(phone: Phone) -> None:
    """Without the fleet angle limit no row is pass: fewest that nothing fails, and its name."""
    in_book(phone, "fleet: {", "# fleet: {")
    answer = phone.get(f"{BASE}/falls/3")
    text = read(answer.text)
    assert answer.status_code == 200, text[:400]
    assert "No falls proven. Fewest that nothing fails: 4. Missing: " in text
    assert "fleet angle" in text.split("Missing: ")[1][:60]
    assert "rig 4 falls" not in text


def test_no_number_of_falls_will_do(phone: Phone) -> None:
    """The limit that fails least is named with its use, and what to ask for."""
    page = read(get(phone, f"{BASE}/falls/9"))
    assert "No number of falls will do." in page
    assert "Nearest: " in page
    assert "Ask for a lighter load or a shorter radius." in page


def test_unknown_row_is_never_drawn_as_pass(phone: Phone) -> None:
    """Five falls are not confirmed: unknown with the count of unknowns and the greatest known use."""
    text = read(get(phone, f"{BASE}/falls/3"))
    assert "5 unknown pattern 98 % 1 unknown" in text
    assert "5 pass" not in text


def test_pattern_that_nobody_confirmed_leads_to_the_page_that_confirms(phone: Phone) -> None:
    """A phone has no command line: the sentence ends with who reads which page, a link leads there."""
    page = get(phone, f"{BASE}/falls/3")
    text = read(page)
    assert "A second person reads page 7-15 of the manual. Confirm main 5 with the page in hand" in text
    assert "becket confirm" not in text
    found = re.findall(r'href="([^"]*/confirm)"', page)
    assert found == [f"{BASE}/pattern/main:5/confirm"]
    assert get(phone, found[0])


def test_lift_of_another_rule_book_gets_no_figure(phone: Phone) -> None:
    """Persons on the hook: no main-boom figure at all."""
    in_sheet(phone, "{name: motor, count: 1,", "{name: motor, kind: persons, count: 1,")
    text = read(get(phone, f"{BASE}/falls/4"))
    assert "motor: another rule book governs it" in text
    assert "Persons on the hook" in text
    assert "rig 2 falls" not in text


def test_no_plan_says_why(phone: Phone) -> None:
    """Rigged not stated and nothing counted: no plan, and what to do."""
    in_sheet(phone, "rigged: {block: main, falls: 2}\n", "")
    text = read(get(phone, f"{BASE}/week"))
    assert "No plan" in text
    assert "Count the falls at the block" in text


def test_money_is_shown_only_where_settings_ask_for_it(phone: Phone) -> None:
    """A crew's phone shows no sum; with the setting it does."""
    assert "EUR" not in read(get(phone, f"{BASE}/week"))
    assert "USD" not in read(get(phone, "/c/rowan-30/week"))
    assert "The plan costs EUR 14 280." in read(get(phone, f"{BASE}/week", "cost"))
    assert "The next best plan costs USD 80 more." in read(get(phone, "/c/rowan-30/week", "cost"))
    assert "pays" not in read(get(phone, f"{BASE}/week"))
    assert "after the last lift of M-1, nobody pays more" in read(get(phone, f"{BASE}/week", "cost"))


def test_who_pays_past_the_booked_hours_stands_with_the_change(phone: Phone) -> None:
    """The sums are the core's; a crew's phone shows neither sums nor who pays."""
    in_sheet(phone, "to: 2027-03-01 14:00", "to: 2027-03-01 11:00")
    plan = phone.house.plan(phone.house.crane("hazel-70"))
    assert plan is not None
    change = plan.changes[0]
    assert (change.job, change.payer) == ("M-1", "both")
    cost, customer, own = (money(one, "EUR") for one in (change.cost, change.customer_pays, change.we_pay))
    assert f"costs {cost}: the customer pays {customer}, we {own}" in read(get(phone, f"{BASE}/week", "cost"))
    assert "pays" not in read(get(phone, f"{BASE}/week"))


def test_pattern_not_on_file_has_no_picture(phone: Phone) -> None:
    """Seven falls: what to look for, no ghost sheaves."""
    page = get(phone, f"{BASE}/pattern/main:7")
    assert "No pattern on file for main:7." in read(page)
    assert 'role="img"' not in page


def test_pattern_not_confirmed_carries_the_words_in_its_picture(phone: Phone) -> None:
    """The words are inside the SVG; the button leads to the second reading."""
    page = get(phone, f"{BASE}/pattern/main:5")
    assert "NOT CONFIRMED" in page[page.index("<svg", page.index("<figure")) : page.index("</figure>")]
    assert "Confirm with page 7-15 in hand" in read(page)
    assert f'href="{BASE}/pattern/main:5/confirm"' in page
    assert "NOT CONFIRMED" not in get(phone, f"{BASE}/pattern/main:4")


def test_view_first_shown_is_a_choice(phone: Phone) -> None:
    """Cab or rigger first; both are on the page."""
    cab, rigger = (get(phone, f"{BASE}/pattern/main:4", view) for view in ("cab", "rigger"))
    assert cab.index("Seen from the cab") < cab.index("You face the cab")
    assert rigger.index("You face the cab") < rigger.index("Seen from the cab")


def test_photo_of_the_manual_never_leaves_the_folder(phone: Phone) -> None:
    """A path out of the folder is refused, by the reader of the book already."""
    (phone.house.folder.parent / "secret.jpg").write_bytes(b"\xff\xd8\xff\xe0 not for a phone")
    in_book(phone, "page: 7-14,", "page: 7-14, picture: ../secret.jpg,")
    answer = phone.get(f"{BASE}/photo/main:4")
    assert answer.status_code in (404, 409)
    assert b"not for a phone" not in answer.content


def test_photo_of_the_manual_is_shown(phone: Phone) -> None:
    """A photo in the folder: as it is, under its kind, with words on the page that it proves nothing."""
    photo = b"\xff\xd8\xff\xe0 a page"
    (phone.house.folder / "7-14.jpg").write_bytes(photo)
    in_book(phone, "page: 7-14,", "page: 7-14, picture: 7-14.jpg,")
    answer = phone.get(f"{BASE}/photo/main:4")
    assert (answer.status_code, answer.headers["content-type"], answer.content) == (200, "image/jpeg", photo)
    assert "The photo confirms nothing by itself." in read(get(phone, f"{BASE}/pattern/main:4"))


def test_change_can_be_started_only_from_what_was_counted(phone: Phone) -> None:
    """Nothing counted: to read only. Something else counted: not from here. Counted: the button with its script."""
    path = f"{BASE}/change/main:2/main:4"
    assert "Not known what is rigged." in read(get(phone, path))
    assert 'data-change="button"' not in get(phone, path)
    change_done(phone.house, FOUR, TWO, start_of(datetime.now().astimezone(), 1))
    page = get(phone, path)
    assert 'data-change="button"' in page
    assert 'data-script="' in page
    assert "Something else is rigged now." in read(get(phone, f"{BASE}/change/main:4/main:2"))
    change_begun(phone.house, TWO, FOUR, datetime.now().astimezone())
    assert "A change is open. Finish it first, or stop it." in read(get(phone, path))
    assert 'data-change="button"' not in get(phone, path)


def test_change_that_does_not_pass_cannot_be_started(phone: Phone) -> None:
    """Five falls are not confirmed: NOT FOR USE, NOT CONFIRMED, no button."""
    change_done(phone.house, FOUR, TWO, start_of(datetime.now().astimezone(), 1))
    page = get(phone, f"{BASE}/change/main:2/main:5")
    text = read(page)
    assert "NOT FOR USE" in text
    assert "NOT CONFIRMED AGAINST THE MANUAL" in text
    assert 'data-change="button"' not in page


def test_change_list_begins_with_what_is_rigged(phone: Phone) -> None:
    """Nothing counted: every start, to read. Counted: that one alone, the planned change first."""
    assert "Count it first: two people, each alone." in read(get(phone, f"{BASE}/change"))
    change_done(phone.house, FOUR, TWO, start_of(datetime.now().astimezone(), 1))
    text = read(get(phone, f"{BASE}/change"))
    assert "From main 2 2 → 4 falls 46 min, in the plan pass" in text
    assert "From main 4" not in text


def test_settings_are_kept_by_a_form_alone(phone: Phone) -> None:
    """Without a program: the cookie, and the next page is made with it."""
    answer = phone.post("/settings?crane=hazel-70", files={"theme": (None, "night"), "units": (None, "us")})
    assert answer.status_code == 303
    page = phone.get(f"{BASE}/falls/3").text
    assert 'data-theme="night"' in page
    assert "lbf" in read(page)


def test_units_stay_while_a_change_is_open(phone: Phone) -> None:
    """Refused in words, and nothing is changed."""
    change_done(phone.house, FOUR, TWO, start_of(datetime.now().astimezone(), 1))
    change_begun(phone.house, TWO, FOUR, datetime.now().astimezone())
    answer = phone.post("/settings?crane=hazel-70", files={"units": (None, "us")})
    assert answer.status_code == 409
    assert "A change is open. Finish it first, or stop it." in read(answer.text)
    assert "lbf" not in read(phone.get(f"{BASE}/falls/3").text)


def test_a_change_that_was_stopped_is_not_shown_as_one_that_runs(phone: Phone) -> None:
    """Now forbids to hoist what somebody left half way."""
    change_done(phone.house, FOUR, TWO, start_of(datetime.now().astimezone(), 1))
    change_begun(phone.house, TWO, FOUR, datetime.now().astimezone())
    assert "DO NOT HOIST" not in read(phone.get(f"{BASE}/now").text)
    writer = Writer(now=datetime.now().astimezone(), number=2000)
    keep(phone.house, [writer.write("stopped", {"item": "s1", "left": [], "told": "the office"}, run="run-2")])
    assert "A change was stopped and is open. DO NOT HOIST." in read(phone.get(f"{BASE}/now").text)


def test_settings_that_are_no_choice_change_nothing(phone: Phone) -> None:
    """A word that is no choice is passed over."""
    answer = phone.post("/settings", files={"theme": (None, "<script>"), "text": (None, "large")})
    assert answer.status_code == 303
    page = phone.get("/settings").text
    assert 'data-theme="sun" data-text="large"' in page


def test_file_with_a_fault_is_shown_and_not_taken(phone: Phone) -> None:
    """The title begins with the number of faults; the file before it stays."""
    before = (phone.house.folder / "hazel-70.crane.yaml").read_bytes()
    bad = before.decode().replace("diameter: 19 mm", "diameter: 19", 1).encode()
    answer = phone.post("/files", files={"file": ("hazel-70.crane.yaml", bad)})
    assert answer.status_code == 422
    assert "<title>1 faults · Files</title>" in answer.text
    assert "hazel-70.crane.yaml is not taken in: 1 fault. The file before it stays." in read(answer.text)
    assert (phone.house.folder / "hazel-70.crane.yaml").read_bytes() == before


def test_file_that_is_sound_is_taken(phone: Phone) -> None:
    """It says under which name the older one is kept, and leads to Now."""
    sheet = (phone.house.folder / "hazel-70.jobs.yaml").read_text().replace("count: 24", "count: 25")
    answer = phone.post("/files", files={"file": ("hazel-70.jobs.yaml", sheet.encode())})
    assert answer.status_code == 200
    assert "hazel-70.jobs.yaml is on file." in read(answer.text)
    assert "The older one is kept as " in read(answer.text)
    assert "trusses × 25" in read(get(phone, f"{BASE}/week"))


def test_form_without_a_file_says_so(phone: Phone) -> None:
    """No file was chosen: in words, not a bug."""
    answer = phone.post("/files", files={"other": (None, "x")})
    assert answer.status_code == 422
    assert "No file was chosen." in read(answer.text)


@pytest.mark.parametrize("path", ["falls/99", "falls/x", "pattern/keel:4", "change/main:2/keel:4", "photo/main:4"])
def test_what_is_not_on_file_is_told_in_words(phone: Phone, path: str) -> None:
    """404 or a refusal with what is on file: no bug page."""
    answer = phone.get(f"{BASE}/{path}")
    assert answer.status_code in (404, 409)
    assert "Something is wrong in becket" not in answer.text


def test_no_link_leads_nowhere(phone: Phone) -> None:
    """Every address on every page to read is there."""
    seen: set[str] = set()
    left = ["/", f"{BASE}/now", "/pages?crane=hazel-70"]
    while left:
        path = left.pop()
        if path in seen or path.startswith(("/run/", "/static/")):
            continue
        seen.add(path)
        answer = phone.get(path, follow_redirects=True)
        assert answer.status_code == 200, (path, answer.status_code)
        if "text/html" in answer.headers["content-type"] and len(path.split("/")) < 5:
            found = re.findall(r'href="(/[^"#]*)"', answer.text)
            left += [one.replace("&amp;", "&") for one in found if "/change/" not in one or "main:2/main:4" in one]
    assert len(seen) > 30
