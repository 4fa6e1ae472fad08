"""What every page shares: fonts, their licences, the one style sheet, scripts. Each is named by its content."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Mapping
from dataclasses import dataclass

from jinja2 import Environment

from procgen.draw.fonts import Face, Fonts
from procgen.web.fonts import web_font
from procgen.web.scripts import CARD, PAGE, SELDOM, bundle

FOLDER = "assets"


@dataclass(frozen=True)
class Assets:
    """`files` by path below the site; all else are paths among them, of scripts by use: "card", "page", "seldom"."""

    files: Mapping[str, bytes]
    style: str
    live: str  # the style sheet of cards' pages beside it
    licences: Mapping[str, str]  # name of the work -> path of its licence
    scripts: Mapping[str, str]


def build(environment: Environment, fonts: Fonts, wanted: frozenset[str], families: int) -> Assets:
    """`families`: how many the first page lets people choose between."""
    files: dict[str, bytes] = {}
    faces = []
    for face in fonts.faces:
        content = web_font(face, wanted)
        path = named(_file_name(face), "woff2", content)
        files[path] = content
        faces.append((face, path.removeprefix(f"{FOLDER}/")))
    licences = {}
    for work, text in fonts.licences.items():
        content = text.encode()
        path = named(f"licence-{work.lower().replace(' ', '-')}", "txt", content)
        files[path] = content
        licences[work] = path
    sheet = _bare(environment.get_template("site/site.css").render(faces=faces, families=families)).encode()
    style = named("site", "css", sheet)
    files[style] = sheet
    sheet = _bare(environment.get_template("site/live.css").render()).encode()
    live = named("live", "css", sheet)
    files[live] = sheet
    scripts = {}
    for use, modules in (("card", CARD), ("page", PAGE), ("seldom", SELDOM)):
        content = bundle(environment, modules)
        scripts[use] = named(use, "js", content)
        files[scripts[use]] = content
    return Assets(files, style, live, licences, scripts)


def _bare(sheet: str) -> str:
    """Without comments, indents and the spaces that only people need."""
    text = re.sub(r"\n\s*", "\n", re.sub(r"/\*.*?\*/", "", sheet, flags=re.DOTALL))
    return re.sub(r"(?<=[{:;,]) | (?=[{}])", "", text).strip() + "\n"


def named(name: str, kind: str, content: bytes) -> str:
    return f"{FOLDER}/{name}.{hashlib.blake2b(content, digest_size=6).hexdigest()}.{kind}"


def _file_name(face: Face) -> str:
    style = "-".join(word for word, there in (("bold", face.bold), ("italic", face.italic)) if there)
    return "-".join(part for part in (face.family.lower().replace(" ", "-"), style) if part)
