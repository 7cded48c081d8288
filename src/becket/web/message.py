"""What a person sees in place of a page that cannot be shown.

In:    an error.
Out:   a page or a line of JSON that says what stands there and what to do.
Never: a traceback on a phone; a bug told as the person's slip.
"""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response

from becket.errors import BecketError, BrokenStoreError, NotOnFileError, TooOftenError
from becket.web.addresses import ways_of
from becket.web.body import TooLargeError
from becket.web.guard import cannot_keep, said
from becket.web.headers import add_headers


async def message_of(request: Request, error: Exception) -> Response:
    """Return what an error means to the person; for a bug its place stands on the server's standard error."""
    if isinstance(error, NotOnFileError):
        return said(request, 404, "not_on_file", why=str(error))
    if isinstance(error, TooOftenError):
        answer = said(request, 429, "too_often", why=str(error))
        answer.headers["retry-after"] = str(error.seconds)
        return answer
    if isinstance(error, BrokenStoreError):
        return said(request, 503, "broken_store", why=str(error))
    if isinstance(error, OSError):  # of ours too: CannotKeepError, CannotWriteError
        return cannot_keep(request, error)
    if isinstance(error, BecketError):
        return said(request, 409, "refused", why=str(error))
    return add_headers(said(request, 500, "bug"))


async def no_page(request: Request, error: Exception) -> Response:
    """Return what is said of an address that is not there, or that is not written to."""
    path = request.url.path[:80]
    if getattr(error, "status_code", 404) != 405:
        return said(request, 404, "no_such_page", path=path)
    allowed = ", ".join(sorted(ways_of(request)))
    answer = said(request, 405, "method", path=path, allowed=allowed)
    answer.headers["allow"] = allowed
    return answer


async def bad_form(request: Request, error: Exception) -> Response:
    """Return what is said of a form that cannot be read: no form, too many parts."""
    return said(request, 400, "bad_form", why=str(getattr(error, "detail", "")).rstrip("."))


async def too_large(request: Request, error: Exception) -> Response:
    """Return what is said of a request that brings too much."""
    assert isinstance(error, TooLargeError)
    return said(request, 413, "too_large", most=f"{error.most / 1e6:g} MB")
