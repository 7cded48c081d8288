"""What several commands ask for in the same words.

In:    the text of an option.
Out:   an SI number, a range, a state; a click error that says what would be right.
Never: a default for a figure that is not given.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any, TypeVar

import click

from becket.book.tackle import State
from becket.errors import UnreadableTextError
from becket.reeving.words import read_state
from becket.units import read_quantity, read_range

F = TypeVar("F", bound=Callable[..., Any])
SYSTEMS = ("metric", "us")
BASES = ("weighed", "drawing", "estimate")
SIGNED, FROM_NOUGHT, OVER_NOUGHT = "any figure", "0 or more is wanted", "more than 0 is wanted"


class Quantity(click.ParamType):  # type: ignore[type-arg]  # generic only in newer click
    """Text with a unit, read into SI."""

    name = "quantity"

    def __init__(self, kind: str, least: str = SIGNED) -> None:
        self.kind, self.least = kind, least

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> float:
        """Return the quantity [SI unit of its kind]."""
        if isinstance(value, float):
            return value
        try:
            number = read_quantity(str(value), self.kind)
        except UnreadableTextError as error:
            self.fail(str(error), param, ctx)
        if (number < 0 and self.least != SIGNED) or (number == 0 and self.least == OVER_NOUGHT):
            self.fail(f"{value}; {self.least}", param, ctx)
        return number


class Range(click.ParamType):  # type: ignore[type-arg]  # generic only in newer click
    """A quantity over 0, or two of them: ``6 m to 14 m``."""

    name = "range"

    def __init__(self, kind: str) -> None:
        self.kind = kind

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> tuple[float, float]:
        """Return least and greatest [SI unit of its kind]."""
        if isinstance(value, tuple):
            return value
        try:
            least, greatest = read_range(str(value), self.kind)
        except UnreadableTextError as error:
            self.fail(str(error), param, ctx)
        if least <= 0:
            self.fail(f"{value}; {OVER_NOUGHT}", param, ctx)
        return least, greatest


class StateText(click.ParamType):  # type: ignore[type-arg]  # generic only in newer click
    """A block and its falls: ``main:4``."""

    name = "state"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> State:
        """Return the state [-]."""
        try:
            return value if isinstance(value, State) else read_state(str(value))
        except UnreadableTextError as error:
            self.fail(str(error), param, ctx)


def quantity_option(name: str, kind: str, text: str, least: str = SIGNED, **more: Any) -> Callable[[F], F]:
    """Return an option that takes one quantity [-]."""
    return click.option(name, type=Quantity(kind, least), metavar="Q", help=text, **more)


def radius(**more: Any) -> Callable[[F], F]:
    """Return the option for the radius or the range of radii of a lift [-]."""
    text = "Radius of the load, or a range: '6 m to 8 m'."
    return click.option("--radius", type=Range("length"), metavar="R", help=text, **more)


def book(function: F) -> F:
    """Return the command with the crane book as its first argument [-]."""
    return click.argument("book_path", metavar="BOOK", type=click.Path(path_type=Path))(function)


def face(function: F) -> F:
    """Return the command with the options that choose how the answer looks [-]."""
    units = click.option("--units", type=click.Choice(SYSTEMS), default="metric", help="Units shown (metric).")
    as_json = click.option("--json", "as_json", is_flag=True, help="One JSON object, SI numbers.")
    return as_json(units(function))


def example(*lines: str) -> str:
    """Return the foot of a command's help: an example, kept as it stands [-]."""
    return "\b\nExample:\n" + "\n".join(f"  {line}" for line in lines)
