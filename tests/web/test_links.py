"""Every link leads to something that is there, and nothing leads away."""

from __future__ import annotations

import posixpath
import re
from collections.abc import Mapping
from dataclasses import replace

import pytest
from made_up import DECKS, PRINTED, SEATS, SHOP
from reading import read

from procgen.draw.fonts import Fonts
from procgen.model.card import Stage
from procgen.web.site import pages


def _pages(site: Mapping[str, bytes]) -> list[str]:
    return [path for path in site if path.endswith(".html")]


def test_every_link_leads_to_a_file_and_a_place_in_it(any_site: Mapping[str, bytes]) -> None:
    seen = 0
    for path in _pages(any_site):
        page = read(any_site[path])
        for tag, link in [*page.having("href"), *page.having("src")]:
            if link == "data:,":  # an icon of nothing, so that no browser asks for one
                continue
            file, _, anchor = link.partition("#")
            target = posixpath.normpath(posixpath.join(posixpath.dirname(path), file)) if file else path
            assert target in any_site or target in PRINTED, f"{path}: <{tag}> leads to {link}"
            assert not target.endswith("/"), "a folder is no page on a file system"
            if anchor:
                assert ("id", anchor) in [(k, v) for k, v in _ids(any_site[target])], f"{path}: {link}"
            seen += 1
    assert seen > 20


def _ids(content: bytes) -> list[tuple[str, str]]:
    return [("id", value) for _, value in read(content).having("id")]


def test_every_page_can_be_reached_from_the_first(any_site: Mapping[str, bytes]) -> None:
    found, ahead = {"index.html"}, ["index.html"]
    while ahead:
        path = ahead.pop()
        for _, link in read(any_site[path]).having("href"):
            target = posixpath.normpath(posixpath.join(posixpath.dirname(path), link.partition("#")[0]))
            if target in any_site and target.endswith(".html") and target not in found:
                found.add(target)
                ahead.append(target)
    assert found == set(_pages(any_site))


def test_what_is_printed_is_linked_and_nothing_else(site: Mapping[str, bytes], demo: Mapping[str, bytes]) -> None:
    linked = {
        posixpath.normpath(posixpath.join(posixpath.dirname(path), link))
        for path in _pages(site)
        for _, link in read(site[path]).having("href")
        if link.endswith(".pdf")
    }
    assert linked == PRINTED
    assert not any(b".pdf" in content for path, content in demo.items() if path.endswith(".html"))


def test_nothing_is_asked_of_anywhere_else(any_site: Mapping[str, bytes]) -> None:
    for path in _pages(any_site):
        page = read(any_site[path])
        links = [link for name in ("href", "src", "srcset", "action", "poster") for _, link in page.having(name)]
        for link in links:
            assert not re.match(r"[a-z]+:(?!,)|//|/", link), f"{path}: {link}"
    sheet = next(content for path, content in any_site.items() if path.endswith(".css")).decode()
    assert "@import" not in sheet
    for url in re.findall(r"url\(\"?([^\")]*)", sheet):
        assert posixpath.join("assets", url) in any_site


def test_a_stage_without_a_card_is_not_linked(fonts: Fonts) -> None:
    first = replace(SEATS, stage=replace(SEATS.stage, number=8, name="Threads"), id="first", address="teal/first")
    third = replace(SEATS, stage=Stage(10, "Decide", 20, "Measure", ""), id="third", address="teal/third")
    made = dict(pages(SHOP, [replace(DECKS[0], cards=(first, third))], (), fonts=fonts))
    assert "after 9" not in read(made["teal/third.html"]).text
    full = dict(pages(SHOP, [replace(DECKS[0], cards=(first, SEATS, third))], (), fonts=fonts))
    assert ("a", "../teal/seats.html") in read(full["teal/third.html"]).having("href")
    assert "after 9 Measure" in read(full["teal/third.html"]).text


@pytest.mark.parametrize("path", ["index.html", "teal/index.html", "teal/seats.html", "guide.html"])
def test_kinds_of_page(site: Mapping[str, bytes], path: str) -> None:
    assert path in site
