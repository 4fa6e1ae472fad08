"""Safety signs that a caution names by their ISO 7010 numbers: drawn by us in the standard's shapes and colours.

The pictures are our own, after what each sign is to say, and claim no conformity. What a number says is from memory,
not checked against the standard. Source of the colours: RAL tones that ISO 3864-4 names, as a screen shows them.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from jinja2 import TemplateNotFound

from procgen.files.templating import environment

NAMES = {
    "W001": "general warning",
    "W011": "slippery surface",
    "W015": "suspended load",
    "W017": "hot surface",
    "W021": "flammable material",
    "W022": "sharp element",
    "W023": "corrosive substance",
    "W024": "crushing of hands",
    "W041": "asphyxiating atmosphere",
    "M003": "wear ear protection",
    "M004": "wear eye protection",
    "M008": "wear safety footwear",
    "M009": "wear protective gloves",
    "M011": "wash your hands",
    "M013": "wear a face shield",
    "M017": "wear respiratory protection",
    "M026": "use a protective apron",
    "P003": "no open flame",
    "P028": "do not wear gloves",
}

_BLACK, _WHITE = "#000000", "#FFFFFF"
_GROUND = {"W": "#F9A800", "M": "#005387", "P": _WHITE}
_GREY_GROUND = {"W": _WHITE, "M": _BLACK, "P": _WHITE}
_RED = "#9B2423"


class Signs:
    """`templates`: directories with `drawings/sign.svg` and `drawings/signs/`; the first that has a file wins."""

    def __init__(self, templates: Sequence[Path]) -> None:
        self._jinja = environment(templates)

    def draw(self, number: str, side: float, theme: str) -> str:
        """A sign as an SVG so many mm wide and high; "" for a number that is not drawn here."""
        grounds = _GROUND if theme == "colour" else _GREY_GROUND
        kind = number[:1]
        if kind not in grounds:
            return ""
        try:
            return self._jinja.get_template("drawings/sign.svg").render(
                number=number,
                name=NAMES.get(number, "see the caution"),
                kind=kind,
                side=f"{side:.2f}",
                ground=grounds[kind],
                ink=_WHITE if kind == "M" else _BLACK,
                rim=_RED if theme == "colour" else _BLACK,
            )
        except TemplateNotFound:
            return ""
