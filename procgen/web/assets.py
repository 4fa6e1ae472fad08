"""What every page shares: fonts, their licences, the style sheets, scripts. Each is named by its content."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Mapping, Sequence

from procgen.draw.fonts import Face, Fonts
from procgen.values import dataclass
from procgen.web.fonts import web_font
from procgen.web.part import Files, Making, Part
from procgen.web.scripts import CARD, PAGE, SELDOM, bundle
from procgen.web.tools import Tools

FOLDER = "assets"
_SCRIPTS = {"card": CARD, "page": PAGE, "seldom": SELDOM}

Style = tuple[str, bool, bool]
"""Of a face: its family, and whether it is bold, and italic."""


@dataclass(frozen=True)
class Assets:
    """Where pages find them, below the site. `scripts` by use: "card", "page", "seldom"."""

    style: str
    live: str  # the style sheet of cards' pages beside it
    jobs: str  # that of jobs' pages and the first
    licences: Mapping[str, str]  # name of the work -> path of its licence
    scripts: Mapping[str, str]


def build(fonts: Fonts, wanted: frozenset[str], families: int, make: Making) -> Assets:
    """`wanted`: every character; `families`: how many the first page lets people choose between."""
    characters = "".join(sorted(wanted))
    styles = [(face.family, face.bold, face.italic) for face in fonts.faces]
    cut = make([Part(font, (*style, characters), takes_long=True) for style in styles])
    faces = [path for made in cut for path in made]
    sheet = Part(style_sheet, (tuple(zip(styles, faces, strict=True)), families))
    licences = [Part(licence, (work,)) for work in fonts.licences]
    others = make(
        [
            *licences,
            sheet,
            Part(further_sheet, ("live",)),
            Part(further_sheet, ("jobs",)),
            *(Part(script, (use,)) for use in _SCRIPTS),
        ]
    )
    paths = [path for made in others for path in made]
    (*texts, style, live, jobs), scripts = paths[: -len(_SCRIPTS)], paths[-len(_SCRIPTS) :]
    works = dict(zip(fonts.licences, texts, strict=True))
    return Assets(style, live, jobs, works, dict(zip(_SCRIPTS, scripts, strict=True)))


def font(tools: Tools, family: str, bold: bool, italic: bool, characters: str) -> Files:
    face = tools.fonts.face(family, bold, italic)
    return _file(_file_name(face), "woff2", web_font(face, frozenset(characters), tools.fonts.folder))


def licence(tools: Tools, work: str) -> Files:
    return _file(f"licence-{work.lower().replace(' ', '-')}", "txt", tools.fonts.licences[work].encode())


def style_sheet(tools: Tools, faces: Sequence[tuple[Style, str]], families: int) -> Files:
    """`faces`: each with the path of its font."""
    names = [(tools.fonts.face(*style), path.removeprefix(f"{FOLDER}/")) for style, path in faces]
    sheet = tools.environment.get_template("site/site.css").render(faces=names, families=families)
    return _file("site", "css", _bare(sheet).encode())


def further_sheet(tools: Tools, name: str) -> Files:
    return _file(name, "css", _bare(tools.environment.get_template(f"site/{name}.css").render()).encode())


def script(tools: Tools, use: str) -> Files:
    return _file(use, "js", bundle(tools.environment, _SCRIPTS[use]))


def _bare(sheet: str) -> str:
    """Without comments, lines and the spaces that only people need."""
    text = re.sub(r"\s+", " ", re.sub(r"/\*.*?\*/", "", sheet, flags=re.DOTALL))
    return re.sub(r"(?<=[{}:;,>]) | (?=[{}>])", "", text).strip() + "\n"


def _file(name: str, kind: str, content: bytes) -> Files:
    return {f"{FOLDER}/{name}.{hashlib.blake2b(content, digest_size=6).hexdigest()}.{kind}": content}


def _file_name(face: Face) -> str:
    style = "-".join(word for word, there in (("bold", face.bold), ("italic", face.italic)) if there)
    return "-".join(part for part in (face.family.lower().replace(" ", "-"), style) if part)
