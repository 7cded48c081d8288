"""``/settings``: how it looks and speaks on this phone.

In:    the choices, as a form; the cookie ``look``.
Out:   one page; the cookie.
Never: other units while a change is open; a setting of the method but the hand height.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from becket.errors import RefusedError
from becket.figures import shown
from becket.web.asker import house_of
from becket.web.hand_height import set_hand_height
from becket.web.open_change import is_change_open
from becket.web.pages.pages import crane_asked
from becket.web.present.example import example_line
from becket.web.templates import LOOKS, Templates, look_of, render

COOKIE: Final = "look"
YEAR: Final = 31_536_000  # [s]


async def settings(request: Request) -> Response:
    """Return the page Settings, or keep what was chosen."""
    if request.method != "POST":
        return _page(request, look_of(request))
    form = await request.form(max_files=0, max_fields=20)
    chosen = {name: str(form.get(name, "")) for name in LOOKS}
    old = look_of(request)
    look = {name: chosen[name] if chosen[name] in LOOKS[name] else old[name] for name in LOOKS}
    if look["units"] != old["units"] and _open_change(request):
        return _page(request, old, refused=True)
    answer = RedirectResponse(str(request.url.include_query_params(kept="yes")), status_code=303)
    answer.set_cookie(COOKIE, cookie_of(look), max_age=YEAR, samesite="strict", path="/")
    return answer


def cookie_of(look: Mapping[str, str]) -> str:
    """Return the cookie that says how it looks: the words alone, as look.js writes it too [-].

    Args:
        look: a word for each choice

    >>> cookie_of({"theme": "night", "text": "large"})
    'night.large'
    """
    return ".".join(look.values())


def _page(
    request: Request, look: Mapping[str, str], *, refused: bool = False, hand_refused: str | None = None
) -> Response:
    templates: Templates = request.app.state.templates
    crane, house = crane_asked(request), house_of(request)
    example = example_line(crane, templates.words.word)
    return render(
        request,
        "settings.html",
        status=409 if refused or hand_refused else 200,
        crane=crane,
        look=dict(look),
        example=example,
        examples={"units.metric": example["metric"], "units.us": example["us"]},
        open_change=_open_change(request),
        refused=refused,
        hand_refused=hand_refused,
        hand_by=house.settings().replaced.get("hand_height"),
        hand_shown=shown(house.settings().hand_height, "length", look["units"]),
        is_whole_firm=house.only is None,
    )


def _open_change(request: Request) -> bool:
    """Whether a change is open on the crane that is asked for, or on any where none is."""
    house = house_of(request)
    crane = crane_asked(request)
    return is_change_open(house, (crane,) if crane else house.cranes())


async def hand_height(request: Request) -> Response:
    """Keep how high the rigger reaches, for every crane of the folder."""
    form = await request.form(max_files=0, max_fields=5)
    try:
        set_hand_height(house_of(request), str(form.get("height", "")), str(form.get("source", "")))
    except RefusedError as error:
        return _page(request, look_of(request), hand_refused=str(error))
    return RedirectResponse(str(request.url.replace(path="/settings")), status_code=303)


ROUTES: Final = (
    Route("/settings", settings, methods=["GET", "POST"]),
    Route("/settings/hand-height", hand_height, methods=["POST"]),
)
