"""A part measured once measures the same wherever it stands: held against laying out the whole document."""

from collections.abc import Mapping

from procgen.paper.measured import Measured

HEAD = "<!DOCTYPE html><html><head></head>\n"


def document(*parts: str, opening: str = '<p data-part="title">T</p>') -> str:
    listed = "".join(f'<li id="s"><div class="part " data-part="{key}"><p>{key}</p></div></li>' for key in parts)
    return f"{HEAD}<body>\n{opening}<ol>{listed}</ol>\n</body>\n</html>"


class Layout:
    """A stand-in for the engine that knows how high each part is, and notes what it was asked."""

    def __init__(self) -> None:
        self.asked: list[str] = []

    def __call__(self, html: str) -> Mapping[str, float]:
        from re import findall

        keys: list[str] = findall(r'data-part="([^"]*)"', html)
        self.asked += keys
        return {key: len(key) + 1e-13 * at for at, key in enumerate(keys)}


def test_all_parts_come_in_reading_order() -> None:
    assert Measured().heights(document("a", "bb"), Layout()) == {"title": 5.0, "a": 1.0, "bb": 2.0}


def test_what_is_known_is_not_laid_out_again() -> None:
    measured, layout = Measured(), Layout()
    measured.heights(document("a", "bb"), layout)
    assert list(measured.heights(document("bb", "ccc", "a"), layout)) == ["title", "bb", "ccc", "a"]
    assert layout.asked == ["title", "a", "bb", "ccc"]


def test_other_words_or_another_head_are_another_part() -> None:
    measured, layout = Measured(), Layout()
    measured.heights(document("a"), layout)
    measured.heights(document("a").replace("<p>a</p>", "<p>other</p>"), layout)
    measured.heights(document("a").replace("<head>", "<head><style>i { width: 1mm }</style>"), layout)
    assert layout.asked == ["title", "a", "a", "title"]


def test_where_a_part_stands_never_shows() -> None:
    """Whoever was measured before: the same card must print the same bytes in any process."""
    first, second = Measured(), Measured()
    first.heights(document("x", "y", "z"), Layout())
    assert first.heights(document("a", "z"), Layout()) == second.heights(document("a", "z"), Layout())
