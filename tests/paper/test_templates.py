"""What the cards' templates may not use: each of these has lost or hidden content, or costs layout time out of hand."""

from __future__ import annotations

import re

import pytest

from procgen.files.home import resources

FORBIDDEN = {
    r"display:\s*(inline-)?(flex|grid)": "time grows with the square, and by nesting",
    r"overflow:\s*(hidden|clip)": "steps vanish without a word",
    r"white-space:\s*(nowrap|pre)\b": "runs off the face",
    r"position:\s*(absolute|fixed|relative)": "stands on other things",
    r"margin[a-z-]*:[^;}]*-\d": "stands on other things",
    r"(?<![-a-z])(max-)?height:\s*[^;}]*%": "steps vanish without a word",
    r"https?://": "nothing is fetched",
    r"hyphens:\s*auto": "words stay whole",
    r"(\}\}|%\}|[.,:;]) <(b|i|span)\b": "WeasyPrint may end the line too early: the space goes into the element",
    r"text-align:\s*justify": "ragged right",
}
FILES = [path for name in ("cards", "packet") for path in sorted((resources("templates") / name).iterdir())]


def test_there_are_templates() -> None:
    assert {"card.css", "card.html"} <= {path.name for path in FILES}


@pytest.mark.parametrize("pattern", FORBIDDEN, ids=list(FORBIDDEN.values()))
def test_templates_keep_to_plain_blocks(pattern: str) -> None:
    assert [path.name for path in FILES if re.search(pattern, path.read_text("utf-8"))] == []
