"""One lift on one number of falls, and the quantities that several limits share.

In:    book, settings, block, lift, falls.
Out:   masses [kg], lengths [m], forces [N]; MissingError and BrokenError where they cannot be had.
Never: verdicts of the product.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from math import pi
from typing import TypeVar, cast

from becket.book.crane import Book
from becket.book.jobs import Lift
from becket.book.tackle import Block, Pattern
from becket.settings.values import Settings
from becket.verdict import Verdict
from tests.slow_evaluation.answer import BrokenError, MissingError, SlowLimit, need
from tests.slow_evaluation.boom import End, ends_of, straight_rope
from tests.slow_evaluation.drum import Laid, lay, of_layer
from tests.slow_evaluation.places import Place, dead_end_of, falls_of
from tests.slow_evaluation.rules import FROM_MEMORY, LEAST_WRAPS, design_factor_of

G = 9.80665
T = TypeVar("T")


@dataclass(frozen=True, kw_only=True)
class Situation:
    """One lift on one number of falls."""

    book: Book
    settings: Settings
    block: Block
    lift: Lift
    falls: int
    may_do: int | None = None  # fewest falls whose line pull does not fail, under this one
    will_do: int | None = None  # fewest falls whose line pull passes, under this one
    found: dict[str, object] = field(default_factory=dict)  # what was worked out already

    def once(self, name: str, work: Callable[[], T]) -> T:
        """Return what the work gives, worked out once; what it raises is raised again [its own unit]."""
        if name not in self.found:
            try:
                self.found[name] = work()
            except (MissingError, BrokenError) as error:
                self.found[name] = error
        known = self.found[name]
        if isinstance(known, MissingError | BrokenError):
            raise type(known)(*known.args)
        return cast(T, known)

    # places

    @property
    def ends(self) -> tuple[End, ...]:
        return self.once("ends", lambda: ends_of(self.book, self.lift))

    @property
    def pattern(self) -> Pattern:
        for pattern in self.book.patterns:
            if pattern.block == self.block.name and pattern.falls == self.falls:
                return pattern
        raise MissingError("pattern")

    @property
    def fall_places(self) -> list[tuple[Place, Place]]:
        return self.once("fall_places", lambda: falls_of(self.book, self.pattern))

    def shaft(self, saddle: float | None, name: str) -> float:
        """Return the height of the block's shaft with the saddle there [m]."""
        return need(saddle, name) + need(self.block.hook, "block hook")

    def heights_low(self) -> list[float]:
        """Return the fall lengths with the hook lowest [m]."""
        return [end.z - self.shaft(self.lift.bottom, "bottom") for end in self.ends]

    def heights_high(self) -> list[float]:
        """Return the fall lengths with the hook highest [m]."""
        return [end.z - self.shaft(self.lift.top, "top") for end in self.ends]

    def least_fall(self) -> float:
        """Return the least fall length of the lift: hook highest, head lower by its whole sag [m]."""
        if self.book.boom.sag is None:
            raise MissingError("sag")
        sag = need(self.book.boom.sag.get(need(self.lift.boom, "boom length")), "sag of this length")
        return min(self.heights_high()) - sag

    # masses

    def load(self) -> float:
        """Return the load with what an estimate adds [kg]."""
        load = need(self.lift.load, "load")
        return load + (load * self.settings.estimate_allowance if self.lift.load_basis == "estimate" else 0.0)

    def rigging(self) -> float:
        return need(self.lift.rigging, "rigging")

    def hook_load(self) -> float:
        return self.load() + self.rigging()

    def rope_in(self, falls: int) -> float:
        """Return the mass of the rope in so many falls, hook lowest [kg]."""
        return falls * max(self.heights_low()) * need(self.book.rope.mass, "rope mass")

    def gross(self) -> float:
        return self.hook_load() + need(self.block.mass, "block mass") + self.rope_in(self.falls)

    def hangs_besides(self, *, stowed: bool = True) -> float:
        """Return what else hangs on the boom and on the second line [kg]."""
        if self.book.stowed is None:
            raise MissingError("stowed")
        if self.book.second_line is None:
            raise MissingError("second line")
        total = self.book.second_line.mass
        if stowed:
            for part in self.book.stowed:
                total += need(part.deduct.get(need(self.lift.boom, "boom length")), f"deduction of {part.name}")
        return total

    # rope

    def rope_out(self, end: End, height: float) -> float:
        """Return the rope off the drum, followed from the drum to the dead end and its tail [m]."""
        pattern, head = self.pattern, self.book.head
        out = straight_rope(self.book, need(self.lift.boom, "boom length"), end)
        out += (pi / 2 + end.angle) * head.sheave_diameter / 2
        for fall in range(1, self.falls + 1):
            out += height
            if fall < self.falls:
                turns_below = fall % 2 == 1
                diameter = self.block.sheave_diameter if turns_below else head.sheave_diameter
                out += pi * need(diameter, "block sheave diameter") / 2
        below = need(dead_end_of(self.book, pattern).below, "height of the dead end")
        out += below if pattern.dead_end == "block" else -below
        return out + need(self.book.dead_end.tail, "tail")

    def greatest_rope_out(self) -> float:
        return self.once(
            "greatest_rope_out",
            lambda: max(self.rope_out(e, h) for e, h in zip(self.ends, self.heights_low(), strict=True)),
        )

    def least_wraps(self) -> float:
        wraps = self.book.winch.least_wraps
        return need(LEAST_WRAPS.get(self.settings.rules or "") if wraps is None else wraps, "least wraps")

    def rope_needed(self) -> float:
        first_turn = pi * (self.book.winch.drum.diameter + self.book.rope.diameter)
        return self.greatest_rope_out() + self.least_wraps() * first_turn

    def laid(self) -> list[Laid]:
        """Return the rope on the drum at both ends of the radius, hook lowest and hook highest [-]."""
        return self.once("laid", lambda: self.laid_low() + self._lay(self.heights_high()))

    def laid_low(self) -> list[Laid]:
        """Return the rope on the drum at both ends of the radius, hook lowest [-]."""
        return self.once("laid_low", lambda: self._lay(self.heights_low()))

    def _lay(self, heights: list[float]) -> list[Laid]:
        length = need(self.book.rope.length, "rope length")
        return [
            lay(self.book, self.settings, length - self.rope_out(end, height))
            for end, height in zip(self.ends, heights, strict=True)
        ]

    def layers(self) -> range:
        """Return the layers that the last turn passes between the highest and the lowest hook [-]."""
        layers = [one.layer for one in self.laid()]
        return range(min(layers), max(layers) + 1)

    def permitted_pull(self) -> float:
        pulls = [of_layer(self.book.winch.pull, layer, self.book, falls_with_radius=True) for layer in self.layers()]
        return min(need(pull, "pull of the layer") for pull in pulls)

    def hook_speed(self) -> float:
        speeds = [of_layer(self.book.winch.speed, layer, self.book, falls_with_radius=False) for layer in self.layers()]
        return min(need(speed, "speed of the layer") for speed in speeds) / self.falls

    def design_factor(self) -> float:
        factor = self.book.rope.design_factor
        if factor is None:
            factor = design_factor_of(self.settings.rules, self.book.rope)
        return need(factor, "design factor")

    def passed_on(self) -> float:
        return need(self.book.sheave_efficiency, "sheave efficiency")

    # verdicts

    def proved(self, limit: SlowLimit, figure: str, of_book: float | None) -> SlowLimit:
        """Return the limit, a pass turned to unknown where the figure comes from memory and not from the book [-]."""
        from_memory = of_book is None and (self.settings.rules, figure) in FROM_MEMORY
        if from_memory and limit.verdict is Verdict.PASS:
            return replace(limit, verdict=Verdict.UNKNOWN, why=f"{figure} from memory")
        return limit

    def proved_factor(self, limit: SlowLimit) -> SlowLimit:
        return self.proved(limit, "design factor", self.book.rope.design_factor)

    def proved_wraps(self, limit: SlowLimit) -> SlowLimit:
        return self.proved(limit, "least wraps", self.book.winch.least_wraps)

    def judged(self, use: float, *, counts_load: bool = False) -> SlowLimit:
        """Return pass up to 1, and the basis of the load taken into account where the limit counts it [-]."""
        if use > 1:
            return SlowLimit(verdict=Verdict.FAIL, use=use, nearness=use - 1)
        nearness = 1 - use
        if counts_load and self.lift.load_basis not in ("weighed", "drawing"):
            most = self.settings.estimate_use_most
            nearness = min(nearness, abs(use - most))
            if use > most:
                return SlowLimit(verdict=Verdict.UNKNOWN, use=use, nearness=nearness, why="load basis")
        return SlowLimit(verdict=Verdict.PASS, use=use, nearness=nearness)

    def three_ways(self, use: float, passes: float, fails: float) -> SlowLimit:
        """Return pass up to one bound, fail beyond the other, between them unknown [-]."""
        nearness = min(abs(use / passes - 1), abs(use / fails - 1))
        if use <= passes:
            return SlowLimit(verdict=Verdict.PASS, use=use, nearness=nearness)
        verdict = Verdict.FAIL if use > fails else Verdict.UNKNOWN
        return SlowLimit(verdict=verdict, use=use, nearness=nearness, why="between the bounds")
