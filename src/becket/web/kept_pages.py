"""What a phone keeps of a crane: which pages and scripts, and the seal under which each is still good.

In:    a crane, its plan, its book.
Out:   addresses with seals.
Never: a page.
"""

from __future__ import annotations

from hashlib import sha256
from typing import Any

from becket.reeving.seal import is_confirmed
from becket.web.house import House
from becket.web.templates import Templates
from becket.web.worker_script import worker_version

RUNS = 5  # the last ones: their records are kept on the phone too
MOVING = ("now", "week", "record", "pattern", "change")  # pages that say what was entered: a new event makes them old


def kept_pages(house: House, templates: Templates, name: str, look: str = "") -> dict[str, Any]:
    """Return what a phone keeps of a crane, as ``/api/kept/ID`` gives it.

    Args:
        house: with the crane's files, as who asks may see it
        templates: with the version of the shell
        name: id of the crane
        look: units, account and whatever else the pages of this phone are made with

    Raises:
        NotOnFileError: there is no such crane.
    """
    crane, seals = house.crane(name), page_seals(house, templates, name, look)
    return {
        "book": crane.fingerprint or None,
        "made": crane.made,
        "pages": [*seals],
        "seals": seals,
        "scripts": house.scripts_ahead(crane),
    }


def page_seals(house: House, templates: Templates, name: str, look: str = "") -> dict[str, str]:
    """Return the seal under which each page of a crane that a phone keeps is still good [-].

    Args:
        house: with the crane's files, as who asks may see it
        templates: with the version of the shell
        name: id of the crane
        look: units, account and whatever else the pages of this phone are made with
    """
    crane = house.crane(name)
    files = (
        worker_version(templates),
        look,
        crane.fingerprint,
        crane.sheet_fingerprint,
        crane.settings_fingerprint,
        dict(house.crew_records(crane)),  # the plan follows from them
    )
    newest = house.log(name).newest
    return {
        url: _seal(*files, *([newest] if newest and _is_moving(url, name) else []))
        for url in page_addresses(house, name)
    }


def page_addresses(house: House, name: str) -> tuple[str, ...]:
    """Return the addresses of every page of a crane that a phone keeps [-].

    Args:
        house: with the crane's files
        name: id of the crane
    """
    base = f"/c/{name}"
    crane = house.crane(name)
    plan = house.plan(crane)
    book, pairs = crane.book, house.changes_ahead(crane)
    patterns = book.patterns if book else ()
    unconfirmed = [one.state for one in patterns if book is not None and not is_confirmed(book, one)]
    return (
        "/",
        *(f"{base}/{page}" for page in ("now", "week", "falls", "pattern", "change", "record", "trouble")),
        *(f"{base}/falls/{index}" for index in range(1, len(plan.groups) + 1 if plan else 1)),
        *(f"{base}/pattern/{pattern.state}" for pattern in patterns),
        *(f"{base}/pattern/{state}/confirm" for state in unconfirmed),
        *(f"{base}/change/{before}/{after}" for before, after in pairs),
        *(f"{base}/record/{run}" for run in house.log(name).last_runs(RUNS)),
        *(f"/{page}?crane={name}" for page in ("pages", "who", "settings", "kept")),
        *("/who", "/settings", "/kept"),
    )


def _is_moving(url: str, name: str) -> bool:
    return any(url.startswith(f"/c/{name}/{page}") for page in MOVING)


def _seal(*parts: object) -> str:
    return sha256("\0".join(map(str, parts)).encode()).hexdigest()[:16]
