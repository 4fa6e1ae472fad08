"""Chromium, driven; and what it may not do: say anything on its console, or ask anybody else for anything."""

from __future__ import annotations

import functools
import http.server
import shutil
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, BrowserContext, Page, sync_playwright

CHROMIUM = shutil.which("chromium")
ALONE = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--disable-default-apps",
    "--no-first-run",
)
PHONE, DESK = (360, 740), (1280, 800)


@contextmanager
def chromium() -> Iterator[Browser]:
    with sync_playwright() as driver:
        browser = driver.chromium.launch(executable_path=CHROMIUM, args=ALONE)
        yield browser
        browser.close()


class _Silent(http.server.SimpleHTTPRequestHandler):
    def log_message(self, format: str, *args: object) -> None: ...


class Served:
    """A folder over http on this machine, until it is stopped: as when the network goes."""

    def __init__(self, folder: Path) -> None:
        handler = functools.partial(_Silent, directory=str(folder))
        self._server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), handler)
        threading.Thread(target=self._server.serve_forever, daemon=True).start()
        self.url = f"http://127.0.0.1:{self._server.server_port}"

    def stop(self) -> None:
        self._server.shutdown()  # twice does no harm
        self._server.server_close()


@dataclass
class Visit:
    """One person's browser on one site, with what went wrong in it."""

    context: BrowserContext
    page: Page
    site: str
    faults: list[str] = field(default_factory=list)

    def open(self, path: str) -> Page:
        """The page, when its scripts have begun it."""
        self.page.goto("about:blank")  # so that another place of the same page is opened anew
        self.page.goto(f"{self.site}/{path}")
        self.page.wait_for_selector("html[data-ready]")
        return self.page


@contextmanager
def visit(browser: Browser, site: str, size: tuple[int, int] = PHONE, **settings: Any) -> Iterator[Visit]:
    """Ends with a check that the console stayed empty and that nothing was asked of anybody else."""
    context = browser.new_context(viewport={"width": size[0], "height": size[1]}, **settings)
    context.set_default_timeout(30_000)  # ms; machines are shared, and what hangs is told soon enough
    found = Visit(context, context.new_page(), site)
    context.on("console", lambda message: found.faults.append(f"console: {message.text}"))
    context.on("weberror", lambda error: found.faults.append(f"error: {error.error}"))

    def asked(url: str) -> None:
        if not url.startswith((site, "about:", "data:", "blob:")):
            found.faults.append(f"asked for {url}")

    context.on("request", lambda request: asked(request.url))
    yield found
    context.close()
    assert not found.faults, found.faults
