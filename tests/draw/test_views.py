"""What the views show, against the families' own files and against figures worked out by hand."""

import re
from collections import Counter
from pathlib import Path as FilePath

import numpy as np
import pytest
import yaml
from drawings import Drawn, given

from procgen.model.scene import Arc, Area, Label, Path, Scene, Tube
from procgen.model.workshop import Workshop
from procgen.trade.cleaning import cleaning_plan
from procgen.trade.plug_order import plug_numbers
from procgen.trade.scenes import VIEWS

FAMILIES = FilePath(__file__).parents[2] / "procedures" / "families"
FULL = ("avocet", "bittern", "curlew", "dunlin", "plover")


def clock_angle(spot: tuple[float, float]) -> float:
    return float(np.degrees(np.arctan2(spot[0], spot[1])) % 360)


def from_text(clock: str) -> float:
    hour, minute = map(int, clock.split(":"))
    return (hour % 12) * 30 + minute / 2


def written(family: str) -> dict[str, object]:
    """The file as plain YAML, clocks kept as text."""
    text = re.sub(r"\b(\d{1,2}:\d{2})\b", r'"\1"', (FAMILIES / f"{family}.yaml").read_text("utf-8"))
    data: dict[str, object] = yaml.safe_load(text)
    return data


def of(scenes: tuple[Drawn, ...], view: str, family: str) -> list[Scene]:
    found = [drawn.scene for drawn in scenes if drawn.view == view and drawn.family.id == family]
    assert found, (view, family)
    return found


@pytest.mark.parametrize("family", FULL)
def test_every_plug_is_badged_exactly_once(scenes: tuple[Drawn, ...], family: str) -> None:
    maps = of(scenes, "galley_map", family)
    plugs = written(family)["plugs"]
    assert isinstance(plugs, dict)
    plugs.pop("every", None)
    badged = Counter(badge.name for scene in maps for badge in scene.badges)
    assert badged == Counter(plugs.keys())
    numbers = sorted(int(badge.number) for scene in maps for badge in scene.badges)
    assert numbers == list(range(1, len(plugs) + 1))


@pytest.mark.parametrize("family", FULL)
def test_badges_point_at_their_plugs(scenes: tuple[Drawn, ...], workshop: Workshop, family: str) -> None:
    """Each badge's anchor is two of its plug's three coordinates, sign apart: the third is along the look."""
    for scene in of(scenes, "galley_map", family):
        for badge in scene.badges:
            x, y, z = workshop.families[family].plugs[badge.name].at
            spots = {"front": (-y, z), "right": (x, z), "left": (-x, z), "plan": (x, y)}
            assert badge.anchor == pytest.approx(spots[scene.id.removeprefix("galley-map-")])


@pytest.mark.parametrize("family", FULL)
def test_plugs_are_numbered_in_the_order_of_cleaning(workshop: Workshop, family: str) -> None:
    engine = workshop.families[family]
    number = plug_numbers(engine)
    orders = {plan.passage: plan.order for plan in cleaning_plan(engine)}
    first = {plug.id: min(orders[closed] for closed in plug.closes) for plug in engine.plugs.values()}
    inorder = [first[id] for id in sorted(number, key=lambda id: number[id])]
    assert inorder == sorted(inorder)


@pytest.mark.parametrize("family", [family for family in FULL if family != "plover"])
def test_pointer_stands_at_the_clock_of_the_shells_hole(scenes: tuple[Drawn, ...], family: str) -> None:
    cam = written(family)["cam"]
    assert isinstance(cam, dict)
    stated = from_text(cam["bearings"]["every"]["shell_hole"]["clock"])
    for scene in of(scenes, "cam_clock", family):
        pointers = [shape for shape in scene.shapes if isinstance(shape, Path) and shape.role == "accent"]
        assert len(pointers) == 1
        assert pointers[0].points[0] == (0.0, 0.0)
        assert clock_angle(pointers[0].points[1]) == pytest.approx(stated, abs=0.01)
        accents = [label for label in scene.labels if label.accent]
        assert [from_text(label.figure) for label in accents] == [stated]
        assert clock_angle(accents[0].anchor) == pytest.approx(stated, abs=0.01)


@pytest.mark.parametrize("family", FULL)
def test_drillings_open_at_the_clock_of_the_blocks_hole(scenes: tuple[Drawn, ...], family: str) -> None:
    cam = written(family)["cam"]
    assert isinstance(cam, dict)
    stated = from_text(cam["bearings"]["every"]["block_hole"]["clock"])
    for scene in of(scenes, "cam_clock", family):
        starts = [clock_angle(shape.start) for shape in scene.shapes if isinstance(shape, Tube)]
        assert min(abs((start - stated + 180) % 360 - 180) for start in starts) < 1.0


def test_faces_are_drawn_once_for_positions_that_are_alike(scenes: tuple[Drawn, ...]) -> None:
    assert [scene.title for scene in of(scenes, "cam_clock", "avocet")] == [
        "Cam bearing 1", "Cam bearings 2–4", "Cam bearing 5",
    ]  # fmt: skip
    assert len(of(scenes, "cam_clock", "dunlin")) == 1
    assert [scene.title[:18] for scene in of(scenes, "cam_clock", "plover")] == ["Cam bearings 1, 3 ", "Cam bearing 2"]


def test_no_pointer_where_the_camshaft_runs_in_the_block(scenes: tuple[Drawn, ...]) -> None:
    for scene in of(scenes, "cam_clock", "plover"):
        assert not any(isinstance(shape, Path) and shape.role == "accent" for shape in scene.shapes)


# deck clearance + crown to ring (+ stroke), mm, added by hand from the families' files
TRAVEL = {
    "avocet": [(6.80, 118.20), (6.80, 109.80)],
    "bittern": [(6.15, 108.65), (6.15, 114.65)],
    "dunlin": [(5.80, 100.80), (5.80, 92.80)],
    "plover": [(6.30, 97.50), (6.30, 88.90)],
    "curlew": [(0.301 * 25.4, 4.946 * 25.4), (0.301 * 25.4, 4.546 * 25.4)],
}


@pytest.mark.parametrize("family", FULL)
def test_stations_lie_in_their_bands(scenes: tuple[Drawn, ...], family: str) -> None:
    for scene, (top, bottom) in zip(of(scenes, "bore_stations", family), TRAVEL[family], strict=True):
        depths = [-shape.points[0][1] for shape in scene.shapes if isinstance(shape, Path) and shape.role == "accent"]
        bands = [shape for shape in scene.shapes if isinstance(shape, Area) and shape.role == "hatch"]
        edges = sorted({-round(y, 6) for band in bands for _, y in band.points})
        assert edges[1:3] == pytest.approx([top, bottom], abs=1e-6)
        assert depths == sorted(depths)
        assert depths[0] < top < depths[1]
        assert depths[4] < bottom < depths[5] < edges[3]


@pytest.mark.parametrize("family", FULL)
def test_pistons_turn_back_where_the_stations_say(scenes: tuple[Drawn, ...], family: str) -> None:
    for scene, (top, bottom) in zip(of(scenes, "ring_travel", family), TRAVEL[family], strict=True):
        rings = [shape.points for shape in scene.shapes if isinstance(shape, Area) and shape.role == "solid"]
        assert min(-y for ring in rings for _, y in ring) == pytest.approx(top, abs=1e-6)
        assert max(-y for ring in rings for _, y in ring) == pytest.approx(bottom, abs=1e-6)


def test_scratches_cross_at_the_shops_angle(scenes: tuple[Drawn, ...], workshop: Workshop) -> None:
    wanted = workshop.rules["hatch_angle"].value.value
    (scene,) = of(scenes, "hatch_angle", "bittern")
    lines = [np.subtract(s.points[1], s.points[0]) for s in scene.shapes if isinstance(s, Path) and s.role == "behind"]
    slopes = np.array([np.degrees(np.arctan2(line[1], line[0])) for line in lines])
    slopes = np.where(slopes > 90, slopes - 180, np.where(slopes < -90, slopes + 180, slopes))
    assert set(np.round(slopes, 6)) == {wanted / 2, -wanted / 2}


def test_pull_in_a_sling_leg(scenes: tuple[Drawn, ...]) -> None:
    """1 / (2 sin β): 0.577 of the weight at 60°, all of it at 30°."""
    (scene,) = of(scenes, "stand_sling", "bittern")
    legs = [shape for shape in scene.shapes if isinstance(shape, Path) and shape.role == "accent"]
    run, rise = np.subtract(legs[0].points[1], legs[0].points[0])
    assert np.degrees(np.arctan2(rise, run)) == pytest.approx(60)
    said = " ".join(word for label in scene.labels for word in label.words)
    assert f"{50 / np.sin(np.radians(60)):.0f}\u202f%" in said
    assert "all of it" in said


def test_rungs_are_in_proportion(scenes: tuple[Drawn, ...]) -> None:
    (scene,) = of(scenes, "size_ladder", "avocet")
    heights = [shape.points[0][1] for shape in scene.shapes if isinstance(shape, Path) and shape.role == "outline"]
    assert np.diff(sorted(heights)) == pytest.approx([0.5, 0.25, 0.25, 0.5])
    figures = {label.figure for label in scene.labels if label.figure}
    assert figures == {"104.20", "104.70", "104.95", "105.20", "105.70"}


def test_hone_runs_out_of_the_bore_at_both_ends(scenes: tuple[Drawn, ...]) -> None:
    """Bore 135, stones of 60 that run out 30 %: 18 at each end, stroke 135 + 36 − 60 = 111 mm."""
    (scene,) = of(scenes, "hone_stroke", "bittern")
    assert "111" in {label.figure for label in scene.labels}
    stones = [shape.points for shape in scene.shapes if isinstance(shape, Area) and shape.role == "oil"]
    assert max(y for stone in stones for _, y in stone) == pytest.approx(18)
    assert min(y for stone in stones for _, y in stone) == pytest.approx(-135 - 18)


@pytest.mark.parametrize("family", FULL)
def test_outline_holds_the_deck_at_its_height(scenes: tuple[Drawn, ...], family: str) -> None:
    """The deck's middle lies the block's height from the crank's centreline, square to the cylinders."""
    data = written(family)
    geometry, layout, units = data["geometry"], data["layout"], data["units"]
    assert isinstance(geometry, dict)
    assert isinstance(layout, dict)
    assert isinstance(units, dict)
    height = geometry["block_height"] * (25.4 if units["length"] == "in" else 1)
    (scene,) = of(scenes, "end_view", family)
    outline = np.array(next(shape.points for shape in scene.shapes if isinstance(shape, Path) and shape.closed))
    lean = np.radians(layout.get("bank_angle", 0) / 2)
    along = outline @ np.array([np.sin(lean), np.cos(lean)])
    assert along.max() == pytest.approx(height)
    assert np.isclose(along, height).sum() == 2
    crank = [shape for shape in scene.shapes if isinstance(shape, Arc) and shape.centre == pytest.approx((0.0, 0.0))]
    assert len(crank) == 1


@pytest.mark.parametrize("family", FULL)
def test_route_reaches_every_kind_of_bearing(scenes: tuple[Drawn, ...], family: str) -> None:
    (scene,) = of(scenes, "oil_route", family)
    said = " ".join(word for label in scene.labels for word in label.words)
    assert "main 1–" in said
    assert "cam 1–" in said


def test_what_is_not_yet_known_is_not_drawn(workshop: Workshop) -> None:
    """Little is known of Grebe: only what follows from the shop's own rules can be drawn."""
    grebe = workshop.families["grebe"]
    drawn = {name for name, view in VIEWS.items() if view.make(given(workshop, grebe, None))}
    assert drawn == {"hatch_angle"}


@pytest.mark.parametrize("family", FULL)
def test_every_drawing_is_told_in_words(scenes: tuple[Drawn, ...], family: str) -> None:
    for drawn in scenes:
        if drawn.family.id == family:
            assert drawn.scene.view
            assert drawn.scene.describe.endswith("."), str(drawn)
            assert len(drawn.scene.describe.split()) >= 8, str(drawn)


def test_cleaned_numbers_stand_in_the_legend(scenes: tuple[Drawn, ...]) -> None:
    """Bittern's threads, counted by hand from its file: two 3/8, seven 1/8, four 1/4."""
    legend = of(scenes, "galley_map", "bittern")[-1].legend
    assert legend[0].figure == "13"
    counts = {}
    for entry in legend[1:]:
        spans = [part.split("–") for part in entry.figure.split(", ")]
        counts[entry.words] = sum(int(span[-1]) - int(span[0]) + 1 for span in spans)
    assert counts == {"3/8-18 NPT": 2, "1/8-27 NPT": 7, "1/4-18 NPT": 4}


def test_labels_of_columns_name_members(scenes: tuple[Drawn, ...]) -> None:
    for scene in of(scenes, "galley_map", "curlew"):
        rows = {
            word for label in scene.labels if isinstance(label, Label) and label.place == "left" for word in label.words
        }
        assert {"MG", "cam", "main"} <= rows
