"""One worn bore measured at six depths, through the survey's own formulas.

Source of the expected figures: worked example, decimals by hand. Nominal bore 98.40; ring travel 6.150 to 108.650 from
deck clearance 0.55, top ring 5.6 below the crown, stroke 84.2 and oil ring 23.9 below the crown.
"""

from __future__ import annotations

from collections.abc import Mapping

import pytest
from formulas import Bench, BenchScope, formula

from procgen.formula import Cell, Spread, State, evaluate, known, reading, single, uncertainty
from procgen.formula.types import TRUTH, Type, number
from procgen.units.compare import equal
from procgen.units.dimension import LENGTH

READ = {  # depth: (across the crank, along the crank)
    "3": (98.412, 98.410),
    "12": (98.498, 98.462),
    "40": (98.470, 98.448),
    "75": (98.446, 98.436),
    "105": (98.430, 98.424),
    "120": (98.408, 98.408),
}
FACTS = {
    "geometry.bore": 98.40, "geometry.deck_clearance": 0.55, "geometry.stroke": 84.2,
    "ring_pack.crown_to_top_ring_upper": 5.6, "ring_pack.crown_to_oil_ring_lower": 23.9,
    "limits.cleanup_margin_on_diameter": 0.030, "limits.hone_stock_after_boring": 0.080,
}  # fmt: skip
VALUES: Mapping[str, tuple[tuple[str, ...], str]] = {
    "travel_top": ((), "geometry.deck_clearance + ring_pack.crown_to_top_ring_upper"),
    "travel_bottom": ((), "geometry.deck_clearance + geometry.stroke + ring_pack.crown_to_oil_ring_lower"),
    "in_travel": (("depth",), "travel_top <= depth and depth <= travel_bottom"),
    "above_travel": (("depth",), "depth < travel_top"),
    "below_travel": (("depth",), "depth > travel_bottom"),
    "unworn": ((), "mean(only(bore, below_travel))"),
    "largest": ((), "max(only(bore, in_travel))"),
    "wear": ((), "largest - unworn"),
    "out_of_round": ((), "max(only(abs(bore[thrust] - bore[axial]), in_travel))"),
    "taper": ((), "max(span(only(bore[thrust], in_travel)), span(only(bore[axial], in_travel)))"),
    "taper_axial": ((), "span(only(bore[axial], in_travel))"),
    "taper_everywhere": ((), "max(span(bore[thrust]), span(bore[axial]))"),
    "ridge": ((), "max(only(bore[thrust], in_travel)) - mean(only(bore[thrust], above_travel))"),
    "need": ((), "largest + limits.cleanup_margin_on_diameter + limits.hone_stock_after_boring"),
    "need_one_side": ((), "unworn + 2 * (largest - unworn) + limits.cleanup_margin_on_diameter"
                          " + limits.hone_stock_after_boring"),
    "oversize": ((), "next_up(oversizes, need - geometry.bore)"),
    "oversize_one_side": ((), "next_up(oversizes, need_one_side - geometry.bore)"),
    "bore_to": ((), "geometry.bore + oversize - limits.hone_stock_after_boring"),
}  # fmt: skip


def worked(read: Mapping[str, tuple[float, float]] = READ) -> tuple[Bench, dict[str, Spread]]:
    """Every value, evaluated in the order of the table."""
    types = {name: number(LENGTH) for name in FACTS}
    types |= {
        "bore": number(LENGTH, "depth", "axis"),
        "depth": number(LENGTH, "depth"),
        "oversizes": Type("list", LENGTH),
    }
    spreads = {name: single(known(value), LENGTH) for name, value in FACTS.items()}
    cells = {(d, a): reading(v, f"bore {d} {a}") for d, both in read.items() for a, v in zip(AXIS, both, strict=True)}
    spreads["bore"] = Spread(("depth", "axis"), cells, LENGTH)
    spreads["depth"] = Spread(("depth",), {(d,): known(float(d)) for d in read}, LENGTH)
    spreads["oversizes"] = single(known((0.25, 0.50, 0.75, 1.00)), LENGTH)
    bench = Bench(types, spreads, {"axis": AXIS})
    for name, (each, source) in VALUES.items():
        types[name] = bench.type(source, *each)
        spreads[name] = evaluate(formula(source).tree, BenchScope(bench), {}, each)
    return bench, spreads


AXIS = ("thrust", "axial")
BENCH, FOUND = worked()


@pytest.mark.parametrize(
    ("name", "millimetres"),
    [
        ("travel_top", 6.150), ("travel_bottom", 108.650),
        ("out_of_round", 0.036), ("taper", 0.068), ("taper_axial", 0.038), ("taper_everywhere", 0.090),
        ("unworn", 98.408), ("largest", 98.498), ("wear", 0.090), ("ridge", 0.086),
        ("need", 98.608), ("oversize", 0.25), ("bore_to", 98.570),
        ("need_one_side", 98.698), ("oversize_one_side", 0.50),
    ],
)  # fmt: skip
def test_the_worked_bore(name: str, millimetres: float) -> None:
    assert equal(FOUND[name].one.number, millimetres, LENGTH)


def test_only_what_lies_in_ring_travel_counts() -> None:
    assert [FOUND["in_travel"].cells[depth,].value for depth in READ] == [False, True, True, True, True, False]
    assert BENCH.types["in_travel"] == Type(TRUTH.kind, axes=("depth",))


@pytest.mark.parametrize(("largest", "need", "oversize"), [(98.720, 98.830, 0.50), (99.350, 99.460, None)])
def test_other_bores(largest: float, need: float, oversize: float | None) -> None:
    found = worked({**READ, "12": (largest, 98.462)})[1]
    assert equal(found["need"].one.number, need, LENGTH)
    assert found["oversize"].one.value == oversize
    if oversize is None:
        assert found["oversize"].one.state is State.NONE  # none on offer cleans it up


def test_what_is_not_read_is_wanting_and_never_a_guess() -> None:
    bench, _ = worked()
    cells: dict[tuple[str, ...], Cell] = {("", a): Cell(State.WANTING, because=frozenset({"bore"})) for a in AXIS}
    spreads = {**bench.spreads, "bore": Spread(("depth", "axis"), cells, LENGTH)}
    empty = Bench(bench.types, spreads, bench.axes)
    for name in ("unworn", "largest", "out_of_round", "taper", "ridge"):
        found = empty.cell(VALUES[name][1])
        assert (found.state, found.because) == (State.WANTING, {"bore"}), name
    unread = {
        **bench.spreads,
        "travel_top": single(Cell(State.UNKNOWN, because=frozenset({"geometry.stroke"})), LENGTH),
    }
    assert Bench(bench.types, unread, bench.axes).cell("travel_top + largest").because == {"geometry.stroke"}


def test_uncertainty_of_differences_at_one_setting() -> None:
    """0.0023 mm each = 2 · √2 · a repeatability of 0.0008; a difference of two such readings has √2 of that."""
    each = dict.fromkeys((f"bore {d} {a}" for d in READ for a in AXIS), 0.0023)
    assert uncertainty(FOUND["out_of_round"].one, each) == pytest.approx(0.0023 * 2**0.5)
    assert uncertainty(FOUND["unworn"].one, each) == pytest.approx(0.0023)  # mean of two with one error in common
    assert dict(FOUND["wear"].one.partials) == pytest.approx(
        {"bore 12 thrust": 1, "bore 120 thrust": -0.5, "bore 120 axial": -0.5}
    )
