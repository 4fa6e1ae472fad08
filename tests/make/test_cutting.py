"""What is cut down ahead are the very fonts that a site asks for."""

from __future__ import annotations

import shutil
from collections.abc import Mapping, Sequence
from pathlib import Path

import pytest

from procgen.check.functions import told
from procgen.check.guide import guide
from procgen.compose import shop
from procgen.draw.fonts import prepare
from procgen.files.home import resources
from procgen.make.cutting import cut_ahead
from procgen.make.order import Order
from procgen.web import fonts as web
from procgen.web.part import Part, Seals
from procgen.web.site import Site, build
from procgen.web.tools import Tools
from tests import demo


def fonts_of_demo(folder: Path) -> Mapping[str, bytes]:
    site = Site(shop(demo.workshop()), tuple(demo.decks().values()), guide=guide(), functions=told())
    tools, found = Tools(prepare(folder), [resources("templates")]), dict[str, bytes]()

    def make(parts: Sequence[Part]) -> Sequence[Seals]:
        made = [part.made(tools) if part.make.__module__.endswith("assets") else {} for part in parts]
        for files in made:
            found.update(files)
        return [dict.fromkeys(files, "") for files in made]

    build(site, tools.fonts, make)
    return {path: content for path, content in found.items() if path.endswith(".woff2")}


def test_fonts_of_the_demo_are_there_already(fonts: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    shutil.copytree(fonts, tmp_path / "fonts")
    order = Order(demo.ROOT, tmp_path / "site", tmp_path, only="site", workers=2)
    with cut_ahead(order) as cut:
        cut.result()
    with monkeypatch.context() as patch:
        patch.delattr(web, "_subset")  # nothing is cut any more
        made = fonts_of_demo(order.fonts)
    assert len(made) == 7
    shutil.rmtree(order.fonts / "web")
    assert fonts_of_demo(order.fonts) == made
