"""The fonts: the same bytes each time, renamed where the licence asks, one file a style."""

from __future__ import annotations

from pathlib import Path

from fontTools.ttLib import TTFont

from procgen.draw.fonts import FIGURE, HEAD, SUB, TEXT, Fonts, prepare


def _instances(directory: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in sorted(directory.rglob("*.ttf"))}


def test_instances_come_out_alike(fonts: Fonts, font_directory: Path, tmp_path: Path) -> None:
    prepare(tmp_path)
    assert len(_instances(tmp_path)) == 3
    assert _instances(tmp_path) == _instances(font_directory)


def test_a_second_start_makes_nothing(fonts: Fonts, font_directory: Path) -> None:
    before = {path: path.stat().st_mtime_ns for path in font_directory.rglob("*.ttf")}
    prepare(font_directory)
    assert before == {path: path.stat().st_mtime_ns for path in font_directory.rglob("*") if path.is_file()}


def test_the_reserved_name_is_not_used_in_a_changed_file(fonts: Fonts) -> None:
    # Source: SIL Open Font Licence 1.1, condition 3. The copyright notice itself must stay.
    for family in (HEAD, SUB, FIGURE):
        names = TTFont(fonts.face(family).path)["name"]
        called = [str(record) for record in names.names if record.nameID in (1, 3, 4, 6, 16, 17, 21, 22, 25)]
        assert called
        assert not [name for name in called if "encode" in name.lower()]
        assert "Encode" in names.getDebugName(0)
        assert names.getDebugName(1) == family


def test_instances_are_static_and_differ(fonts: Fonts) -> None:
    widths = []
    for family in (HEAD, SUB, FIGURE):
        font = TTFont(fonts.face(family).path)
        assert "fvar" not in font
        assert "gvar" not in font
        widths.append(fonts.width("Hone or bore 98.40", family, 1.0))
    assert len(set(widths)) == 3


def test_one_file_for_each_style(fonts: Fonts) -> None:
    styles = [(face.family, face.bold, face.italic) for face in fonts.faces]
    assert len(styles) == len(set(styles))
    assert len({face.path for face in fonts.faces}) == len(fonts.faces)
    assert fonts.css().count("@font-face") == len(fonts.faces) == 7


def test_licences_come_along(fonts: Fonts) -> None:
    for text in fonts.licences.values():
        assert "SIL OPEN FONT LICENSE" in text.upper()
        assert "Copyright" in text


def test_missing_characters_are_found(fonts: Fonts) -> None:
    assert fonts.missing(["Ø 98.40 ± 0.05 mm, ≤ 12 µm, 4:30 – 6:00, −1 °C · ½ × ¼"], TEXT) == ""
    assert fonts.missing(["Ø ≤ ± − – 0"], FIGURE) == ""
    assert fonts.missing(["⌀ 98 →"], TEXT) == "→⌀"


def test_digits_are_equally_wide_where_asked(fonts: Fonts) -> None:
    face = fonts.face(FIGURE)
    assert face.width("1111", tabular=True) == face.width("0000", tabular=True)
    assert face.width("1111") < face.width("0000")
