"""The formulas that a cylinder survey and a cam bearing card are made of: all have a type, and the right one."""

from __future__ import annotations

import pytest
from formulas import Bench, formula, told

from procgen.formula import TRUTH, Type, infer, number
from procgen.model.formula import Function, Parameter
from procgen.units.dimension import ANGLE, LENGTH, NUMBER

CYLINDER, CAM = ("cylinder",), ("cam_bearing",)
LENGTHS = "geometry.deck_clearance geometry.stroke geometry.bore ring_pack.crown_to_top_ring_upper" \
    " ring_pack.crown_to_oil_ring_lower limits.cleanup_margin_on_diameter limits.hone_stock_after_boring" \
    " limits.cylinder_out_of_round_max limits.cylinder_taper_max limits.cam_bearing_clearance_service_max" \
    " cam.clearance_min shop.ridge_clear travel_top travel_bottom largest_offered oversize_all"  # fmt: skip
OF_CYLINDER = "unworn largest wear out_of_round taper ridge need oversize"
OF_CAM = "cam_bore cam_journal clearance cam_bearing.journal cam_bearing.block_bore cam_bearing.groove_width" \
    " cam_bearing.block_hole_diameter cam_bearing.shell_hole_diameter"  # fmt: skip


def choice(*options: str, axes: tuple[str, ...] = ()) -> Type:
    return Type("choice", options=options, axes=axes)


def registered(name: str, gives: object, many: bool, *takes: object) -> Function:
    parameters = tuple(Parameter(f"p{i}", dimension) for i, dimension in enumerate(takes))  # type: ignore[arg-type]
    return Function(name, parameters, gives, many, lambda *_: 0.0, "for this test only")  # type: ignore[arg-type]


BENCH = Bench(
    {
        **{name: number(LENGTH) for name in LENGTHS.split()},
        **{name: number(LENGTH, "cylinder") for name in OF_CYLINDER.split()},
        **{name: number(LENGTH, "cam_bearing") for name in OF_CAM.split()},
        **{name: Type("truth", axes=("cylinder", "depth")) for name in ("in_travel", "above_travel", "below_travel")},
        "depth": number(LENGTH, "depth"),
        "bore": number(LENGTH, "cylinder", "depth", "axis"),
        "oversizes": Type("list", LENGTH),
        "hole_overlap_min": number(NUMBER),
        "thumbnail": choice("passes", "catches", axes=CYLINDER),
        "shadow": choice("even", "uneven", axes=CYLINDER),
        "running_gear": choice("original", "changed"),
        "hone_or_bore": choice("hone", "bore", "sleeve", axes=CYLINDER),
        "engine": choice("sleeve", "bore_all", "hone_all"),
        "cam.shells": choice("fitted", "none"),
        "cam.behind_shells": choice("nothing", "groove", "stub"),
        "shell_face": choice("clean", "light_scratches", "copper", "torn", axes=CAM),
        "shell_seat": choice("tight", "moved", axes=CAM),
        "bore_face": choice("smooth", "scored", axes=CAM),
        "keep_or_replace": choice("replace_to_clean", "replace", "replace_clearance", "tight", "keep", axes=CAM),
        "whole_set": choice("replace_all", "wait", "stay"),
    },
    axes={"axis": ("thrust", "axial")},
    extra={
        "survey_stations": registered("survey_stations", LENGTH, True, LENGTH, LENGTH),
        "clock_error": registered("clock_error", ANGLE, False, LENGTH, LENGTH, LENGTH, NUMBER),
    },
)
PER_STATION = ("cylinder", "depth")

FORMULAS: list[tuple[tuple[str, ...], Type, str]] = [
    ((), number(LENGTH), "geometry.deck_clearance + ring_pack.crown_to_top_ring_upper"),
    ((), number(LENGTH), "geometry.deck_clearance + geometry.stroke + ring_pack.crown_to_oil_ring_lower"),
    (PER_STATION, TRUTH, "travel_top <= depth and depth <= travel_bottom"),
    (PER_STATION, TRUTH, "depth < travel_top"),
    (CYLINDER, number(LENGTH), "mean(only(bore, below_travel))"),
    (CYLINDER, number(LENGTH), "max(only(bore, in_travel))"),
    (CYLINDER, number(LENGTH), "largest - unworn"),
    (CYLINDER, number(LENGTH), "max(only(abs(bore[thrust] - bore[axial]), in_travel))"),
    (CYLINDER, number(LENGTH), "max(span(only(bore[thrust], in_travel)), span(only(bore[axial], in_travel)))"),
    (CYLINDER, number(LENGTH), "max(only(bore[thrust], in_travel)) - mean(only(bore[thrust], above_travel))"),
    (CYLINDER, number(LENGTH), "largest + limits.cleanup_margin_on_diameter + limits.hone_stock_after_boring"),
    ((), number(LENGTH), "geometry.bore + max(oversizes)"),
    (CYLINDER, number(LENGTH), "next_up(oversizes, need - geometry.bore)"),
    ((), number(LENGTH), "max(oversize)"),
    ((), Type("list", LENGTH), "survey_stations(travel_top, travel_bottom)"),
    (CYLINDER, TRUTH, "thumbnail is passes and shadow is even and ridge <= shop.ridge_clear"
                      " and running_gear is original and out_of_round <= limits.cylinder_out_of_round_max"
                      " and taper <= limits.cylinder_taper_max"),
    (CYLINDER, TRUTH, "hone_or_bore is bore"),
    (CYLINDER, TRUTH, "need <= largest_offered"),
    ((), TRUTH, "any(hone_or_bore is sleeve)"),
    ((), TRUTH, "all(hone_or_bore is hone)"),
    ((), TRUTH, "engine is bore_all"),
    (CAM, number(LENGTH), "cam_bore - cam_journal"),
    (CAM, number(LENGTH), "(cam_bearing.groove_width - cam_bearing.shell_hole_diameter) / 2"),
    (CAM, number(ANGLE), "clock_error(cam_bearing.block_hole_diameter, cam_bearing.shell_hole_diameter,"
                         " cam_bearing.block_bore / 2, hole_overlap_min)"),
    ((), TRUTH, "cam.shells is fitted and cam.behind_shells is not groove"),
    (CAM, TRUTH, "shell_face in (copper, torn) or shell_seat is moved"),
    (CAM, TRUTH, "clearance > limits.cam_bearing_clearance_service_max"),
    (CAM, TRUTH, "bore_face is scored or clearance > limits.cam_bearing_clearance_service_max"),
    ((), TRUTH, "any(keep_or_replace in (replace_to_clean, replace, replace_clearance))"),
    ((), TRUTH, "all(keep_or_replace is keep)"),
    ((), TRUTH, "cam.shells is fitted and whole_set is replace_all"),
]  # fmt: skip


@pytest.mark.parametrize(("each", "gives", "source"), FORMULAS)
def test_formula(each: tuple[str, ...], gives: Type, source: str) -> None:
    found, problems = infer(formula(source), BENCH, each)
    assert found is not None, told(problems)
    assert (found.kind, found.dimension) == (gives.kind, gives.dimension)
    assert set(found.axes) <= set(each)


@pytest.mark.parametrize(("each", "gives", "source"), [row for row in FORMULAS if row[0]])
def test_the_same_formula_in_an_entry_that_there_is_one_of(each: tuple[str, ...], gives: Type, source: str) -> None:
    """What runs over one axis less leaves it over, or runs over it too: only aggregates have a meaning there."""
    found, problems = infer(formula(source), BENCH, ())
    if found is None:
        assert {p.code for p in problems} == {"formula-axes"}
    else:
        assert found.axes == ()
        assert source.startswith(("max(", "mean("))
