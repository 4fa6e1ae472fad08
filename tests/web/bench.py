"""A person at the bench: opens a card, types what the gauge says, ticks, counts; by what is written on the controls."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

from playwright.sync_api import Page

from procgen.model.procedure import Procedure, Reading


def begin(page: Page, title: str) -> None:
    page.get_by_text("Enter readings", exact=True).click()
    page.get_by_label("Name", exact=True).fill(title)
    page.get_by_role("button", name="Begin this job").click()


def choose(page: Page, group: str, words: str) -> None:
    page.get_by_role("group", name=group, exact=True).get_by_label(words, exact=True).check()


def box(page: Page, label: str) -> Any:
    return page.get_by_role("textbox", name=label, exact=True)


def type_in(page: Page, card: Procedure, readings: dict[str, Any], member: str = "") -> None:
    """The readings of a session that belong to that member of its axis, or to none."""
    for name, content in readings.items():
        if name not in card.readings:
            continue
        reading = card.readings[name]
        label = f"{reading.title} {member}".strip()
        for place, leaf in _leaves(reading, content):
            if reading.choices:
                choose(page, label, reading.choices[leaf])
            else:
                unit = "" if reading.dimension == "number" else ", mm"
                field = box(page, f"{label}{place}{unit}")
                if place and not field.count():
                    box(page, "Another depth, mm").fill(place.split()[1])
                    page.get_by_role("button", name="Add a depth").click()
                field.fill(leaf)


def _leaves(reading: Reading, content: Any) -> Iterator[tuple[str, str]]:
    """Where on the page, beside the reading's own name, and what."""
    if "depth" not in reading.each:
        yield "", content
        return
    for depth, ways in content.items():
        for way, leaf in ways.items():
            yield f", {depth} mm, {reading.axis[way]}", leaf


def verdict(page: Page) -> str:
    return page.get_by_role("region", name="Verdict").inner_text()


def save(page: Page, folder: Path) -> Path:
    """The job file that the page hands out."""
    with page.expect_download() as waiting:
        page.get_by_role("button", name="Save as job file").click()
    path = folder / waiting.value.suggested_filename
    waiting.value.save_as(path)
    return path


def read(page: Page, path: Path) -> str:
    """What the page says to a job file."""
    page.locator("details.begin").evaluate("one => { one.open = true }")
    with page.expect_file_chooser() as waiting:
        page.get_by_role("button", name="Read a job file").click()
    waiting.value.set_files(path)
    told = page.locator(".job .said")
    told.filter(has_text=" ").wait_for()
    return told.inner_text()
