"""The made-up shop's site, and the demo workshop's."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path

import pytest
from browsing import CHROMIUM, Served, chromium
from made_up import DECKS, GUIDE, PRINTED, SHOP
from playwright.sync_api import Browser

from procgen.check.guide import guide
from procgen.compose import shop
from procgen.compose.packet import compose_packet
from procgen.draw.fonts import Fonts, prepare
from procgen.model.card import Deck
from procgen.model.workshop import Workshop
from procgen.web.site import pages
from tests import demo as shed


@pytest.fixture(scope="session")
def fonts(tmp_path_factory: pytest.TempPathFactory) -> Fonts:
    return prepare(tmp_path_factory.mktemp("fonts"))


@pytest.fixture(scope="session")
def site(fonts: Fonts) -> Mapping[str, bytes]:
    return dict(pages(SHOP, DECKS, PRINTED, fonts=fonts, guide=GUIDE))


@pytest.fixture(scope="session")
def workshop() -> Workshop:
    return shed.workshop()


@pytest.fixture(scope="session")
def demo_decks() -> tuple[Deck, ...]:
    return tuple(shed.decks().values())


@pytest.fixture(scope="session")
def demo(fonts: Fonts, workshop: Workshop, demo_decks: tuple[Deck, ...]) -> Mapping[str, bytes]:
    packets = [compose_packet(workshop, job, shed.deck(job.family))[0] for job in workshop.jobs.values()]
    return dict(pages(shop(workshop), demo_decks, (), fonts=fonts, guide=guide(), packets=packets))


@pytest.fixture(params=["site", "demo"])
def any_site(request: pytest.FixtureRequest) -> Mapping[str, bytes]:
    found: Mapping[str, bytes] = request.getfixturevalue(request.param)
    return found


@pytest.fixture(scope="session")
def folder(site: Mapping[str, bytes], demo: Mapping[str, bytes], tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Both sites: `made` and `demo`."""
    top = tmp_path_factory.mktemp("site")
    for name, made in (("made", site), ("demo", demo)):
        for path, content in made.items():
            file = top / name / path
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_bytes(content)
    return top


@pytest.fixture(scope="session")
def served(folder: Path) -> Iterator[str]:
    server = Served(folder)
    yield server.url
    server.stop()


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    if CHROMIUM is None:
        pytest.skip("no chromium on this machine")
    with chromium() as found:
        yield found


@pytest.fixture(params=["http", "file"])
def address(request: pytest.FixtureRequest, folder: Path) -> str:
    """The demo's site, from a server and from a folder."""
    if request.param == "file":
        return (folder / "demo").as_uri()
    return f"{request.getfixturevalue('served')}/demo"
