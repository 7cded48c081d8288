"""The order follows from needs and gives: what breaks what as a graph, other keepers, what cannot be done."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import networkx as nx
import pytest

from becket.book.tackle import Keeper
from becket.method.crane_state import Deed
from becket.method.deeds import SIGNING
from becket.method.order import apply_deed, order_deeds, required_deeds, unmet_needs
from becket.method.rules import walk
from becket.method.scene import first_state
from tests.method.steps.scenes import CASES, deeds, failed, method, moved, scene, without


@cache
def precedence(before: str, after: str, name: str) -> nx.DiGraph:
    """Return the graph of which deed breaks which when it is dropped; a deed called twice is two nodes [-]."""
    one, listed = scene(before, after, name), deeds(before, after, name)
    nodes = [(deed, listed[:i].count(deed)) for i, deed in enumerate(listed)]
    graph = nx.DiGraph()
    graph.add_nodes_from(nodes)
    for i in range(len(listed)):
        left = nodes[:i] + nodes[i + 1 :]
        for found in walk(one, tuple(deed for deed, _ in left)):
            if found.step and found.deed is not None:
                graph.add_edge(nodes[i], left[found.step - 1])
    return graph


@pytest.mark.parametrize(("before", "after", "name"), CASES)
def test_what_breaks_what_is_acyclic_and_the_printed_order_is_one_of_its_orders(
    before: str, after: str, name: str
) -> None:
    graph, listed = precedence(before, after, name), deeds(before, after, name)
    place = {node: i for i, node in enumerate((deed, listed[:i].count(deed)) for i, deed in enumerate(listed))}
    assert nx.is_directed_acyclic_graph(graph)
    assert list(nx.lexicographical_topological_sort(graph, key=place.__getitem__)) == list(place)
    leads_on = [node for node in graph if graph.out_degree(node) == 0 and node[0].kind not in SIGNING]
    assert {node[0].kind for node in leads_on} <= {"card_off"}  # nothing but the record waits for it


def test_the_graphs_of_all_changes_together_are_acyclic() -> None:
    """No two changes want two kinds of deed the other way round, calling in and clearing out left aside."""
    graph = nx.DiGraph()
    for case in CASES:
        edges = precedence(*case).edges
        kinds = {(a.kind, b.kind) for (a, _), (b, _) in edges if not {a.kind, b.kind} & {"call_in", "clear_out"}}
        graph.add_edges_from((a, b) for a, b in kinds if a != b)
    assert nx.is_directed_acyclic_graph(graph)
    assert graph.number_of_edges() > 150


@pytest.mark.parametrize(("before", "after", "name"), CASES)
def test_every_required_deed_stands_in_the_order_once(before: str, after: str, name: str) -> None:
    listed = deeds(before, after, name)
    done = [deed for deed in listed if deed.kind not in ("call_in", "clear_out")]
    assert sorted(done, key=str) == sorted(required_deeds(scene(before, after, name)), key=str)


def test_the_same_change_gives_the_same_order() -> None:
    assert order_deeds(scene("main:2", "main:4")) == order_deeds(scene("main:2", "main:4"))


def test_the_rigger_is_called_in_and_cleared_out_by_turns() -> None:
    for case in CASES:
        turns = [d.kind for d in deeds(*case) if d.kind in ("call_in", "clear_out")]
        assert turns == ["call_in", "clear_out"] * (len(turns) // 2)
        assert len(turns) == 8  # block on the ground, weight window, head, ropes tight


def test_a_crane_with_other_keepers_gets_its_own_right_order() -> None:
    """A bar on the block that only slack rope frees is drawn in the low position, not while the ropes are tight."""
    kinds = [str(deed) for deed in deeds("main:2", "main:4", "slack bar on the block")]
    low = kinds.index("read_low")
    assert kinds.index("tight_keeper_out block pin") < kinds.index("down_to_window")
    assert kinds.index("slack_keeper_out block bar") > low
    assert kinds.index("count_out_block_low") > kinds.index("slack_keeper_out block bar")
    assert kinds.index("slack_keeper_in block bar") < kinds.index("up_to_tight")
    assert kinds.index("tight_keeper_in block pin") > kinds.index("up_to_tight")
    assert "count_out_block_low" not in [d.kind for d in deeds("main:2", "main:4")]


def test_keepers_of_a_block_that_goes_are_back_in_before_it_goes() -> None:
    kinds = [d.kind for d in deeds("main:4", "ball:1")]
    order = ("bare_keeper_in", "count_in_old", "take_block_away", "exchange_block", "steady_new", "thread")
    assert [kinds.index(kind) for kind in order] == sorted(kinds.index(kind) for kind in order)
    one = scene("main:4", "ball:1")
    assert failed(one, moved(deeds("main:4", "ball:1"), "take_block_away", "count_in_old"))["keepers_counted"].step


def test_a_keeper_at_the_head_that_wants_tight_rope_stops_the_order_and_says_so() -> None:
    one = scene("main:2", "main:4")
    pin = Keeper(name="head pin", at="head", block=None, holds=(4,), draw="tight", lock=None)
    stuck = replace(one, keepers=(*one.keepers, pin))
    order = order_deeds(stuck)
    assert order.stuck is not None
    deed, need = order.stuck
    assert str(deed) == "tight_keeper_out head pin"
    assert need.rule == "keepers"
    assert method("main:2", "main:4").why_none is None


def test_a_pattern_that_is_not_confirmed_has_an_order_and_breaks_its_rule() -> None:
    one = scene("main:4", "main:5")
    order = order_deeds(one)
    assert order.stuck is None
    assert {b.rule for b in walk(one, order.deeds)} == {"configuration"}


def test_a_deed_is_applied_whether_or_not_its_needs_are_met() -> None:
    """The walk goes on after a break, so that one fault does not hide the next."""
    one = scene("main:2", "main:4")
    state, deed = first_state(one), Deed(kind="lift_off")
    assert unmet_needs(one, state, deed)
    assert apply_deed(one, state, deed).boom == "up"
    two = walk(one, without(without(deeds("main:2", "main:4"), "steady"), "spool"))
    assert {b.rule for b in two} >= {"steady_then_slack", "first_lift"}
