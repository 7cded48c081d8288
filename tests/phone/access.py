"""What a page must be for eyes, gloves and keys, measured in a real browser.

In:    a tab on a page.
Out:   faults, one a line; none where the page is as it must be.
Never: a fault forgiven here: exceptions stand in the test, by name and with their reason.
"""

from __future__ import annotations

from axe_playwright_python.base import AXE_SCRIPT  # type: ignore[import-untyped]
from playwright.sync_api import Page

LEAST_TARGET, LEAST_TEXT, LEAST_CONTRAST = 44.0, 18.0, 7.0
_AXE_TAGS = ["wcag2a", "wcag2aa", "wcag2aaa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
_AXE_OF_A_LOOK = ["color-contrast", "color-contrast-enhanced", "target-size"]  # what light and size of text can change
_AXE = """async (runOnly) => {
    const { violations } = await axe.run(document, { runOnly, resultTypes: ["violations"] });
    const said = (id, { target, html }) => `axe ${id}: ${target} ${html.slice(0, 90)}`;
    return violations.flatMap(({ id, nodes }) => nodes.map((one) => said(id, one)));
}"""
_MEASURE = """(least) => {
    const faults = [];
    const about = (one) => {
        const named = [one.tagName.toLowerCase(), one.id, one.getAttribute("class")].filter(Boolean).join(" ");
        return `${named} "${(one.textContent ?? "").trim().slice(0, 40)}"`;
    };
    const apart = "[hidden], .only-read, .skip, noscript, title, desc, defs";
    const seen = (one) => {
        const box = one.getBoundingClientRect();
        const style = getComputedStyle(one);
        return box.width > 0 && box.height > 0 && style.visibility !== "hidden" && !one.closest(apart);
    };
    // targets
    for (const one of document.querySelectorAll("a[href], button, input, textarea, select, summary, [role=button]")) {
        if (!seen(one)) continue;
        const after = getComputedStyle(one, "::after");
        const isWhole = after.position === "absolute" && after.inset === "0px";
        const box = (isWhole ? one.closest("tr, li, div") : one).getBoundingClientRect();
        if (box.width < least.target - 0.5 || box.height < least.target - 0.5) {
            faults.push(`target ${Math.round(box.width)} x ${Math.round(box.height)}: ${about(one)}`);
        }
    }
    // texts: size as drawn, contrast
    const parse = (text) => (text.match(/[\\d.]+/g) ?? []).map(Number);
    const light = ([r, g, b]) => {
        const part = (v) => ((v /= 255) <= 0.03928 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4);
        return 0.2126 * part(r) + 0.7152 * part(g) + 0.0722 * part(b);
    };
    const ratio = (a, b) => {
        const [x, y] = [light(a), light(b)].sort((p, q) => q - p);
        return (x + 0.05) / (y + 0.05);
    };
    const ground = (one) => {
        for (let at = one; at; at = at.parentElement) {
            const colour = parse(getComputedStyle(at).backgroundColor);
            if (colour.length === 3 || colour[3] === 1) return colour.slice(0, 3);
        }
        return parse(getComputedStyle(document.documentElement).backgroundColor).slice(0, 3);
    };
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    for (let node = walker.nextNode(); node; node = walker.nextNode()) {
        const one = node.parentElement;
        if (!node.textContent.trim() || !seen(one) || one.closest("script, style")) continue;
        const style = getComputedStyle(one);
        const drawing = one.closest("svg");
        const scale = drawing ? Math.hypot(one.getScreenCTM().a, one.getScreenCTM().b) : 1;
        const size = parseFloat(style.fontSize) * scale;
        const where = drawing ? " in a picture" : "";
        if (size < least.text - 0.05) faults.push(`text ${size.toFixed(1)} px${where}: ${about(one)}`);
        const colour = parse(drawing ? style.fill : style.color).slice(0, 3);
        if (drawing) continue; // what lies behind a letter in a picture is not its parent
        const found = ratio(colour, ground(one));
        if (found < least.contrast) faults.push(`contrast ${found.toFixed(1)}: ${about(one)}`);
    }
    // nothing cut off, nothing sideways
    const wide = document.documentElement.scrollWidth;
    if (wide > innerWidth) faults.push(`sideways: page ${wide} px wide in ${innerWidth}`);
    for (const one of document.querySelectorAll("main *, .strap *, .foot *")) {
        if (!seen(one) || one.closest("svg")) continue;
        const box = one.getBoundingClientRect();
        if (box.right > innerWidth + 1 || box.left < -1) faults.push(`beside the screen: ${about(one)}`);
        const style = getComputedStyle(one);
        const hides = ["hidden", "clip"].includes(style.overflowX) && one.clientWidth > 0;
        const key = one.matches("button, a.action") && getComputedStyle(one, "::after").position !== "absolute";
        if (key && one.scrollHeight > one.clientHeight + 2) faults.push(`cut off below: ${about(one)}`);
        if (hides && one.scrollWidth > one.clientWidth + 1) faults.push(`cut off: ${about(one)}`);
    }
    return [...new Set(faults)];
}"""
_FOCUS = """() => {
    const one = document.activeElement;
    if (!one || one === document.body) return null;
    const style = getComputedStyle(one), after = getComputedStyle(one, "::after");
    const label = getComputedStyle((one.matches("input") && one.nextElementSibling) || one);
    const ring = [style, label, after].some((s) => s.outlineStyle !== "none" && parseFloat(s.outlineWidth) >= 2);
    const order = [...document.querySelectorAll("*")].indexOf(one);
    return { ring, order, about: `${one.tagName.toLowerCase()} "${(one.textContent ?? "").trim().slice(0, 40)}"` };
}"""
_REACHED = """() => {
    const all = [...document.querySelectorAll("a[href], button:not([disabled]), input, textarea, select, summary")];
    const radios = new Set();
    return all.filter((one) => {
        const isSeen = one.checkVisibility({ visibilityProperty: true }) && !one.closest("[hidden]");
        if (!isSeen || one.tabIndex < 0) return false;
        if (one.type !== "radio") return true;
        const isFirst = !radios.has(one.name);
        radios.add(one.name);
        return isFirst;
    }).length;
}"""
_MOVES = """() => document.getAnimations().filter((one) => one.playState === "running").length"""


def measured(page: Page) -> list[str]:
    """Return targets under 44 px, text under 18 px, contrast under 7, what is cut off or runs sideways [-].

    Args:
        page: a tab
    """
    least = {"target": LEAST_TARGET, "text": LEAST_TEXT, "contrast": LEAST_CONTRAST}
    found: list[str] = page.evaluate(_MEASURE, least)
    return found


def axe_faults(page: Page, again: bool = False) -> list[str]:
    """Return what axe-core finds: WCAG A, AA, AAA, 2.2 and best practice [-].

    Args:
        page: a tab
        again: the same page in another light or size of text: only what these can change
    """
    if not page.evaluate("() => 'axe' in globalThis"):
        page.evaluate(AXE_SCRIPT)
    rules = {"type": "rule", "values": _AXE_OF_A_LOOK} if again else {"type": "tag", "values": _AXE_TAGS}
    found: list[str] = page.evaluate(_AXE, rules)
    return found


def keyboard_faults(page: Page) -> list[str]:
    """Return what tabbing does not reach or does not show [-].

    Args:
        page: a tab
    """
    wanted = page.evaluate(_REACHED)
    page.evaluate("() => { document.activeElement?.blur(); window.getSelection()?.removeAllRanges(); }")
    places: dict[int, str] = {}
    faults = []
    for _ in range(2 * wanted + 5):
        page.keyboard.press("Tab")
        found = page.evaluate(_FOCUS)
        if found is None:
            continue  # the browser's own bar, on the way from the last action to the first
        if not found["ring"]:
            faults.append(f"no focus ring: {found['about']}")
        places[found["order"]] = found["about"]
        if len(places) == wanted:
            break
    if len(places) < wanted:
        faults.append(f"keyboard reaches {len(places)} of {wanted}: {list(places.values())}")
    return faults


def moving(page: Page) -> int:
    """Return how many animations run [-].

    Args:
        page: a tab
    """
    found: int = page.evaluate(_MOVES)
    return found
