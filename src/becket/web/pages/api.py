"""``/api/...`` and ``/script/ID.json``: what the phone's own code asks for.

In:    a delivery of events; a crane and the number of the last event that the phone has; the id of a script.
Out:   JSON.
Never: a hidden entry before its time.
"""

from __future__ import annotations

import json
from typing import Any, Final

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Route

from becket.errors import NotOnFileError, UnreadableTextError
from becket.web.asker import account_of, house_of, may
from becket.web.feed import feed_events, news_after, stamp_of
from becket.web.house import moment_now
from becket.web.kept_pages import kept_pages
from becket.web.pages.static import KEEP
from becket.web.receive import receive
from becket.web.templates import look_of


async def events(request: Request) -> Response:
    """Take a delivery of events."""
    try:
        found = json.loads(await request.body())
    except (ValueError, RecursionError):
        raise UnreadableTextError("the body is not JSON", 'a delivery is {"events": [...]}') from None
    told = await run_in_threadpool(receive, house_of(request), found, account_of(request))
    # in ASCII: the phone gets its key back as it wrote it, half a character too
    return Response(json.dumps(told, separators=(",", ":")), media_type="application/json")


def feed(request: Request) -> Response:
    """Give what is new of a crane and of the firm."""
    house = house_of(request)
    crane, after = request.path_params["crane"], _number(request.query_params.get("after", "0"))
    book, stamp = house.crane(crane).fingerprint, request.query_params.get("stamp")
    answer: dict[str, Any] = {"events": [], "head": 0, "stamp": "", "time": moment_now(), "book": book or None}
    if stamp is not None and stamp != stamp_of(house.store, after):
        return JSONResponse(answer)  # an older copy was put back: the phone takes all, and sends what was lost
    news = news_after(house.store, crane, after)
    scripts = house.scripts(one.event for one in news.kept)
    answer["events"] = feed_events(news.kept, scripts, after, house.hidden)
    answer |= {"head": news.head, "stamp": stamp_of(house.store, news.head, news.kept[-1:])}
    return JSONResponse(answer, headers={} if news.is_all else {"x-becket-more": "yes"})


def kept(request: Request) -> Response:
    """Give the list of what a phone keeps of a crane."""
    account = account_of(request)
    shown = f"{look_of(request)} {(account.role, account.name, sorted(account.cranes or ())) if account else ''}"
    told = kept_pages(house_of(request), request.app.state.templates, request.path_params["crane"], shown)
    if not may(request, "read_pattern"):  # the page is not given to this account: no phone asks for it in vain
        told["pages"] = [one for one in told["pages"] if not one.endswith("/confirm")]
        told["seals"] = {one: told["seals"][one] for one in told["pages"]}
    return JSONResponse(told)


def script(request: Request) -> Response:
    """Give a script; it never changes."""
    house = house_of(request)
    found = house.store.document(request.path_params["id"])
    if found is None or found.kind != "script" or not _is_own_script(request):
        raise NotOnFileError(f"script {request.path_params['id']} is not kept here")
    return Response(
        found.text, media_type="application/json", headers={"cache-control": KEEP.replace("public", "private")}
    )


def _is_own_script(request: Request) -> bool:
    account = account_of(request)
    if account is None or account.cranes is None:
        return True
    found = house_of(request).script(request.path_params["id"])
    return found is not None and account.has(found.crane)


def _number(text: str) -> int:
    if not text.isascii() or not text.isdigit() or len(text) > 15:
        raise UnreadableTextError(f"after: {text[:20]}", "the number of an event, 0 for all")
    return int(text)


ROUTES: Final = (
    Route("/api/events", events, methods=["POST"]),
    Route("/api/feed/{crane}", feed),
    Route("/api/kept/{crane}", kept),
    Route("/script/{id}.json", script),
)
