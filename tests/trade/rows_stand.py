"""Check rows of gauges, slings, noise, deck faces, units and rounding."""

from __future__ import annotations

from functools import partial

from check_rows import LBF_FT, N_M, N, Row, judged, said

from procgen.trade import flatness, gauging, lifting, noise
from procgen.units.printing import shown
from procgen.units.quantity import parse_quantity, parse_show

EXACT = "decimals by hand"
GUARD = "ISO 14253-1 and ILAC-G8, as quoted; decimals by hand"
JCGM = "JCGM 106 examples, from memory; normal distribution integrated apart from this code"
GUM = "JCGM 100, from memory; arithmetic by hand"

UPPER = [
    ("98.475", "accept"), ("98.476", "accept"), ("98.478", "undecided"), ("98.484", "undecided"), ("98.485", "reject"),
]  # fmt: skip
BOTH = [
    ("0.018", "reject"), ("0.019", "undecided"), ("0.030", "undecided"), ("0.031", "accept"), ("0.059", "accept"),
    ("0.060", "undecided"), ("0.071", "undecided"), ("0.072", "reject"),
]  # fmt: skip
TEMPERATURE = "growth(bore, a, two) / sqrt(3)"
BUDGET = f"sqrt(repeat * repeat + ring * ring + step * step / 12 + {TEMPERATURE} * {TEMPERATURE})"
WARM = {"bore": "98.4 mm", "a": "0.0000114 1/K", "two": "2 K"}
GAUGE = {"repeat": "0.0008 mm", "ring": "0.001 mm", "step": "0.001 mm", **WARM}
CLEARANCE = {"low": "0.025 mm", "high": "0.065 mm"}
COARSE = "high - low < 2 * g"


def _plainly(size: str) -> str:
    given = {"size": f"{size} mm", "g": "0.006 mm", **CLEARANCE}
    if said("low + g <= size and size <= high - g", **given):
        return "accept"
    return "reject" if said("size < low - g or size > high + g", **given) else "undecided"


GAUGES = [
    *(Row(f"{y} against 98.480 at most", GUARD, lambda y=y: judged(f"{y} mm", 0.004, high="98.480 mm"), want)
      for y, want in UPPER),
    *(Row(f"{y} in 0.025 to 0.065", GUARD, lambda y=y: judged(f"{y} mm", 0.006, "0.025 mm", "0.065 mm"), want)
      for y, want in BOTH),
    *(Row(f"{y} by the plain formulas", GUARD, partial(_plainly, y), want) for y, want in BOTH),
    Row("gauge not good enough", GUARD, lambda: said(COARSE, g="0.025 mm", **CLEARANCE), True),
    Row("gauge good enough", GUARD, lambda: said(COARSE, g="0.020 mm", **CLEARANCE), False),
    Row("then nothing is accepted", GUARD,
        lambda: any(judged(f"{y / 1000} mm", 0.025, "0.025 mm", "0.065 mm") == "accept" for y in range(100)), False),
    Row("chance, one upper limit", JCGM, lambda: gauging.chance_at_most(-5.47, -5.40, 0.05), 0.9192433408),
    Row("chance, one lower limit", JCGM, lambda: gauging.chance_at_least(509.7, 490, 8.6), 0.9890095474),
    Row("chance, both limits", JCGM, lambda: gauging.chance_within(13.6, 12.5, 16.3, 1.8), 0.6626297865),
    Row("guard for 95 %", JCGM, lambda: gauging.guard_factor(0.95), 1.644853627),
    Row("1.65 guards", JCGM, lambda: gauging.chance_at_most(-1.65, 0, 1), 0.950528532),
    Row("2 guards", JCGM, lambda: gauging.chance_at_most(-2, 0, 1), 0.9772498681),
    Row("95 % of 2 guards", JCGM, lambda: gauging.guard_factor(0.9772498681), 2, rel=1e-8),
    Row("temperature, ± 2 K taken as even", GUM, lambda: said(TEMPERATURE, **WARM), 0.001295296876),
    Row("resolution", GUM, lambda: said("step / sqrt(12)", step="0.001 mm"), 0.0002886751346),
    Row("bore gauge, combined", GUM, lambda: said(BUDGET, **GAUGE), 0.001844214556),
    Row("bore gauge, expanded", GUM, lambda: said(f"2 * {BUDGET}", **GAUGE), 0.003688429113),
    Row("bore gauge, guard for 95 %", GUM, lambda: said(f"guard_factor(sure) * {BUDGET}", sure="95 %", **GAUGE),
        0.003033463002),
    Row("clearance, expanded", GUM, lambda: said("sqrt(b * b + j * j)", b="0.004 mm", j="0.0045 mm"), 0.0060208,
        abs=5e-8),
]  # fmt: skip

FACTORS = [
    (90, 1, 1), (75, 1.03527618, 0.9659258263), (60, 1.154700538, 0.8660254038), (50, 1.305407289, 0.7660444431),
    (45, 1.414213562, 0.7071067812), (40, 1.555723827, 0.6427876097), (30, 2, 0.5), (20, 2.9238044, 0.3420201433),
]  # fmt: skip
RIGGING = "rigging tables: 60° 1.155, 45° 1.414, 30° 2; the rest by sine tables"
SLINGS = [
    *(Row(f"pull at {a}°", RIGGING, lambda a=a: lifting.leg_tension(1, 1, a) / lifting.GRAVITY, factor)
      for a, factor, _ in FACTORS),
    *(Row(f"capacity at {a}°", RIGGING, partial(lifting.sling_capacity, 1, 1, a), share) for a, _, share in FACTORS),
    *(Row(f"92 kg on two legs at {a}°", "geometry, worked apart from this code",
          lambda a=a: lifting.leg_tension(92, 2, a) / N, want)
      for a, want in ((60, 520.8922256), (45, 637.9600818), (30, 902.2118))),
    Row("the same in kilograms", "geometry", lambda: lifting.leg_tension(92, 2, 60) / lifting.GRAVITY, 53.11622477),
    Row("at 30° each leg pulls it all", "geometry", lambda: lifting.leg_tension(92, 2, 30) / lifting.GRAVITY, 92),
    Row("leg 600, height 520", "length over height",
        lambda: lifting.leg_tension(1, 1, lifting.leg_angle(600, 520)) / lifting.GRAVITY, 1.153846154),
    Row("stand moment", "78 kg · 9.80665 · 0.30 m", lambda: lifting.stand_moment(78, 300) / N_M, 229.47561),
]  # fmt: skip

HOURS = [(85, 16), (90, 8), (92, 6.06287), (95, 4), (97, 3.03143), (100, 2), (105, 1), (110, 0.5), (115, 0.25)]
OSHA = "29 CFR 1910.95 Table G-16 (rows for 92 and 97 dB print 6 and 3 h), formula from memory"


def _hours(level: float) -> int:
    return round(noise.noise_time(level) / 3600)


NOISE = [
    *(Row(f"hours at {level} dB(A)", OSHA, lambda level=level: noise.noise_time(level) / 3600, hours, abs=6e-6)
      for level, hours in HOURS),
    *(Row(f"printed hours at {level}", "29 CFR 1910.95 Table G-16, whole hours", partial(_hours, level), h)
      for level, h in ((90, 8), (92, 6), (95, 4), (97, 3), (100, 2), (105, 1))),
    Row("2 h at 95, 3 h at 92", OSHA, lambda: said("noise_dose(a, long) + noise_dose(b, longer)",
        a="95 dB(A)", long="2 h", b="92 dB(A)", longer="3 h"), 0.9948154665),
    Row("eight hours at the action level", "29 CFR 1910.95: half", partial(noise.noise_dose, 85, 8 * 3600), 0.5),
]  # fmt: skip

FEELERS = [("0.04", "0.05", "accept"), ("0.05", "0.06", "undecided"), ("0.06", "0.07", "reject")]
PLANES = "linear programme, worked apart from this code"
FACE = "common practice, no source; by hand"


def _by_blades(go: str, no_go: str) -> str:
    """What the one of the three formulas that holds says of a gap that blade `go` enters and `no_go` does not."""
    given = {"go": f"{go} mm", "no_go": f"{no_go} mm", "limit": "0.05 mm"}
    words = {"no_go <= limit": "accept", "go <= limit and no_go > limit": "undecided", "go > limit": "reject"}
    return " ".join(word for formula, word in words.items() if said(formula, **given))


FACES = [
    Row("twist of four corners", PLANES, partial(flatness.corner_twist, 0, 0.05, 0.02, 0.09), 0.06),
    Row("the same by the plain formula", PLANES, lambda: said(
        "abs(a - b + c - d) / 2", a="0 mm", b="0.05 mm", c="0.02 mm", d="0.09 mm"), 0.06),
    *(Row(f"{go} passes, {no_go} does not", FACE, partial(_by_blades, go, no_go), want) for go, no_go, want in FEELERS),
    Row("0.10 over 500 is this over 150", "geometry", lambda: said("limit * piece / whole",
        limit="0.10 mm", piece="150 mm", whole="500 mm"), 0.03),
]  # fmt: skip

UNITS = [  # written, base units, exactly
    ("1 in", "25.4"), ("1 thou", "0.0254"), ("1 µin", "0.0000254"), ("1 lb", "0.45359237"),
    ("1 lbf", "4448.2216152605"),
    ("1 lbf·ft", "1355817.9483314004"), ("1 lbf·in", "112984.8290276167"), ("1 psi", "6.894757293168361"),
    ("1 in³", "16387.064"), ("1 US gal", "3785411.784"), ("1 bar", "100"), ("1 kgf·m", "9806650"),
    ("1 psi·s", "6.894757293168361"), ("30 psi", "206.8427188"), ("45 psi", "310.2640782"), ("32 °F", "273.15"),
    ("1.8 Δ°F", "1"),
]  # fmt: skip
CONVERTED = "definitions of inch, pound and standard gravity"
HALF_EVEN = [
    ("12.25", "0.1", "12.2"), ("12.35", "0.1", "12.4"), ("98.4055", "0.001", "98.406"), ("98.4065", "0.001", "98.406"),
    ("-0.25", "0.1", "−0.2"), ("2.500001", "1", "3"), ("12.2499", "0.1", "12.2"),
]  # fmt: skip
WRITTEN = [
    *(Row(written, CONVERTED, lambda w=written: parse_quantity(w).value, float(base)) for written, base in UNITS),
    Row("65 lbf·ft in N·m", CONVERTED, lambda: 65 * LBF_FT / N_M, 88.12816664),
    *(Row(f"{value} to {step}", "ASTM E29 rounding method; ISO 80000-1 rule A",
          lambda value=value, step=step: shown(parse_quantity(f"{value} mm").value, parse_show(f"{step} mm")), want)
      for value, step, want in HALF_EVEN),
]  # fmt: skip

ROWS = [*GAUGES, *SLINGS, *NOISE, *FACES, *WRITTEN]
