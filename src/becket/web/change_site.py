"""Where a change would be made: counterweight, outriggers, room, as far as they are stated.

In:    a crane, its plan, the two states.
Out:   the site, and whose figures they are.
Never: a figure that neither the job sheet nor the book states.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime

from becket.book.crane import Book
from becket.book.jobs import Job
from becket.book.tackle import State
from becket.method.site import Site
from becket.planning.answer import Plan, PlannedChange
from becket.web.crane_files import CraneFile


@dataclass(frozen=True, kw_only=True)
class KnownSite:
    """A site, and where its figures come from. ``job`` None: none of a job; ``planned`` None: not in the plan."""

    site: Site
    job: Job | None
    planned: PlannedChange | None


def site_for(
    crane: CraneFile, plan: Plan | None, before: State, after: State, now: datetime | None = None
) -> KnownSite:
    """Return the site of a change: of the plan's job, else of the job ahead, else of the only position permitted.

    Args:
        crane: as its files say
        plan: of its job sheet; None: there is none
        before: what hangs
        after: what is to hang
        now: on the site's clock; None: at this moment
    """
    planned = next((one for one in plan.changes if (one.before, one.after) == (before, after)), None) if plan else None
    jobs = crane.sheet.jobs if crane.sheet else ()
    if planned is not None:
        job = next((one for one in jobs if one.name == planned.job), None)
    else:
        moment = now or datetime.now()
        job = next((one for one in jobs if one.end is not None and one.end >= moment), None)
    site = Site() if job is None else _of_job(job)
    if planned is not None and planned.job is None and crane.sheet and crane.sheet.yard:
        site = Site(free_radius=crane.sheet.yard.free_radius)
    return KnownSite(site=site if crane.book is None else _only_fit(crane.book, site), job=job, planned=planned)


def _of_job(job: Job) -> Site:
    return Site(counterweight=job.counterweight, outriggers=job.outriggers, free_radius=job.free_radius)


def _only_fit(book: Book, site: Site) -> Site:
    """Return the site with what the book leaves no choice in: one counterweight, one way to stand, one sector."""
    rows = [
        row
        for row in book.rereeve
        if site.counterweight in (None, row.counterweight) and site.outriggers in (None, row.outriggers)
    ]
    weights, pads, sectors = (
        {getattr(row, name) for row in rows} for name in ("counterweight", "outriggers", "sector")
    )
    if site.counterweight is None and len(weights) == 1:
        site = replace(site, counterweight=weights.pop())
    if site.outriggers is None and len(pads) == 1:
        site = replace(site, outriggers=pads.pop())
    if site.sector is None and len(sectors) == 1:
        site = replace(site, sector=sectors.pop())
    return site
