"""Fonts for the web are made once for whoever writes with the same characters, and never taken damaged."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

import pytest
from fontTools.ttLib import TTFont

from procgen.draw.fonts import TEXT, Fonts
from procgen.web import fonts as web
from procgen.web.fonts import ALWAYS, web_font


def test_what_is_kept_is_what_is_made(fonts: Fonts, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    face = fonts.face(TEXT)
    made = web_font(face, ALWAYS, tmp_path)
    (kept,) = tmp_path.rglob("*.woff2")

    with monkeypatch.context() as patch:
        patch.delattr(web, "_subset")  # nothing is made
        assert web_font(face, ALWAYS, tmp_path) == made
        assert web_font(face, ALWAYS | {"\U0001f600"}, tmp_path) == made  # which the face does not have

    for damaged in (b"", kept.read_bytes()[:-1], b"x" + kept.read_bytes()[1:]):
        kept.write_bytes(damaged)
        assert web_font(face, ALWAYS, tmp_path) == made
        assert len(kept.read_bytes()) > len(made)


def test_other_characters_or_faces_are_other_fonts(fonts: Fonts, tmp_path: Path) -> None:
    made = {
        web_font(fonts.face(TEXT, bold), ALWAYS | more, tmp_path) for bold in (False, True) for more in (set(), {"é"})
    }
    assert len(made) == len(list(tmp_path.rglob("*.woff2"))) == 4
    drawn = [ord("é") in TTFont(BytesIO(content)).getBestCmap() for content in made]
    assert sorted(drawn) == [False, False, True, True]


def test_without_a_folder_to_keep_them(fonts: Fonts, tmp_path: Path) -> None:
    (tmp_path / "web").write_text("in the way")
    assert web_font(fonts.face(TEXT), ALWAYS, tmp_path)[:4] == b"wOF2"  # W3C WOFF 2.0, section 4
