"""Opened once over http, the whole site works without a network; and under any path."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from bench import begin, choose, verdict
from browsing import Served, visit
from playwright.sync_api import Browser

KEPT = """async wanted => {
  await navigator.serviceWorker.ready
  const kept = async () => (await Promise.all((await caches.keys()).map(async name =>
    (await (await caches.open(name)).keys()).length))).reduce((sum, one) => sum + one, 0)
  for (let tries = 0; tries < 600 && await kept() < wanted; tries += 1) await new Promise(done => setTimeout(done, 100))
  return await kept()
}"""


def test_after_one_visit_without_a_network(browser: Browser, folder: Path, demo: Mapping[str, bytes]) -> None:
    server = Served(folder)
    try:
        with visit(browser, f"{server.url}/demo") as at:
            page = at.open("bittern/hone.html")
            assert page.evaluate(KEPT, len(demo) - 1) == len(demo) - 1, "all but the worker itself"
            server.stop()
            page = at.open("index.html")
            assert page.locator(".families a").count() == 6
            page = at.open("avocet/cylinder-survey.html")
            begin(page, "Test boat")
            choose(page, "Wall A1", "shows a crack")
            assert verdict(page).startswith("Stop")
            box = page.get_by_role("searchbox")
            box.fill("thumbnail")
            page.locator("#found li").first.wait_for()
            page = at.open("compare.html#card=hone&a=avocet&b=bittern")
            assert page.locator(".differences li").count() > 3
            page = at.open("jobs/reed-cutter/")
            assert page.get_by_role("heading", level=1).inner_text() == "Reed Cutter"
            assert page.evaluate("[...document.fonts].some(font => font.status === 'loaded')")
    finally:
        server.stop()
