"""Check rows of cylinders: displacement, compression, ring travel, a worn bore, cross-hatch, ring gaps."""

from __future__ import annotations

from functools import partial
from math import pi

from check_rows import CC, FT_MIN, INCH, REV_MIN, Row, said

from procgen.formula import Spread, known
from procgen.trade import crank, cylinder, honing, oversize, rings, travel
from procgen.units.dimension import LENGTH

GEOMETRY = "geometry, worked apart from this code"
PRACTICE = "common practice, no source; arithmetic by hand"
EXACT = "decimals by hand"
HEAT = "linear expansion, worked apart from this code"

DISPLACEMENTS = [  # bore, stroke, count, cm³
    (98.40, 84.20, 8, 5122.502237), (87.30, 97.80, 6, 3512.436439), (3.75 * INCH, 3.25 * INCH, 6, 3529.296765),
    (87.3, 88.0, 6, 3160.474505), (80.6, 74.6, 4, 1522.505197), (80.6, 66.0, 4, 1346.988512),
    (98.4, 90.2, 8, 5487.526149), (92.6, 79.4, 6, 3208.3638), (92.6, 71.4, 6, 2885.102964),
    (104.2, 91.6, 8, 6249.003673), (104.2, 83.2, 8, 5675.950935),
]  # fmt: skip
DROPS = [(0, 0, 194.7), (30, 7.099146504, 187.6008535), (90, 48.02229208, 146.6777079), (180, 84.2, 110.5)]
SETS = [  # a block of 234, a = 5.6, b = 23.9: stroke, rod, piston, top of travel, bottom, rise, meets the ridge
    (84.2, 152.6, 38.75, 6.150, 108.650, 0.0, False),
    (90.2, 152.6, 35.75, 6.150, 114.650, 0.0, False),
    (84.2, 153.1, 38.75, 5.650, 108.150, 0.5, True),
    (84.2, 152.6, 38.25, 6.650, 109.150, -0.5, False),
    (87.2, 152.6, 38.75, 4.650, 110.150, 1.5, True),
]
STROKES = [  # each invented variant: block height, deck clearance, stroke, rod, piston
    (265.0, 0.40, 97.8, 171.5, 44.2), (265.0, 0.40, 88.0, 176.4, 44.2), (205.2, 0.30, 74.6, 131.4, 36.2),
    (205.2, 0.30, 66.0, 131.4, 40.5), (234.0, 0.55, 84.2, 152.6, 38.75), (234.0, 0.55, 90.2, 152.6, 35.75),
    (220.4, 0.60, 79.4, 146.2, 33.9), (220.4, 0.60, 71.4, 150.2, 33.9), (245.9, 0.40, 91.6, 158.4, 41.3),
    (245.9, 0.40, 83.2, 162.6, 41.3),
]  # fmt: skip
READ = {  # depth: thrust, axial
    3: (98.412, 98.410), 12: (98.498, 98.462), 40: (98.470, 98.448), 75: (98.446, 98.436), 105: (98.430, 98.424),
    120: (98.408, 98.408),
}  # fmt: skip


def _bore(first: int = 0, last: int = 200) -> Spread:
    """The readings of one worn bore at the depths (mm) from `first` to `last`."""
    return Spread(
        ("depth", "axis"),
        {(str(z), axis): known(d) for z, both in READ.items() if first <= z <= last
         for axis, d in zip(("thrust", "axial"), both, strict=True)},
        LENGTH,
    )  # fmt: skip


IN_TRAVEL, ABOVE, BELOW = _bore(7, 108), _bore(0, 6), _bore(109)
OFFERED = (0.25, 0.50, 0.75, 1.00)
TO_CLEAN = {"margin": "0.030 mm", "stock": "0.080 mm", "nominal": "98.40 mm", "offered": OFFERED}
ALIKE = "next_up(offered, largest + margin + stock - nominal)"
ONE_WALL = "next_up(offered, unworn + 2 * (largest - unworn) + margin + stock - nominal)"


def _rise(stroke: float, rod: float, piston: float) -> float:
    was = travel.ring_height_top(*SETS[0][:3], 5.6)
    return travel.ring_height_top(stroke, rod, piston, 5.6) - was


def _left(bore: float, deck_clearance: float) -> float:
    return cylinder.clearance_volume(58e3, 100.5, 1.10, bore, deck_clearance, 6e3)


ENGINE = [
    *(Row(f"displacement {b:g} x {s:g} x {n}", GEOMETRY, partial(cylinder.displacement, b, s, n), cc * CC)
      for b, s, n, cc in DISPLACEMENTS),
    Row("the same in cubic inches", "geometry", lambda: cylinder.displacement(3.75, 3.25, 6), 215.3709026),
    Row("swept volume", GEOMETRY, lambda: cylinder.swept_volume(98.40, 84.20) / CC, 640.3127796),
    Row("volume over the piston", GEOMETRY, lambda: _left(98.40, 0.55) / CC, 76.90855524),
    Row("compression", GEOMETRY,
        lambda: cylinder.compression_ratio(cylinder.swept_volume(98.40, 84.2), _left(98.40, 0.55)), 9.325637864),
    Row("compression, bored and decked", GEOMETRY,
        lambda: cylinder.compression_ratio(cylinder.swept_volume(98.90, 84.2), _left(98.90, 0.35)), 9.577057416),
    *(Row(f"stack of {parts}", EXACT, partial(cylinder.stack_height, *parts, d), h) for h, d, *parts in STROKES),
    *(Row(f"deck clearance of {parts}", EXACT, partial(travel.crown_below_deck, h, *parts), d)
      for h, d, *parts in STROKES),
    *(Row(f"piston drop at {a}°", GEOMETRY, partial(crank.piston_drop, 84.2, 152.6, 0, a), x) for a, x, _ in DROPS),
    *(Row(f"pin height at {a}°", GEOMETRY, lambda a=a: 42.1 + 152.6 - crank.piston_drop(84.2, 152.6, 0, a), h)
      for a, _, h in DROPS),
    Row("pin height at the top, offset 0.8", GEOMETRY + "; minimiser",
        lambda: 42.1 + (152.6**2 - 0.8**2) ** 0.5 + crank.piston_drop(84.2, 152.6, 0.8, 0), 194.6983564),
    Row("top angle, offset 0.8", GEOMETRY + "; minimiser", lambda: crank.top_angle(84.2, 152.6, 0.8), -0.2354224581),
    Row("stroke, offset 0.8", GEOMETRY, lambda: crank.offset_stroke(84.2, 152.6, 0.8), 84.2012524),
    *(Row(f"top of travel of {s}", EXACT, lambda s=s: 234 - travel.ring_height_top(*s, 5.6), top)
      for *s, top, _, _, _ in SETS),
    *(Row(f"bottom of travel of {s}", EXACT, lambda s=s: 234 - travel.ring_height_bottom(*s, 23.9), bottom)
      for *s, _, bottom, _, _ in SETS),
    *(Row(f"rise of {s}", EXACT, lambda s=s: _rise(*s), rise, abs=1e-9) for *s, _, _, rise, _ in SETS),
    *(Row(f"does {s} meet the old ridge", PRACTICE, lambda rise=rise: said("rise > 0", rise=f"{rise} mm"), meets)
      for *s, _, _, rise, meets in SETS),
    Row("crown over the deck", EXACT, lambda: travel.crown_below_deck(234, 87.2, 152.6, 38.75), -0.95),
]  # fmt: skip

WORN = [
    *(Row(f"out of round at {z}", EXACT, lambda z=z: said("abs(bore[thrust] - bore[axial])", bore=Spread(
        ("axis",), dict(zip((("thrust",), ("axial",)), map(known, READ[z]), strict=True)), LENGTH)), want)
      for z, want in ((12, 0.036), (40, 0.022), (75, 0.010), (105, 0.006))),
    Row("out of round", EXACT, lambda: said("max(abs(bore[thrust] - bore[axial]))", bore=IN_TRAVEL), 0.036),
    Row("taper, thrust", EXACT, lambda: said("span(bore[thrust])", bore=IN_TRAVEL), 0.068),
    Row("taper, axial", EXACT, lambda: said("span(bore[axial])", bore=IN_TRAVEL), 0.038),
    Row("taper if the bands are let in, wrongly", EXACT, lambda: said("span(bore[thrust])", bore=_bore()), 0.090),
    Row("unworn", EXACT, lambda: said("mean(bore)", bore=BELOW), 98.408),
    Row("wear", EXACT, lambda: said("max(bore) - mean(foot)", bore=IN_TRAVEL, foot=BELOW), 0.090),
    Row("ridge on diameter", EXACT,
        lambda: said("max(bore[thrust]) - mean(top[thrust])", bore=IN_TRAVEL, top=ABOVE), 0.086),
    Row("ridge, radial", EXACT,
        lambda: said("(max(bore[thrust]) - mean(top[thrust])) / 2", bore=IN_TRAVEL, top=ABOVE), 0.043),
    Row("size to clean, worn alike", PRACTICE, lambda: oversize.clean_up_size(98.408, 98.498, 0.5, 0.03, 0.08), 98.608),
    Row("size to clean, one wall", PRACTICE, lambda: oversize.clean_up_size(98.408, 98.498, 1, 0.03, 0.08), 98.698),
    *(Row(f"oversize, worn alike to {worn}", PRACTICE, lambda worn=worn: said(ALIKE, largest=worn, **TO_CLEAN), want)
      for worn, want in (("98.498 mm", 0.25), ("98.720 mm", 0.50), ("99.350 mm", None))),
    Row("oversize, one wall", PRACTICE,
        lambda: said(ONE_WALL, largest="98.498 mm", unworn="98.408 mm", **TO_CLEAN), 0.50),
    *(Row(f"bore to, +{o}", EXACT, lambda o=o: said("nominal + offered - stock", nominal="98.40 mm",
          offered=f"{o} mm", stock="0.080 mm"), want) for o, want in ((0.25, 98.570), (0.50, 98.820))),
]  # fmt: skip

PAGE = "geometry; a published page gives 32°"
INCLUDED = partial(honing.hatch_angle, 4 * INCH, 200 * REV_MIN, 6 * INCH, 1)
HATCH = [
    Row("stone round the bore", PAGE, lambda: honing.rim_speed(4 * INCH, 200 * REV_MIN) / FT_MIN, 209.4395102),
    Row("stone along the bore", PAGE, lambda: honing.stroke_speed(6 * INCH, 1) / FT_MIN, 60),
    Row("included angle", PAGE, INCLUDED, 31.97178081),
    Row("from the horizontal", PAGE, lambda: INCLUDED() / 2, 15.98589041),
    Row("across the axis", PAGE, lambda: honing.hatch_supplement(INCLUDED()), 148.0282192),
    Row("stone round the bore, m/min", GEOMETRY, lambda: honing.rim_speed(98.4, 3) * 60 / 1000, 55.64388908),
    Row("stone along the bore, m/min", GEOMETRY, lambda: honing.stroke_speed(110, 55 * REV_MIN) * 60 / 1000, 12.1),
    Row("included angle, metric", GEOMETRY, lambda: honing.hatch_angle(98.4, 3, 110, 55 * REV_MIN), 24.53643458),
    Row("cycles for 45°", GEOMETRY, lambda: honing.hatch_cycles(98.4, 3, 110, 45) * 60, 104.7656978),
    Row("passes counted for cycles", GEOMETRY, lambda: said("hatch_angle(bore, spindle, stroke, passes / 2)",
        bore="98.4 mm", spindle="180 rev/min", stroke="110 mm", passes="110 /min"), 24.53643458),
    Row("both speeds alike", "geometry", lambda: honing.hatch_angle(100 / pi, 1, 50, 1), 90),
    Row("both speeds alike, spindle", "geometry", lambda: honing.hatch_spindle(100 / pi, 1, 50, 90), 1),
    Row("roughness 32 µin, µm", "inch by definition", lambda: said("ra", ra="32 µin"), 0.8128e-3),
]  # fmt: skip

GAPS = [
    Row("least gap", PRACTICE, lambda: said("bore * k", bore="98.65 mm", k=0.0040), 0.3946),
    Row("gap of a thou more bore, in", "geometry", lambda: rings.gap_growth(0.001 * INCH) / INCH, 0.003141592654),
    Row("a standard ring in +0.50", "geometry", lambda: rings.gap_growth(0.50), 1.570796327),
    Row("gap through the taper", GEOMETRY, lambda: rings.gap_growth(98.480 - 98.427), 0.1665044106),
    Row("gap at the top", GEOMETRY, lambda: rings.gap_elsewhere(0.40, 98.427, 98.480), 0.5665044106),
    Row("hot gap", HEAT, lambda: rings.hot_gap(0.40, 100, 11.4e-6, 180, 11.4e-6, 100), 0.11430755),
    Row("hot gap, its own metal neglected", HEAT,
        lambda: 0.40 - rings.gap_closing(100, 11.4e-6, 180, 11.4e-6, 100), 0.11348675),
    Row("closing", HEAT, lambda: rings.gap_closing(100, 11.4e-6, 180, 11.4e-6, 100), 0.28651325),
    Row("cold gap for that hot one", HEAT, lambda: rings.cold_gap(0.11430755, 100, 11.4e-6, 180, 11.4e-6, 100), 0.40),
]  # fmt: skip

ROWS = [*ENGINE, *WORN, *HATCH, *GAPS]
