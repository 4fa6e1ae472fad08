"""Pages hold to HTML, to the rules of access that can be read off the text, and to their own policy."""

from __future__ import annotations

import itertools
import re
from collections.abc import Mapping

import tinyhtml5
from made_up import MISCHIEF
from reading import read, squeezed


def _pages(site: Mapping[str, bytes]) -> list[tuple[str, bytes]]:
    return [(path, content) for path, content in site.items() if path.endswith(".html")]


def test_tags_close_in_order_and_ids_are_unique(any_site: Mapping[str, bytes]) -> None:
    for path, content in _pages(any_site):
        page = read(content)
        assert not page.faults, f"{path}: {page.faults}"
        assert not page.open, f"{path}: {page.open} left open"
        ids = [value for _, value in page.having("id")]
        assert len(set(ids)) == len(ids), path
        assert all(ids), path
        assert not any(re.search(r"\s", value) for value in ids), path


def test_a_browser_builds_the_same_tree(any_site: Mapping[str, bytes]) -> None:
    """The HTML standard's own algorithm moves what stands where it may not (a div in a p, text in a table)."""
    for path, content in _pages(any_site):
        built = [e.tag.rpartition("}")[2] for e in tinyhtml5.parse(content.decode()).iter() if isinstance(e.tag, str)]
        written = [e.tag for e in read(content).elements]
        assert built == written, path


def test_outline_language_and_landmarks(any_site: Mapping[str, bytes]) -> None:
    for path, content in _pages(any_site):
        page = read(content)
        tags = [element.tag for element in page.elements]
        assert ("html", "en") in page.having("lang")
        assert tags.count("h1") == 1
        assert tags.count("main") == 1
        assert tags.count("title") >= 1
        levels = [int(tag[1]) for tag in tags if re.fullmatch("h[1-6]", tag)]
        assert levels[0] == 1
        assert all(after <= before + 1 for before, after in itertools.pairwise(levels)), f"{path}: {levels}"
        first = next(element for element in page.elements if element.tag == "a")
        assert first.attributes["href"] == "#content", "the way past the navigation comes first"


def test_tables_say_what_heads_what(any_site: Mapping[str, bytes]) -> None:
    for path, content in _pages(any_site):
        for element in read(content).elements:
            assert element.tag != "th" or element.attributes.get("scope") in ("row", "col"), path


def test_a_strict_policy_can_hold(any_site: Mapping[str, bytes]) -> None:
    for path, content in _pages(any_site):
        page = read(content)
        names = [name for element in page.elements for name in element.attributes]
        assert "style" not in names
        assert not any(name.startswith("on") for name in names)
        assert not {"style", "iframe", "object", "form"} & {element.tag for element in page.elements}, path
        scripts = [i for i, e in enumerate(page.elements) if e.tag == "script"]
        assert all(page.elements[i].attributes["src"].endswith(".js") for i in scripts), "none is written in the page"
        assert b"<script defer src=" in content
        assert content.count(b"></script>") == len(scripts), "and none has words of its own"
        policies = [
            i for i, e in enumerate(page.elements) if e.attributes.get("http-equiv") == "Content-Security-Policy"
        ]
        sheets = [i for i, e in enumerate(page.elements) if e.tag in ("link", "script")]
        assert len(policies) == 1
        assert policies[0] < min(sheets), "a policy binds only what comes after it"
        assert "default-src 'self'" in page.elements[policies[0]].attributes["content"]
        assert "unsafe" not in page.elements[policies[0]].attributes["content"]


def test_markup_in_content_is_shown_not_run(site: Mapping[str, bytes]) -> None:
    page = read(site["teal/mischief.html"])
    assert all("src" in element.attributes for element in page.elements if element.tag == "script")
    assert "img" not in [element.tag for element in page.elements]
    assert page.text.count(squeezed(MISCHIEF)) >= 12
