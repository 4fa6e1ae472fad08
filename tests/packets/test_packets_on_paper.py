"""Packets as files: PDF/UA-1 by an independent checker, sound by qpdf, our own fonts alone, both papers and themes."""

from __future__ import annotations

import shutil
import subprocess
from functools import cache
from io import BytesIO
from pathlib import Path
from typing import Any

import page
import pdfplumber
import pikepdf
import pytest

from procgen.compose import shop
from procgen.compose.packet import compose_packet
from procgen.draw.fonts import prepare
from procgen.files.home import resources
from procgen.paper.boxes import MM, is_text, walk
from procgen.paper.boxes import pages as boxes_of
from procgen.paper.packet import PacketPress, PacketPrint
from tests.demo import ROOT, workshop

JOBS = ("reed-cutter", "samphire", "sea-lavender")
SIZES = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}  # mm: ISO 216, ANSI Y14.1
PRINTS = [("reed-cutter", "a4", "colour"), ("samphire", "letter", "mono"), ("sea-lavender", "letter", "colour")]
SIDE = 10.0  # mm of margin


@cache
def press() -> PacketPress:
    return PacketPress(prepare(ROOT / ".cache" / "test-fonts"), [resources("templates")])


@cache
def printed(id: str, paper: str = "a4", theme: str = "colour") -> PacketPrint:
    return press().packet(compose_packet(workshop(), workshop().jobs[id])[0], shop(workshop()), paper, theme)


@pytest.fixture(params=PRINTS, ids=" ".join)
def made(request: pytest.FixtureRequest) -> PacketPrint:
    return printed(*request.param)


def test_they_keep_to_pdf_ua(made: PacketPrint, tmp_path: Path) -> None:
    path = tmp_path / "packet.pdf"
    path.write_bytes(made.pdf)
    found = page.validate_pdf(str(path), profile=page.ValidationProfile.PDF_UA_1)
    assert found.rules.total >= 100  # all of them were looked at
    assert sorted({f"{failure.rule_id} {failure.message}" for failure in found.failures}) == []


def test_they_are_sound(made: PacketPrint, tmp_path: Path) -> None:
    qpdf = shutil.which("qpdf")
    if qpdf is None:
        pytest.skip("no qpdf on this machine")
    path = tmp_path / "packet.pdf"
    path.write_bytes(made.pdf)
    done = subprocess.run([qpdf, "--check", path], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr


def test_only_our_own_fonts_are_in_them(made: PacketPrint) -> None:
    with pikepdf.open(BytesIO(made.pdf)) as pdf:
        fonts = [one for one in pdf.objects if isinstance(one, pikepdf.Dictionary) and one.get("/Type") == "/Font"]
        whole = [one for one in fonts if one.get("/Subtype") == "/Type0"]
        names = {str(one["/BaseFont"]).partition("+")[2] for one in whole}
        assert names
        assert all(name.startswith("Card-") for name in names), names
        for one in whole:
            assert "/FontFile2" in one["/DescendantFonts"][0]["/FontDescriptor"]


@pytest.mark.parametrize("paper", SIZES)
def test_nothing_runs_off_the_paper_or_out_of_its_column(paper: str) -> None:
    for id in JOBS:
        for number, leaf in enumerate(boxes_of(printed(id, paper).document), start=1):
            assert (round(leaf.margin_width() * MM, 1), round(leaf.margin_height() * MM, 1)) == SIZES[paper]
            for text in filter(is_text, walk(leaf)):
                assert text.position_x * MM >= SIDE - 0.1, (id, number, text.text)
                assert _right(text) <= SIZES[paper][0] - SIDE + 0.1, (id, number, text.text)
            for cell in (box for box in walk(leaf) if box.element_tag in ("td", "th")):
                for text in filter(is_text, walk(cell)):
                    assert _right(text) <= _right(cell) + 0.1, (id, number, text.text)


def _right(box: Any) -> float:
    return float((box.position_x + box.margin_width()) * MM)


@pytest.mark.parametrize("paper", SIZES)
def test_four_bore_maps_share_a_page(paper: str) -> None:
    for id in JOBS:
        made = printed(id, paper)
        with pdfplumber.open(BytesIO(made.pdf)) as pdf:
            counts = [leaf.extract_text().count(": sizes in mm") for leaf in pdf.pages]
        found = [count for count in counts if count]
        assert sum(found) == len(compose_packet(workshop(), workshop().jobs[id])[0].maps)
        assert all(count == 4 for count in found[:-1]), (id, found)
