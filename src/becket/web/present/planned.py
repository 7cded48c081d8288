"""Where the plan had a change and who pays for it: a mark in the first event of the run, words on its record.

In:    the site that a change was worked out for; later the mark.
Out:   the mark; the words.
Never: a sum of money: the crew's phone carries the mark, and it passes from phone to phone in a code.
"""

from __future__ import annotations

from typing import Final

from becket.web.change_site import KnownSite
from becket.web.present.trade import Word

NOT_PLANNED: Final = "-"
WHERE: Final = ("E", "I", "S", "Y", NOT_PLANNED)
PAYERS: Final = ("none", "customer", "own", "both", NOT_PLANNED)
_LONGEST: Final = (12, 18)  # letters of the job's name and of the site's: a code holds 660 bytes in all


def mark_of(site: KnownSite) -> str:
    """Return the mark of a change: place, payer, job, site [-].

    Args:
        site: that the change was worked out for
    """
    where, pays = (site.planned.where, site.planned.payer) if site.planned else (NOT_PLANNED, NOT_PLANNED)
    names = (site.job.name, site.job.site or "") if site.job else ("", "")
    return ";".join((where, pays, *(_clipped(name, most) for name, most in zip(names, _LONGEST, strict=True))))


def mark_words(mark: str, word: Word) -> str:
    """Return a mark in words; a text that is none as it is [-].

    Args:
        mark: as it was kept
        word: the catalogue

    >>> mark_words("the lift at two", lambda key, **_: key)
    'the lift at two'
    """
    where, pays, job, site = [*mark.split(";"), "", "", ""][:4]
    if where not in WHERE or pays not in PAYERS:
        return mark
    place = ", ".join(name for name in (job, site) if name)
    if where == NOT_PLANNED:
        return word("record.plan.not_at", where=place) if place else word("record.plan.not")
    stands = word(f"record.plan.{where}", where=place).replace("….", "…")  # a name that was cut
    return f"{stands} {word(f'record.plan.pays.{pays}')}"


def _clipped(name: str, most: int) -> str:
    plain = name.replace(";", ",")
    return plain if len(plain) <= most else f"{plain[: most - 1]}…"
