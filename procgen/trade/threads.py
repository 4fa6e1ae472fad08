"""Plug threads by the names on a drawing: "3/8-18 NPT", "R 1/8", "M18x1.5".

Taper pipe threads are ASME B1.20.1 (60°) or ISO 7-1 (55°); both taper 1 in 16 on diameter. Straight ones are metric.
"""

from __future__ import annotations

import re
from functools import lru_cache

from procgen.trade.registry import function, positive
from procgen.trade.thread_tables import INCH, ISO7, ISO7_SOURCE, METRIC_SOURCE, NPT, NPT_SOURCE
from procgen.units.dimension import LENGTH, NUMBER
from procgen.values import dataclass

TAPER = 1 / 16  # on diameter

_NPT = re.compile(r"(\d+(?:/\d+)?)\s*-\s*([\d.]+)\s*NPT")
_ISO7 = re.compile(r"(R[pc]?)\s*(\d+(?:/\d+)?)")
_BY = re.compile(r"(?<=\d)\s*x\s*(?=\d)")
_METRIC = re.compile(r"M(\d+(?:\.\d+)?)\s*[x×]\s*(\d+(?:\.\d+)?)")


class ThreadError(ValueError):
    """A thread's name that nothing can be told from; `hint` is the mend."""

    def __init__(self, message: str, hint: str = "") -> None:
        super().__init__(message)
        self.message, self.hint = message, hint


@dataclass(frozen=True, slots=True)
class Thread:
    """One thread; diameters and lengths in mm.

    `pitch_diameter` and `minor` are those of a straight thread; of a taper one, at its gauge plane (ISO 7-1) or at the
    small end (NPT, E0). `hand_tight` is None for a straight thread, which seals on a washer.
    """

    name: str
    system: str  # NPT, ISO 7-1, metric
    flank: int  # degrees between flanks
    major: float
    pitch: float
    pitch_diameter: float
    minor: float
    tap_drill: float
    source: str
    hand_tight: float | None = None
    effective: float | None = None  # L2 of NPT; least useful thread of ISO 7-1

    @property
    def is_taper(self) -> bool:
        return self.hand_tight is not None

    @property
    def per_inch(self) -> float:
        return INCH / self.pitch

    def engagement(self, turns: float) -> float | None:
        """How deep (mm) a taper plug's nose stands below the face, `turns` past hand-tight; None for a straight one."""
        return None if self.hand_tight is None else taper_engagement(self.hand_tight, self.pitch, turns)


@function(takes=(LENGTH, LENGTH, NUMBER), gives=LENGTH, source="ASME B1.20.1, geometry")
def taper_engagement(hand_tight: float, pitch: float, turns: float) -> float:
    """Length (mm) of taper thread engaged `turns` past the `hand_tight` length (mm), at `pitch` (mm) a turn.

    ValueError if a length is not above 0 or turns is below 0.
    """
    positive(hand_tight=hand_tight, pitch=pitch)
    if turns < 0:
        raise ValueError("turns past hand-tight cannot be below nothing")
    return hand_tight + turns * pitch


def printed(name: str) -> str:
    """A thread's name as people read it: "M18×1.5", however it was typed."""
    return _BY.sub("×", name)


@lru_cache
def parse(text: str) -> Thread:
    """The thread of that name. ThreadError, with the mend, where the name is not one of a listed thread."""
    name = " ".join(text.split())
    if match := _NPT.fullmatch(name):
        return _npt(name, *match.groups())
    if match := _ISO7.fullmatch(name):
        return _iso7(name, match[2])
    if match := _METRIC.fullmatch(name):
        return _metric(name, float(match[1]), float(match[2]))
    size = name.removesuffix(" NPT")
    meant = f'"{size}-{NPT[size].per_inch:g} NPT"' if size in NPT else '"3/8-18 NPT", "R 1/8" or "M18x1.5"'
    raise ThreadError(f"no thread is called {text!r}", f"write it as {meant}")


def _npt(name: str, size: str, per_inch: str) -> Thread:
    """p = 1/n, E0 = D − (0.05 D + 1.1) p, L2 = (0.80 D + 6.8) p, in inches."""
    row = NPT.get(size)
    if row is None:
        raise ThreadError(f"no NPT size {size} is listed", f"listed: {', '.join(NPT)}")
    if float(per_inch) != row.per_inch:
        raise ThreadError(f"{size} NPT has {row.per_inch:g} threads an inch, not {per_inch}",
                          f'write "{size}-{row.per_inch:g} NPT"')  # fmt: skip
    pitch = INCH / row.per_inch
    small_end = row.major - (0.05 * row.major / INCH + 1.1) * pitch
    effective = (0.80 * row.major / INCH + 6.8) * pitch
    height = 0.8 * pitch  # of the truncated thread
    return Thread(name, "NPT", 60, row.major, pitch, small_end, small_end - height, row.drill, NPT_SOURCE,
                  row.hand_tight, effective)  # fmt: skip


def _iso7(name: str, size: str) -> Thread:
    """h = 0.640327 P, d2 = d − h, d1 = d − 2 h."""
    row = ISO7.get(size)
    if row is None:
        raise ThreadError(f"no ISO 7-1 size {size} is listed", f"listed: {', '.join(ISO7)}")
    pitch = INCH / row.per_inch
    height = 0.640327 * pitch
    return Thread(name, "ISO 7-1", 55, row.major, pitch, row.major - height, row.major - 2 * height, row.drill,
                  ISO7_SOURCE, row.hand_tight, row.useful)  # fmt: skip


def _metric(name: str, major: float, pitch: float) -> Thread:
    """D2 = D − 0.649519 P, D1 = D − 1.082532 P."""
    if not 0 < pitch < major:
        raise ThreadError(f"{name} has no metal left between its threads", "write diameter x pitch: M18x1.5")
    return Thread(name, "metric", 60, major, pitch, major - 0.649519 * pitch, major - 1.082532 * pitch, major - pitch,
                  METRIC_SOURCE)  # fmt: skip
