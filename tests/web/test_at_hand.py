"""What a person at the bench has at hand: search, units, origins; large targets, nothing sideways, nothing moving."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from bench import begin, box
from browsing import DESK, PHONE, visit
from playwright.sync_api import Browser, expect
from pypdfium2 import PdfDocument

SMALL = """() => [...document.querySelectorAll("a, button, input, select, summary")].filter(one => {
  const { width, height } = one.getBoundingClientRect()
  const inText = one.matches("a") && one.closest("p:not(.ways, .links), li p:not(.links)")
  return width > 1 && height > 1 && !inText && !one.closest(".enter") && (height < 43.5 || width < 43.5)
}).map(one => one.outerHTML.slice(0, 120))"""
INSIDE = """one => {
  const [word, box] = [one, one.parentElement].map(each => each.getBoundingClientRect())
  return box.left + 3 <= word.left && word.right <= box.right - 3
}"""
"""A box's own target is the frame around it, 48 px high."""


@pytest.mark.parametrize("width", [320, 640], ids=["320 px", "1280 px at 200 %"])
def test_a_card_at_work_fits(browser: Browser, folder: Path, width: int) -> None:
    """WCAG 2.2: 1.4.10 reflow, 1.4.4 resize; targets of 44 px, above what 2.5.8 asks."""
    with visit(browser, (folder / "demo").as_uri(), (width, 400), reduced_motion="reduce") as at:
        for path, field in (("cylinder-survey", "Bore A1, 9 mm, across the crank, mm"), ("re-plug", "")):
            page = at.open(f"avocet/{path}.html")
            if field:
                begin(page, "Test boat")
                box(page, field).fill("09.2")
                page.locator(".query:not(:empty)").wait_for()
            page.evaluate("document.querySelectorAll('details').forEach(one => { one.open = true })")
            assert page.evaluate("document.documentElement.scrollWidth") <= width
            assert page.evaluate(SMALL) == []
            assert page.evaluate("document.getAnimations().length") == 0


@pytest.mark.parametrize(
    ("typed", "kind", "leads"),
    [
        ("oil gall", "card", "galleys.html"),
        ("thumbn ridge", "step", "cylinder-survey.html#step-thumbnail"),
        ("vapour", "caution", ".html"),
        ("MG-F", "plug", "#step-"),
        ("spindle sp", "value", "hone.html"),
    ],
)
def test_search_answers_as_one_types(browser: Browser, folder: Path, typed: str, kind: str, leads: str) -> None:
    with visit(browser, (folder / "demo").as_uri()) as at:
        page = at.open("bittern/index.html")
        search = page.get_by_role("searchbox")
        search.press_sequentially(typed)
        page.locator("#found li").first.wait_for()
        first = page.locator("#found li").first
        assert first.locator(".kind").all_inner_texts() == ([f"{kind} "] if kind not in ("card", "step") else [])
        link = first.get_by_role("link").first
        assert "/bittern/" in (href := link.evaluate("one => one.href"))
        assert leads in href
        search.press("Escape")
        expect(page.locator("#found li")).to_have_count(0)
        search.fill("zzzz")
        expect(page.locator("search .said")).to_have_text("0 found")


def test_escape_goes_from_what_was_found_to_the_search_and_then_empties_it(browser: Browser, folder: Path) -> None:
    with visit(browser, (folder / "demo").as_uri()) as at:
        page = at.open("bittern/index.html")
        search, found = page.get_by_role("searchbox"), page.locator("#found li")
        search.press_sequentially("ridge")
        found.first.wait_for()
        count = found.count()
        for _ in range(3):
            page.keyboard.press("Tab")
        expect(page.locator("#found a:focus")).to_have_count(1)
        page.keyboard.press("Escape")
        expect(search).to_be_focused()
        expect(search).to_have_value("ridge")
        expect(found).to_have_count(count)
        page.keyboard.press("Escape")
        expect(search).to_be_focused()
        expect(search).to_have_value("")
        expect(found).to_have_count(0)


LOOKS = """input => {
  const [box, unit] = [input.parentElement, input.nextElementSibling]
  const { borderLeftWidth, outlineStyle } = getComputedStyle(box)
  return [parseFloat(borderLeftWidth), getComputedStyle(unit, "::before").content, outlineStyle]
}"""


def test_a_queried_box_looks_unlike_a_focused_one(browser: Browser, folder: Path) -> None:
    """By a thick edge and a mark, not by colour; so too on paper. What is no figure is queried as well."""
    with visit(browser, (folder / "demo").as_uri(), PHONE) as at:
        page = at.open("bittern/cylinder-survey.html")
        begin(page, "Test boat")
        asked, other = (box(page, f"Bore A1, {depth} mm, across the crank, mm") for depth in (3, 8))
        thin, _, _ = asked.evaluate(LOOKS)
        for said in ("985.4", "98,4x"):
            asked.fill(said)
            other.focus()
            edge, mark, outline = asked.evaluate(LOOKS)
            assert (edge >= 3 * thin, mark, outline) == (True, '"?"', "none")
            assert other.evaluate(LOOKS) == [thin, "none", "solid"]
            asked.focus()
            assert asked.evaluate(LOOKS) == [edge, mark, "solid"], "told apart while it has the focus, too"
        expect(page.locator(".query:not(:empty)")).to_contain_text("Not a figure")
        expect(asked).to_have_attribute("aria-invalid", "true")
        page.emulate_media(media="print")
        assert asked.evaluate(LOOKS)[:2] == [edge, mark]
        page.emulate_media(media="screen")
        asked.fill("98.41")
        assert asked.evaluate(LOOKS) == [thin, "none", "solid"]


def test_what_is_found_takes_a_phones_whole_width_and_moves_nothing(browser: Browser, folder: Path) -> None:
    with visit(browser, (folder / "demo").as_uri(), PHONE) as at:
        page = at.open("bittern/index.html")
        units = page.locator(".units")
        before = units.bounding_box()
        page.get_by_role("searchbox").press_sequentially("ridge")
        page.locator("#found li").first.wait_for()
        assert units.bounding_box() == before
        found = page.locator("#found").bounding_box()
        assert found is not None
        assert (found["x"], found["width"]) == (16, PHONE[0] - 48), "room for a scroll bar"


def test_inches_are_remembered(browser: Browser, address: str) -> None:
    with visit(browser, address) as at:
        page = at.open("bittern/index.html")
        bore = page.locator("tr", has=page.get_by_role("rowheader", name="Bore", exact=True)).first.locator("td")
        assert "mm" in bore.locator(".figure").first.inner_text()
        page.get_by_role("button", name="Set to inch").click()
        assert "in" in bore.locator(".figure").first.inner_text()
        page = at.open("bittern/travel.html")
        expect(page.get_by_role("button", name="Set to inch")).to_have_attribute("aria-pressed", "true")
        begin(page, "Test boat")
        assert box(page, "Deck cut, in").count() == 1, "readings too"


def test_where_a_figure_comes_from_is_one_tap_away(browser: Browser, address: str) -> None:
    with visit(browser, address) as at:
        page = at.open("bittern/hone.html")
        for told in page.locator("details.from").all():
            told.locator("summary").first.click()
            assert told.locator(".place, .formula").first.is_visible(), told.inner_text()


def test_enter_goes_on_to_the_next_box_and_a_page_comes_back_to_its_cylinder(browser: Browser, folder: Path) -> None:
    """A gauge on a cable types its figure and Enter; a phone drops a page that it was turned away from."""
    with visit(browser, (folder / "demo").as_uri(), PHONE) as at:
        page = at.open("bittern/cylinder-survey.html")
        begin(page, "Test boat")
        page.get_by_role("group", name="Which cylinder").last.get_by_role("button", name="A2").click()
        box(page, "Bore A2, 3 mm, across the crank, mm").focus()
        for figure in ("98.41", "98.40", "985.4", "98.42"):  # the third is asked about, which holds nobody up
            page.keyboard.type(figure)
            page.keyboard.press("Enter")
        expect(box(page, "Bore A2, 41 mm, across the crank, mm")).to_be_focused()
        page.reload()
        expect(box(page, "Bore A2, 3 mm, along the crank, mm")).to_have_value("98.40")
        expect(box(page, "Bore A2, 8 mm, along the crank, mm")).to_have_value("98.42")
        assert page.locator(".square small", has_text="queried").evaluate_all(f"all => all.map({INSIDE})") == [True]


def test_printed_from_the_browser(browser: Browser, folder: Path) -> None:
    """Card, steps and decisions; none of what only a screen is for."""
    with visit(browser, (folder / "demo").as_uri(), PHONE) as at:
        page = at.open("bittern/hone.html")
        page.emulate_media(media="print")
        for seen in (".up", "h1", ".steps .step", ".arm", ".hold", ".foot", ".drawing svg"):  # .up names the engine
            assert page.locator(seen).first.is_visible(), seen
        for hidden in ("search", ".units", ".side", ".job", "details.from", "footer.site"):
            assert not page.locator(hidden).first.is_visible(), hidden
        sizes = at.open("bittern/index.html").get_by_role("heading", name="Sizes")
        assert sizes.is_visible()  # a family's own, though they stand beside its deck


def test_printed_without_a_job_a_card_has_boxes_for_a_pencil(browser: Browser, folder: Path) -> None:
    """One for each that is read, not for the one member that a screen shows; with a job, what was entered."""
    with visit(browser, (folder / "demo").as_uri(), PHONE) as at:
        page = at.open("bittern/galleys.html")
        boxes, entry = page.locator("[data-reading=brushed] .fill"), page.locator("[data-reading=brushed] .choice")
        assert (boxes.count(), boxes.first.is_visible(), entry.first.is_visible()) == (18, False, True)
        page.emulate_media(media="print")
        assert (boxes.first.is_visible(), entry.first.is_visible()) == (True, False)
        page.emulate_media(media="screen")
        begin(page, "Test boat")
        page.emulate_media(media="print")
        assert (boxes.first.is_visible(), entry.first.is_visible()) == (False, True)


def test_printed_no_bore_map_is_parted_from_its_title(browser: Browser, folder: Path) -> None:
    with visit(browser, (folder / "demo").as_uri(), DESK) as at:
        page = at.open("jobs/sea-lavender/index.html")
        sheets = PdfDocument(page.pdf(format="Letter"))
        texts = [sheet.get_textpage().get_text_range() for sheet in sheets]
        titles = [len(re.findall("Cylinder [AB][1-4], survey", text)) for text in texts]
        assert sum(titles) == 8
        assert titles == [text.count("whole engine:") for text in texts]


def test_printed_with_a_job_a_long_step_begins_on_the_sheet_before_it(browser: Browser, folder: Path) -> None:
    """Its readings may go on overleaf; else half of each sheet stays empty. Focus is not outlined on paper."""
    with visit(browser, (folder / "demo").as_uri(), DESK) as at:
        page = at.open("bittern/cylinder-survey.html")
        begin(page, "Test boat")
        field = box(page, "Bore A1, 3 mm, across the crank, mm")
        field.focus()
        first = PdfDocument(page.pdf(format="A4"))[0].get_textpage().get_text_range()
        assert "Look with the lamp low" in first
        page.emulate_media(media="print")
        assert field.evaluate(LOOKS)[2] == "none"


@pytest.mark.parametrize(("width", "columns"), [(360, 1), (820, 2), (1280, 2)])
def test_the_order_of_work_takes_the_columns_that_there_is_room_for(
    browser: Browser, folder: Path, width: int, columns: int
) -> None:
    with visit(browser, (folder / "demo").as_uri(), (width, 800)) as at:
        stops = at.open("bittern/index.html").locator(".order li").all()
        assert len({stop.bounding_box()["x"] for stop in stops}) == columns  # type: ignore[index]
