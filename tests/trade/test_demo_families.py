"""The demo workshop's families: sound by every check, as long as their drawing says, concluded as they are built."""

from collections.abc import Mapping
from math import fsum

import pytest

from procgen.model.family import Family, Passage
from procgen.trade.cleaning import cleaning_plan
from procgen.trade.cylinder import displacement, stack_height, survey_stations
from procgen.trade.layout import findings
from procgen.trade.passages import differences, length, metal_between
from procgen.trade.routes import routes
from procgen.trade.traits import CONCLUSIONS
from tests.demo import workshop


@pytest.fixture(scope="module")
def families() -> Mapping[str, Family]:
    return workshop().families


DEMO = ("curlew", "plover", "bittern", "dunlin", "avocet", "grebe")


@pytest.mark.parametrize("id", DEMO)
def test_every_geometry_check_passes(families: Mapping[str, Family], id: str) -> None:
    assert list(findings(families[id])) == []


@pytest.mark.parametrize("id", DEMO)
def test_said_and_drawn_agree(families: Mapping[str, Family], id: str) -> None:
    assert differences(families[id]) == (frozenset(), frozenset())


# mm, worked out from the rounded coordinates apart from this code; the riser RB of Bittern stands at x 15
@pytest.mark.parametrize(
    ("id", "passages", "together"),
    [("plover", {"C1": 113.1073903, "C3": 113.6067909, "DF": 100.45}, 1305.363),
     ("bittern", {"M1": 81.80300865, "C1": 57.9, "C5": 58.7, "RB": 169.2519442, "XO": 189.3893579}, 2725.156),
     ("dunlin", {"S1": 70.71067812, "V1": 124.047204, "FO": 115.275713}, 2354.159),
     ("avocet", {"D1": 39.5, "E1": 63, "LAF": 59.498793}, 2349.498)],
)  # fmt: skip
def test_lengths(families: Mapping[str, Family], id: str, passages: Mapping[str, float], together: float) -> None:
    drilled: Mapping[str, Passage] = families[id].passages
    for name, long in passages.items():
        assert length(drilled[name]) == pytest.approx(long, abs=1e-6)
    assert fsum(map(length, drilled.values())) == pytest.approx(together, abs=1e-3)


def test_curlew_is_drawn_in_inches(families: Mapping[str, Family]) -> None:
    assert length(families["curlew"].passages["MG"]) == pytest.approx(26.9 * 25.4, abs=1e-9)


def test_least_metal_between_two_passages(families: Mapping[str, Family]) -> None:
    bittern = families["bittern"].passages
    assert metal_between(bittern["MG"], bittern["PF"]) == pytest.approx(3.0, abs=1e-9)


# bore, stroke, rod, piston; stack, cm³, ends of ring travel: exact sums and volumes worked out apart from this code
@pytest.mark.parametrize(
    ("id", "variant", "stack", "cc", "top", "bottom"),
    [("plover", "plover-15", 205.20, 1522.505197, 6.3, 97.5), ("plover", "plover-13", 205.20, 1346.988512, 6.3, 88.9),
     ("bittern", "bittern-51", 234.00, 5122.502237, 6.15, 108.65),
     ("bittern", "bittern-55", 234.00, 5487.526149, 6.15, 114.65),
     ("dunlin", "dunlin-32", 220.40, 3208.3638, 5.8, 100.8), ("dunlin", "dunlin-29", 220.40, 2885.102964, 5.8, 92.8),
     ("avocet", "avocet-62", 245.90, 6249.003673, 6.8, 118.2),
     ("avocet", "avocet-57", 245.90, 5675.950935, 6.8, 109.8)],
)  # fmt: skip
def test_variants(
    families: Mapping[str, Family], id: str, variant: str, stack: float, cc: float, top: float, bottom: float
) -> None:
    family = families[id]
    (found,) = (each for each in family.variants if each.id == variant)

    def size(name: str) -> float:
        value = family.millimetres(name, found)
        assert value is not None, name
        return value

    stroke, gap = size("geometry.stroke"), size("geometry.deck_clearance")
    parts = (stroke, size("geometry.rod_length"), size("geometry.compression_height"), gap)
    assert stack_height(*parts) == pytest.approx(stack, abs=1e-9)
    cylinders = family.layout.cylinders
    assert cylinders is not None
    assert displacement(size("geometry.bore"), stroke, cylinders) / 1000 == pytest.approx(cc, rel=1e-9)
    z_top = gap + size("ring_pack.crown_to_top_ring_upper")
    z_bottom = gap + stroke + size("ring_pack.crown_to_oil_ring_lower")
    assert (z_top, z_bottom) == pytest.approx((top, bottom), abs=1e-9)
    stations = survey_stations(z_top, z_bottom, size("geometry.bore_bottom"))
    assert sum(z_top < depth < z_bottom for depth in stations) == 4


@pytest.mark.parametrize(
    ("id", "behind", "brush", "bottom", "sizes", "banks", "dead", "lifters"),
    [("curlew", "stub", "no", "carried_round", "stepped", "one", "some", "splash"),
     ("plover", "nothing", "yes", "direct", "one", "one", "none", "splash"),
     ("bittern", "nothing", "yes", "direct", "stepped", "two", "none", "galley"),
     ("dunlin", "nothing", "no", "carried_round", "one", "two", "none", "galley"),
     ("avocet", "groove", "no", "direct", "one", "two", "none", "galley"),
     ("grebe", None, None, None, None, "one", None, None)],
)  # fmt: skip
def test_conclusions(
    families: Mapping[str, Family],
    id: str,
    behind: str,
    brush: str,
    bottom: str,
    sizes: str,
    banks: str,
    dead: str,
    lifters: str,
) -> None:
    found = {trait: conclude(families[id])[0] for trait, conclude in CONCLUSIONS.items()}
    assert found == {
        "cam.behind_shells": behind,
        "cam.brush_past_shells": brush,
        "cam.bottom_oil": bottom,
        "cam.shell_sizes": sizes,
        "engine.banks": banks,
        "galley.dead_ends": dead,
        "lifter.oil": lifters,
    }


# mains, cam bearings, galley plugs, core plugs, drains as counted on the drawing
@pytest.mark.parametrize(
    ("id", "mains", "cams", "others", "plugs", "cores", "drains", "drillings"),
    [("curlew", 7, 4, {"deck DF"}, 13, 5, 1, 20), ("plover", 5, 3, {"deck DF"}, 10, 4, 1, 13),
     ("bittern", 5, 5, {"lifters A", "lifters B"}, 13, 7, 2, 18),
     ("dunlin", 4, 4, {"lifters A", "lifters B"}, 12, 5, 2, 16),
     ("avocet", 5, 5, {"lifters A", "lifters B"}, 12, 7, 2, 17)],
)  # fmt: skip
def test_oil_and_plugs(
    families: Mapping[str, Family],
    id: str,
    mains: int,
    cams: int,
    others: set[str],
    plugs: int,
    cores: int,
    drains: int,
    drillings: int,
) -> None:
    family = families[id]
    found = routes(family)
    assert {c for c in found if not c.startswith(("main ", "cam "))} == others
    assert len(found) == mains + cams + len(others)
    assert None not in found.values()
    start = "pickup" if id == "avocet" else "pump"
    assert all(route is not None and route[0] == start and "filter_out" in route for route in found.values())
    counted = dict.fromkeys(("plug", "relief_valve", "cup", "disc", "drain"), 0)
    for each in (*family.plugs.values(), *family.core_plugs.values()):
        counted[each.kind] += 1
    counted["drain"] += len(family.drain_plugs)
    assert counted["plug"] + counted["relief_valve"] == plugs
    assert counted["cup"] + counted["disc"] == cores
    assert counted["drain"] == drains
    plan = cleaning_plan(family)
    assert [each.order for each in plan] == list(range(1, drillings + 1))
    assert all(each.entries for each in plan)


def test_how_the_odd_passages_are_reached(families: Mapping[str, Family]) -> None:
    def reached(id: str, passage: str) -> tuple[tuple[str, ...], tuple[str, ...]]:
        (plan,) = (each for each in cleaning_plan(families[id]) if each.passage == passage)
        return tuple(entry.opening for entry in plan.entries), plan.out

    assert reached("curlew", "K2") == (("plug KS2",), ("cam shell 2", "plug KS2"))
    assert reached("curlew", "MG")[0] == ("plug MG-F", "plug MG-R")
    assert reached("dunlin", "V3") == (("main 3",), ("main shell 3",))
    assert reached("avocet", "MG") == (("filter_out", "plug MG-R"), ("plug MG-R",))
    assert reached("avocet", "E4") == (("main 4",), ("cam shell 4", "main shell 4"))
    assert reached("plover", "DF") == (("deck",), ())
    assert reached("plover", "MG")[1] == ("plug MG-F", "relief valve RV")
    assert reached("bittern", "C5") == (("main 5",), ("main shell 5",))  # through the hole in its shell
    assert reached("dunlin", "S2") == (("plug SV2",), ("plug SV2",))
