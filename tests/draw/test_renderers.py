"""Every kind of drawing as two renderers print it, that know nothing of each other.

Poppler and PDFium must agree, else something is drawn that only one of them draws right. Edges may differ by smoothing.
"""

from __future__ import annotations

import io
import shutil
import subprocess
from collections.abc import Iterator, Sequence
from pathlib import Path

import numpy as np
import pypdfium2
import pytest
from drawings import Drawn
from PIL import Image
from test_verdict_bar import CLOSE
from weasyprint import HTML
from weasyprint.text.fonts import FontConfiguration

from procgen.compose import compose_deck
from procgen.compose.packet import compose_packet
from procgen.compose.packet.lines import line
from procgen.draw.fonts import Fonts
from procgen.draw.signs import Signs
from procgen.draw.svg import Drawer
from procgen.draw.verdict_bar import taken_arm, verdict_bar
from procgen.files.home import resources
from procgen.model.card import Stage
from procgen.model.workshop import ReadFrom, Workshop
from procgen.paper import shapes
from procgen.paper.qr import qr
from procgen.paper.sizes import FLOOR, sizes
from procgen.paper.stage_mark import scale
from procgen.paper.stages import stages
from procgen.paper.theme import THEMES
from procgen.trade.scenes import VIEWS

pytestmark = pytest.mark.skipif(shutil.which("pdftoppm") is None, reason="Poppler is not installed")

A5 = (120.6, 13.85)
PATCH = 20  # pixels at 144 dpi: 3.5 mm
APART = 40.0  # of 255, over a patch: something is drawn by one and not by the other


def _differences(svgs: Sequence[str], fonts: Fonts, folder: Path) -> Iterator[np.ndarray]:
    """How much the two differ, patch by patch, for each page that the drawings take."""
    blocks = "".join(f'<div style="break-inside: avoid; padding-bottom: 3mm">{svg}</div>' for svg in svgs)
    css = f"{fonts.css()} @page {{ size: 130mm 200mm; margin: 4mm }} svg {{ display: block }}"
    file = folder / "all.pdf"
    HTML(string=f"<style>{css}</style>{blocks}").write_pdf(file, font_config=FontConfiguration())
    subprocess.run(["pdftoppm", "-r", "144", "-gray", str(file), str(folder / "p")], check=True)
    poppler = [Image.open(io.BytesIO(path.read_bytes())) for path in sorted(folder.glob("p-*.pgm"))]
    document = pypdfium2.PdfDocument(file)
    assert len(poppler) == len(document)
    for one, page in zip(poppler, document, strict=True):
        other = page.render(scale=2, grayscale=True).to_pil().resize(one.size)
        assert np.asarray(one).min() < 100  # there is something on it
        a, b = (np.asarray(image.reduce(PATCH), dtype=float) for image in (one, other))
        yield np.abs(a - b)


def _agree(svgs: Sequence[str], fonts: Fonts, folder: Path) -> None:
    for apart in _differences(svgs, fonts, folder):
        assert apart.mean() < 2.0
        assert apart.max() < APART


def test_every_view_of_every_family(
    scenes: tuple[Drawn, ...], workshop: Workshop, fonts: Fonts, drawer: Drawer, tmp_path: Path
) -> None:
    assert {drawn.view for drawn in scenes} == set(VIEWS)
    assert len({drawn.family.id for drawn in scenes}) >= 5
    _agree([drawer(drawn.scene, *A5, "colour") for drawn in scenes], fonts, tmp_path)


def _one_of_each(scenes: Sequence[Drawn]) -> Iterator[Drawn]:
    seen = set()
    for drawn in scenes:
        if drawn.view not in seen:
            seen.add(drawn.view)
            yield drawn


@pytest.mark.parametrize("theme", ["colour", "mono"])
def test_all_else_that_is_drawn(
    scenes: tuple[Drawn, ...], workshop: Workshop, fonts: Fonts, drawer: Drawer, tmp_path: Path, theme: str
) -> None:
    """Signs, bars, arms, scales, codes, boxes, bore maps, outlines in a row; and one view of each kind in mono."""
    inks, signs = THEMES[theme], Signs([resources("templates")])
    job = next(iter(workshop.jobs.values()))
    packet, _ = compose_packet(workshop, job, compose_deck(workshop, workshop.families[job.family]))
    type_sizes = sizes(fonts, ReadFrom(), FLOOR)
    numbers = sorted(path.stem for path in (resources("templates") / "drawings" / "signs").iterdir())
    outlines = [drawn.scene for drawn in scenes if drawn.view == "end_view"]
    svgs = [signs.draw(number, 14.0, theme) for number in numbers]
    svgs += [verdict_bar(line([CLOSE], "cam bearing 4", str), 60.0, theme), taken_arm(60.0, theme)]
    svgs += [scale(Stage(9, "Measure", 27, "Threads", "Decide"), 118.0, fonts, type_sizes, inks)]
    svgs += [stages(packet, 118.0, 12.0, fonts, inks), qr("https://saltings.example/c/1.html#r=7KQ4M", inks.ink)[0]]
    svgs += [shapes.cut_box(34.0, 11.0, 0.6, inks.accent), shapes.bend(30.0, 4.0, 1.3, inks.accent)]
    svgs += [
        shapes.arrowhead(5.0, 8.0, 1.3, inks.accent),
        shapes.alert(6.0, inks.ink),
        shapes.hatch(60.0, 6.0, inks.ink),
    ]
    svgs += [drawer(map.scene, *A5, theme) for map in packet.maps[:2]]
    svgs += drawer.row(outlines[:3], 60.0, A5[1], theme)
    if theme == "mono":
        svgs += [drawer(drawn.scene, *A5, theme) for drawn in _one_of_each(scenes)]
    assert packet.maps
    assert all(svgs)
    _agree(svgs, fonts, tmp_path)


def test_what_one_of_them_draws_otherwise_is_found(fonts: Fonts, tmp_path: Path) -> None:
    """A gradient in units of its box: Poppler leaves it nearly blank."""
    svg = (
        '<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="30mm" viewBox="0 0 60 30"><defs><linearGradient '
        'id="g"><stop offset="0" stop-color="#000"/><stop offset="1" stop-color="#444"/></linearGradient></defs>'
        '<rect width="60" height="30" fill="url(#g)"/><rect y="25" width="60" height="4" fill="#000"/></svg>'
    )
    assert max(apart.max() for apart in _differences([svg], fonts, tmp_path)) >= APART
