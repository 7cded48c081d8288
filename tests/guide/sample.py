"""Scripts of the invented cranes, for tests of the phone.

In:    nothing.
Out:   the script of a change and of a count of Hazel 70, as the server makes them; made once.
Never: another crane's figures.
"""

from __future__ import annotations

from functools import cache
from importlib.resources import files
from pathlib import Path

from becket.book.crane import Book
from becket.book.tackle import State
from becket.guide.count_script import count_script
from becket.guide.script import Script
from becket.guide.write_script import change_script
from becket.intake.book import read_book
from becket.intake.settings import read_settings
from becket.method.change import Change, work_out_change
from becket.method.site import Site

HAZEL = "hazel-70"
SITE = Site(counterweight=12000.0, outriggers="full")


@cache
def demo_book(name: str = HAZEL) -> Book:
    """Return the book of an invented crane that `becket demo` writes [-]."""
    return read_book(Path(str(files("becket.demo").joinpath(f"{name}.crane.yaml"))), read_settings(None)).book


@cache
def hazel_change_worked_out(before: str = "main:2", after: str = "main:4") -> Change:
    """Return a change of Hazel 70, worked out [-]."""
    states = [State(block=text.split(":")[0], falls=int(text.split(":")[1])) for text in (before, after)]
    return work_out_change(demo_book(), read_settings(None), states[0], states[1], SITE)


@cache
def hazel_change(before: str = "main:2", after: str = "main:4") -> Script:
    """Return the script of a change of Hazel 70, without pictures [-]."""
    book, change = demo_book(), hazel_change_worked_out(before, after)
    return change_script(book, read_settings(None), change, crane=HAZEL, fingerprint=book.fingerprint)


@cache
def hazel_count() -> Script:
    """Return the script of a count of Hazel 70 [-]."""
    book = demo_book()
    return count_script(book, read_settings(None), crane=HAZEL, fingerprint=book.fingerprint)
