"""A lift as the options of a command describe it.

In:    a crane book, the options.
Out:   the record of a lift; what is not given stays unknown.
Never: a default for a figure.
"""

from __future__ import annotations

from becket.book.crane import Book
from becket.book.jobs import Lift
from becket.cli.reading import named_in_book
from becket.errors import OutOfRangeError

SECTORS = ("side", "rear", "front")


def asked_lift(
    book: Book,
    *,
    boom: float,
    radius: tuple[float, float] | None,
    load: float | None = None,
    rigging: float | None = None,
    chart: str | None = None,
    sector: str | None = None,
    load_basis: str | None = None,
    top: float | None = None,
    bottom: float | None = None,
) -> Lift:
    """Return the lift [-].

    Args:
        book: the crane, for its names
        boom: boom length [m]
        radius: least and greatest [m]
        load: [kg]
        rigging: [kg]
        chart: name of a load chart
        sector: where the boom points
        load_basis: how the mass of the load is known
        top: highest hook saddle [m]
        bottom: lowest hook saddle [m]

    Raises: NotOnFileError for a chart or a sector that the book does not have; OutOfRangeError for a top that lies
        under the bottom.
    """
    if top is not None and bottom is not None and top < bottom:
        raise OutOfRangeError("--top", f"{top:g} m lies under --bottom {bottom:g} m", "the highest hook of the lift")
    if chart is not None:
        named_in_book("chart", chart, [printed.name for printed in book.charts])
    if sector is not None:
        named_in_book("sector", sector, dict.fromkeys([*book.boom.lowest, *SECTORS]))
    return Lift(
        name="asked",
        load=load,
        load_basis=load_basis,
        rigging=rigging,
        chart=chart,
        boom=boom,
        radius=radius,
        top=top,
        bottom=bottom,
        handling=None,
        sector=sector,
    )
