"""The modules of a page, asked from a test.

In:    a tab on a page of becket.
Out:   what a piece of JavaScript returns; ``m.outbox`` and the others stand for the modules that the page has loaded.
Never: a second copy of a module beside the page's own.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

from playwright.sync_api import Page

from becket.records.kept import Kept
from becket.records.store import Store, store_place

_ASK = """async ([body, arg]) => {
    const names = performance.getEntriesByType("resource").map((one) => one.name);
    const m = new Proxy({}, { get: (_, name) => {
        const found = names.find((one) => new RegExp(`/static/${name}\\\\.[^/]*js$`).test(one));
        return import(found);
    } });
    const AsyncFunction = (async () => {}).constructor;
    const put = async (many, crane, extra = {}) => {
        const [{ put }, { newEvent }] = [await m.outbox, await m.view];
        const keys = [];
        for (let n = 0; n < many; n += 1) {
            const event = await newEvent("noted", { crane, role: "rigger", entered: { text: `note ${n}` }, ...extra });
            await put(event);
            keys.push(event.key);
        }
        return keys;
    };
    BODY
}"""


def ask(page: Page, body: str, arg: object = None) -> Any:
    """Return what JavaScript returns in a page.

    Args:
        page: a tab on a page of becket
        body: statements; ``m.outbox`` is a promise of the module, ``put(n, crane)`` keeps n notes, ``arg`` is given
        arg: plain data
    """
    return page.evaluate(_ASK.replace("BODY", body), [body, arg])


def stored(folder: Path) -> tuple[Kept, ...]:
    """Return every event that the server has kept, in its order.

    Args:
        folder: of the server
    """
    with Store.look(store_place(folder)) as store:
        return store.read(None)
