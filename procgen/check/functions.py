"""The functions that formulas may call, told for whoever writes one: what each takes and gives, its rule, an example.

The examples are worked out here, from figures that an engine of a car's size may have.
"""

from __future__ import annotations

import re
from decimal import Decimal
from math import floor, log10

from procgen.model.formula import Function, Parameter
from procgen.trade.registry import FUNCTIONS
from procgen.units.dimension import Dimension
from procgen.units.printing import shown
from procgen.units.quantity import Show, parse_quantity
from procgen.units.table import usual

_DIGITS = 4
_FINEST = Decimal("0.001")
_PLAIN = re.compile(r"[\d.]+")
_KG_M3 = 1e-9  # kg/mm³; density has no unit of its own, since no file states one
_SAMPLES = {
    "along": "1.0 mm", "angle": "45 deg", "apart": "2.0 mm", "area": "7.07 mm²", "block_height": "234.95 mm",
    "block_hole_diameter": "8.0 mm", "bore": "98.40 mm", "bore_bottom": "140.0 mm", "bore_closing.pressure": "10 MPa",
    "bore_growth": "0.05 mm", "bore_here": "98.45 mm", "bore_length": "140.0 mm", "bore_there": "98.40 mm",
    "boss_hoop.pressure": "10 MPa", "chamber": "58 cm³", "chance": "95 %", "clearance": "0.075 mm",
    "compression_height": "42.0 mm", "compression_ratio.clearance": "90 cm³", "count": "8", "crown_to_edge": "6.0 mm",
    "cycles": "46 /min", "deck_clearance": "0.55 mm", "diameter": "62.0 mm", "discharge": "0.62", "dish": "6 cm³",
    "eccentricity": "0.6", "expansion": "11.4 µm/(m·K)", "first": "0.02 mm", "first_diameter": "8.0 mm",
    "flow": "1 L/min", "fourth": "0.01 mm", "friction": "0.12", "gap": "0.40 mm", "gasket_bore": "100.0 mm",
    "gasket_thickness": "1.2 mm", "growth.size": "98.40 mm", "hand_tight": "6.1 mm", "hatch_angle.stroke": "111 mm",
    "hatch_cycles.stroke": "111 mm", "hatch_spindle.stroke": "111 mm", "heat_to_free.gap": "0.02 mm",
    "heat_to_free.size": "41.30 mm", "height": "600 mm", "high": "0.080 mm", "hole_expansion": "21.5 µm/(m·K)",
    "hot": "0.25 mm", "inner_bore": "57.0 mm", "inner_modulus": "200 GPa", "inner_poisson": "0.3",
    "interference": "0.06 mm", "land": "9 mm", "largest": "98.52 mm", "leg_angle.length": "700 mm", "legs": "2",
    "length": "300 mm", "level": "90 dB(A)", "light_stations.pitch": "25.4 mm", "limit": "0.050 mm", "load": "6 kN",
    "low": "0.030 mm", "major": "11.0 mm", "margin": "0.02 mm", "mass": "78 kg", "modulus": "200 GPa",
    "new_clearance": "0.030 mm", "nut_factor": "0.2", "offset": "0.8 mm", "one_wall": "1",
    "outer_diameter": "90.0 mm", "outer_modulus": "110 GPa", "outer_poisson": "0.26", "over_travel": "18 mm",
    "overhang": "260 mm", "overlap": "80 %", "part_expansion": "11.4 µm/(m·K)", "passage.diameter": "10.0 mm",
    "per_inch": "14", "pitch": "1.5 mm", "preload": "40 kN", "press_force.length": "22 mm",
    "press_force.pressure": "10 MPa", "pressure": "300 kPa", "radial_clearance": "0.030 mm", "radius": "29.0 mm",
    "rating": "1000 kg", "reynolds_number": "800", "rim_speed.diameter": "98.40 mm",
    "ring_expansion": "11.4 µm/(m·K)", "ring_hoop.pressure": "10 MPa", "ring_warmer": "120 Δ°C",
    "ring_width": "1.6 mm", "rod_length": "150.0 mm", "second": "0.05 mm", "second_diameter": "7.0 mm",
    "shell_hole_diameter": "7.0 mm", "size": "0.040 mm", "size_at_20.size": "98.40 mm", "speed": "3000 rev/min",
    "spindle": "80 rev/min", "stock": "0.08 mm", "stone_length": "60 mm", "stroke": "84.20 mm",
    "stroke_speed.stroke": "111 mm", "swept": "640 cm³", "temperature": "28 °C", "third": "0.01 mm", "time": "2 h",
    "torque": "105 N·m", "travel_bottom": "108.65 mm", "travel_top": "6.15 mm", "turned": "2.5 deg", "turns": "3",
    "uncertainty": "0.006 mm", "unworn": "98.40 mm", "viscosity": "10.5 mPa·s", "wall_expansion": "11.4 µm/(m·K)",
    "wall_warmer": "60 Δ°C", "warm_interference.size": "53.90 mm", "warmer": "60 Δ°C", "width": "22 mm",
}  # fmt: skip
"""A figure for each name that a function gives what it takes; "function.name" where that one needs another."""
_NARROW = ("laminar_drop", "least_drop", "reynolds", "entrance_length")  # whose diameter is a passage's


Told = tuple[str, str, str, str]
"""The call as it is written, with the names of what it takes; what it gives; by whose rule; figures for what it takes,
and what they come to."""


def told() -> tuple[Told, ...]:
    """All, by name."""
    return tuple(_told(FUNCTIONS[name]) for name in sorted(FUNCTIONS))


def _told(function: Function) -> Told:
    samples = [_sample(function.name, parameter) for parameter in function.takes]
    found = function.call(*(base for _, base in samples))
    texts = ", ".join(_printed(one, function.gives) for one in (found if function.gives_list else (found,)))
    unit = usual(function.gives).symbol
    gives = f"{texts}{'' if unit in ('', '°') else ' '}{unit}"
    names = ", ".join(parameter.name for parameter in function.takes)
    says = re.sub(r"\s+", " ", (function.call.__doc__ or "").replace("`", "")).replace("ValueError", "Refused").strip()
    return f"{function.name}({names})", says, function.source, f"{'; '.join(t for t, _ in samples)} → {gives}"


def _sample(function: str, parameter: Parameter) -> tuple[str, float]:
    """As it is written, and in base units."""
    if parameter.name == "density":
        return "890 kg/m³", 890 * _KG_M3
    own = "passage" if function in _NARROW and parameter.name == "diameter" else function
    text = _SAMPLES.get(f"{own}.{parameter.name}") or _SAMPLES[parameter.name]
    return text.replace(" deg", "°"), float(text) if _PLAIN.fullmatch(text) else parse_quantity(text).value


def _printed(value: float, dimension: Dimension) -> str:
    """To four digits at most, in the unit that the dimension usually has."""
    unit = usual(dimension)
    number = abs(float(unit.from_base(value)))
    step = Decimal(1).scaleb(floor(log10(number)) + 1 - _DIGITS) if number else Decimal(1)
    least = _FINEST if number >= 10 * _FINEST else step
    return shown(value, Show(min(max(step, least), Decimal(1)), unit))
