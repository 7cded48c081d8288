"""The file as a person opens it: from storage, network off, 360 px wide, in Debian's chromium."""

from __future__ import annotations

import json
from dataclasses import replace
from itertools import permutations
from pathlib import Path
from random import Random
from urllib.parse import quote

import pytest
from axe_playwright_python.sync_playwright import Axe  # type: ignore[import-untyped]
from playwright.sync_api import Browser, Locator, Page

from becket.book.crane import Book
from becket.method.change import work_out_change
from becket.pack.change_data import sites_of, states_of
from becket.pack.finder import FilledGrid
from becket.pack.grid import FinderGrid, round_to_worse
from becket.pack.html import pack_html
from becket.pack.short_answer import NONE, RIG, UNPROVEN, ShortAnswer
from tests.crane import invented_book, invented_settings
from tests.pack.conftest import PRINTED
from tests.pack.test_finder import Question, question_in

pytestmark = pytest.mark.browser

SCRIPT = "[document.documentElement.scrollWidth, innerWidth]"
SHOWN = "Array.from(document.querySelectorAll('main > section')).filter(one => one.offsetHeight).map(one => one.id)"
# a word is drawn as large as its font says, times how much its picture is scaled
SMALLEST = """() => {
  const sizes = [];
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (walk.nextNode()) {
    const parent = walk.currentNode.parentElement;
    const box = parent.getBoundingClientRect();
    if (!walk.currentNode.textContent.trim() || !box.width || parent.closest("script,style,option,svg")) continue;
    sizes.push(parseFloat(getComputedStyle(parent).fontSize));
  }
  return Math.min(...sizes);
}"""
TARGETS = """() => Array.from(document.querySelectorAll("a,button,input,select"))
  .map(one => one.getBoundingClientRect()).filter(box => box.width > 0 && (box.width < 44 || box.height < 44)).length"""


# heard after the page's own listener, so what was asked for is drawn
SHOW = """address => new Promise(shown => {
  const before = location.hash;
  addEventListener("hashchange", shown, { once: true });
  location.hash = address;
  if (location.hash === before) shown();
})"""
LISTEN = "() => { window.shown = new Promise(shown => addEventListener('hashchange', shown, { once: true })); }"


def go(page: Page, *words: str) -> None:
    """Go to a page of the file and wait until it is drawn."""
    page.evaluate(SHOW, "/".join(quote(word, safe="") for word in words))


def tap(page: Page, link: Locator) -> None:
    """Tap a link to another page of the file and wait until that is drawn."""
    page.evaluate(LISTEN)
    link.click()
    page.evaluate("() => window.shown")


def test_every_state_is_reached_by_tapping(page: Page, book: Book) -> None:
    tap(page, page.get_by_role("navigation").get_by_role("link", name="Patterns"))
    rows = page.locator("#view-patterns a.row")
    assert rows.count() == len(states_of(book)) == 7
    for number, state in enumerate(states_of(book)):
        go(page, "patterns")
        tap(page, rows.nth(number))
        shown = page.locator("main > section:visible")
        assert shown.count() == 1
        assert str(state) in shown.inner_text()
        assert shown.locator("svg").count() == 2
        assert "Rope from the drum outward" in shown.inner_text()
        assert "Checks" in shown.inner_text()
        is_open = next(one for one in book.patterns if one.state == state).confirmed is None
        assert ("NOT CONFIRMED AGAINST THE MANUAL" in shown.inner_text()) is is_open
        assert page.evaluate(SCRIPT) == [360, 360]


def test_every_change_is_reached_by_tapping(page: Page, book: Book) -> None:
    settings, seen = invented_settings(), 0
    for before in states_of(book):
        go(page, "changes")
        tap(page, page.locator("#view-changes a.row").nth(states_of(book).index(before)))
        links = page.locator("#from-list a.row")
        targets = [link.get_attribute("href") for link in links.all()]
        assert len(targets) == (len(states_of(book)) - 1) * len(sites_of(book))
        for number in range(0, len(targets), 6):  # a tap on each fifth: it opens what the link says
            go(page, "from", str(before))
            tap(page, links.nth(number))
            assert page.evaluate(SHOWN) == ["view-change"]
            assert page.evaluate(SCRIPT) == [360, 360]
            seen += 1
    assert seen >= 14, seen
    for before, after in list(permutations(states_of(book), 2))[::7]:
        for number, site in enumerate(sites_of(book)):
            go(page, "change", str(before), str(after), str(number))
            change, shown = work_out_change(book, settings, before, after, site), page.locator("#view-change")
            text = shown.inner_text()
            assert f"{before} to {after}" in text
            assert ("NOT FOR USE" in text) is (str(change.verdict) != "pass")
            assert shown.locator(".step").count() == len(change.steps)
            steps = shown.locator(".step .do").all_inner_texts()
            assert steps == [step.do for step in change.steps]
            assert all(one.why in text for one in change.reasons)
            assert "Phones away while anything moves" in text


def test_no_violation_of_axe(page: Page) -> None:
    options = {"runOnly": ["wcag2a", "wcag2aa", "wcag2aaa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]}
    for words, is_dark in (
        (("start",), False),
        (("falls",), True),
        (("patterns",), False),
        (("pattern", "main:5"), True),
        (("from", "main:2"), False),
        (("change", "main:2", "main:5", "0"), False),
        (("find",), False),
    ):
        page.emulate_media(color_scheme="dark" if is_dark else "light")
        go(page, *words)
        found = Axe().run(page, options=options).response["violations"]
        assert found == [], (words, [(one["id"], [node["html"][:200] for node in one["nodes"]]) for one in found])


def test_nothing_is_small_nor_wider_than_the_phone(page: Page) -> None:
    for words in (("start",), ("falls",), ("pattern", "main:6"), ("changes",), ("change", "main:4", "main:2", "1")):
        go(page, *words)
        assert page.evaluate(SMALLEST) >= 18, words
        assert page.evaluate(TARGETS) == 0, words
        assert page.evaluate(SCRIPT) == [360, 360], words


def test_caution_manual_book_state_and_date_are_on_every_view(page: Page, book: Book) -> None:
    for words in (("start",), ("falls",), ("pattern", "main:2"), ("change", "main:2", "main:4", "0"), ("find",)):
        go(page, *words)
        text = page.locator("body").inner_text()
        for wanted in (
            "Manual governs. Not a load indicator.",
            "The maker's manual, the load chart, local law and the competent persons on site govern.",
            f"{book.manual_title}, issue {book.manual_issue}",
            book.fingerprint,
            PRINTED,
            "Another book state: this file is void.",
        ):
            assert wanted in text, (words, wanted)


def ask(page: Page, grid: FinderGrid, question: Question) -> str:
    """Return what the form answers."""
    (least, greatest), top, bottom, load = question
    page.select_option("#f-block", grid.block)
    page.select_option("#f-chart", grid.chart)
    options = page.locator("#f-boom option").all_inner_texts()
    page.select_option("#f-boom", next(one for one in options if one.endswith(f"m, code {grid.code}")))
    figures = {"load": load / 1000, "least": least, "greatest": greatest, "top": top, "bottom": bottom}
    for name, figure in figures.items():
        page.fill(f"#f-{name}", f"{figure:.3f}")
    page.click("#finder button")
    return page.locator("#answer").inner_text()


def is_said(answer: ShortAnswer, text: str) -> bool:
    """Return whether the words of the page are those of the answer."""
    names = [name.replace("_", " ") for name in (*answer.fails, *answer.unknown)]
    start = {
        RIG: f"rig {answer.falls} fall" + ("s" if answer.falls != 1 else ""),
        UNPROVEN: f"NOT PROVEN\nNo number of falls passes every limit. Fewest that nothing fails: {answer.falls}.",
        NONE: "No number of falls will do.",
    }[answer.kind]
    return " ".join(text.split()).startswith(" ".join(start.split())) and all(name in text for name in names)


def test_the_form_answers_as_the_core(page: Page, finder: tuple[FilledGrid, ...]) -> None:
    go(page, "falls")
    random, kinds = Random(360), set()
    for _ in range(25):
        filled = random.choice(finder)
        radii, top, bottom, load = question_in(filled.grid, random)
        question = radii, top, bottom, float(round(load))
        place = round_to_worse(filled.grid, *question)
        assert place is not None
        answer = filled.at(place)
        kinds.add(answer.kind)
        text = ask(page, filled.grid, question)
        assert is_said(answer, text), (filled.grid, question, answer, text)
        load_read = f"{filled.grid.loads[place.load] / 1000:g} t"
        assert f"Read at: load on the hook {load_read}, radius" in text
    assert kinds >= {RIG, NONE}


@pytest.mark.parametrize(
    ("name", "figure", "said"),
    [
        ("load", "24.001", "load over 24 t, the most that this block or this chart carries"),
        ("least", "2.9", "radius under 3 m"),
        ("greatest", "12.1", "radius over 12 m"),
        ("top", "99", "highest hook over 20 m"),
        ("bottom", "-20.1", "lowest hook under -20 m"),
    ],
)
def test_outside_the_grid_is_unknown_and_says_so(
    page: Page, finder: tuple[FilledGrid, ...], name: str, figure: str, said: str
) -> None:
    go(page, "falls")
    grid = next(one.grid for one in finder if (one.grid.block, one.grid.boom) == ("main", 17.0))
    ask(page, grid, ((5.0, 7.0), 4.0, 0.0, 3000.0))
    page.fill(f"#f-{name}", figure)
    assert page.locator("#answer").is_hidden()  # an answer never stands beside another question
    page.click("#finder button")
    text = page.locator("#answer").inner_text()
    assert text.startswith("Unknown: outside what this file holds.")
    assert f"This file has no answer for {said}." in text


@pytest.mark.parametrize(
    ("name", "figure", "said"),
    [
        ("load", "", "Nothing stands there. Load on the hook: write a number, with a point and no unit."),
        ("load", "4 t", "“4 t” cannot be read. Load on the hook: write a number, with a point and no unit."),
        ("load", "13,2", "“13,2” cannot be read. Load on the hook: write a number, with a point and no unit."),
        ("load", "-1", "“-1” cannot be read. Load on the hook: write a number, with a point and no unit."),
        ("least", "1e1", "“1e1” cannot be read. Least radius: write a number, with a point and no unit."),
        ("least", "8", "The least radius is over the greatest."),
        ("bottom", "5", "The lowest hook is over the highest."),
    ],
)
def test_what_cannot_be_read_is_said(
    page: Page, finder: tuple[FilledGrid, ...], name: str, figure: str, said: str
) -> None:
    go(page, "falls")
    grid = next(one.grid for one in finder if (one.grid.block, one.grid.boom) == ("main", 17.0))
    ask(page, grid, ((5.0, 7.0), 4.0, 0.0, 3000.0))
    page.fill(f"#f-{name}", figure)
    page.click("#finder button")
    assert page.locator("#answer").inner_text() == said


def test_nothing_is_offered(page: Page) -> None:
    go(page, "falls")
    for field in page.locator("#finder input").all():
        assert field.input_value() == ""
        assert field.get_attribute("placeholder") is None
    assert [field.input_value() for field in page.locator("#finder select").all()] == ["", "", ""]
    page.click("#finder button")
    assert page.locator("#answer").inner_text() == "Choose the block."


@pytest.mark.parametrize(
    ("query", "word", "address"),
    [
        ("parts of line main", None, None),
        ("part of line", "fall", None),
        ("load block", "block", "#pattern/main%3A2"),
        ("standing end", "dead end", "#pattern/main%3A4"),
        ("retaining pin", "keeper", "#pattern/main%3A4"),
        ("luff", "derrick", None),
        ("main:2 main:4", None, "#change/main%3A2/main%3A4/0"),
        ("ball:1", None, "#pattern/ball%3A1"),
        ("fast line", "lead line", None),
    ],
)
def test_search_by_words_of_the_trade(page: Page, query: str, word: str | None, address: str | None) -> None:
    go(page, "find")
    page.fill("#s-query", query)
    if word is not None:
        assert any(one.startswith(f"{word}: ") for one in page.locator("#found li.word").all_inner_texts())
    links = [link.get_attribute("href") for link in page.locator("#found a").all()]
    if address is not None:
        assert address in links
        tap(page, page.locator(f"#found a[href='{address}']"))
        assert page.evaluate(SHOWN) != ["view-find"]
    if word is None and address is None:
        assert "Nothing found" in page.locator("#found-count").inner_text()


def test_an_address_that_is_not_there_leads_to_the_start(page: Page) -> None:
    for words in (("pattern", "main:99"), ("change", "a", "b", "0"), ("from", "x"), ("%E0",)):
        go(page, *words)
        assert page.evaluate(SHOWN) == ["view-start"]


def test_names_that_are_markup_stay_text(chromium: Browser, tmp_path: Path) -> None:
    book = invented_book()
    name = "</script><img src=x onerror=alert(1)>"
    hostile = replace(
        book,
        crane=name,
        manual_title='"><script>alert(2)</script>',
        keepers=tuple(replace(one, name=f"<b>{one.name}") for one in book.keepers),
        charts=(replace(book.charts[1], name=name, rows=()),),
        patterns=book.patterns[2:4],
        blocks={"main": book.blocks["main"]},
    )
    path = tmp_path / "hostile.html"
    path.write_text(pack_html(hostile, invented_settings(), printed=PRINTED), encoding="utf-8")
    page = chromium.new_page()
    said: list[str] = []
    page.on("dialog", lambda dialog: said.append(dialog.message))
    page.on("pageerror", lambda error: said.append(str(error)))
    page.on("console", lambda message: said.append(message.text))
    page.goto(path.as_uri())
    assert page.locator("h1:visible").inner_text() == name
    go(page, "change", "main:2", "main:3", "0")
    assert "<b>" in page.locator("#change-body").inner_text()
    assert page.locator("img").count() == 0
    page.close()
    assert said == []


def test_it_prints_the_view_that_is_open(page: Page) -> None:
    go(page, "change", "main:2", "main:4", "0")
    page.emulate_media(media="print")
    assert page.locator("nav.foot").is_hidden()
    assert page.locator("#view-change .step").first.is_visible()
    assert page.locator("footer.void").is_visible()
    assert page.evaluate(SHOWN) == ["view-change"]
    assert page.pdf()[:5] == b"%PDF-"


def test_the_policy_lets_nothing_else_run(chromium: Browser, place: Path, text: str) -> None:
    page = chromium.new_page()
    page.goto(place.as_uri())
    assert "default-src 'none'; style-src 'sha256-" in text
    assert "http:" not in text.replace("http://www.w3.org/2000/svg", "")
    assert "https:" not in text
    blocked = page.evaluate(
        """() => new Promise(done => {
             document.addEventListener('securitypolicyviolation', event => done(event.violatedDirective));
             const made = document.createElement('script'); made.textContent = '1'; document.body.append(made);
           })"""
    )
    page.close()
    assert blocked == "script-src-elem"


def test_the_data_has_no_figure_that_the_page_would_work_with(text: str) -> None:
    """The program compares and looks up; its only sums are places in a table."""
    start = text.index('<script type="application/json" id="data">') + len('<script type="application/json" id="data">')
    data = json.loads(text[start : text.index("</script>", start)])
    program = text[text.rindex("<script>") : text.rindex("</script>")]
    assert "Math." not in program
    assert {type(part) for answer in data["finder"]["answers"] for part in answer[2] + answer[3]} <= {int}
