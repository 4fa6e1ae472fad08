from collections.abc import Iterator
from pathlib import Path

import pytest
from drawings import Drawn, all_scenes

from procgen.draw.fonts import Fonts, prepare
from procgen.draw.svg import Drawer
from procgen.files.home import resources
from procgen.load.workshop import load_workshop
from procgen.model.workshop import Workshop

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="session")
def workshop() -> Workshop:
    loaded = load_workshop(ROOT, lambda path: Path(path).read_bytes())
    assert loaded.workshop is not None, loaded.problems
    return loaded.workshop


@pytest.fixture(scope="session")
def fonts(tmp_path_factory: pytest.TempPathFactory) -> Fonts:
    return prepare(tmp_path_factory.mktemp("fonts"))


@pytest.fixture(scope="session")
def drawer(fonts: Fonts) -> Drawer:
    return Drawer(fonts, [resources("templates")])


@pytest.fixture(scope="session")
def scenes(workshop: Workshop) -> tuple[Drawn, ...]:
    found: Iterator[Drawn] = all_scenes(workshop)
    return tuple(found)
