"""Routes against networkx on graphs built from the openings alone; what gets no oil; dead ends; conclusions."""

from typing import Any

import networkx as nx
import pytest
from hand_built import family, passage
from hypothesis import given, settings
from hypothesis import strategies as st
from small_vee import build

from procgen.model.family import Family, Passage
from procgen.trade.block import clock_at, clock_gap, clock_text
from procgen.trade.galleys import dead_ends, natural, network, reach
from procgen.trade.once import once
from procgen.trade.passages import differences
from procgen.trade.routes import routes
from procgen.trade.traits import CONCLUSIONS


def test_routes_of_the_sound_engine() -> None:
    assert routes(build()) == {
        "main 1": ("filter_out", "passage FO", "passage MG", "passage M1", "main 1"),
        "cam 1": ("filter_out", "passage FO", "passage MG", "passage M1", "main 1", "passage C1", "cam 1"),
        "lifters A": ("filter_out", "passage FO", "passage MG", "passage RB", "passage LG", "lifters A"),
    }


def test_a_plain_saddle_passes_no_oil_on() -> None:
    plain = build(member=("main", "1", {"saddle_groove": "none"}))
    assert routes(plain)["main 1"] is not None
    assert routes(plain)["cam 1"] is None


def test_a_cam_bearing_passes_oil_on_only_to_a_second_hole() -> None:
    rocker = passage("DF", (30, 0, 125), (30, 0, 190), 5, ("cam 1", "deck"))
    closed = network(build(changed=(rocker,), member=("cam_bearing", "1", {"blind_stub_clock": "12:00"})))
    assert "deck DF" not in reach(closed, "filter_out")
    through = network(build(changed=(rocker,), member=("cam_bearing", "1", {"second_hole_clock": "12:00"})))
    assert "deck DF" in reach(through, "filter_out")


@st.composite
def mazes(draw: st.DrawFn) -> Family:
    """Passages joined at random, with a source on the first and mains on some of the others."""
    count = draw(st.integers(2, 12))
    joins = draw(st.lists(st.tuples(st.integers(0, count - 1), st.integers(0, count - 1)), max_size=20))
    fed = draw(st.lists(st.integers(1, count - 1), max_size=4))
    made: list[Passage] = []
    for n in range(count):
        crosses = " ".join(f"P{b}" for a, b in joins if a == n and b != n)
        end = f"main {fed.index(n) + 1}" if n in fed else "plug X"
        made.append(passage(f"P{n}", (n, 0, 0), (n, 9, 9), 5, ("filter_out" if n == 0 else "plug Y", end), crosses))
    mains = {str(n + 1): {"saddle_groove": draw(st.sampled_from(("cut", "none")))} for n in range(4)}
    return family(passages=tuple(made), members={"main": mains})


@settings(max_examples=120)
@given(mazes())
def test_routes_against_networkx(maze: Family) -> None:
    graph = nx.Graph()
    for each in maze.passages.values():
        graph.add_node(f"passage {each.id}")
        graph.add_edges_from((f"passage {each.id}", f"passage {other}") for other in each.crosses)
        graph.add_edges_from((f"passage {each.id}", str(o)) for o in each.opens if o.kind in ("main", "filter_out"))
    for consumer, route in routes(maze).items():
        closed = [f"main {id}" for id, own in maze.members["main"].items()
                  if own["saddle_groove"].value == "none" and f"main {id}" != consumer]  # fmt: skip
        open_graph = graph.subgraph(graph.nodes - set(closed))
        if consumer in open_graph and nx.has_path(open_graph, "filter_out", consumer):
            assert route is not None
            assert len(route) - 1 == nx.shortest_path_length(open_graph, "filter_out", consumer)
            assert nx.is_path(open_graph, route)
        else:
            assert route is None


STUB = passage("KO", (30, -60, 100), (30, -25, 100), 6, ("plug KS", "cam 1"))  # 3:00 seen from the front


def test_dead_ends_and_blind_ends() -> None:
    assert dead_ends(build()) == ()
    assert dead_ends(build(changed=(STUB,))) == ("KO",)
    assert dead_ends(build(without="RB")) == ("LG",)  # a lifter galley that nothing feeds


def test_said_and_drawn_are_compared() -> None:
    crossing = passage("X", (60, -95, 50), (60, -95, -10), 5, ("pump", "pickup"))
    assert differences(build(changed=(crossing,))) == (frozenset(), frozenset({frozenset(("X", "MG"))}))
    missing = passage("X", (60, -80, 50), (60, -80, -10), 5, ("pump", "pickup"), "MG")
    assert differences(build(changed=(missing,))) == (frozenset({frozenset(("X", "MG"))}), frozenset())


def test_numbers_sort_as_numbers() -> None:
    assert sorted(["D10", "D2", "C1", "D1"], key=natural) == ["C1", "D1", "D2", "D10"]


@pytest.mark.parametrize(
    ("clock", "y", "z"), [(0, 0, 27), (90, -27, 0), (180, 0, -27), (270, 27, 0), (135, -19.0918831, -19.0918831)]
)
def test_clock_positions_are_seen_from_the_front(clock: float, y: float, z: float) -> None:
    """3:00 is on the right of a person in front, which is -y; the axes' signs are the frame's definition."""
    assert clock_gap(clock_at((5, 118), (0, y + 5, z + 118)), clock) == pytest.approx(0, abs=1e-6)


def test_clock_words() -> None:
    assert [clock_text(at) for at in (0, 135, 177.5, 359.9)] == ["12:00", "4:30", "5:55", "12:00"]
    assert clock_gap(350, 10) == clock_gap(10, 350) == 20


def hole(across: float) -> tuple[str, str, dict[str, Any]]:
    """The shell's hole that size, over a feed of 6 mm."""
    return "cam_bearing", "1", {"shell_hole_diameter": across}


GROOVE = ("cam_bearing", "1", {"groove_depth": 2, "groove_width": 6, "shell_hole_clock": "4:30"})


@pytest.mark.parametrize(
    ("trait", "change", "word"),
    [
        ("cam.behind_shells", {}, "nothing"),
        ("cam.behind_shells", {"changed": (STUB,)}, "stub"),
        ("cam.behind_shells", {"shells": "none", "changed": (STUB,)}, "nothing"),
        ("cam.behind_shells", {"member": GROOVE, "changed": (
            passage("C1", (30, 0, 30), (30, 0, 75), 6, ("main 1", "groove 1")),)}, "groove"),
        ("cam.brush_past_shells", {}, None),  # the shells' holes are not yet known
        ("cam.brush_past_shells", {"member": hole(6)}, "yes"),
        ("cam.brush_past_shells", {"member": hole(5.9)}, "no"),
        ("cam.brush_past_shells", {"member": hole(6), "changed": (STUB,)}, "no"),
        ("cam.brush_past_shells", {"shells": "none", "changed": (STUB,)}, "yes"),
        ("cam.brush_past_shells", {"member": GROOVE, "changed": (
            passage("C1", (30, 0, 30), (30, 0, 75), 6, ("main 1", "groove 1")),)}, "no"),
        ("cam.bottom_oil", {}, "direct"),
        ("cam.bottom_oil", {"member": ("cam_bearing", "1", {"shell_hole_clock": "4:30"})}, "direct"),
        ("cam.bottom_oil", {"member": ("cam_bearing", "1", {"shell_hole_clock": "4:29"})}, "carried_round"),
        ("cam.bottom_oil", {"member": ("cam_bearing", "1", {"loaded_clock": "9:00"})}, "carried_round"),
        ("cam.bottom_oil", {"member": ("cam_bearing", "2", {"x": 60})}, None),
        ("cam.shell_sizes", {}, "one"),
        ("cam.shell_sizes", {"member": ("cam_bearing", "2", {"block_bore": 49.8})}, "stepped"),
        ("cam.shell_sizes", {"member": ("cam_bearing", "2", {"block_bore": 49.8}), "shells": "none"}, "one"),
        ("cam.shell_sizes", {"member": ("cam_bearing", "2", {"x": 60})}, None),
        ("engine.banks", {}, "two"),
        ("galley.dead_ends", {}, "none"),
        ("galley.dead_ends", {"changed": (STUB,)}, "some"),
    ],
)  # fmt: skip
def test_conclusions(trait: str, change: dict[str, Any], word: str | None) -> None:
    found, reason = CONCLUSIONS[trait](build(**change))
    assert found == word
    assert reason


def test_nothing_is_concluded_of_what_is_not_known() -> None:
    assert {conclude(family(kind=None, shells=None))[0] for conclude in CONCLUSIONS.values()} == {None}


def test_a_reason_names_what_it_rests_on() -> None:
    assert CONCLUSIONS["cam.bottom_oil"](build(member=("cam_bearing", "1", {"shell_hole_clock": "9:00"})))[1] == (
        "oil enters at 9:00; the journal carries it round to the loaded line at 6:00"
    )
    assert "KO" in CONCLUSIONS["cam.behind_shells"](build(changed=(STUB,)))[1]
    assert CONCLUSIONS["cam.brush_past_shells"](build(member=hole(5)))[1] == (
        "the holes in the shells are smaller than C1"
    )


def test_a_plan_is_worked_out_once_for_a_family_and_never_for_another() -> None:
    asked: list[str] = []

    @once
    def name(family: Family) -> str:
        asked.append(family.id)
        return f"{family.id} {len(family.passages)}"

    whole, less = build(), build(without="C1")
    assert [name(each) for each in (whole, less, whole, less)] == ["test 6", "test 5", "test 6", "test 5"]
    assert len(asked) == 2
    for _ in range(40):  # more than are kept
        assert name(build(without="FO")) == "test 5"
    assert name(whole) == "test 6"
