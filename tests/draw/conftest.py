from collections.abc import Iterator
from fractions import Fraction

import pytest
from drawings import Drawn, all_scenes

from procgen.draw.fonts import Fonts, prepare
from procgen.draw.svg import Arranged, Caption, Drawer
from procgen.files.home import resources
from procgen.model.scene import Scene
from procgen.model.workshop import Workshop
from tests import demo


@pytest.fixture(scope="session")
def workshop() -> Workshop:
    return demo.workshop()


@pytest.fixture(scope="session")
def fonts(tmp_path_factory: pytest.TempPathFactory) -> Fonts:
    return prepare(tmp_path_factory.mktemp("fonts"))


class Keeping(Drawer):
    """Keeps all that it arranged: the same scenes are asked for in test after test."""

    def __init__(self, fonts: Fonts) -> None:
        super().__init__(fonts, [resources("templates")])
        self._kept: dict[tuple[object, ...], Arranged] = {}

    def arrange(
        self, scene: Scene, width: float, size: float, scale: Fraction | None = None, caption: Caption = "paper"
    ) -> Arranged:
        key = (scene, width, size, scale, caption)
        if key not in self._kept:
            self._kept[key] = super().arrange(scene, width, size, scale, caption)
        return self._kept[key]


@pytest.fixture(scope="session")
def drawer(fonts: Fonts) -> Drawer:
    return Keeping(fonts)


@pytest.fixture(scope="session")
def scenes(workshop: Workshop) -> tuple[Drawn, ...]:
    found: Iterator[Drawn] = all_scenes(workshop)
    return tuple(found)
