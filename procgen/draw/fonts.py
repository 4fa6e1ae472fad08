"""The fonts that cards are set in: one static file a style, each under a private name, with the metrics for layout.

Text is Atkinson Hyperlegible as its makers ship it. Heads and figures are static instances of Encode Sans, whose
licence reserves that name, so they are renamed inside the file too.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Mapping
from dataclasses import field
from functools import cached_property
from importlib.resources import files
from io import BytesIO
from pathlib import Path

from fontTools.ttLib import TTFont

from procgen.files.writing import put
from procgen.values import dataclass

TEXT, HEAD, SUB, FIGURE = "Card Text", "Card Head", "Card Sub", "Card Figure"

_TEXT_PACKAGE, _HEAD_PACKAGE = "fontpkg_atkinson_hyperlegible", "fontpkg_encode_sans"
_TEXT_FILES = {
    (False, False): "AtkinsonHyperlegible-Regular.ttf",
    (True, False): "AtkinsonHyperlegible-Bold.ttf",
    (False, True): "AtkinsonHyperlegible-Italic.ttf",
    (True, True): "AtkinsonHyperlegible-BoldItalic.ttf",
}
_INSTANCES = {HEAD: (75.0, 800.0), SUB: (75.0, 650.0), FIGURE: (87.5, 700.0)}  # width and weight axes
_FIXED_TIME = 3_600_000_000  # seconds since 1904: any fixed moment, so that the same input gives the same bytes
_WIDTHS = 10_000  # texts that a face knows the width of, at most
_RECIPE = "1"  # raise when `_instance` makes other bytes from the same source


@dataclass(frozen=True)
class Face:
    """One font file. Ratios are of the em; `advances` by character, in units of the em."""

    family: str
    bold: bool
    italic: bool
    path: Path
    cap: float
    ascent: float
    descent: float
    tabular: float  # a digit's advance where digits are set equally wide
    advances: Mapping[str, float] = field(repr=False)

    def width(self, text: str, tabular: bool = False) -> float:
        """The width of a line of text, in ems; a character that the face lacks counts as wide as a digit."""
        known = self._widths
        width = known.get((text, tabular))
        if width is None:
            if len(known) > _WIDTHS:
                known.clear()
            advances = self._tabular_advances if tabular else self.advances
            width = known[text, tabular] = sum([advances.get(c, self.tabular) for c in text])
        return width

    @cached_property
    def _widths(self) -> dict[tuple[str, bool], float]:
        """Of texts that were asked for: a card is measured in several sizes, and its words stand on others too."""
        return {}

    @cached_property
    def _tabular_advances(self) -> Mapping[str, float]:
        return {**self.advances, **dict.fromkeys("0123456789", self.tabular)}


@dataclass(frozen=True)
class Fonts:
    """Every face of the private families, and the licence texts that go with them."""

    faces: tuple[Face, ...]
    licences: Mapping[str, str]  # name of the work -> text of its licence
    folder: Path  # where whatever was made of them lies

    @cached_property
    def _by_style(self) -> dict[tuple[str, bool, bool], Face]:
        return {(face.family, face.bold, face.italic): face for face in self.faces}

    @property
    def families(self) -> frozenset[str]:
        return frozenset(face.family for face in self.faces)

    def face(self, family: str, bold: bool = False, italic: bool = False) -> Face:
        return self._by_style[family, bold, italic]

    def width(self, text: str, family: str, size: float, bold: bool = False, tabular: bool = False) -> float:
        """The width of a line of text, in the unit of `size`."""
        return self.face(family, bold).width(text, tabular) * size

    def missing(self, text: Iterable[str], family: str) -> str:
        """The characters of `text` that some face of the family cannot draw, in order of code."""
        lacking = set("".join(text)) - self._drawn[family]
        return "".join(sorted(c for c in lacking if not c.isspace() or c == "\u202f"))

    @cached_property
    def _drawn(self) -> Mapping[str, frozenset[str]]:
        """By family, the characters that all its faces can draw."""
        found: dict[str, frozenset[str]] = {}
        for face in self.faces:
            there = frozenset(face.advances)
            found[face.family] = found.get(face.family, there) & there
        return found

    def sample(self) -> str:
        """A page with a letter of every face."""
        letters = (
            f'<p style="font: {"italic" if face.italic else "normal"} {"bold" if face.bold else "normal"} '
            f"12pt '{face.family}'\">a</p>"
            for face in self.faces
        )
        return f'<!DOCTYPE html><html lang="en"><body>{"".join(letters)}</body></html>'

    def css(self) -> str:
        """The @font-face rules: exactly one file for a family, weight and style."""
        return "\n".join(
            f'@font-face {{ font-family: "{face.family}"; src: url("{face.path.resolve().as_uri()}"); '
            f"font-weight: {700 if face.bold else 400}; font-style: {'italic' if face.italic else 'normal'} }}"
            for face in self.faces
        )


def prepare(directory: Path) -> Fonts:
    """The fonts, with instances made into `directory` where they are not there yet."""
    texts, heads = Path(str(files(_TEXT_PACKAGE))), Path(str(files(_HEAD_PACKAGE)))
    variable = next((heads / "files").glob("EncodeSans*.ttf"))
    source = variable.read_bytes()
    key = hashlib.blake2b(source + _RECIPE.encode(), digest_size=8).hexdigest()
    faces = [_face(texts / "files" / name, TEXT, bold, italic) for (bold, italic), name in _TEXT_FILES.items()]
    for family, (width, weight) in _INSTANCES.items():
        path = directory / key / f"{family.replace(' ', '')}.ttf"
        if not path.exists():
            _instance(variable, family, width, weight, path)
        faces.append(_face(path, family, False, False))
    licences = {
        "Atkinson Hyperlegible": (texts / "LICENSE").read_text("utf-8"),
        "Encode Sans": (heads / "LICENSE").read_text("utf-8"),
    }
    return Fonts(tuple(faces), licences, directory)


def _instance(variable: Path, family: str, width: float, weight: float, path: Path) -> None:
    from fontTools.varLib.instancer import instantiateVariableFont  # takes long to import, and is needed once

    font = TTFont(variable, recalcTimestamp=False)
    font = instantiateVariableFont(font, {"wdth": width, "wght": weight}, inplace=True)
    postscript = family.replace(" ", "")
    names = font["name"]
    names.names = [record for record in names.names if record.nameID in (0, 5, 13, 14)]  # the notice and licence stay
    for name_id, text in {1: family, 2: "Regular", 3: postscript, 4: family, 6: postscript}.items():
        names.setName(text, name_id, 3, 1, 0x409)
    if "STAT" in font:
        del font["STAT"]
    font["head"].created = font["head"].modified = _FIXED_TIME
    stream = BytesIO()
    font.save(stream, reorderTables=True)
    put(path, stream.getvalue())


def _face(path: Path, family: str, bold: bool, italic: bool) -> Face:
    font = TTFont(path, lazy=True)
    em = font["head"].unitsPerEm
    widths = font["hmtx"].metrics
    advances = {chr(code): widths[glyph][0] / em for code, glyph in font.getBestCmap().items()}
    cap = font["OS/2"].sCapHeight / em
    ascent, descent = font["hhea"].ascent / em, -font["hhea"].descent / em
    tabular = widths["zero.tf"][0] / em
    font.close()
    return Face(family, bold, italic, path, cap, ascent, descent, tabular, advances)
