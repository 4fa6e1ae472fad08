"""The fewest plugs, the order of cleaning and the ways of flushing, against search by brute force and networkx."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import combinations

import networkx as nx
import pytest
from hand_built import family, passage, plug
from hypothesis import given, settings
from hypothesis import strategies as st
from small_vee import build

from procgen.model.family import Family
from procgen.trade.cleaning import LONG, cleaning_plan
from procgen.trade.derived import DERIVED
from procgen.trade.fewest import all_out_because, fewest_out
from procgen.trade.routes import routes
from tests.demo import workshop

PLUGS = ("A", "B", "C", "D", "E")
ENDS = st.sampled_from([*(f"plug {id}" for id in PLUGS), "deck", "passage Z"])


@st.composite
def blocks(draw: st.DrawFn) -> Family:
    """Passages, each with two ends of which one at least opens to the outside; some are long."""
    ends = draw(st.lists(st.tuples(ENDS, ENDS).filter(lambda pair: pair != ("passage Z", "passage Z")), min_size=1,
                         max_size=7))  # fmt: skip
    longs = draw(st.lists(st.sampled_from((100.0, 400.0)), min_size=len(ends), max_size=len(ends)))
    made = [passage(f"P{n}", (0, n * 20, 0), (long, n * 20, 0), 8, pair)
            for n, (pair, long) in enumerate(zip(ends, longs, strict=True))]  # fmt: skip
    return family(passages=tuple(made), plugs=tuple(plug(id, "R 1/8", (0, 0, 0), "") for id in PLUGS))


def is_brushed(each: Mapping[str, object], out: frozenset[str]) -> bool:
    """Long ones from both ends where both can be opened, others from either."""
    openable = [end for end in each["ends"] if not end.startswith("passage")]  # type: ignore[attr-defined]
    is_open = [not end.startswith("plug") or end.split()[1] in out for end in openable]
    return all(is_open) if each["long"] and len(openable) == 2 else any(is_open)


@settings(max_examples=150)
@given(blocks())
def test_fewest_by_trying_every_set_of_plugs(block: Family) -> None:
    told = [{"ends": [str(o) for o in p.opens], "long": p.end[0] > LONG} for p in block.passages.values()]

    def reaches_all(out: frozenset[str]) -> bool:
        return all(is_brushed(each, out) for each in told)

    sets = (frozenset(some) for many in range(len(PLUGS) + 1) for some in combinations(PLUGS, many))
    least = next(len(some) for some in sets if reaches_all(some))
    found = fewest_out(block)
    assert len(found.out) == least
    assert reaches_all(frozenset(found.out))
    assert sorted(found.out + found.left) == sorted(PLUGS)


@pytest.fixture(scope="module")
def families() -> Mapping[str, Family]:
    return workshop().families


# counted on the drawings: main feeds can be rodded from the saddles, so their outer plugs are what might stay
@pytest.mark.parametrize(
    ("id", "many", "why"),
    [("bittern", 8, "behind MS1–MS5 a brush only packs the dirt"),
     ("curlew", 6, "behind OH1–OH7 a brush only packs the dirt"),
     ("avocet", 12, "each is the only way into some passage"),
     ("dunlin", 12, "each is the only way into some passage")],
)  # fmt: skip
def test_fewest_of_the_demo_families(families: Mapping[str, Family], id: str, many: int, why: str) -> None:
    assert DERIVED["galley.fewest_out"].work_out(families[id]) == {"": many}
    assert DERIVED["galley.all_out_because"].work_out(families[id]) == {"": why}


def test_nothing_is_said_of_a_block_without_drillings() -> None:
    assert all_out_because(family()) == ""
    assert DERIVED["galley.fewest_out"].work_out(family()) == {}


def test_upstream_dirt_never_lands_in_what_is_clean(families: Mapping[str, Family]) -> None:
    """A passage's dirt goes on with the oil, and back along the brush: none of those may be clean already."""
    proved = 0
    for each in families.values():
        order = {plan.passage: plan.order for plan in cleaning_plan(each)}
        for route in routes(each).values():
            way = [node.removeprefix("passage ") for node in route or () if node.startswith("passage ")]
            assert [order[id] for id in way] == sorted(order[id] for id in way)
            proved += 1
        for plan in cleaning_plan(each):
            through = [step.removeprefix("passage ") for entry in plan.entries for step in entry.through]
            assert all(order[plan.passage] < order[id] for id in through if id in order)
    assert proved > 50


@st.composite
def trees(draw: st.DrawFn) -> Family:
    """Every passage hangs on an earlier one, and some cross a few more."""
    count = draw(st.integers(2, 12))
    made = []
    for n in range(count):
        crosses = {draw(st.integers(0, n - 1)) for _ in range(draw(st.integers(1, 2)))} if n else set()
        ends = ("pump", "plug X") if n == 0 else ("plug Y", "plug Z")
        made.append(passage(f"P{n}", (n, 0, 0), (n, 9, 9), 5, ends, " ".join(f"P{m}" for m in sorted(crosses))))
    return family(passages=tuple(made))


@settings(max_examples=80)
@given(trees())
def test_order_is_by_distance_from_the_pump(tree: Family) -> None:
    graph = nx.Graph((p.id, other) for p in tree.passages.values() for other in p.crosses)
    away = nx.single_source_shortest_path_length(graph, "P0") if graph else {"P0": 0}
    order = [plan.passage for plan in cleaning_plan(tree)]
    assert [away[id] for id in order] == sorted(away[id] for id in order)


def test_flushing_goes_from_the_upstream_opening_to_the_other() -> None:
    found = {plan.passage: plan.flush for plan in cleaning_plan(build())}
    assert found["M1"] == ("plug MS1", "main 1")
    assert found["C1"] == ("main 1", "cam 1")
    assert found["FO"] == ("filter_out", "plug MG-R")  # MG-R is 40 mm from where FO comes in, MG-F 100
    assert found["RB"] == ("plug MG-F", "plug LG-F")


def test_strokes_from_two_ends_overlap(families: Mapping[str, Family]) -> None:
    """Each brush reaches 50 mm past the middle."""
    overlap = DERIVED["cleaning.overlap"].work_out(families["curlew"])
    assert {id: over for id, over in overlap.items() if over is not None} == {"MG": pytest.approx(100)}
    assert DERIVED["cleaning.brush_length"].work_out(families["curlew"])["MG"] == pytest.approx(26.9 * 25.4 / 2 + 50)


def test_dead_ends_are_named(families: Mapping[str, Family]) -> None:
    flow = DERIVED["cleaning.dead_end"].work_out(families["curlew"])
    assert {id for id, word in flow.items() if word == "dead end"} == {"KO1", "KO2", "KO3", "KO4"}


def test_shells_and_their_places(families: Mapping[str, Family]) -> None:
    def fits(built: Family) -> list[object]:
        return list(DERIVED["cam_bearing.shell_fits"].work_out(built).values())

    assert fits(families["bittern"]) == ["only here"] * 5
    assert fits(families["dunlin"]) == ["anywhere"] * 4
    assert fits(families["plover"]) == []
    second = {"x": 60, "block_bore": 50, "bore_installed": 45.05, "width": 18, "shell_hole_clock": "6:00"}
    assert fits(build(member=("cam_bearing", "2", second))) == ["anywhere"] * 2
    assert fits(build(member=("cam_bearing", "2", {**second, "shell_hole_clock": "3:00"}))) == ["only here"] * 2


def test_routes_in_short(families: Mapping[str, Family]) -> None:
    assert DERIVED["cam_bearing.fed_by"].work_out(families["bittern"])["4"] == "FO, MG, M4, main 4, C4"
    assert DERIVED["main.fed_by"].work_out(families["avocet"])["2"] == "MG, D2, groove 2, E2"
