"""Check rows of bearings, oil holes, plug threads, drills, bolts, press fits and heat."""

from __future__ import annotations

from functools import partial

from check_rows import IN2, INCH, KN, LBF, LBF_FT, MPA, N_M, PSI, N, Row, said

from procgen.trade import bearings, bolts, drills, fits, heat, oiling, threads

EXACT = "decimals by hand"
GEOMETRY = "geometry, worked apart from this code"
LAME = "Lamé's thick cylinder, worked apart from this code"
HEAT = "linear expansion, worked apart from this code"
OILED = "laminar flow through a narrow gap; film integrated with ε 0.6 and 0"

CLEARANCE = "housing - 2 * wall - journal"
BEARINGS = [
    Row("main clearance", EXACT,
        lambda: said(CLEARANCE, housing="66.200 mm", wall="2.076 mm", journal="62.000 mm"), 0.048),
    Row("wall of an undersize shell", EXACT, lambda: said("wall + u / 2", wall="2.076 mm", u="0.25 mm"), 2.201),
    Row("bush in place", EXACT, lambda: said("block - 2 * wall", block="54.000 mm", wall="2.725 mm"), 48.550),
    Row("bush lying free", EXACT, lambda: said("od - 2 * wall", od="54.065 mm", wall="2.725 mm"), 48.615),
    Row("cam clearance with it", EXACT,
        lambda: said(CLEARANCE, housing="54.000 mm", wall="2.725 mm", journal="48.500 mm"), 0.050),
    Row("bush closes by its grip", EXACT, lambda: said("(od - 2 * wall) - (block - 2 * wall)", od="54.065 mm",
        block="54.000 mm", wall="2.725 mm"), 0.065),
    Row("leak at twice the clearance", OILED, lambda: bearings.leak_ratio(0.096, 0.048), 1.053114134 / 0.1316392667),
]  # fmt: skip

HOLES = [  # radii, distance, area, open share
    (1, 1, 1, 1.228369699, 0.391002219), (3, 3, 0, 28.27433388, 1),
    (3, 3, 2.356194490192345, 14.50942785, 0.5131660363), (3, 2.5, 2.356194490192345, 11.08384665, 0.5644956746),
    (4, 3, 0.9, 28.27433388, 1), (4, 3, 1.0, 28.27433388, 1), (3, 3, 6, 0, 0), (3.25, 3, 2, 18.34263048, 0.6487378468),
]  # fmt: skip
LENS = "lens area by quadrature; a public reference prints 1.22837 for unit circles"
OIL_HOLES = [
    Row("pressure to prime with cold oil", "laminar pipe flow: 57693.66687 Pa cold, 1989.436789 Pa hot, same flow",
        lambda: said("cold / hot", cold="290 mPa·s", hot="10.0 mPa·s"), 57693.66687 / 1989.436789),
    *(Row(f"lens {r}, {s}, {d:.3g}", LENS, partial(oiling.lens_area, 2 * r, 2 * s, d), area)
      for r, s, d, area, _ in HOLES),
    *(Row(f"open {r}, {s}, {d:.3g}", LENS, partial(oiling.hole_overlap, 2 * r, 2 * s, d), share)
      for r, s, d, _, share in HOLES),
    Row("arc of 5° on 27", GEOMETRY, lambda: oiling.hole_offset(27, 5, 0), 2.35619449),
    Row("arc over chord below 0.04 %", GEOMETRY, lambda: oiling.hole_offset(27, 5, 0) / 2.355446918 < 1.0004, True),
    Row("6 on 6 shut, deg", GEOMETRY, lambda: oiling.clock_error_max(6, 6, 27, 0), 12.73239545),
    Row("6 on 6 shut, minutes of clock", GEOMETRY, lambda: oiling.clock_error_max(6, 6, 27, 0) * 2, 25.4647909),
    *(Row(f"clock {written}", "clock face", lambda w=written: said("later - noon", later=w, noon="12:00"), deg)
      for written, deg in (("4:30", 135.0), ("6:00", 180.0), ("10:15", 307.5), ("1:30", 45.0))),
]  # fmt: skip

NPT = [  # inches, as tabled: E0, L1 and turns, E1, L2 and turns
    ("1/16-27", 0.27118, 0.1600, 4.32, 0.28118, 0.2611, 7.05), ("1/8-27", 0.36351, 0.1615, 4.36, 0.37360, 0.2639, 7.12),
    ("1/4-18", 0.47739, 0.2278, 4.10, 0.49163, 0.4018, 7.23), ("3/8-18", 0.61201, 0.2400, 4.32, 0.62701, 0.4078, 7.34),
    ("1/2-14", 0.75843, 0.3200, 4.48, 0.77843, 0.5337, 7.47), ("3/4-14", 0.96768, 0.3390, 4.75, 0.98887, 0.5457, 7.64),
    ("1-11.5", 1.21363, 0.4000, 4.60, 1.23863, 0.6828, 7.85),
]  # fmt: skip
ISO7 = [  # mm: pitch, d2, d1
    ("1/16", 0.9071, 7.142, 6.561), ("1/8", 0.9071, 9.147, 8.566), ("1/4", 1.3368, 12.301, 11.445),
    ("3/8", 1.3368, 15.806, 14.950), ("1/2", 1.8143, 19.793, 18.631), ("3/4", 1.8143, 25.279, 24.117),
    ("1", 2.3091, 31.770, 30.291),
]  # fmt: skip
METRIC = [  # mm: D2, D1, tap drill
    ("M8x1", 7.350, 6.917, 7), ("M10x1", 9.350, 8.917, 9), ("M12x1.25", 11.188, 10.647, 10.75),
    ("M12x1.5", 11.026, 10.376, 10.5), ("M14x1.5", 13.026, 12.376, 12.5), ("M16x1.5", 15.026, 14.376, 14.5),
    ("M18x1.5", 17.026, 16.376, 16.5), ("M20x1.5", 19.026, 18.376, 18.5), ("M22x1.5", 21.026, 20.376, 20.5),
]  # fmt: skip
B1201, ISO_7 = "ASME B1.20.1 as tabled, to its digits", "ISO 7-1 as tabled, to its digits"
ARITHMETIC = "ASME B1.20.1, arithmetic by hand"
ISO724 = "formulas of ISO 724, from memory; M10x1 as tabled"


def _npt(size: str) -> threads.Thread:
    return threads.parse(f"{size} NPT")


def _hand_tight(size: str) -> float:
    return _npt(size).hand_tight or 0.0


def _gauge_plane(size: str) -> float:
    return _npt(size).pitch_diameter + _hand_tight(size) / 16


THREADS = [
    *(row for size, e0, l1, turns1, e1, l2, turns2 in NPT for row in (
        Row(f"E0 of {size}", B1201, lambda s=size: _npt(s).pitch_diameter / INCH, e0, abs=1.1e-5),
        Row(f"L1 of {size}", B1201, lambda s=size: _hand_tight(s) / INCH, l1, abs=1e-9),
        Row(f"L1 of {size} in turns", B1201, lambda s=size: _hand_tight(s) / _npt(s).pitch, turns1, abs=6e-3),
        Row(f"E1 of {size}", B1201, lambda s=size: _gauge_plane(s) / INCH, e1, abs=1.1e-5),
        Row(f"L2 of {size}", B1201, lambda s=size: (_npt(s).effective or 0) / INCH, l2, abs=6e-5),
        Row(f"L2 of {size} in turns", B1201, lambda s=size: (_npt(s).effective or 0) / _npt(s).pitch, turns2, abs=6e-3),
    )),
    *(row for size, pitch, d2, d1 in ISO7 for row in (
        Row(f"pitch of R {size}", ISO_7, lambda s=size: threads.parse(f"R {s}").pitch, pitch, abs=6e-5),
        Row(f"d2 of R {size}", ISO_7, lambda s=size: threads.parse(f"R {s}").pitch_diameter, d2, abs=1.1e-3),
        Row(f"d1 of R {size}", ISO_7, lambda s=size: threads.parse(f"R {s}").minor, d1, abs=1.1e-3),
    )),
    *(row for name, d2, d1, drill in METRIC for row in (
        Row(f"D2 of {name}", ISO724, lambda n=name: threads.parse(n).pitch_diameter, d2, abs=6e-4),
        Row(f"D1 of {name}", ISO724, lambda n=name: threads.parse(n).minor, d1, abs=6e-4),
        Row(f"tap drill of {name}", "common practice, no source", lambda n=name: threads.parse(n).tap_drill, drill),
    )),
    Row("1/4 NPT hand-tight + 3", ARITHMETIC, lambda: _npt("1/4-18").engagement(3), 10.01945333),
    Row("the same in inches", ARITHMETIC,
        lambda: (_npt("1/4-18").engagement(3) or 0) / INCH, 0.3944666667),
    Row("1/8 NPT hand-tight + 3", ARITHMETIC, lambda: _npt("1/8-27").engagement(3), 6.924322222),
    Row("turns that a plug's room allows", ARITHMETIC, lambda: said("(room - hand) / pitch",
        room="0.3944666667 in", hand="0.2278 in", pitch="0.0555555556 in"), 3, rel=1e-8),
]  # fmt: skip

PASSAGES = [  # mm: passage, nearest drill, its error, largest that enters, its size
    (5.0, "#9", -0.0216, "#9", 4.9784), (6.0, "B", 0.0452, "15/64", 5.9531), (7.0, "J", 0.0358, "I", 6.9088),
    (8.0, "O", 0.0264, "5/16", 7.9375), (10.0, "25/64", -0.0781, "25/64", 9.9219),
    (12.0, "15/32", -0.0938, "15/32", 11.9062),
    (13.0, "33/64", 0.0969, "1/2", 12.7000), (14.0, "35/64", -0.1094, "35/64", 13.8906),
]  # fmt: skip
LISTS = "published number, letter and fraction drills, to their digits"
DRILLS = [
    row for size, near, off, enters, entering in PASSAGES for row in (
        Row(f"nearest to {size:g}", LISTS, lambda s=size: drills.nearest(s).name, near),
        Row(f"error at {size:g}", LISTS, lambda s=size: drills.nearest(s).size - s, off, abs=6e-5),
        Row(f"largest into {size:g}", LISTS, lambda s=size: drills.largest_not_over(s).name, enters),
        Row(f"its size into {size:g}", LISTS, lambda s=size: drills.largest_not_over(s).size, entering, abs=6e-5),
    )
]  # fmt: skip

INCH_BOLTS = [  # in, threads an inch, in², pounds at 75 % of proof of grades 2, 5, 8
    (1 / 4, 20, 0.0318209, 1313, 2029, 2864), (1 / 4, 28, 0.0363738, 1500, 2319, 3274),
    (5 / 16, 18, 0.0524302, 2163, 3342, 4719), (5 / 16, 24, 0.058066, 2395, 3702, 5226),
    (3 / 8, 16, 0.0774895, 3196, 4940, 6974), (3 / 8, 24, 0.0878281, 3623, 5599, 7905),
    (7 / 16, 14, 0.106308, 4385, 6777, 9568), (7 / 16, 20, 0.118716, 4897, 7568, 10684),
    (1 / 2, 13, 0.141898, 5853, 9046, 12771), (1 / 2, 20, 0.159953, 6598, 10197, 14396),
    (9 / 16, 12, 0.181944, 7505, 11599, 16375), (5 / 8, 11, 0.226002, 9323, 14408, 20340),
]  # fmt: skip
METRIC_BOLTS = [  # mm, mm², kN at 75 % of proof of classes 8.8, 10.9, 12.9
    (6, 1, 20.1234, 8.754, 12.527, 14.640), (8, 1.25, 36.6085, 15.925, 22.789, 26.633),
    (8, 1, 39.1671, 17.038, 24.382, 28.494), (10, 1.5, 57.9896, 25.225, 36.099, 42.187),
    (10, 1.25, 61.1986, 26.621, 38.096, 44.522), (10, 1, 64.494, 28.055, 40.148, 46.919),
    (12, 1.75, 84.2665, 36.656, 52.456, 61.304), (12, 1.5, 88.126, 38.335, 54.858, 64.112),
    (12, 1.25, 92.0718, 40.051, 57.315, 66.982), (14, 2, 115.439, 50.216, 71.861, 83.982),
    (14, 1.5, 124.546, 54.177, 77.530, 90.607), (16, 2, 156.668, 68.151, 97.526, 113.976),
]  # fmt: skip
B11 = "ASME B1.1 and SAE J429 as tabled, to their digits"
ISO898 = "ISO 898-1 as tabled, to its digits"
CHART = "a bolt maker's chart: 4,940 lb, 30 and 23 lbf·ft"


def _inch_preload(major: float, per_inch: float, psi: float) -> float:
    found = said("3 / 4 * proof * stress_area_inch(major, per_inch)",
                 proof=f"{psi} psi", major=f"{major} in", per_inch=float(per_inch))  # fmt: skip
    assert isinstance(found, float)
    return found


def _metric_preload(major: float, pitch: float, mpa: float) -> float:
    found = said("3 / 4 * proof * stress_area_metric(major, pitch)",
                 proof=f"{mpa} MPa", major=f"{major} mm", pitch=f"{pitch} mm")  # fmt: skip
    assert isinstance(found, float)
    return found


TABLED = 1e-7  # tables round 13 √3 / 24 to 0.93819
BOLTS = [
    *(row for d, n, area, *loads in INCH_BOLTS for row in (
        Row(f"stress area of {d:g}-{n}", B11, partial(bolts.stress_area_inch, d * INCH, n), area * IN2, rel=5e-6),
        *(Row(f"preload of {d:g}-{n}, {psi} psi", B11, partial(_inch_preload, d, n, psi), load * LBF, abs=0.51 * LBF)
          for psi, load in zip((55000, 85000, 120000), loads, strict=True)),
    )),
    *(row for d, p, area, *loads in METRIC_BOLTS for row in (
        Row(f"stress area of M{d}x{p}", ISO898, partial(bolts.stress_area_metric, d, p), area, rel=5e-6),
        *(Row(f"preload of M{d}x{p}, {mpa} MPa", ISO898, partial(_metric_preload, d, p, mpa), load * KN, abs=6e-4 * KN)
          for mpa, load in zip((580, 830, 970), loads, strict=True)),
    )),
    Row("3/8-16, area", B11, lambda: bolts.stress_area_inch(0.375 * INCH, 16) / IN2, 0.07748953188),
    Row("3/8-16 grade 5, preload", CHART, lambda: _inch_preload(0.375, 16, 85000) / LBF, 4939.957657),
    *(Row(f"3/8-16 grade 5, torque at K {k}", CHART,
          lambda k=k: bolts.bolt_torque(k, 0.375 * INCH, _inch_preload(0.375, 16, 85000)) / LBF_FT, want)
      for k, want in ((0.20, 30.87473536), (0.15, 23.15605152))),
    Row("M12x1.75, area", ISO898, lambda: bolts.stress_area_metric(12, 1.75), 84.26652982, rel=TABLED),
    Row("M12x1.75 10.9, preload", ISO898, lambda: _metric_preload(12, 1.75, 830) / N, 52455.91481, rel=TABLED),
    Row("M12x1.75 10.9, torque", "T = K d F by hand",
        lambda: bolts.bolt_torque(0.20, 12, _metric_preload(12, 1.75, 830)) / N_M, 125.8941956, rel=TABLED),
    Row("M12x1.75 8.8 at 70 %", "a page prints about 34 kN", lambda: said(
        "share * proof * stress_area_metric(d, pitch)",
        share="70 %", proof="580 MPa", d="12 mm", pitch="1.75 mm"), 34212.21111 * N, rel=TABLED),
    Row("M12x1.75 8.8 at 70 %, torque", "a page prints 82 N·m", lambda: said("bolt_torque(k, d, f)",
        k=0.20, d="12 mm", f="34212.21111 N"), 82.10930666 * N_M),
    Row("30 % less and 30 % more", "one test report", lambda: said(
        "bolt_torque(k * (1 + scatter), d, f) / bolt_torque(k * (1 - scatter), d, f)",
        k=0.20, scatter="30 %", d="12 mm", f="34 kN"), 1.3 / 0.7),
]  # fmt: skip

STEEL, IRON = (200e6, 0.30), (100e6, 0.26)
CUP = partial(fits.press_pressure, 41.30, 0.150, 38.30, 70, *STEEL, *IRON)
SHELL = partial(fits.press_pressure, 54.0, 0.060, 48.60, 90, *STEEL, *IRON)
PRESSED = [
    Row("solid pin in a hub", "textbook case: exactly 150 MPa",
        lambda: fits.press_pressure(10, 0.020, 0, 20, *STEEL, *STEEL) / MPA, 150, rel=1e-12),
    Row("cup plug, pressure", LAME, lambda: CUP() / MPA, 41.17538147),
    Row("cup plug, hoop", LAME, lambda: fits.ring_hoop(CUP(), 41.30, 38.30) / MPA, -588.2113603),
    Row("cup plug, boss", LAME, lambda: fits.boss_hoop(CUP(), 41.30, 70) / MPA, 85.14884454),
    Row("cup plug, force", LAME, lambda: fits.press_force(0.12, 41.30, 6, CUP()) / N, 3846.538221),
    Row("cam shell, pressure", LAME, lambda: SHELL() / MPA, 15.87719408),
    Row("cam shell, hoop", LAME, lambda: fits.ring_hoop(SHELL(), 54.0, 48.60) / MPA, -167.1283588),
    Row("cam shell, closing", LAME, lambda: fits.bore_closing(SHELL(), 54.0, 48.60, 200e6), 0.04061219118),
    Row("cam shell, force", LAME, lambda: fits.press_force(0.12, 54.0, 20, SHELL()) / N, 6464.406047),
    Row("cup plug in a stretched hole", EXACT, lambda: said("od - max(hole)", od="41.45 mm", hole=(41.34, 41.3)), 0.11),
    Row("class 30 iron, psi", "handbook: 14.5 million psi is 99.97 GPa", lambda: 14.5e6 * PSI / 1e6, 99.97, rel=5e-5),
]  # fmt: skip

WARMTH = [
    Row("iron bore, +80 K", HEAT, lambda: fits.growth(54.0, 11.4e-6, 80), 0.049248),
    Row("aluminium bore, +80 K", HEAT, lambda: fits.growth(57.0, 21.5e-6, 80), 0.09804),
    Row("steel shell, 20 to -78 °C", HEAT, lambda: said("growth(size, a, cold - room)",
        size="54.0 mm", a="0.0000117 1/K", cold="-78 °C", room="20 °C"), -0.0619164),
    Row("steel shell in aluminium, +80 K", HEAT,
        partial(heat.warm_interference, 0, 57.0, 21.5e-6, 11.7e-6, 80), -0.044688),
    Row("iron let go", HEAT, lambda: heat.heat_to_free(0.065, 0, 54.0, 11.4e-6), 105.5880442),
    Row("aluminium let go", HEAT, lambda: heat.heat_to_free(0.100, 0.020, 57.0, 21.5e-6), 97.91921665),
    Row("1 K on 100 mm of iron", "common figure: 0.0011 mm", lambda: fits.growth(100, 11.4e-6, 1), 0.0011, abs=5e-5),
    Row("10 K on 100 mm of iron", "common figure: 0.011 mm", lambda: fits.growth(100, 11.4e-6, 10), 0.011, abs=5e-4),
    Row("bore measured at 30 °C, at 20 °C", HEAT, lambda: heat.size_at_20(100.0114, 11.4e-6, 303.15), 100.0),
]  # fmt: skip

ROWS = [*BEARINGS, *OIL_HOLES, *THREADS, *DRILLS, *BOLTS, *PRESSED, *WARMTH]
