"""What a job sheet says of its crane, and of its own order: is it so?

In:    a sheet as read, the crane book where there is one.
Out:   faults for names and boom lengths that the book does not have, for times that run backward.
Never: whether a lift can be done.
"""

from __future__ import annotations

from datetime import datetime

from becket.book.crane import Book
from becket.book.jobs import Job, JobSheet, Lift
from becket.intake.boom_lengths import boom_lengths
from becket.intake.page import Page, first_names, nearest


class JobReferences:
    """Checks of one sheet, each noting its faults on the page. Parts that were faulty are None and are left out."""

    def __init__(self, page: Page, sheet: JobSheet, book: Book | None) -> None:
        self.page = page
        self.sheet = sheet
        self.book = book
        self.charts = [chart.name for chart in book.charts if chart.name is not None] if book else []
        self.lengths = boom_lengths(book.boom if book else None)

    def check(self) -> None:
        """Note every fault."""
        self._names()
        ends: datetime | None = None
        for index, job in self._jobs():
            self._times(f"jobs[{index}]", job)
            ends = self._order(f"jobs[{index}]", job, ends)
            for number, lift in enumerate(job.lifts):
                if lift is not None:
                    self._lift(f"jobs[{index}].lifts[{number}]", lift)

    def _jobs(self) -> list[tuple[int, Job]]:
        """Return the jobs with their numbers, without those that were faulty as a whole."""
        return [(index, job) for index, job in enumerate(self.sheet.jobs) if job is not None]

    def _names(self) -> None:
        names = [job.name if job is not None else None for job in self.sheet.jobs]
        self.page.fault_twice("jobs", names, "each job once, with all its lifts", ".job")
        if self.book is not None:
            self._crane(self.book)
            self._blocks(self.book)

    def _crane(self, book: Book) -> None:
        crane = self.sheet.crane
        if None not in (book.crane, crane) and book.crane != crane:
            self.page.fault_at("crane", f'"{crane}" is another crane', f'the crane of the book, "{book.crane}"')

    def _blocks(self, book: Book) -> None:
        rigged = self.sheet.rigged.block if self.sheet.rigged is not None else None
        named = {"rigged.block": rigged, **{f"carried.{block}": block for block in self.sheet.carried}}
        for field, block in named.items():
            if book.blocks and block is not None and block not in book.blocks:
                found = f'"{block}" is no block of the book'
                self.page.fault_at(field, found, nearest(block, book.blocks, "blocks on file"))

    def _times(self, field: str, job: Job) -> None:
        if job.start is not None and job.end is not None and job.end <= job.start:
            self.page.fault_at(f"{field}.to", f"{job.end:%Y-%m-%d %H:%M} is not after from", "a moment after from")
        if job.end is not None and job.leave_by is not None and job.leave_by < job.end:
            self.page.fault_at(
                f"{field}.leave_by", f"{job.leave_by:%Y-%m-%d %H:%M} is before to", "the same as to, or later"
            )

    def _order(self, field: str, job: Job, ends: datetime | None) -> datetime | None:
        """Return when the jobs so far end; note a job that begins before that."""
        if ends is not None and job.start is not None and job.start < ends:
            found = f"{job.start:%Y-%m-%d %H:%M} is before the job above ends, {ends:%Y-%m-%d %H:%M}"
            self.page.fault_at(f"{field}.from", found, "jobs one after the other, in the order of time")
        known = [moment for moment in (ends, job.end or job.start) if moment is not None]
        return max(known, default=None)

    def _lift(self, field: str, lift: Lift) -> None:
        if lift.top is not None and lift.bottom is not None and lift.top < lift.bottom:
            wanted = "the highest hook in top, the lowest in bottom"
            self.page.fault_at(f"{field}.top", "is under bottom", wanted)
        if lift.chart is not None and self.charts and lift.chart not in self.charts:
            wanted = nearest(lift.chart, self.charts, "charts")
            self.page.fault_at(f"{field}.chart", f'"{lift.chart}" is no chart of the book', wanted)
        if lift.boom is not None:
            self._boom(field, lift, lift.boom)

    def _boom(self, field: str, lift: Lift, boom: float) -> None:
        near, same = self.lengths.nearest(boom), self.lengths.same(boom)
        if near is not None and same is None:
            wanted = f"one of boom.lengths of the book; the nearest is {near:g} m"
            self.page.fault_at(f"{field}.boom", f"{boom:g} m is no boom length of this crane", wanted)
        elif same is not None and lift.code is not None and lift.code not in self.lengths.codes[same]:
            wanted = f"its code: {first_names(self.lengths.codes[same])}"
            self.page.fault_at(f"{field}.code", f"{lift.code} is no code of the boom length {boom:g} m", wanted)
