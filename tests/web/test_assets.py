"""Fonts, style sheet, sizes, and the same bytes each time."""

from __future__ import annotations

import hashlib
import os
import posixpath
import re
import subprocess
import sys
from collections.abc import Mapping
from io import BytesIO
from pathlib import Path

import pytest
from fontTools.ttLib import TTFont
from jinja2 import UndefinedError
from made_up import DECKS, GUIDE, PRINTED, SHOP
from reading import read

from procgen.draw.fonts import Fonts
from procgen.model.card import Deck, Stage
from procgen.web.site import pages
from procgen.web.stage_mark import graduations

KB = 1024
ROOT = Path(__file__).resolve().parents[2]


def _digest(site: Mapping[str, bytes]) -> str:
    return hashlib.sha256(b"".join(path.encode() + content for path, content in sorted(site.items()))).hexdigest()


SCRIPT = """
import sys, hashlib
from pathlib import Path
sys.path[:0] = sys.argv[2:]
from made_up import DECKS, GUIDE, PRINTED, SHOP
from reading import read
from procgen.draw.fonts import prepare
from procgen.web.site import pages
site = dict(pages(SHOP, DECKS, PRINTED, fonts=prepare(Path(sys.argv[1])), guide=GUIDE))
print(hashlib.sha256(b"".join(p.encode() + c for p, c in sorted(site.items()))).hexdigest())
"""


def test_the_same_bytes_in_another_process(site: Mapping[str, bytes], tmp_path: Path) -> None:
    here = Path(__file__).resolve().parent
    done = subprocess.run(
        [sys.executable, "-c", SCRIPT, str(tmp_path), str(here), str(here.parents[1])],
        env={**os.environ, "PYTHONHASHSEED": "7", "TZ": "Asia/Tokyo"},
        cwd=tmp_path,
        capture_output=True,
        text=True,
        check=True,
    )
    assert done.stdout.strip() == _digest(site)


def test_assets_are_named_by_their_content(any_site: Mapping[str, bytes]) -> None:
    assets = [path for path in any_site if path.startswith("assets/")]
    assert len(assets) >= 10
    for path in assets:
        assert path.split(".")[-2] == hashlib.blake2b(any_site[path], digest_size=6).hexdigest()


def test_a_page_stays_small(demo: Mapping[str, bytes], demo_decks: tuple[Deck, ...]) -> None:
    """The first page under 100 KB and a card under 200 KB, with all that it asks for: fonts, styles, scripts, drawings,
    and the card's data. Italics are asked for where they are used.
    """

    def weight(path: str, *more: str) -> int:
        page = read(demo[path])
        asked = {link for _, link in [*page.having("src"), *page.having("href")] if link.endswith((".js", ".css"))}
        asked = {posixpath.normpath(posixpath.join(posixpath.dirname(path), link)) for link in asked} | set(more)
        slanted = "-italic" if "i" not in {element.tag for element in page.elements} else "bold-italic"
        fonts = {font for font in demo if font.endswith(".woff2") and slanted not in font}
        return sum(len(demo[one]) for one in {path} | asked | fonts)

    assert weight("index.html") < 100 * KB
    for card in (card for deck in demo_decks for card in deck.cards):
        data = [f"data/{card.address}.js"] if card.live else []
        assert weight(f"{card.address}.html", *data) < 200 * KB, card.address


def test_no_text_in_backquotes_holds_another() -> None:
    """The packer ends the outer one at the inner one, and takes the spaces of what it holds for ours."""
    scripts = sorted((ROOT / "templates/site/live").glob("*.js"))
    inner = re.compile(r"\$\{[^}`]*`")
    assert len(scripts) > 20
    assert inner.search("`${a ? `${b} mm` : c}`")
    assert [script.name for script in scripts if inner.search(script.read_text("utf-8"))] == []


def test_fonts_draw_every_character_of_the_pages(demo: Mapping[str, bytes]) -> None:
    shown = set("".join(c.decode() for p, c in demo.items() if p.endswith(".html"))) - set("\n")
    for path, content in demo.items():
        if path.endswith(".woff2"):
            assert content[:4] == b"wOF2"  # W3C WOFF 2.0, section 4
            font = TTFont(BytesIO(content))
            drawn = {chr(code) for code in font.getBestCmap()}
            assert not shown - drawn, f"{path} lacks {sorted(shown - drawn)}"


def test_fonts_keep_their_notice_and_no_reserved_name(demo: Mapping[str, bytes]) -> None:
    for path, content in demo.items():
        if path.endswith(".woff2"):
            names = TTFont(BytesIO(content))["name"]
            assert "Copyright" in str(names.getName(0, 3, 1))
            assert "Encode" not in str(names.getName(1, 3, 1))
    licences = [content.decode() for path, content in demo.items() if path.endswith(".txt")]
    assert len(licences) == 2
    assert all("SIL OPEN FONT LICENSE" in text for text in licences)


def _luminance(colour: str) -> float:
    """WCAG 2.2, relative luminance."""
    digits = colour[1:] if len(colour) == 7 else "".join(2 * c for c in colour[1:])
    channels = [int(digits[i : i + 2], 16) / 255 for i in (0, 2, 4)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def _contrast(one: str, other: str) -> float:
    high, low = sorted((_luminance(one), _luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def test_colours_stand_out(site: Mapping[str, bytes]) -> None:
    """WCAG 2.2: text 7:1 for AAA, 4.5:1 for AA. Checked first on a pair that is published: #767676 on white, 4.54."""
    assert _contrast("#767676", "#ffffff") == pytest.approx(4.54, abs=0.005)
    sheet = next(content for path, content in site.items() if path.endswith(".css")).decode()
    for theme in re.findall(r":root \{(.*?)\}", sheet, re.DOTALL)[:2]:
        colours = dict(re.findall(r"--([a-z-]+): (#[0-9A-Fa-f]+)", theme))
        for text in ("ink", "accent", "quiet"):
            assert _contrast(colours[text], "#fff") >= 7
        assert _contrast(colours["danger"], "#fff") >= 4.5
        assert _contrast(colours["notice"], colours["notice-word"]) >= 4.5
        assert _contrast(colours["warning"], "#000") >= 4.5
        assert _contrast(colours["caution"], "#000") >= 4.5


def test_the_stage_scale() -> None:
    """Stage 9 of 20: the ninth twentieth of the width; a long graduation every fifth, as on a steel rule."""
    scale = graduations(Stage(9, "Measure", 20, "Threads", "Decide"))
    assert (scale.block, scale.width) == ("40%", "5%")
    assert [x for x, long in scale.ticks if long] == ["0%", "25%", "50%", "75%", "100%"]
    last = graduations(Stage(3, "Last", 3, "", ""))
    assert (last.label, last.anchor) == ("100%", "end")


def test_a_workshop_overrides_a_template(fonts: Fonts, tmp_path: Path) -> None:
    (tmp_path / "site").mkdir()
    (tmp_path / "site" / "guide.html").write_text("<p>{{ shop.name }}, our own: {{ guide | length }}</p>")
    made = dict(pages(SHOP, DECKS, PRINTED, fonts=fonts, templates=[tmp_path], guide=GUIDE))
    assert made["guide.html"] == b"<p>The Mud Dock, our own: 1</p>"
    (tmp_path / "site" / "guide.html").write_text("{{ shop.nmae }}")
    with pytest.raises(UndefinedError, match="nmae"):
        dict(pages(SHOP, DECKS, PRINTED, fonts=fonts, templates=[tmp_path], guide=GUIDE))
