"""What a forgotten plug costs: against a flood of the network, against dominators, and against drawings read by eye."""

from __future__ import annotations

from collections.abc import Mapping

import networkx as nx
import numpy as np
import pytest
from hand_built import family, passage, plug
from hypothesis import given, settings
from hypothesis import strategies as st
from small_vee import build

from procgen.model.family import Family, Passage, Plug
from procgen.trade.forgotten import LONGEST, cost_of, forgotten, if_forgotten, in_a_sentence, outlet
from procgen.trade.routes import consumers
from tests.demo import workshop


@st.composite
def plugged(draw: st.DrawFn) -> Family:
    """Passages joined at random, a plug on each, the pump on the first and main bearings on some of the others."""
    count = draw(st.integers(2, 10))
    joins = draw(st.lists(st.tuples(st.integers(0, count - 1), st.integers(0, count - 1)), max_size=18))
    fed = sorted(draw(st.sets(st.integers(1, count - 1), min_size=1, max_size=5)))
    made: list[Passage] = []
    plugs: list[Plug] = []
    for n in range(count):
        crosses = " ".join(f"P{b}" for a, b in joins if a == n and b != n)
        first = "pump" if n == 0 else f"main {fed.index(n) + 1}" if n in fed else f"plug Y{n}"
        made.append(passage(f"P{n}", (n, 0, 0), (n, 9, 9), 5, (first, f"plug X{n}"), crosses))
        plugs.append(plug(f"X{n}", "R 1/8", (n, 9, 9), f"P{n}"))
    mains = {str(n + 1): {"x": n} for n in range(len(fed))}
    return family(passages=tuple(made), plugs=tuple(plugs), members={"main": mains})


def joined(maze: Family) -> nx.Graph:
    graph = nx.Graph()
    for each in maze.passages.values():
        graph.add_node(each.id)
        graph.add_edges_from((each.id, other) for other in each.crosses)
        graph.add_edges_from((each.id, str(opening)) for opening in each.opens if opening.kind in ("pump", "main"))
    return graph


def flooded(graph: nx.Graph, hole: str) -> dict[str, float]:
    """Pressure at every node with the pump at 1, the hole at 0 and every join alike narrow: Kirchhoff's law."""
    nodes = sorted(nx.node_connected_component(graph, "pump"))
    fixed = {"pump": 1.0, hole: 0.0}
    rows, right = np.zeros((len(nodes), len(nodes))), np.zeros(len(nodes))
    for row, node in enumerate(nodes):
        if node in fixed:
            rows[row, row], right[row] = 1, fixed[node]
            continue
        for other in graph[node]:
            rows[row, row] += 1
            rows[row, nodes.index(other)] -= 1
    return dict(zip(nodes, np.linalg.solve(rows, right), strict=True))


@settings(max_examples=100)
@given(plugged())
def test_each_plug_left_out_and_the_network_flooded(maze: Family) -> None:
    graph = joined(maze)
    alive = nx.node_connected_component(graph, "pump")
    for each in maze.plugs.values():
        cost = forgotten(maze, each)
        assert cost is not None
        (closed,) = each.closes
        mains = {f"main {id}" for id in maze.members["main"]} & alive
        assert cost.flows is (closed in alive)
        assert set(cost.starves) | set(cost.shares) == mains
        if closed in alive:
            pressure = flooded(graph, closed)
            assert set(cost.starves) == {main for main in mains if pressure[main] < 1e-9}


@settings(max_examples=100)
@given(plugged())
def test_what_starves_is_what_the_passage_dominates(maze: Family) -> None:
    above = nx.immediate_dominators(joined(maze).to_directed(), "pump")

    def is_under(node: str, passage: str) -> bool:
        while node != "pump":
            node = above[node]
            if node == passage:
                return True
        return False

    for each in maze.plugs.values():
        cost = forgotten(maze, each)
        assert cost is not None
        (closed,) = each.closes
        assert set(cost.starves) == {c for c in consumers(maze) if c in above and is_under(c, closed)}


@pytest.fixture(scope="module")
def families() -> Mapping[str, Family]:
    return workshop().families


# read off each drawing by eye
@pytest.mark.parametrize(
    ("id", "plug", "told"),
    [("bittern", "MG-F", "no pressure anywhere; at the front"),
     ("bittern", "MS3", "main 3, cam 3 starve; outside, left"),
     ("bittern", "LGA-F", "lifters A starve; behind the timing cover"),
     ("bittern", "LGB-R", "lifters A, B starve; behind the flywheel"),
     ("bittern", "RB-V", "lifters A, B starve; into the valley"),
     ("bittern", "XO-R", "lifters A starve; behind the flywheel"),
     ("dunlin", "MG-F", "no pressure anywhere; behind the timing cover"),
     ("dunlin", "SV2", "cam 2 starves; into the valley"),
     ("dunlin", "XO-R", "lifters A starve; behind the flywheel"),
     ("avocet", "DV1", "main 1, cam 1, lifters A starve; valley"),
     ("avocet", "DV2", "main 2, cam 2 starve; into the valley"),
     ("avocet", "LAF-V", "lifters A starve; into the valley"),
     ("curlew", "OH4", "main 4 starves; into the tappet chest"),
     ("curlew", "KS1", "seepage only; outside, right"),
     ("plover", "CR2", "cam 2, DF starve; under the pan gasket"),
     ("plover", "MS1", "main 1 starves; outside, left"),
     ("plover", "RV", "no pressure, no relief; behind the flywheel")],
)  # fmt: skip
def test_demo_plugs(families: Mapping[str, Family], id: str, plug: str, told: str) -> None:
    assert if_forgotten(families[id])[plug] == told


def test_every_plug_of_every_family_is_told_in_few_words(families: Mapping[str, Family]) -> None:
    told = 0
    for each in families.values():
        costs = if_forgotten(each)
        assert costs.keys() == each.plugs.keys()
        assert all(len(text.split()) <= LONGEST for text in costs.values())
        told += len(costs)
    assert told == 60  # 13 + 10 + 13 + 12 + 12 plugs as counted on the drawings; none of the family still unknown


def test_a_valve_left_out_is_no_relief_either() -> None:
    valve = build(replugged=(plug("MS1", "R 1/8", (30, -110, 23.158), "M1", kind="relief_valve"),))
    assert if_forgotten(valve)["MS1"] == "no relief; main 1, cam 1 starve; hole"


def test_a_list_too_long_for_a_cell_is_counted() -> None:
    """Six mains on MG and one on FO, and two that no passage feeds, which are lost in any case."""

    def told(on_galley: tuple[int, ...]) -> Mapping[str, str]:
        feeds = (passage(f"D{n}", (n, 0, 0), (n, 0, 9), 5, ("passage MG", f"main {n}")) for n in on_galley)
        galley = passage("MG", (0, 0, 0), (20, 0, 0), 9, ("plug F", "passage FO"))
        port = passage("FO", (20, 9, 0), (20, 0, 0), 9, ("pump", "passage MG"))
        other = passage("D9", (20, 5, 0), (20, 5, 9), 5, ("passage FO", "main 9"))
        mains = {str(n): {"x": n} for n in range(1, 20)}
        return if_forgotten(family(passages=(galley, port, other, *feeds), members={"main": mains},
                                   plugs=(plug("F", "R 1/4", (0, 0, 0), "MG"),)))  # fmt: skip

    assert told((1, 3)) == {"F": "mains 1, 3 starve; at the front"}
    assert told((1, 3, 5, 7)) == {"F": "mains 1, 3, 5, 7 starve; front"}
    assert told((1, 3, 5, 7, 11, 13)) == {"F": "6 of 7 starve; front"}
    assert told((1, 2, 3, 4, 5, 6)) == {"F": "mains 1–6 starve; at the front"}


def test_nothing_is_told_before_all_passages_are_placed() -> None:
    built = family(passages=(passage("A", (0, 0, 0), (9, 0, 0), 5, ("pump", "plug F")),),
                   plugs=(plug("F", "R 1/8", (9, 0, 0), "A"),),
                   members={"passage": {"A": {}, "B": {}}, "main": {"1": {}}})  # fmt: skip
    assert cost_of(built, ("A",), (9, 0, 0)) is None
    assert if_forgotten(built) == {}


@pytest.mark.parametrize(
    ("at", "where", "found"),
    [((0, 5, 5), "", "at the front"), ((0, 5, 5), "front face, behind the timing cover", "behind the timing cover"),
     ((140, 5, 50), "", "behind the flywheel"), ((50, 5, -40), "", "under the pan gasket"),
     ((50, 80, 20), "", "outside, left"), ((50, -80, 20), "", "outside, right"),
     ((50, 5, 150), "", "into the valley"), ((50, 5, 50), "", "from its hole"),
     ((50, 80, 20), "valley side of bank B", "into the valley")],
)  # fmt: skip
def test_where_the_oil_comes_out(at: tuple[float, float, float], where: str, found: str) -> None:
    """Left and right are a person's in front of the block, so that +y is on the left."""
    stated = {"block.pan_rail_z": -40, "block.side_walls": (-80, 80)}
    assert outlet(build(stated=stated), at, where).words == found


def test_a_cost_in_a_sentence() -> None:
    def told(passage: str, at: tuple[float, float, float]) -> str:
        cost = cost_of(build(), (passage,), at)
        assert cost is not None
        return in_a_sentence(cost)

    assert told("MG", (0, -95, 20)) == "nothing would have oil pressure, and oil would come out at the front"
    assert told("M1", (30, -110, 23)) == "main 1, cam 1 would starve, and oil would come out from its hole"
