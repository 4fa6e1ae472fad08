"""The nearest right name to a wrong one, for "did you mean …?"."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches


def nearest(wrong: str, right: Iterable[str]) -> str:
    """The listed name most like `wrong`, letters compared without regard to case; "" where none is near.

    The cutoff 0.6 is difflib's own: about two slips in a word of five letters.
    """
    by_lower = {name.lower(): name for name in sorted(right, reverse=True)}
    found = get_close_matches(wrong.lower(), sorted(by_lower), n=1, cutoff=0.6)
    return by_lower[found[0]] if found else ""


def did_you_mean(wrong: str, right: Iterable[str]) -> str:
    """A hint with the nearest name, or "" where none is near."""
    name = nearest(wrong, right)
    return f"did you mean `{name}`?" if name else ""
