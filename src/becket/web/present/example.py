"""A real line of Now, on which Settings shows what a choice does.

In:    a crane as its files say; None: there is none.
Out:   the line in both systems of units.
Never: an invented figure where the crane has one.
"""

from __future__ import annotations

from becket.web.crane_files import CraneFile
from becket.web.present.trade import Word, figure


def example_line(crane: CraneFile | None, word: Word) -> dict[str, str]:
    """Return the first lift of the crane's sheet in both systems of units [-].

    Args:
        crane: as its files say
        word: the catalogue
    """
    lifts = [lift for job in crane.sheet.jobs for lift in job.lifts] if crane and crane.sheet else []
    known = next((one for one in lifts if one.load is not None and one.radius is not None), None)
    load, radius = (known.load, known.radius[1]) if known and known.radius else (1600.0, 16.0)
    name = known.name if known else word("settings.example")
    return {
        "name": name,
        **{
            system: word(
                "settings.example.line",
                load=figure(load, "mass", system, "up"),
                radius=figure(radius, "length", system, "up"),
            )
            for system in ("metric", "us")
        },
    }
