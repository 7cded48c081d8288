"""``/api/photo/ID/HASH``: a photo on its way in. ``/c/ID/photos/HASH.jpg``: a photo as it is kept.

In:    a crane, the hash of the original, the key of the event that names it; pieces.
Out:   JSON with how far it has come; a JPEG.
Never: a photo of another crane; a name that is not a hash.
"""

from __future__ import annotations

from typing import Final

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Route

from becket.errors import UnreadableTextError
from becket.web.asker import house_of
from becket.web.house import House
from becket.web.photos import Named, Progress, photo_of_crane, progress_of, take_piece

KEEP: Final = "private, max-age=31536000, immutable"  # the address names the content


def progress(request: Request) -> Response:
    """Say how far a photo has come: in JSON, and in headers for HEAD."""
    return _said(progress_of(_house(request), _named(request)))


async def piece(request: Request) -> Response:
    """Take a piece of a photo."""
    named, offset = _named(request), _offset(request.query_params.get("offset", ""))
    return _said(await run_in_threadpool(take_piece, _house(request), named, offset, await request.body()))


def photo(request: Request) -> Response:
    """Return a photo as it is kept."""
    crane = _house(request).crane(request.path_params["crane"])
    data = photo_of_crane(_house(request), crane.id, request.path_params["photo"])
    return Response(data, media_type="image/jpeg", headers={"cache-control": KEEP})


def _said(found: Progress) -> Response:
    headers = {"x-becket-offset": str(found.offset), "x-becket-whole": "yes" if found.whole else "no"}
    return JSONResponse({"offset": found.offset, "whole": found.whole}, headers=headers)


def _named(request: Request) -> Named:
    given = request.path_params
    return Named(crane=given["crane"], photo=given["photo"], event=request.query_params.get("event", "")[:100])


def _offset(text: str) -> int:
    if not text.isascii() or not text.isdigit() or len(text) > 9:
        raise UnreadableTextError(f"offset: {text[:20]!r}", "how many bytes have arrived, 0 for none")
    return int(text)


def _house(request: Request) -> House:
    return house_of(request)


ROUTES: Final = (
    Route("/api/photo/{crane}/{photo}", progress),
    Route("/api/photo/{crane}/{photo}", piece, methods=["PUT"]),
    Route("/c/{crane}/photos/{photo}.jpg", photo),
)
