"""The bore map shows what was measured: depths true, the diameter stretched alike, marks where the sizes are."""

from __future__ import annotations

import pytest

from procgen.model.scene import Area, Mark, Path, Scene
from procgen.trade.scenes.bore import Travel
from procgen.trade.scenes.bore_map import Profile, Station, bore_map
from procgen.units.table import UNITS

TRAVEL = Travel(98.40, 6.15, 108.65, 135.0)
SIZES = ((3, 98.412, 98.410), (12, 98.498, 98.462), (40, 98.470, 98.448), (75, 98.446, 98.436), (105, 98.430, 98.424),
         (120, 98.408, 98.408))  # fmt: skip
STATIONS = tuple(Station(float(depth), across, along) for depth, across, along in SIZES)


def drawn(**other: object) -> Scene:
    given = {"limit": None, "clean": None, "unworn": 98.408} | other
    scene = bore_map(Profile("A1", "Cylinder A1", TRAVEL, STATIONS, **given), UNITS["mm"])  # type: ignore[arg-type]
    assert scene is not None
    return scene


def marks(scene: Scene, kind: str) -> list[tuple[float, float]]:
    return [shape.at for shape in scene.shapes if isinstance(shape, Mark) and shape.kind == kind]


def test_marks_stand_at_their_depth_and_one_size_is_one_place() -> None:
    across, along = marks(drawn(), "square"), marks(drawn(), "ring")
    assert [-y for _, y in across] == [depth for depth, *_ in SIZES] == [-y for _, y in along]
    steps = [(x - across[0][0]) / (size - 98.412) for (x, _), (_, size, _) in zip(across[1:], SIZES[1:], strict=True)]
    steps += [(x - across[0][0]) / (size - 98.412) for (x, _), (*_, size) in zip(along, SIZES, strict=True)]
    assert steps == pytest.approx([steps[0]] * len(steps))  # one stretch for all
    assert steps[0] > 100


def test_the_bands_outside_ring_travel_are_hatched_and_wear_is_tinted() -> None:
    hatched = [s.points for s in drawn().shapes if isinstance(s, Area) and s.role == "hatch"]
    assert [sorted({-y for _, y in points}) for points in hatched] == [[0.0, 6.15], [108.65, 135.0]]
    (tint,) = [s for s in drawn().shapes if isinstance(s, Area) and s.role == "oil"]
    assert min(-y for _, y in tint.points) >= 6.15
    assert max(-y for _, y in tint.points) <= 108.65


def test_limits_stand_where_they_are_or_beyond_the_scale() -> None:
    inside = drawn(limit=("taper|limit", 98.510))
    (line,) = [s for s in inside.shapes if isinstance(s, Path) and s.role == "limit"]
    across = marks(inside, "square")
    stretch = (across[1][0] - across[0][0]) / (98.498 - 98.412)
    assert line.points[0][0] - across[1][0] == pytest.approx((98.510 - 98.498) * stretch)
    beyond = drawn(clean=("+0.50 mm|cleans up", 98.900))
    assert not [s for s in beyond.shapes if isinstance(s, Path) and s.role == "limit"]
    assert "+0.50 mm cleans up" in beyond.texts()


def test_out_of_round_stands_at_each_depth_the_greatest_strong() -> None:
    labels = {label.words[0]: label.strong for label in drawn().labels if label.place == "right"}
    assert labels == {
        "at 3: 0.002": False, "at 12: 0.036": True, "at 40: 0.022": False, "at 75: 0.010": False,
        "at 105: 0.006": False, "at 120: 0.000": False,
    }  # fmt: skip


def test_in_words_for_those_who_cannot_see_it() -> None:
    said = drawn().describe
    assert "The rings run from 6.15 to 108.65" in said
    assert "12: 98.498 and 98.462" in said


def test_nothing_read_nothing_drawn() -> None:
    empty = Profile("A1", "Cylinder A1", TRAVEL, (), 98.408, None, None)
    assert bore_map(empty, UNITS["mm"]) is None
