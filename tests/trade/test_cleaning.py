"""The cleaning plan against rules worked by hand, and its order against networkx."""

import networkx as nx
import pytest
from hand_built import family, passage, plug
from small_vee import build

from procgen.trade.cleaning import Entry, PassagePlan, cleaning_plan
from procgen.trade.derived import DERIVED, entry_words


def plans(built: object) -> dict[str, PassagePlan]:
    return {plan.passage: plan for plan in cleaning_plan(built)}  # type: ignore[arg-type]


def test_sizes_of_an_8_mm_passage() -> None:
    """Largest drill in an 8 mm hole is 5/16 (7.9375), the rod 0.2 mm under; brushes 1.1 to 1.25 times, 50 mm over."""
    (plan,) = cleaning_plan(family(passages=(passage("M", (0, 0, 0), (100, 0, 0), 8, ("plug A", "main 1")),)))
    assert (plan.rod_drill, plan.rod) == ("5/16", pytest.approx(7.7375))
    assert plan.brush == pytest.approx((8.8, 10.0))
    assert plan.brush_length == pytest.approx(150)


def test_a_long_passage_is_brushed_from_both_ends_and_the_strokes_overlap() -> None:
    def brushed(long: float, far: str) -> PassagePlan:
        return plans(family(passages=(passage("G", (0, 0, 0), (long, 0, 0), 12, ("plug F", far)),)))["G"]

    assert brushed(301, "plug R").from_both_ends
    assert brushed(301, "plug R").brush_length == pytest.approx(200.5)
    assert not brushed(299, "plug R").from_both_ends
    blind = brushed(400, "passage X")
    assert (blind.entries, blind.brush_length) == ((Entry("plug F"),), pytest.approx(450))


def test_what_comes_out_first() -> None:
    found = plans(build())
    assert found["MG"].out == ("plug MG-F", "plug MG-R")
    assert found["M1"].out == ("plug MS1", "main shell 1")
    assert found["C1"].out == ("main shell 1", "cam shell 1")
    assert found["C1"].entries == (Entry("main 1"),)
    assert found["FO"].out == ()
    assert plans(build(shells="none"))["C1"].out == ("main shell 1",)
    valve = build(replugged=(plug("MG-R", "1/4-18 NPT", (140, -95, 20), "MG", kind="relief_valve"),))
    assert plans(valve)["MG"].out == ("plug MG-F", "relief valve MG-R")


def test_nothing_straight_reaches_a_passage_between_two_others() -> None:
    assert plans(build())["RB"].entries == ()


def test_a_feed_drilled_through_the_cam_tunnel_is_brushed_through_it() -> None:
    """K meets the galley and the cam; only its stub on the far side of the tunnel, in one line, opens outside."""
    feed = passage("K", (30, 60, 160), (30, 17.678, 117.678), 6, ("passage Q", "cam 1"))
    stub = passage("KO", (30, -60, 40), (30, -17.678, 82.322), 6, ("plug KS", "cam 1"))
    found = plans(build(changed=(feed, stub)))
    assert found["K"].entries == (Entry("plug KS", ("passage KO", "cam 1")),)
    assert set(found["K"].out) == {"cam shell 1", "plug KS"}
    assert found["KO"].dead_end
    assert found["K"].order < found["KO"].order  # the brush draws what it finds in K back through KO
    bent = passage("KO", (30, -60, 45), (30, -17.678, 82.322), 6, ("plug KS", "cam 1"))
    assert plans(build(changed=(feed, bent)))["K"].entries == ()
    narrow = passage("KO", stub.start, stub.end, 5, ("plug KS", "cam 1"))
    assert plans(build(changed=(feed, narrow)))["K"].entries == ()


@pytest.mark.parametrize(
    ("rail", "walls", "reached"), [(0, (-100, 100), True), (-60, (-100, 100), True), (-60, (-100, 20), False)]
)
def test_a_rod_comes_up_into_a_saddle_past_the_skirts(rail: float, walls: tuple[float, float], reached: bool) -> None:
    """The feed leans 45°: 60 below the crank its line is 60 out."""
    stated = {"block.pan_rail_z": rail, "block.side_walls": walls}
    feed = passage("V", (0, -50, 50), (0, -21, 21), 7, ("passage Q", "main 1"))
    assert bool(plans(family(stated=stated, passages=(feed,)))["V"].entries) is reached


def test_order_runs_downstream() -> None:
    """No passage comes before one that is nearer to the source, by networkx's distances on the joins of the engine."""
    order = [plan.passage for plan in cleaning_plan(build())]
    joins = [
        ("filter_out", "FO"),
        ("FO", "MG"),
        ("MG", "M1"),
        ("MG", "RB"),
        ("RB", "LG"),
        ("M1", "main"),
        ("main", "C1"),
    ]
    away = nx.single_source_shortest_path_length(nx.Graph(joins), "filter_out")
    assert [away[id] for id in order] == sorted(away[id] for id in order)
    assert [plan.order for plan in cleaning_plan(build())] == [1, 2, 3, 4, 5, 6]


def test_words_for_tables() -> None:
    told = {name: derived.work_out(build()) for name, derived in DERIVED.items()}
    assert told["passage.length"]["C1"] == pytest.approx(45)
    assert told["cleaning.enter_by"]["C1"] == "main saddle 1"
    assert told["cleaning.enter_by"]["FO"] == "filter outlet"
    assert told["cleaning.enter_by"]["RB"] == "no brush: flush MG-F to LG-F, hook"
    assert told["cleaning.first_out"]["M1"] == "MS1, main shell 1"
    assert told["cleaning.first_out"]["FO"] == "nothing"
    assert told["cleaning.both_ends"]["MG"] == "one end"
    assert told["plug.nose_room"]["MG-F"] == pytest.approx(11.5)  # RB at x 15, 7 across
    assert entry_words(Entry("plug KS", ("passage KO", "cam 1"))) == "KS, through KO"
    assert all(derived.title and derived.source for derived in DERIVED.values())
