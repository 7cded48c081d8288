"""The method of a change: ordered, put into words, proved.

In:    a crane book, settings, the facts of a change.
Out:   numbered steps and a verdict for every rule.
Never: a method called usable that has not passed every rule.
"""

from __future__ import annotations

from dataclasses import dataclass

from becket.book.crane import Book
from becket.method.crane_state import Deed
from becket.method.deeds import AUXILIARY, kind_of
from becket.method.facts import Facts
from becket.method.order import order_deeds
from becket.method.rules import RULES, prove_rules
from becket.method.scene import Scene, scene_of
from becket.method.step import RuleAnswer, Step
from becket.method.step_sentences import words_of
from becket.settings.values import Settings
from becket.verdict import Verdict


@dataclass(frozen=True, kw_only=True)
class Method:
    """Steps as printed, rules as proved. ``why_none``: what keeps it from being written, None: nothing."""

    steps: tuple[Step, ...]
    rules: tuple[RuleAnswer, ...]
    why_none: str | None


def write_method(book: Book, settings: Settings, facts: Facts) -> Method:
    """Return the steps of a change and the proof of every rule over them [-].

    Args:
        book: the crane book
        settings: values of the method
        facts: of the change

    Source: docs/theory/steps.md.
    """
    scene = scene_of(book, settings, facts)
    if scene is None:
        return _no_method("there is no path, no position or no rope to leave to start from")
    order = order_deeds(scene)
    if order.stuck is not None:
        deed, need = order.stuck
        return _no_method(f"no order reaches '{deed}': {need.why} (rule {need.rule})")
    return Method(steps=write_steps(scene, order.deeds), rules=prove_rules(scene, order.deeds), why_none=None)


def write_steps(scene: Scene, deeds: tuple[Deed, ...]) -> tuple[Step, ...]:
    """Return deeds as steps that a person reads, numbered from 1 [-].

    Args:
        scene: of the change
        deeds: in order

    Source: docs/theory/steps.md, "Words".
    """
    steps = []
    for i, deed in enumerate(deeds):
        words, kind = words_of(scene, deed), kind_of(deed)
        steps.append(
            Step(
                number=i + 1,
                who=kind.who,
                phase=_phase(deeds, i),
                do=words.do,
                look_for=words.look_for,
                value_asked=words.asks,
                blind=words.blind,
                compares=words.compares,
            )
        )
    return tuple(steps)


def _phase(deeds: tuple[Deed, ...], i: int) -> str:
    """Return the phase of a deed; calling in belongs to what follows, clearing out to what went before."""
    order = range(i, len(deeds)) if deeds[i].kind == "call_in" else range(i, -1, -1)
    return next((kind_of(deeds[k]).phase for k in order if deeds[k].kind not in AUXILIARY), "")


def _no_method(why: str) -> Method:
    rules = tuple(RuleAnswer(name=rule, verdict=Verdict.UNKNOWN, step=None, why=why) for rule in RULES)
    return Method(steps=(), rules=rules, why_none=why)
