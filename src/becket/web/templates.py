"""A page from its template.

In:    a request, the name of a template, what the page says.
Out:   the response, with what every page has: words, addresses of static files, light and text size.
Never: a value that is not escaped; a name in a template that nobody gave.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import partial
from pathlib import Path
from typing import Any, Final
from urllib.parse import unquote

import jinja2
from starlette.requests import Request
from starlette.responses import HTMLResponse

from becket.web.asker import account_of, entrance_of, may
from becket.web.crane_files import CraneFile
from becket.web.static_files import StaticFiles
from becket.web.words import Words

FOLDER: Final = Path(__file__).parent / "templates"
LOOKS: Final[Mapping[str, tuple[str, ...]]] = {  # the first is taken where the cookie says nothing
    "theme": ("sun", "night"),
    "text": ("normal", "large"),
    "units": ("metric", "us"),
    "view": ("cab", "rigger"),  # from where a pattern is shown first
    "cost": ("nocost", "cost"),  # whether Week shows money
}


class Templates:
    """The templates with the words and the static files that they name."""

    def __init__(self, statics: StaticFiles, words: Words, folder: Path = FOLDER) -> None:
        self.statics, self.words = statics, words
        self._jinja = jinja2.Environment(
            loader=jinja2.FileSystemLoader(folder),
            autoescape=True,
            undefined=jinja2.StrictUndefined,
            trim_blocks=True,
            lstrip_blocks=True,
        )
        self._jinja.globals.update(
            word=words.word, static=statics.address, words_url=statics.address(words_name(words.language))
        )
        self._jinja.globals.update(account=None, is_shared=False, may=lambda action: True)  # where nothing is shared

    def text(self, name: str, context: Mapping[str, Any]) -> str:
        """Return a filled template [-].

        Args:
            name: "now.html"
            context: what the template names
        """
        return self._jinja.get_template(name).render(context)


def words_name(language: str) -> str:
    """Return the name of a catalogue among the static files [-]."""
    return f"words-{language}.json"


def render(request: Request, name: str, /, *, status: int = 200, **context: Any) -> HTMLResponse:
    """Return a page.

    Every template has ``page``, ``crane`` (id and name, or None), ``look``, ``module`` (address of the page's own code,
    or None), ``word``, ``static``, ``words_url``, ``language``, ``account`` (of who asks on a shared server, or None),
    ``is_shared``, ``may`` (an action of ``roles.ACTIONS`` -> whether who asks may do it), ``here`` (what follows the
    address of a page of the firm).

    Args:
        request: for its app and its cookie
        name: of the template: "now.html"
        status: of HTTP
        context: what this template names besides
    """
    templates: Templates = request.app.state.templates
    page = str(context.get("page", Path(name).stem))
    code = f"page-{page}.js"
    every: dict[str, Any] = {
        "page": page,
        "crane": None,
        "look": look_of(request),
        "language": templates.words.language,
        "account": account_of(request),
        "is_shared": entrance_of(request) is not None,
        "may": partial(may, request),
        "module": templates.statics.address(code) if templates.statics.has(code) else None,
    }
    every |= context
    every["here"] = here(every["crane"])
    return HTMLResponse(templates.text(name, every), status_code=status)


def here(crane: CraneFile | None) -> str:
    """Return what follows the address of a page of the firm, so that the pages of a crane stay at hand there [-].

    Args:
        crane: that is asked for; None: none
    """
    return f"?crane={crane.id}" if crane else ""


def look_of(request: Request) -> dict[str, str]:
    """Return light, text size and units that this phone has chosen [-].

    Args:
        request: with the cookie ``look``, any words of ``LOOKS`` in it
    """
    said = re.split(r"[^a-z]+", unquote(request.cookies.get("look", ""))[:200])
    return {name: next((one for one in known if one in said), known[0]) for name, known in LOOKS.items()}
