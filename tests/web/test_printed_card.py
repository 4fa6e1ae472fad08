"""A printed card's code leads to its page: current or superseded, and what changed since. In a real browser."""

from __future__ import annotations

import functools
import html
import http.server
import re
import shutil
import subprocess
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest
from small_shed import WEAR, shed, text_of

from procgen.compose import compose_deck, shop
from procgen.compose.revision import said
from procgen.draw.fonts import Fonts
from procgen.model.card import Card
from procgen.web.site import pages

CHROMIUM = shutil.which("chromium")
QUIET = ("--headless=new", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run")
ALONE = ("--disable-background-networking", "--disable-component-update", "--disable-sync")

pytestmark = pytest.mark.skipif(CHROMIUM is None, reason="no chromium on this machine")

UNKNOWN, BARE = "ZZZZZ", "YYYYY"  # never noted; noted without its text


@pytest.fixture(scope="module")
def old(tmp_path_factory: pytest.TempPathFactory) -> Card:
    """The card that hangs; its step and its reason have been reworded since, one of them with markup."""
    workshop = shed(tmp_path_factory.mktemp("old"))
    return compose_deck(workshop, workshop.families["teal"]).cards[0]


@pytest.fixture(scope="module")
def site(old: Card, fonts: Fonts, tmp_path_factory: pytest.TempPathFactory) -> Path:
    wear = text_of(WEAR).replace("Wipe it first.", "Wipe it dry & <b>twice</b>.")
    wear = wear.replace("reason: A worn bore burns oil.", f"reason: A worn bore burns oil. {'It knocks as well. ' * 5}")
    text = "\n".join(f"    {line}" for line in said(old).split("\n"))
    ledger = (
        "format: printed/1\nprinted:\n"
        f'  - {{family: teal, card: wear, revision: "{old.revision}", on: 2026-03-14}}\n'
        f"  - {{family: teal, card: wear, revision: {BARE}}}\n"
        f"revisions:\n  teal/wear/{old.revision}: |-\n{text}\n"
    )
    workshop = shed(tmp_path_factory.mktemp("new"), {WEAR: wear, "procedures/printed.yaml": ledger})
    decks = [compose_deck(workshop, family) for family in workshop.families.values()]
    top = tmp_path_factory.mktemp("site")
    for path, content in pages(shop(workshop), decks, (), fonts=fonts, ledger=workshop.ledger):
        (top / path).parent.mkdir(parents=True, exist_ok=True)
        (top / path).write_bytes(content)
    return top


@pytest.fixture(scope="module")
def served(site: Path) -> Iterator[str]:
    class Silent(http.server.SimpleHTTPRequestHandler):
        def log_message(self, format: str, *args: object) -> None: ...

    server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), functools.partial(Silent, directory=str(site)))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    yield f"http://127.0.0.1:{server.server_port}"
    server.shutdown()
    server.server_close()


def opened(address: str, profile: Path) -> tuple[str, str]:
    """What the page says of the printed card, and the whole page. Nothing may be refused or fail."""
    assert CHROMIUM is not None
    options = ("--enable-logging=stderr", "--virtual-time-budget=8000", "--dump-dom", f"--user-data-dir={profile}")
    done = subprocess.run(
        [CHROMIUM, *QUIET, *ALONE, *options, address], capture_output=True, text=True, timeout=120, check=True
    )
    assert [line for line in done.stderr.splitlines() if "CONSOLE" in line] == []
    found = re.search(r'<section class="printed".*?</section>', done.stdout, re.DOTALL)
    words = re.sub(r"</(?:p|li|h2|dt|dd)>", "|", found[0]) if found else ""
    return html.unescape(re.sub(r"<[^>]+>", "", words)), done.stdout


@pytest.fixture(params=["file", "http"])
def page(request: pytest.FixtureRequest, site: Path, served: str) -> str:
    return (site / "teal/wear.html").as_uri() if request.param == "file" else f"{served}/teal/wear.html"


def current(site: Path) -> str:
    found = re.search('data-revision="([^"]+)"', (site / "teal/wear.html").read_text())
    assert found
    return found[1]


def test_a_current_card(site: Path, page: str, tmp_path: Path) -> None:
    told, whole = opened(f"{page}#r={current(site)}", tmp_path)
    assert told == f"Your printed card {current(site)} is current.|"
    assert "wear.said.js" not in whole  # nothing is fetched for it


def test_a_superseded_card(site: Path, old: Card, page: str, tmp_path: Path) -> None:
    told, whole = opened(f"{page}#r={old.revision}", tmp_path)
    assert told == (
        f"Your printed card {old.revision} of 2026-03-14 is superseded: this is {current(site)}. Take it off the wall.|"
        "What changed since|"
        f"reason, new: {'It knocks as well. ' * 4}It knocks as well.|"
        "step “Measure the bore.”: Wipe it first. → Wipe it dry & <b>twice</b>.|"
    )
    assert "wear.said.js" in whole
    assert "<b>twice</b>" not in whole  # shown, never run


def test_a_card_whose_text_was_not_noted(site: Path, page: str, tmp_path: Path) -> None:
    told, _ = opened(f"{page}#r={BARE}", tmp_path)
    assert told == (
        f"Your printed card {BARE} is superseded: this is {current(site)}. Take it off the wall.|"
        "What it said was not noted, so nobody can say what changed since.|"
    )


def test_a_card_that_nobody_noted(site: Path, page: str, tmp_path: Path) -> None:
    """It may be newer than this copy of the page: nobody is told to take it down."""
    told, _ = opened(f"{page}#r={UNKNOWN}", tmp_path)
    assert told == (
        f"This page says {current(site)}. It does not know your printed card {UNKNOWN}: no print of it was noted, "
        "or this is an older copy of the page.|Make sure which is newer before you work by either.|"
    )


ANOTHER = """<!DOCTYPE html><title>x</title><iframe src="teal/wear.html#r=ZZZZZ"></iframe><script>
const frame = document.querySelector("iframe")
const settled = async () => { for (let i = 0; i < 40; i += 1) await new Promise(done => setTimeout(done, 25)) }
frame.onload = async () => {
  await settled()
  frame.contentWindow.location.hash = "#r=CURRENT"
  await settled()
  document.body.append(...frame.contentDocument.querySelectorAll(".printed"))
}
</script>"""


def test_another_card_on_the_page_that_is_open(site: Path, served: str, tmp_path: Path) -> None:
    """A phone that scans a second card may stay on the page and only change what follows the #."""
    (site / "another.html").write_text(ANOTHER.replace("CURRENT", current(site)))
    told, whole = opened(f"{served}/another.html", tmp_path)
    assert told == f"Your printed card {current(site)} is current.|"
    assert whole.count('class="printed"') == 1


@pytest.mark.parametrize("code", ["", "#r=", "#r=%3Cb%3E", "#step-measure"])
def test_without_a_code_nothing_is_said(site: Path, code: str, tmp_path: Path) -> None:
    told, _ = opened((site / "teal/wear.html").as_uri() + code, tmp_path)
    assert told == ""
