"""What no formula gives of plug threads: sizes, hand-tight lengths, tap drills; each table with its source."""

from __future__ import annotations

from procgen.values import dataclass

INCH = 25.4  # mm, by definition


@dataclass(frozen=True, slots=True)
class PipeSize:
    """One pipe size, mm: `hand_tight` is the length engaged by hand, `drill` goes before the tap."""

    major: float
    per_inch: float
    hand_tight: float
    drill: float
    useful: float | None = None  # least useful thread, where the standard tables it


def _npt(major: float, per_inch: float, hand_tight: float, drill: float) -> PipeSize:
    return PipeSize(major * INCH, per_inch, hand_tight * INCH, drill * INCH)


NPT_SOURCE = "ASME B1.20.1 (sizes, hand-tight lengths from published tables); tap drills without reamer, trade lists"
NPT = {  # inches: outside diameter of the pipe, threads an inch, hand-tight engagement L1, tap drill
    "1/16": _npt(0.3125, 27, 0.1600, 0.2460),  # letter D; lists differ from 15/64 to 1/4
    "1/8": _npt(0.4050, 27, 0.1615, 0.3390),  # letter R
    "1/4": _npt(0.5400, 18, 0.2278, 0.4375),
    "3/8": _npt(0.6750, 18, 0.2400, 0.578125),
    "1/2": _npt(0.8400, 14, 0.3200, 0.71875),
    "3/4": _npt(1.0500, 14, 0.3390, 0.921875),
    "1": _npt(1.3150, 11.5, 0.4000, 1.15625),
}

ISO7_SOURCE = "ISO 7-1 (from published tables; useful lengths from memory, not checked); tap drills for Rp, trade lists"
ISO7 = {  # mm: major diameter, threads an inch, gauge length, tap drill, least useful thread
    "1/16": PipeSize(7.723, 28, 4.0, 6.6, 6.5),
    "1/8": PipeSize(9.728, 28, 4.0, 8.6, 6.5),
    "1/4": PipeSize(13.157, 19, 6.0, 11.5, 9.7),
    "3/8": PipeSize(16.662, 19, 6.4, 15.0, 10.1),
    "1/2": PipeSize(20.955, 14, 8.2, 18.75, 13.2),
    "3/4": PipeSize(26.441, 14, 9.5, 24.25, 14.5),
    "1": PipeSize(33.249, 11, 10.4, 30.4, 16.8),
}

METRIC_SOURCE = "ISO 261 (form from memory, not checked); tap drill is size less pitch, common practice"
