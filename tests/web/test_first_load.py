"""How much a phone loads before it shows the first page."""

from __future__ import annotations

import re
from urllib.parse import urljoin

from tests.web.asking import HOST, Phone

MOST = 150_000  # bytes over the network
TAKES = {"accept-encoding": "br, gzip"}
LINKED = re.compile(r"""(?:src|href|data-words|data-module)="(/static/[^"]+)\"""")
LOADS = re.compile(r"""(?:from|import|url\()\s*\(?\s*["']?(\./[^"')]+)""")


def loaded(phone: Phone, path: str) -> dict[str, int]:
    """Return the bytes of a page and of everything that it pulls in, over the network."""
    sizes: dict[str, int] = {}
    wanted = [path]
    while wanted:
        one = wanted.pop()
        if one in sizes:
            continue
        answer = phone.get(one, headers=TAKES)
        assert answer.status_code == 200, one
        sizes[one] = int(answer.headers["content-length"])
        if one.endswith((".js", ".css")):
            wanted += [urljoin(f"{HOST}{one}", name).removeprefix(HOST) for name in LOADS.findall(answer.text)]
        elif one == path:
            wanted += LINKED.findall(answer.text)
    return sizes


def test_now_and_all_that_it_pulls_in_are_under_the_bound(phone: Phone) -> None:
    sizes = loaded(phone, "/c/hazel-70/now")
    assert {"css", "js", "json", "woff2"} <= {name.rpartition(".")[2] for name in sizes}
    assert sum(sizes.values()) < MOST, sizes


def test_the_page_of_a_run_is_under_the_bound_too(phone: Phone) -> None:
    sizes = loaded(phone, "/run/kept")
    assert sum(1 for name in sizes if "screen" in name) >= 3
    assert sum(sizes.values()) < MOST, sizes
