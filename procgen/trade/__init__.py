"""The trade's own computations: pure functions on base units and on a family. Importing it fills the registry."""

from procgen.trade import cylinder, fits, honing, lifting, oiling, threads

__all__ = ["cylinder", "fits", "honing", "lifting", "oiling", "threads"]
