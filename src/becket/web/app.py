"""The server as one application.

In:    the house, the names it goes by.
Out:   an application of Starlette.
Never: a page that answers without the headers, a write from another site.
"""

from __future__ import annotations

from collections.abc import Iterable

from starlette.applications import Starlette
from starlette.middleware import Middleware
from starlette.middleware.gzip import GZipMiddleware

from becket.errors import BecketError
from becket.web.body import BodyBound, TooLargeError
from becket.web.entrance import Entrance
from becket.web.font import font_files
from becket.web.guard import Guard
from becket.web.headers import HeadersFirst
from becket.web.house import House
from becket.web.message import bad_form, message_of, no_page, too_large
from becket.web.routes import routes
from becket.web.static_files import StaticFiles
from becket.web.templates import Templates, words_name
from becket.web.words import Words

LANGUAGE = "en"


def make_app(
    house: House, hosts: Iterable[str] = (), *, is_any_address: bool = False, entrance: Entrance | None = None
) -> Starlette:
    """Return the application.

    Args:
        house: the firm's folder and store
        hosts: names that this server goes by, besides those of this machine
        is_any_address: it goes by every bare address too: it listens at all of them
        entrance: of a shared server: name and password; None: a link opens the pages
    """
    words = Words(LANGUAGE)
    statics = StaticFiles(more={words_name(LANGUAGE): words.as_bytes(), **font_files()})
    app = Starlette(
        routes=routes(),
        middleware=[
            Middleware(HeadersFirst, hosts=tuple(hosts), is_any_address=is_any_address),
            Middleware(Guard, sessions=house.sessions, entrance=entrance),
            Middleware(BodyBound),
            Middleware(GZipMiddleware, minimum_size=1000),
        ],
        exception_handlers={
            BecketError: message_of,
            OSError: message_of,
            TooLargeError: too_large,
            400: bad_form,
            404: no_page,
            405: no_page,
            500: message_of,
        },
    )
    app.state.house = house
    app.state.entrance = entrance
    app.state.templates = Templates(statics, words)
    return app
