"""Nothing for axe-core to report (WCAG 2.2 AA and its good practice), on every kind of page, at each size and look."""

from __future__ import annotations

from pathlib import Path

import pytest
from bench import begin, choose
from browsing import DESK, PHONE, Visit, visit
from checkers import installed
from playwright.sync_api import Browser, Page

AXE = """async () => (await axe.run(document, { resultTypes: ["violations"], preload: false })).violations.map(one =>
  `${one.id}: ${one.nodes.map(node => node.html.slice(0, 120)).join(" | ")}`)"""
KINDS = {
    "shop": "index.html",
    "family": "bittern/index.html",
    "family hardly known": "grebe/index.html",
    "guide": "guide.html",
    "compare": "compare.html#card=hone&a=avocet&b=bittern",
    "job": "jobs/samphire/index.html",
    "card": "avocet/travel.html",
    "card with a table": "bittern/plug-map.html",
}
UNFOLD = "document.querySelectorAll('details').forEach(one => { one.open = true })"


@pytest.fixture(scope="module")
def axe() -> str:
    return (installed() / "axe-core" / "axe.min.js").read_text()


def reported(page: Page, axe: str) -> list[str]:
    page.evaluate(UNFOLD)
    page.evaluate(axe)
    found: list[str] = page.evaluate(AXE)
    return found


@pytest.mark.parametrize("size", [PHONE, DESK], ids=["phone", "desk"])
@pytest.mark.parametrize("contrast", ["no-preference", "more"])
def test_axe_reports_nothing(browser: Browser, folder: Path, axe: str, size: tuple[int, int], contrast: str) -> None:
    with visit(browser, (folder / "demo").as_uri(), size, contrast=contrast, bypass_csp=True) as at:
        found = {kind: reported(at.open(path), axe) for kind, path in KINDS.items()}
        found |= {f"{kind} of a job": reported(page, axe) for kind, page in _at_work(at)}
    assert found == {kind: [] for kind in found}


def _at_work(at: Visit) -> list[tuple[str, Page]]:
    """A card with a job on the stand: readings, a query, a verdict, search results."""
    page = at.open("bittern/re-plug.html")
    begin(page, "Test boat")
    choose(page, "Plug MG-F", "reaches too deep")
    page.get_by_role("textbox", name="Rim below face CPA1", exact=True).fill("20")
    page.get_by_role("searchbox").fill("plug")
    page.locator("#found li").first.wait_for()
    page.locator(".query:not(:empty)").wait_for()
    return [("card", page)]


def test_axe_does_see_what_is_wrong(browser: Browser, folder: Path, axe: str) -> None:
    with visit(browser, (folder / "demo").as_uri(), bypass_csp=True) as at:
        page = at.open("index.html")
        page.evaluate("document.querySelector('h1').style.color = '#ccc'")
        assert [line.split(":")[0] for line in reported(page, axe)] == ["color-contrast"]
