"""What every page shares: fonts, their licences, and the one style sheet. Each is named by its content."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass

from jinja2 import Environment

from procgen.draw.fonts import Face, Fonts
from procgen.web.fonts import web_font

FOLDER = "assets"


@dataclass(frozen=True)
class Assets:
    """`files` by path below the site; `style` and `licences` are paths among them."""

    files: Mapping[str, bytes]
    style: str
    licences: Mapping[str, str]  # name of the work -> path of its licence


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
    sheet = environment.get_template("site/site.css").render(faces=faces, families=families).encode()
    style = named("site", "css", sheet)
    files[style] = sheet
    return Assets(files, style, licences)


def named(name: str, kind: str, content: bytes) -> str:
    return f"{FOLDER}/{name}.{hashlib.blake2b(content, digest_size=6).hexdigest()}.{kind}"


def _file_name(face: Face) -> str:
    style = "-".join(word for word, there in (("bold", face.bold), ("italic", face.italic)) if there)
    return "-".join(part for part in (face.family.lower().replace(" ", "-"), style) if part)
