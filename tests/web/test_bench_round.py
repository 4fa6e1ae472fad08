"""The round at the bench, in a real browser, over http and from a folder: readings in, verdicts out, a job file to take
along, and nothing signed off while a plug is missing.
"""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from bench import begin, box, choose, read, save, type_in, verdict
from browsing import PHONE, visit
from jobs import from_file, judged, loaded
from playwright.sync_api import Browser, expect
from test_agreement import plainly, same

from procgen.cli import main
from procgen.model.card import Deck
from procgen.model.workshop import Workshop

JOBS = Path(__file__).resolve().parents[2] / "procedures" / "jobs"
REED_CUTTER = from_file((JOBS / "reed-cutter.yaml").read_text())


def session(card: str) -> dict[str, object]:
    found: dict[str, object] = next(one["readings"] for one in REED_CUTTER["sessions"] if one["card"] == card)
    return found


def test_a_cylinder_measured_judged_and_taken_along(
    browser: Browser, address: str, workshop: Workshop, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The readings of the first cylinder of the Reed Cutter, which came in worn and is honed."""
    survey = workshop.procedures["cylinder-survey"]
    readings = session("cylinder-survey")
    with visit(browser, address) as at:
        page = at.open("plover/travel.html")
        begin(page, "Test boat")
        type_in(page, workshop.procedures["travel"], session("travel"))
        page = at.open("plover/cylinder-survey.html")
        assert verdict(page).startswith("Wanting")
        type_in(page, survey, readings)
        type_in(page, survey, readings["cylinder"]["1"], "1")  # type: ignore[index]
        assert verdict(page).startswith("Hone")
        square = page.get_by_role("group", name="Which cylinder").first.get_by_role("button", name="1")
        assert square.inner_text().split() == ["1", "in"]
        assert "1: Hone" in page.locator(".told-of").inner_text()

        expect(page.locator(".arm.taken .action")).to_have_text("Taken: Hone")

        deep = box(page, "Bore 1, 35 mm, across the crank, mm")
        before = deep.input_value()
        deep.fill("80.721")  # a tenth wider one way: no longer round
        assert verdict(page).startswith("Bore")
        deep.fill("08.721")
        assert "Meant 80.721?" in page.locator(".query:not(:empty)").inner_text()
        assert "1 reading queried" in verdict(page)
        assert not verdict(page).startswith("Bore"), "what is queried counts for nothing"
        page.get_by_role("button", name="Take 80.721").click()
        expect(page.locator(".query:not(:empty)")).to_have_count(0)
        assert verdict(page).startswith("Bore")
        deep.fill(before)
        assert verdict(page).startswith("Hone")

        path = save(page, tmp_path)
    assert main(["job", str(path), "--json", "--no-packet"]) == 3, "the other cylinders are wanting"
    told = json.loads(capsys.readouterr().out)
    found = {one["member"]: one for one in told["verdicts"] if one["card"] == "cylinder-survey"}
    assert found["1"]["outcomes"] == [{"branch": "hone", "action": "Hone"}]
    assert {found[member]["state"] for member in "234"} == {"wanting"}
    with visit(browser, address) as another:
        page = another.open("plover/cylinder-survey.html")
        assert read(page, path) == "Test boat is read."
        assert verdict(page).startswith("Hone")
        assert save(page, tmp_path).read_text() == path.read_text()


def test_a_reading_that_is_right_though_strange(browser: Browser, address: str, workshop: Workshop) -> None:
    with visit(browser, address) as at:
        page = at.open("plover/cylinder-survey.html")
        begin(page, "Test boat")
        box(page, "Bore 1, 8.5 mm, along the crank, mm").fill("84.1")
        query = page.locator(".query:not(:empty)")
        assert "Not between 80.400 mm and 83.100 mm" in query.inner_text().replace("\u202f", " ")
        query.get_by_label("Or it is right, because").fill("Bored before, by somebody else")
        query.get_by_role("button", name="Keep 84.1").click()
        expect(query).to_have_count(0)
        page = at.open("plover/cylinder-survey.html")
        assert box(page, "Bore 1, 8.5 mm, along the crank, mm").input_value() == "84.1"
        expect(page.locator(".query:not(:empty)")).to_have_count(0)


@pytest.mark.parametrize(("card", "says"), [("galleys", "Galley plugs in the tray"), ("re-plug", "Galley plugs in")])
def test_plugs_counted_out_and_in(browser: Browser, address: str, card: str, says: str) -> None:
    """A card cannot be marked done with one missing."""
    with visit(browser, address) as at:
        page = at.open(f"plover/{card}.html")
        begin(page, "Test boat")
        done = page.get_by_role("button", name="Mark card done")
        for tick in page.get_by_role("checkbox").all():
            tick.check()
        plugs = page.get_by_role("group", name=f"Count: {says}").get_by_role("button")
        names = [plug.inner_text().split()[0] for plug in plugs.all()]
        assert len(names) == 10
        for plug in plugs.all()[:-1]:
            plug.click()
        told = page.locator(".done p")
        drains = page.get_by_role("group", name="Count: Drain plugs in").get_by_role("button").all()
        assert len(drains) == (card == "re-plug")
        for drain in drains:
            assert "Drain plugs in: 1 drain plug not counted (DW)" in told.inner_text()
            drain.click()
        assert told.inner_text() == f"Not yet: {says}: 1 plug not counted ({names[-1]})."
        done.click(force=True)
        assert told.inner_text().startswith("Not yet")
        plugs.last.click()
        assert told.inner_text() == "All steps are ticked."
        done.click()
        assert told.inner_text().startswith("Done on ")
        page = at.open("plover/index.html")
        assert page.locator(".order .is-done").count() == 1
        page = at.open(f"plover/{card}.html")
        assert page.locator(".done p").inner_text().startswith("Done on ")
        page.get_by_role("group", name=f"Count: {says}").get_by_role("button").first.click()
        assert page.locator(".done p").inner_text().startswith("Not yet"), "one taken back"


def test_plugs_left_in_are_not_missing_from_the_tray(browser: Browser, served: str) -> None:
    with visit(browser, f"{served}/demo") as at:
        page = at.open("plover/strip.html")
        begin(page, "Test boat")
        box(page, "Plugs left in").fill("2")
        page = at.open("plover/galleys.html")
        for tick in page.get_by_role("checkbox").all():
            tick.check()
        plugs = page.get_by_role("group", name="Count: Galley plugs in the tray").get_by_role("button").all()
        for plug in plugs[:7]:
            plug.click()
        assert "1 plug not counted (1 of " in page.locator(".done p").inner_text()
        plugs[7].click()
        assert page.locator(".done p").inner_text() == "All steps are ticked."


VERDICTS = """async ({ family, cards }) => {
  const found = []
  for (const id of cards) {
    const data = await Data.card(family, id)
    const { shows, units } = data[id]
    found.push(...Verdicts.verdicts(new Bench(Store.current(family), data).scope(id), { shows, units }))
  }
  return found
}"""


def test_a_bare_figure_stays_in_millimetres_on_a_page_in_inches(browser: Browser, address: str, tmp_path: Path) -> None:
    given = tmp_path / "by-hand.yaml"
    given.write_text(
        "format: job/1\nid: by-hand\nfamily: curlew\nvariant: curlew-long\n"
        "sessions:\n- {id: one, card: rings, ring_kind: new, cylinder: {1: {gap_top: 0.45}}}  # in mm\n"
    )
    with visit(browser, address) as at:
        page = at.open("curlew/rings.html")
        assert read(page, given) == "by-hand is read."
        beside = "all => all.map(one => [one.value, (one.nextElementSibling || one).textContent])"
        found = page.locator(".enter > input:enabled").evaluate_all(beside)
    assert ["0.45", "mm"] in found
    assert ["", "in"] in found


@pytest.mark.parametrize("path", sorted(JOBS.glob("*.yaml")), ids=lambda path: path.stem)
def test_a_demo_job_read_judged_and_saved(
    browser: Browser, address: str, path: Path, workshop: Workshop, demo_decks: tuple[Deck, ...], tmp_path: Path
) -> None:
    """Verdict by verdict what the command line reads in the file as written, on the page and in what it saves."""
    original = loaded(path.read_text(), workshop)
    ours = plainly(judged(original, workshop))
    family = original.family
    deck = next(deck for deck in demo_decks if deck.family.id == family)
    live = {card.id for card in deck.cards if card.live}
    with visit(browser, address) as at:
        page = at.open(f"{family}/cylinder-survey.html")
        assert read(page, path).endswith("is read.")
        found = page.evaluate(
            VERDICTS, {"family": family, "cards": [card for card, _ in workshop.deck if card in live]}
        )
        saved = save(page, tmp_path)
        shown = page.locator(".told-of").all_inner_texts()
    assert len(found) == len(ours)
    for a, b in zip(ours, found, strict=True):
        same(a, b)
    assert plainly(judged(loaded(saved.read_text(), workshop), workshop)) == ours
    survey = [one for one in ours if one["card"] == "cylinder-survey"]
    settled = [one for one in survey if one["state"] == "clear"]
    assert all(any(f"{one['member']}: {one['outcomes'][0][1]}" in text for text in shown) for one in settled)


def test_with_the_keyboard_alone(browser: Browser, served: str) -> None:
    """From the first page to a verdict, by Tab, Space, Enter, arrows and letters."""
    with visit(browser, f"{served}/demo", PHONE) as at:
        page = at.open("index.html")
        keys = page.keyboard

        def go_to(words: str) -> None:
            for _ in range(400):
                keys.press("Tab")
                name = page.evaluate(NAMED)
                assert page.evaluate(OUTLINED), f"focus is not seen on {name}"
                if name == words:
                    return
            raise AssertionError(f"Tab never comes to {words}")

        go_to("Skip to the content")
        keys.press("Enter")
        go_to("Hone or bore")
        keys.press("Enter")
        page.wait_for_selector("html[data-ready] article")
        go_to("Enter readings")
        keys.press("Enter")
        go_to("Name")
        keys.type("Test boat")
        go_to("Begin this job")
        keys.press("Enter")
        assert verdict(page).startswith("Wanting")
        go_to("Tick step 1")
        keys.press("Space")
        go_to("is sound")
        keys.press("ArrowDown")
        keys.press("ArrowDown")
        assert verdict(page).startswith("Stop"), "the wall shows a crack"
        assert page.get_by_role("checkbox", name="Tick step 1", exact=True).is_checked()


NAMED = """() => {
  const at = document.activeElement
  const label = at.getAttribute("aria-label") || (at.labels && at.labels[0] ? at.labels[0].innerText : at.innerText)
  return label.trim().replace(/\\s+/g, " ")
}"""
OUTLINED = """() => {
  for (let at = document.activeElement; at && at !== document.body; at = at.parentElement) {
    if (parseFloat(getComputedStyle(at).outlineWidth) >= 3 && getComputedStyle(at).outlineStyle !== "none") return true
    if (at.nextElementSibling && parseFloat(getComputedStyle(at.nextElementSibling).outlineWidth) >= 3 &&
        getComputedStyle(at.nextElementSibling).outlineStyle !== "none") return true
  }
  return false
}"""


def test_readings_are_kept_by_job(browser: Browser, address: str) -> None:
    with visit(browser, address) as at:
        page = at.open("plover/cylinder-survey.html")
        begin(page, "One")
        choose(page, "Wall 1", "is sound")
        page.get_by_text("Another job", exact=True).click()
        page.get_by_label("Name", exact=True).fill("Other")
        page.get_by_role("button", name="Begin this job").click()
        wall = page.get_by_role("group", name="Wall 1", exact=True)
        expect(wall.get_by_label("is sound")).not_to_be_checked()
        page.get_by_label("Readings for").select_option("One")
        expect(wall.get_by_label("is sound")).to_be_checked()
        page = at.open("plover/cylinder-survey.html")
        expect(page.get_by_label("Readings for")).to_have_value("one")
        expect(page.get_by_role("group", name="Wall 1", exact=True).get_by_label("is sound")).to_be_checked()
