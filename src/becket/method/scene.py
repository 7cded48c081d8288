"""What one method has to reach, and from where.

In:    the facts of a change.
Out:   one record that the deeds and the rules ask.
Never: an order of steps, a figure that the facts do not have.
"""

from __future__ import annotations

from dataclasses import dataclass

from becket.book.crane import Book
from becket.book.tackle import Keeper, Pass, Pattern
from becket.method.crane_state import CraneState
from becket.method.facts import Facts, keepers_out
from becket.reeving.change import PathChange
from becket.settings.values import Settings


@dataclass(frozen=True, kw_only=True)
class Scene:
    """One change as the method sees it."""

    book: Book
    settings: Settings
    facts: Facts
    path: PathChange
    keepers: tuple[Keeper, ...]  # that come out

    @property
    def before(self) -> Pattern:
        """What is on [-]."""
        return self.path.before

    @property
    def after(self) -> Pattern:
        """What is wanted [-]."""
        return self.path.after

    @property
    def needs_override(self) -> bool:
        """Whether the switch stops the boom on the last metres down, so that the position asks for an override [-]."""
        position = self.facts.position.position
        return position is not None and position.override is not None

    @property
    def is_low_in_window(self) -> bool:
        """Whether the weight comes off at the low position itself: the switch would stop any further way down [-]."""
        return "derrick down" in self.book.switch.stops and not self.needs_override

    @property
    def takes_wedge_out(self) -> bool:
        """Whether the fitting comes off the rope's end; a book that does not say is taken as if it must [-]."""
        return self.path.fitting_comes_off is not False

    @property
    def slack_keepers_at_block(self) -> tuple[Keeper, ...]:
        """Keepers of the block that hangs now that come out with slack rope, in the low position [-]."""
        here = (k for k in self.keepers if k.at == "block" and k.block == self.before.block)
        return tuple(k for k in here if k.draw == "slack")

    def is_old_block(self, keeper: Keeper) -> bool:
        """Return whether a keeper goes away with its block [-].

        Args:
            keeper: of the method
        """
        return self.path.block_changes and keeper.at == "block" and keeper.block == self.before.block

    def is_new_block(self, keeper: Keeper) -> bool:
        """Return whether a keeper comes with another block [-].

        Args:
            keeper: of the method
        """
        return self.path.block_changes and keeper.at == "block" and keeper.block == self.after.block

    def keeper(self, name: str) -> Keeper:
        """Return a keeper of the method by name [-].

        Args:
            name: as in the book
        """
        return next(keeper for keeper in self.keepers if keeper.name == name)

    def holds(self, keeper: Keeper, passed: Pass, block: str) -> bool:
        """Return whether a keeper closes the groove of a pass [-].

        Args:
            keeper: of the book
            passed: a pass
            block: that hangs
        """
        same = keeper.at == passed.place and (passed.place == "head" or keeper.block == block)
        return same and passed.sheave in keeper.holds

    def has_rope_under(self, keeper: Keeper, state: CraneState) -> bool:
        """Return whether rope lies under a keeper now [-].

        Args:
            keeper: of the book
            state: of the crane
        """
        if keeper.at == "dead end":
            return state.rope_end == "fixed"
        return any(self.holds(keeper, passed, state.hanging) for passed in state.path)


def scene_of(book: Book, settings: Settings, facts: Facts) -> Scene | None:
    """Return what a method has to reach; None: there is no path, no position or no rope to leave to start from [-].

    Args:
        book: the crane book
        settings: values of the method
        facts: of the change

    Source: docs/theory/steps.md, "Scene".
    """
    if facts.path is None or facts.position.position is None or facts.leave is None or facts.lowering is None:
        return None
    return Scene(book=book, settings=settings, facts=facts, path=facts.path, keepers=keepers_out(facts.path))


def first_state(scene: Scene) -> CraneState:
    """Return the crane before the first deed [-].

    Args:
        scene: of the change

    Source: docs/theory/steps.md, "State".
    """
    return CraneState(
        hanging=scene.before.block,
        path=scene.before.path,
        dead_end=scene.before.dead_end,
        weight_line=scene.path.switch_weight_before,
    )
