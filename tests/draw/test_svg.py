"""The SVG itself: true to its scale, plain enough for every renderer, the same bytes each time."""

import hashlib
import os
import re
import subprocess
import sys
from fractions import Fraction
from pathlib import Path
from xml.etree import ElementTree

import pytest
from drawings import Drawn

from procgen.draw.fonts import Fonts
from procgen.draw.inks import AT
from procgen.draw.lettering import Letters
from procgen.draw.placing import TooWide, place
from procgen.draw.scales import said, scales_to
from procgen.draw.sheet import Sheet
from procgen.draw.svg import Drawer, words_under, worth_trying
from procgen.files.home import resources
from procgen.model.scene import Arc, Label, Scene
from procgen.model.scene import Path as Line

SVG = "{http://www.w3.org/2000/svg}"
A5 = (120.6, 13.85)
PLAIN = {"d", "fill", "stroke", "stroke-width", "stroke-linejoin", "stroke-linecap", "stroke-dasharray", "x", "y"}
PLAIN |= {"font-family", "font-size", "font-weight", "text-anchor", "width", "height", "viewBox", "role", "aria-hidden"}


def first(scenes: tuple[Drawn, ...], family: str, id: str) -> Scene:
    return next(drawn.scene for drawn in scenes if drawn.family.id == family and drawn.scene.id == id)


def parsed(svg: str) -> ElementTree.Element:
    return ElementTree.fromstring(svg)


@pytest.fixture(scope="module", params=["colour", "mono"])
def svgs(request: pytest.FixtureRequest, drawer: Drawer, scenes: tuple[Drawn, ...]) -> list[tuple[Drawn, str]]:
    return [(drawn, drawer(drawn.scene, *A5, request.param)) for drawn in scenes]


def test_only_plain_elements_with_attributes_of_their_own(svgs: list[tuple[Drawn, str]]) -> None:
    for drawn, svg in svgs:
        root = parsed(svg)
        assert {each.tag.removeprefix(SVG) for each in root.iter()} == {"svg", "title", "desc", "path", "text"}, str(
            drawn
        )
        assert {name for each in root.iter() for name in each.attrib} <= PLAIN
        assert "url(" not in svg
        assert root[0].tag == f"{SVG}title"
        assert root[1].tag == f"{SVG}desc"
        assert root[1].text == drawn.scene.describe.replace("\u202f", "\u00a0")


def test_every_text_names_its_face_and_is_large_enough(svgs: list[tuple[Drawn, str]], fonts: Fonts) -> None:
    step = A5[1] * 25.4 / 72
    for _, svg in svgs:
        for text in parsed(svg).iter(f"{SVG}text"):
            assert text.attrib["font-family"] in fonts.families
            assert float(text.attrib["font-size"]) >= step - 0.01
            assert text.text


def test_its_size_on_paper_is_its_own_coordinates(svgs: list[tuple[Drawn, str]]) -> None:
    for _, svg in svgs:
        root = parsed(svg)
        across, down = root.attrib["width"].removesuffix("mm"), root.attrib["height"].removesuffix("mm")
        assert root.attrib["viewBox"] == f"0 0 {across} {down}"
        assert float(across) == pytest.approx(A5[0])


def circles(svg: str) -> set[float]:
    """Radii of whole circles, mm."""
    return {float(radius) for radius in re.findall(r"M\S+ \S+a(\S+) \S+ 0 1 1 \S+ 0a\S+ \S+ 0 1 1 \S+ 0Z", svg)}


def test_full_size_is_full_size(scenes: tuple[Drawn, ...], drawer: Drawer) -> None:
    """Avocet's groove is cut 2 mm deep round a bore of 57 mm: a ring of radius 30.5 mm on paper."""
    scene = first(scenes, "avocet", "cam-clock-2")
    svg = drawer(scene, 150.0, 13.85, "colour")
    assert drawer.arrange(scene, 150.0, 13.85).scale == 1
    assert "Full size." in svg
    assert 30.5 in circles(svg)


@pytest.mark.parametrize(("family", "long"), [("bittern", 524.0), ("curlew", 26.9 * 25.4), ("plover", 388.0)])
@pytest.mark.parametrize("width", [77.2, 120.6, 182.6])
def test_stated_scales_are_true(
    scenes: tuple[Drawn, ...], drawer: Drawer, family: str, long: float, width: float
) -> None:
    """The deck is as long as the block: its outline is the longest rectangle on the drawing."""
    scene = first(scenes, family, "deck-lines")
    root = parsed(drawer(scene, width, 13.85, "colour"))
    caption = " ".join(text.text or "" for text in root.iter(f"{SVG}text"))
    stated = re.search(r"Scale\s1\s:\s(\d+(?:\.\d+)?)", caption)
    assert stated is not None
    spans = []
    for path in root.iter(f"{SVG}path"):
        if re.fullmatch(r"M[-\d. ]+(L[-\d. ]+){3}Z", path.attrib["d"]):
            xs = [float(pair.split()[0]) for pair in re.findall(r"[ML]([-\d.]+ [-\d.]+)", path.attrib["d"])]
            spans.append(max(xs) - min(xs))
    assert max(spans) * float(stated[1]) == pytest.approx(long, rel=2e-3)


def test_scales_in_words() -> None:
    assert said(Fraction(1)) == "Full size"
    assert said(Fraction(2, 5)).split() == ["Scale", "1", ":", "2.5"]
    assert said(Fraction(3)).split() == ["Scale", "3", ":", "1"]


def test_a_drawing_that_may_be_laid_on_says_so_only_at_full_size(scenes: tuple[Drawn, ...]) -> None:
    scene = first(scenes, "avocet", "cam-clock-2")
    assert "Lay a shell on it" in words_under(scene, Fraction(1))
    assert "Lay a shell on it" not in words_under(scene, Fraction(1, 2))


def test_a_scale_that_is_asked_for_is_kept(scenes: tuple[Drawn, ...], drawer: Drawer) -> None:
    """So families can be shown beside one another: crank housings of 66.2 and 58.0 mm at 1 : 8."""
    for family, bore in (("bittern", 66.2), ("plover", 58.0)):
        scene = first(scenes, family, "end-view")
        svg = drawer.svg(scene, 100.0, 13.85, "colour", scale=Fraction(1, 8), caption="")
        radii = {float(r) for r in re.findall(r"[aA]([\d.]+) [\d.]+ 0", svg)}
        assert any(radius == pytest.approx(bore / 16, abs=0.01) for radius in radii)
        assert "Scale" not in svg


@pytest.mark.parametrize("width", [40.0, 74.0, 134.0])
def test_scales_that_are_not_tried_are_too_large(scenes: tuple[Drawn, ...], fonts: Fonts, width: float) -> None:
    letters, left_out = Letters(fonts, 12.0), 0
    for scene in (drawn.scene for drawn in scenes):
        for scale in set(scales_to(scene.largest)) - set(worth_trying(scene, width)):
            with pytest.raises(TooWide):
                place(Sheet(scene, float(scale), 12.0 / AT), letters, width)
            left_out += 1
    assert left_out


def test_nothing_moves_between_themes(scenes: tuple[Drawn, ...], drawer: Drawer) -> None:
    for drawn in scenes:
        one, other = (parsed(drawer(drawn.scene, *A5, theme)) for theme in ("colour", "mono"))
        assert one.attrib == other.attrib
        lines = ["".join(path.attrib["d"] for path in root.iter(f"{SVG}path")) for root in (one, other)]
        assert lines[0] == lines[1]
        texts = [[(t.text, t.attrib["x"], t.attrib["y"]) for t in root.iter(f"{SVG}text")] for root in (one, other)]
        assert texts[0] == texts[1]


def test_accent_is_wider_than_ink(drawer: Drawer) -> None:
    """What colour tells, width tells too: at least twice what else is drawn of the thing."""
    scene = Scene("s", "s", "v", "d.", (Line(((0, 0), (50, 0)), "accent"), Line(((0, 9), (50, 9)), "behind")))
    widths = [float(path.attrib["stroke-width"]) for path in parsed(drawer(scene, *A5, "mono")).iter(f"{SVG}path")]
    assert widths[0] >= 2 * widths[1]


def test_a_narrow_room_draws_smaller_and_never_loses_a_word(drawer: Drawer) -> None:
    scene = Scene("n", "n", "v", "d.", (Arc((0, 0), 30, "outline"),), (Label((30, 0), "12.5", ("hole in shell",)),))
    scales = [drawer.arrange(scene, width, 14.0).scale for width in (150.0, 110.0, 70.0)]
    assert scales == sorted(scales, reverse=True)
    for width in (150.0, 110.0, 70.0):
        texts = " ".join(text.text or "" for text in parsed(drawer(scene, width, 14.0, "mono")).iter(f"{SVG}text"))
        assert all(word in texts for word in ("12.5", "hole", "in", "shell"))


def test_words_are_escaped(drawer: Drawer) -> None:
    scene = Scene("e", "a < b & c", "v", "x > y.", (Arc((0, 0), 30, "outline"),))
    root = parsed(drawer(scene, *A5, "mono"))
    assert root[0].text == "a < b & c, v"


DIGEST = """
import hashlib, sys
from pathlib import Path
sys.path.insert(0, "tests/draw")
from drawings import all_scenes
from procgen.draw.fonts import prepare
from procgen.draw.svg import Drawer
from procgen.files.home import resources
from procgen.load.workshop import load_workshop
workshop = load_workshop(Path("."), lambda path: Path(path).read_bytes()).workshop
drawer = Drawer(prepare(Path(sys.argv[1])), [resources("templates")])
kept = [drawn for drawn in all_scenes(workshop) if drawn.family.id in ("avocet", "curlew")]
print(hashlib.sha256("".join(drawer(d.scene, 120.6, 13.85, "colour") for d in kept).encode()).hexdigest())
"""


def test_same_input_same_bytes_in_another_process(
    scenes: tuple[Drawn, ...], fonts: Fonts, drawer: Drawer, tmp_path: Path
) -> None:
    root = Path(__file__).parents[2]
    kept = [drawn for drawn in scenes if drawn.family.id in ("avocet", "curlew")]
    here = hashlib.sha256("".join(drawer(d.scene, 120.6, 13.85, "colour") for d in kept).encode()).hexdigest()
    environment = {**os.environ, "PYTHONHASHSEED": "7", "PYTHONPATH": str(root)}
    cache = fonts.face("Card Head").path.parent.parent
    done = subprocess.run(
        [sys.executable, "-c", DIGEST, str(cache)],
        cwd=root,
        env=environment,
        capture_output=True,
        text=True,
        check=True,
    )
    assert done.stdout.strip() == here


def test_templates_of_a_workshop_go_before_the_packages(
    fonts: Fonts, tmp_path: Path, scenes: tuple[Drawn, ...]
) -> None:
    (tmp_path / "drawings").mkdir()
    (tmp_path / "drawings" / "scene.svg").write_text("<svg>{{ scene.title }}</svg>")
    own = Drawer(fonts, [tmp_path, resources("templates")])
    assert own(first(scenes, "avocet", "end-view"), *A5, "colour") == "<svg>Avocet</svg>"


def test_families_in_a_row_share_scale_and_crank_line(scenes: tuple[Drawn, ...], drawer: Drawer) -> None:
    """Crank housings of 72 mm (2.834 in), 58, 66.2, 68 and 73 mm, from the families' files."""
    bores = {"curlew": 2.834 * 25.4, "plover": 58.0, "bittern": 66.2, "dunlin": 68.0, "avocet": 73.0}
    row = [first(scenes, family, "end-view") for family in bores]
    svgs = drawer.row(row, 40.0, 12.0, "colour")
    heights = {parsed(svg).attrib["height"] for svg in svgs}
    axes, scales = set(), set()
    for svg, bore in zip(svgs, bores.values(), strict=True):
        dashed = [path for path in parsed(svg).iter(f"{SVG}path") if "stroke-dasharray" in path.attrib]
        axes.add(dashed[0].attrib["d"].split("L")[0].split()[-1])
        radii = {float(r) for r in re.findall(r"[aA]([\d.]+) [\d.]+ 0", svg)}
        scales.add(min((round(2 * radius / bore, 3) for radius in radii), key=lambda s: abs(s - 1 / 12)))
    assert len(heights) == len(axes) == 1
    assert len({round(scale * 12, 1) for scale in scales}) == 1
