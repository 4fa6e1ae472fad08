"""The trade's own computations: pure functions on base units and on a family. Importing it fills the registry."""

from procgen.trade import (
    bearings,
    bolts,
    crank,
    cylinder,
    fits,
    flatness,
    gauging,
    heat,
    honing,
    lifting,
    noise,
    oiling,
    oversize,
    rings,
    threads,
    travel,
)

__all__ = [
    "bearings",
    "bolts",
    "crank",
    "cylinder",
    "fits",
    "flatness",
    "gauging",
    "heat",
    "honing",
    "lifting",
    "noise",
    "oiling",
    "oversize",
    "rings",
    "threads",
    "travel",
]
