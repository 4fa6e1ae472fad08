"""What all of the site is made with: templates, fonts, drawings. Nothing of any workshop."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from procgen.draw.fonts import Fonts
from procgen.draw.svg import Drawer
from procgen.web.drawings import Drawings
from procgen.web.environment import environment


class Tools:
    """`templates`: folders, the first that has one goes before the others. Kept for a process's life."""

    def __init__(self, fonts: Fonts, templates: Sequence[Path]) -> None:
        self.fonts = fonts
        self.environment = environment(templates)
        self.drawings = Drawings(Drawer(fonts, templates))


def page(tools: Tools, path: str, template: str, names: Mapping[str, Any]) -> Mapping[str, bytes]:
    """A page, by a template and all the names that it may use."""
    root = "../" * path.count("/")
    text = tools.environment.get_template(f"site/{template}").render(root=root, drawings=tools.drawings, **names)
    while "\n\n" in text:  # what templates leave between their parts
        text = text.replace("\n\n", "\n")
    return {path: text.encode()}
