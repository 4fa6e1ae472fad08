"""What is loaded, held against PyYAML's own reading of the same files, and against pint for units."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pint
import pytest
import yaml
from small_workshops import SHOP, Load, family, procedure

from procgen.load.facts import EVERY
from procgen.load.names import PROSE, axis_paths, family_names
from procgen.load.workshop import load_workshop
from procgen.model.family import Fact, Family
from procgen.units.dimension import CLOCK, LENGTH, MASS, TORQUE
from procgen.units.quantity import Quantity
from tests.demo import loaded

UNIT = re.compile(r" [^0-9/ ]+$")
ROOT = Path(__file__).parents[2]
DEMO = loaded()
FAMILIES = sorted((ROOT / "procedures/families").glob("*.yaml"))
CARD = "procedures/deck/look-see.yaml"
TEAL = "procedures/families/teal.yaml"


def plain(path: Path) -> Any:
    """PyYAML's reading with every scalar left as text."""
    return yaml.load(path.read_text("utf-8"), yaml.BaseLoader)


def teal(load: Load, more: str) -> Family:
    loaded = load({TEAL: family(more=more)})
    assert loaded.workshop is not None
    assert [str(p) for p in loaded.problems] == []
    return loaded.workshop.families["teal"]


def written(fact: Fact) -> Any:
    """A fact as its author wrote it."""
    if isinstance(fact.value, tuple):
        return [q.text for q in fact.value]
    return fact.value.text if isinstance(fact.value, Quantity) else fact.value or ""


def test_the_demo_workshop_is_sound() -> None:
    assert [str(p) for p in DEMO.problems if p.is_error] == []
    assert DEMO.workshop is not None
    assert len(DEMO.workshop.families) == len(FAMILIES) == 6


def leaves(data: Any, path: tuple[str, ...] = ()) -> Iterator[tuple[tuple[str, ...], Any]]:
    if isinstance(data, dict):
        for key, value in data.items():
            yield from leaves(value, (*path, key))
    else:
        yield path, data


@pytest.mark.parametrize("path", FAMILIES, ids=lambda path: path.stem)
def test_nothing_that_a_family_states_is_lost(path: Path) -> None:
    """Each leaf of the file is a fact with the same digits, under the name that formulas use."""
    assert DEMO.workshop is not None
    loaded = DEMO.workshop.families[path.stem]
    data = {key: value for key, value in plain(path).items() if key not in PROSE}
    by_path = {(name.path, name.inner): name for name in family_names().values()}
    axes = {where: axis for axis, where in axis_paths().items()}
    seen = 0
    for at, value in leaves(data):
        where = next((at[:i] for i in range(1, len(at)) if at[:i] in axes), None)
        if where is None:
            fact = loaded.facts[by_path[at, ()].name]
        elif at[len(where)] == EVERY:
            continue
        else:
            axis, member, inner = axes[where], at[len(where)], at[len(where) + 1 :]
            fact = loaded.members[axis][member]["_".join(inner)]
        if isinstance(fact.value, tuple):
            assert written(fact) == [UNIT.sub("", item) for item in value], at
        else:
            text = ", ".join(value) if isinstance(value, list) else value
            said = text.replace("x", "×") if at[-1] == "thread" else text  # as people read a thread
            assert written(fact) == (UNIT.sub("", text) if isinstance(fact.value, Quantity) else said), at
        seen += 1
    assert seen >= 7


def test_every_holds_unless_a_member_says_otherwise(load: Load) -> None:
    more = """\
        cam:
          bearings:
            every: {block_bore: 57.00, block_hole: {clock: 4:30, diameter: 6}}
            1: {x: 10}
            2: {x: 20, block_bore: 56.4, block_hole: {clock: 6:00}}
            3:
        """
    bearings = teal(load, more).members["cam_bearing"]
    assert {member: written(facts["block_bore"]) for member, facts in bearings.items()} == {
        "1": "57.00",
        "2": "56.4",
        "3": "57.00",
    }
    assert written(bearings["2"]["block_hole_diameter"]) == "6"
    clock = bearings["1"]["block_hole_clock"].value
    assert isinstance(clock, Quantity)
    assert clock.dimension == CLOCK
    assert clock.value == 4.5 * 30  # 4:30 on a dial of 12 hours in 360 degrees
    assert "x" not in bearings["3"]


def test_every_holds_for_drillings_and_plugs_too(load: Load) -> None:
    more = """\
        passages:
          every: {diameter: 7, from: [0, 0, 9]}
          D1: {to: [0, 0, 40], opens: [deck, open]}
          D2: {to: [0, 0, 50], opens: [deck, open], diameter: 8}
        plugs: {every: {thread: M8x1, closes: D1}, P1: {at: [0, 0, 9]}}
        drain_plugs: {every: {thread: M14x1.5}, DW: {}}
        """
    loaded = teal(load, more)
    assert {id: (p.diameter, p.start) for id, p in loaded.passages.items()} == {
        "D1": (7, (0, 0, 9)),
        "D2": (8, (0, 0, 9)),
    }
    assert (loaded.plugs["P1"].thread, loaded.plugs["P1"].closes) == ("M8×1", ("D1",))
    assert loaded.drain_plugs["DW"].thread == "M14×1.5"


@pytest.mark.parametrize(("units", "unit"), [("", "mm"), ("units: {length: in}\n", "inch")])
def test_a_bare_number_takes_the_files_unit(load: Load, units: str, unit: str) -> None:
    """Converted by pint."""
    more = (
        units + "geometry: {bore: 3.874, stroke: 3 5/16 in}\nlimits: {main_cap_torque: 70 lbf·ft}\nblock: {mass: 78}\n"
    )
    loaded = teal(load, more)
    registry: Any = pint.UnitRegistry()
    want = {
        "geometry.bore": (registry.Quantity(3.874, unit).to("mm").m, LENGTH),
        "geometry.stroke": (registry.Quantity(3 + 5 / 16, "inch").to("mm").m, LENGTH),
        "limits.main_cap_torque": (registry.Quantity(70, "force_pound * foot").to("N*m").m * 1e6, TORQUE),
        "block.mass": (78, MASS),
    }
    for name, (value, dimension) in want.items():
        fact = loaded.fact(name)
        assert fact is not None
        assert isinstance(fact.value, Quantity)
        assert fact.value.value == pytest.approx(value, rel=1e-9), name
        assert fact.value.dimension == dimension, name


def test_a_limit_has_its_source(load: Load) -> None:
    more = "limits: {cylinder_taper_max: 0.08, cylinder_out_of_round_max: {is: 0.05, source: our book}}\n"
    loaded = teal(load, more)
    sources = {
        name: loaded.facts[f"limits.{name}"].source for name in ("cylinder_taper_max", "cylinder_out_of_round_max")
    }
    assert sources == {"cylinder_taper_max": "shop practice", "cylinder_out_of_round_max": "our book"}
    assert loaded.millimetres("limits.cylinder_out_of_round_max") == 0.05


def test_left_out_and_left_empty(load: Load) -> None:
    loaded = teal(load, "geometry:\n  bore: 76.20\n  stroke:\noversizes:\n")
    assert loaded.fact("geometry.rod_length") is None
    stroke = loaded.fact("geometry.stroke")
    assert stroke is not None
    assert stroke.value is None
    assert (stroke.place.line, stroke.place.column) >= (6, 3)
    assert loaded.members == {}


def test_a_variant_lies_over_the_family(load: Load) -> None:
    more = "geometry: {stroke: 80, bore: 90}\nvariants:\n  teal-9: {name: long, geometry: {stroke: 91.6}}\n"
    loaded = teal(load, more)
    (long,) = loaded.variants
    assert (long.id, long.name) == ("teal-9", "long")
    assert loaded.millimetres("geometry.stroke", long) == 91.6
    assert loaded.millimetres("geometry.bore", long) == 90


@pytest.mark.parametrize(
    ("more", "says"),
    [
        ("layout: {kind: vee, cylinders: 8}\ntraits: {block.material: iron}\n", "V8, iron block"),
        ("layout: {kind: inline, cylinders: 6}\ntraits: {block.material: aluminium}\n", "Inline six, aluminium block"),
        ("layout: {kind: vee}\n", "V engine"),
        ("layout: {cylinders: 3}\n", "Three cylinders"),
        ("layout: {cylinders: 1}\n", "One cylinder"),
        ("layout: {kind: inline, cylinders: 14}\n", "Inline 14"),
        ("traits: {block.material: iron}\n", "Iron block"),
        ("", ""),
        ("describe: Flathead six\nlayout: {kind: vee, cylinders: 8}\n", "Flathead six"),
    ],
)
def test_a_family_is_described_from_what_is_known(load: Load, more: str, says: str) -> None:
    assert teal(load, more).describe == says


def test_a_tiny_family_has_numbered_cylinders(load: Load) -> None:
    loaded = teal(load, "layout: {cylinders: 3}\ngeometry: {bore: 76.20, stroke: 88.9}\n")
    assert loaded.members == {"cylinder": {"1": {}, "2": {}, "3": {}}}
    assert loaded.layout.kind is None


def test_banks_are_those_that_cylinders_stand_in(load: Load) -> None:
    more = "cylinders: {A1: {bank: A}, B1: {bank: B}}\nlifters: {banks: {B: {x: [4, 5]}}}\n"
    assert {bank: sorted(own) for bank, own in teal(load, more).members["bank"].items()} == {"B": ["x"], "A": []}


def test_drillings_and_plugs_are_placed() -> None:
    """Every passage of the file is there, with its ends, and every plug closes one."""
    assert DEMO.workshop is not None
    for path in FAMILIES:
        data, loaded = plain(path), DEMO.workshop.families[path.stem]
        for id, spec in data.get("passages", {}).items():
            passage = loaded.passages[id]
            assert [str(opening) for opening in passage.opens] == spec["opens"]
            mm = 25.4 if data["units"]["length"] == "in" else 1
            assert passage.start == pytest.approx([float(n) * mm for n in spec["from"]])
            assert passage.end == pytest.approx([float(n) * mm for n in spec["to"]])
        assert set(loaded.plugs) == set(data.get("plugs", {})) - {"every"}
        assert {plug.closes[0] for plug in loaded.plugs.values()} <= set(loaded.passages)
        assert set(loaded.core_plugs) | set(loaded.drain_plugs) == {
            *data.get("core_plugs", {}),
            *data.get("drain_plugs", {}),
        }


def test_a_procedure_keeps_its_order_and_its_words() -> None:
    assert DEMO.workshop is not None
    for path in sorted((ROOT / "procedures/deck").glob("*.yaml")):
        data, loaded = plain(path), DEMO.workshop.procedures[path.stem]
        assert [step.id for step in loaded.steps] == [step["id"] for step in data["steps"]]
        assert [step.do.value for step in loaded.steps] == [step["do"] for step in data["steps"]]
        assert list(loaded.values) == list(data.get("values", {}))
        assert list(loaded.readings) == list(data.get("readings", {}))
        for name, decision in loaded.decisions.items():
            spec = data["decisions"][name]
            ids = [branch["id"] for branch in spec["branches"]] + (
                [spec["otherwise"]["id"]] if "otherwise" in spec else []
            )
            assert [branch.id for branch in decision.branches] == ids
            assert (decision.branches[-1].when is None) == ("otherwise" in spec)


AMENDED = procedure(
    values="\n  size: {title: Size, is: 3 mm, source: geometry, show: 0.1 mm}"
    "\n  slack: {title: Slack, formula: size - size, show: 0.1 mm}",
    steps="\n  - {id: look, do: Look all round it., right: You saw it.}\n  - {id: write, do: Write it down.}",
)


def test_an_amendment_is_loaded_like_a_procedure(load: Load) -> None:
    more = """\
        amend:
          look-see:
            cautions: {look: [eyes-chips]}
            before: {look: [{id: cool, do: Let it cool., when: cam.shells is fitted}]}
            replace: {look: {right: You saw {size}., because: It hides.}}
            drop: {write: There is nothing to write.}
            values:
              size: {is: 4 mm, source: our book}
              slack: {is: 1 mm, source: our book}
              extra: {title: Extra, is: 5 mm, source: our book}
        """.replace("right: You saw {size}.", 'right: "You saw {size}."')
    loaded = load({CARD: AMENDED, TEAL: family(more=more)})
    assert [str(p) for p in loaded.problems] == []
    assert loaded.workshop is not None
    change = loaded.workshop.families["teal"].amendments["look-see"]
    assert [ref.id for ref in change.cautions["look"]] == ["eyes-chips"]
    assert [step.id for step in change.before["look"]] == ["cool"]
    assert change.before["look"][0].when is not None
    assert {field: str(text) for field, text in change.replace["look"].items()} == {
        "right": "You saw {size}.",
        "because": "It hides.",
    }
    assert str(change.drop["write"]) == "There is nothing to write."
    size, slack, extra = (change.values[name] for name in ("size", "slack", "extra"))
    assert (size.title, size.source, size.fixed and size.fixed.value) == ("Size", "our book", 4.0)
    assert size.show is not None
    assert slack.formula is None
    assert slack.fixed is not None
    assert extra.title == "Extra"


def test_the_shop(load: Load) -> None:
    shop = (
        SHOP
        + """\
show: {length: in, also: in brackets}
theme: mono
stock: half-letter
read_from: {steps: 70 cm, title: 6 ft}
approved: {by: R. Teal, on: 2026-03-14}
guard: 0.5
gauges: {mine: {kind: bore_gauge, range: [50 mm, 150 mm], step: 0.001 mm, uncertainty: 4 µm}}
rules: {ridge_max: {title: Largest ridge, is: 0.006 in, source: shop practice}}
"""
    )
    loaded = load({"procedures/workshop.yaml": shop})
    assert [str(p) for p in loaded.problems] == []
    w = loaded.workshop
    assert w is not None
    assert (w.show, w.also, w.theme, w.stock, w.guard) == ({"length": "in"}, True, "mono", "half-letter", 0.5)
    assert (w.read_from.steps, w.read_from.values, w.read_from.title) == (700, 1000, pytest.approx(6 * 304.8))
    assert (w.approved_by, w.approved_on) == ("R. Teal", "2026-03-14")
    gauge = w.gauges["mine"]
    assert gauge.range is not None
    assert [end.value for end in gauge.range] == [50, 150]
    assert gauge.uncertainty is not None
    assert gauge.uncertainty.value == pytest.approx(0.004)
    assert w.rules["ridge_max"].value.value == pytest.approx(0.1524)  # 0.006 in × 25.4 mm


def test_a_workshops_own_entry_goes_before_the_packages(load: Load) -> None:
    own = """\
        format: cautions/1
        cautions:
          eyes-chips: {level: WARNING, symbol: [M004, W024], hazard: Chips fly., consequence: Eyes., avoid: Goggles.}
        """
    workshop = load({"shared/own.yaml": own}).workshop
    assert workshop is not None
    assert workshop.cautions["eyes-chips"].symbols == ("M004", "W024")
    assert workshop.cautions["eyes-chips"].place.path == "shared/own.yaml"
    assert len(workshop.cautions) > 5  # the package's others are still there
    assert {caution.place.path for caution in workshop.cautions.values()} == {
        "shared/own.yaml",
        "procgen/shared/cautions.yaml",
    }


def test_sources_are_what_was_read_each_file_once() -> None:
    read: dict[str, bytes] = {}

    def note(path: Path) -> bytes:
        shown = path.relative_to(ROOT).as_posix()
        assert shown not in read
        read[shown] = path.read_bytes()
        return read[shown]

    assert load_workshop(ROOT, note).sources == read
    assert len(read) >= 15
