"""In a real browser, where there is one: nothing scrolls sideways, nothing small, nothing refused, fonts arrive."""

from __future__ import annotations

import html
import json
import re
import subprocess
from contextlib import closing
from pathlib import Path

import pytest
from browsing import CHROMIUM
from playwright.sync_api import Browser
from pypdfium2 import PdfDocument

QUIET = ("--headless=new", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run")
ALONE = ("--disable-background-networking", "--disable-component-update", "--disable-sync")

pytestmark = pytest.mark.skipif(CHROMIUM is None, reason="no chromium on this machine")

# 320 px: WCAG 2.2, 1.4.10; 640 px is 1280 at 200 % zoom, 1.4.4. 44 px targets stand above 2.5.8, which asks for 24.
MEASURE = """<!DOCTYPE html><meta charset="utf-8"><pre id="found"></pre><script>
(async () => {
  const found = []
  for (const width of [320, 640]) for (const path of PATHS) {
    const frame = document.createElement("iframe")
    frame.style.cssText = `border: 0; width: ${width}px; height: 700px`
    document.body.append(frame)
    await new Promise(done => { frame.onload = done; frame.src = path })
    const page = frame.contentDocument
    page.querySelectorAll("details").forEach(told => told.open = true)
    await page.fonts.ready
    const say = (what, of) => found.push(`${path} at ${width}: ${what} ${of}`)
    if (page.documentElement.scrollWidth > width) say("scrolls", page.documentElement.scrollWidth)
    if (![...page.fonts].some(font => font.status == "loaded")) say("lacks", "fonts")
    for (const one of page.querySelectorAll("a:not(.skip), summary")) {
      const { width: across, height } = one.getBoundingClientRect()
      const inText = one.closest("p:not(.ways, .wanted, .finding p)")
      if (height && height < 43.5 && !inText) say("small target", one.textContent)
    }
    for (const one of page.querySelectorAll("body *")) {
      const written = [...one.childNodes].some(node => node.nodeType == 3 && node.data.trim())
      const seen = one.getBoundingClientRect().height > 0
      const drawn = seen && one.ownerSVGElement ? one.getScreenCTM().a : 1  // px for a unit of the drawing
      const { left, width: across } = one.getBoundingClientRect()
      if (written && seen && left < 0 && across > 1) say("cut at the left", one.textContent)
      if (written && seen && parseFloat(getComputedStyle(one).fontSize) * drawn < 16) say("small text", one.textContent)
    }
    frame.remove()
  }
  document.getElementById("found").textContent = JSON.stringify(found)
})()
</script>"""
WIDE = b"<!DOCTYPE html><title>wide</title><p style='width: 900px; font-size: 9px'>wide</p><a href='x'>x</a>"


def _browse(url: str, profile: Path, *options: str) -> subprocess.CompletedProcess[str]:
    assert CHROMIUM is not None
    command = [CHROMIUM, *QUIET, *ALONE, f"--user-data-dir={profile}", "--enable-logging=stderr", *options, url]
    return subprocess.run(command, capture_output=True, text=True, timeout=120, check=True)


def test_pages_fit_a_narrow_screen_and_a_finger(folder: Path, served: str, tmp_path: Path) -> None:
    made = [
        *folder.glob("demo/bittern/*.html"),
        *folder.glob("demo/grebe/*.html"),
        *folder.glob("made/**/*.html"),
        *folder.glob("demo/jobs/*/*.html"),
    ]
    pages = [
        file.relative_to(folder).as_posix() for file in made if file.name != "mischief.html"
    ]  # its units are novels
    pages += ["demo/index.html", "wide.html"]
    (folder / "wide.html").write_bytes(WIDE)
    (folder / "measure.html").write_text(MEASURE.replace("PATHS", json.dumps(sorted(pages))))
    done = _browse(f"{served}/measure.html", tmp_path, "--virtual-time-budget=100000", "--dump-dom")
    match = re.search('<pre id="found">(.+?)</pre>', done.stdout, re.DOTALL)
    assert match, "the measuring page did not finish"
    found = json.loads(html.unescape(match[1]))
    control = [line for line in found if line.startswith("wide.html")]
    assert {"scrolls", "lacks"} <= {line.split(": ")[1].split()[0] for line in control}, "the measuring itself works"
    assert [line for line in found if line not in control] == []
    assert "Refused" not in done.stderr


@pytest.mark.parametrize("path", ["made/index.html", "made/teal/seats.html", "made/teal/mischief.html"])
def test_from_a_folder_without_a_server(folder: Path, tmp_path: Path, path: str) -> None:
    """Chromium reports a refused style sheet, font or picture, and any error, as a line of its console."""
    done = _browse((folder / path).as_uri(), tmp_path, "--dump-dom")
    assert "</html>" in done.stdout
    assert [line for line in done.stderr.splitlines() if "CONSOLE" in line] == []


def test_a_hold_is_never_alone_on_the_last_sheet(folder: Path, tmp_path: Path) -> None:
    """Printed by the browser: what goes before it comes along to the sheet that the hold is on."""
    alone = []
    for page in sorted((folder / "demo/grebe").glob("*.html"))[:12]:
        printed = tmp_path / f"{page.stem}.pdf"
        _browse(page.as_uri(), tmp_path / "profile", "--no-pdf-header-footer", f"--print-to-pdf={printed}")
        sheets = PdfDocument(printed)
        said = sheets[len(sheets) - 1].get_textpage().get_text_range().split()
        alone += [page.stem] if said[0] == "HOLD" else []
    assert alone == []


def test_families_stand_in_line_though_one_has_no_drawing(folder: Path, browser: Browser) -> None:
    with closing(browser.new_page(viewport={"width": 1000, "height": 700})) as page:
        page.goto((folder / "demo/index.html").as_uri())
        names = page.locator(".families b").all()
        tops = {round(box["y"]) for name in names if (box := name.bounding_box()) is not None}
        assert page.locator(".families svg").count() < len(names)
        assert len(tops) == 1
