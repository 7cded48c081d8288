"""``/files``: the cranes' files, each with its faults; a book or a job sheet comes in.

In:    a file from a form.
Out:   one page: what became of the file, what is on file.
Never: a file in its place while it has a fault.
"""

from __future__ import annotations

from typing import Final

from starlette.concurrency import run_in_threadpool
from starlette.datastructures import UploadFile
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from becket.errors import RefusedError
from becket.web.asker import house_of
from becket.web.pages.pages import crane_asked
from becket.web.templates import render
from becket.web.uploads import Taken, take_file


async def files(request: Request) -> Response:
    """Return the page, after taking a file where one came in."""
    if request.method != "POST":
        return await run_in_threadpool(_page, request, None, None)
    house = house_of(request)
    async with request.form(max_files=1, max_fields=5) as form:
        found = form.get("file")
        if not isinstance(found, UploadFile) or not found.filename:
            return await run_in_threadpool(_page, request, None, "files.nothing")
        name, data = found.filename, await found.read()
    try:
        taken = await run_in_threadpool(take_file, house, name, data)
    except RefusedError as error:
        return await run_in_threadpool(_page, request, None, None, str(error))
    return await run_in_threadpool(_page, request, taken, None)


def _page(request: Request, taken: Taken | None, key: str | None, refused: str | None = None) -> Response:
    house = house_of(request)
    is_bad = key is not None or refused is not None or (taken is not None and bool(taken.faults))
    return render(
        request,
        "files.html",
        status=422 if is_bad else 200,
        crane=crane_asked(request),
        taken=taken,
        key=key,
        refused=refused,
        cranes=house.cranes(),
    )


ROUTES: Final = (Route("/files", files, methods=["GET", "POST"]),)
