"""The QR code on a card's first face: which page tells whether this card is current."""

from __future__ import annotations

from functools import lru_cache
from html import escape

import segno

MODULE = 0.5
"""mm: 0.4 is common advice for print; more where the laminate is greasy."""
QUIET = 4
"""Modules kept white all round. Source: ISO/IEC 18004."""


@lru_cache(maxsize=16)  # a card asks again for each size that is tried
def qr(text: str, colour: str) -> tuple[str, float]:
    """An SVG of one path, and its side in mm, quiet zone included. The mask is fixed: choosing one takes far longer.

    Dark modules in a row are one stroke as wide as a module: half the numbers of an outline, so half the time to draw.
    """
    matrix = segno.make(text, error="m", micro=False, mask=0).matrix
    side = len(matrix) + 2 * QUIET
    path = []
    for y, row in enumerate(matrix):
        x = at = 0
        path.append(f"M{QUIET},{y + QUIET}.5")
        while x < len(row):
            end = x
            while end < len(row) and row[end]:
                end += 1
            if end > x:
                path.append(f"m{x - at},0h{end - x}" if x > at else f"h{end - x}")
                at = end
            x = end + 1
    svg = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{side * MODULE}mm" height="{side * MODULE}mm" '
        f'viewBox="0 0 {side} {side}"><title>QR code: {escape(text)}</title>'
        f'<rect width="{side}" height="{side}" fill="#fff"/><path d="{"".join(path)}" stroke="{colour}"/></svg>'
    )
    return svg, side * MODULE
