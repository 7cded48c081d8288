"""The service worker's text: the script of the folder with version and shell filled in.

In:    templates and static files.
Out:   JavaScript.
Never: a version that stays when a template, a word or a static file changes.
"""

from __future__ import annotations

import json
from hashlib import sha256
from typing import Final

from becket.web.static_files import FOLDER as STATIC
from becket.web.templates import FOLDER as TEMPLATES
from becket.web.templates import Templates

PLACE: Final = "/* BECKET FILLS IN */ null"


def worker_script(templates: Templates) -> str:
    """Return the worker as it is served [-].

    Args:
        templates: with the static files
    """
    source = (STATIC / "sw.js").read_text(encoding="utf-8")
    filled = {"version": worker_version(templates), "shell": list(templates.statics.addresses())}
    return source.replace(PLACE, json.dumps(filled))


def worker_version(templates: Templates) -> str:
    """Return the seal over everything that the worker keeps of the shell, and over the worker itself [-].

    Args:
        templates: with the static files
    """
    seal = sha256(templates.statics.seal.encode())
    for path in (STATIC / "sw.js", *sorted(TEMPLATES.glob("*.html"))):
        seal.update(path.name.encode() + b"\0" + path.read_bytes())
    return seal.hexdigest()[:16]
