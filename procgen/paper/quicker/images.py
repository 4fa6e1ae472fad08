"""Pictures drawn once in a size: the shapes of the style sheets and the signs stand on every card, and WeasyPrint walks
through a picture's elements each time. We keep the operators that it writes.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from contextlib import AbstractContextManager
from copy import copy
from dataclasses import dataclass
from typing import Any

from weasyprint.images import SVGImage

from procgen.paper.recorder import Recorder

Listening = Callable[[], AbstractContextManager[list[str]]]

_PAINT = ("_current_color", "_current_color_stroke", "_current_alpha", "_current_alpha_stroke", "_current_font")
"""What a stream remembers to have set, and does not set again."""


class Images(dict[str, Any]):
    """WeasyPrint's store of pictures, by address. Those with lettering are drawn as ever: they stand on one card.

    `listening`: hears what is warned of meanwhile.
    """

    def __init__(self, listening: Listening) -> None:
        super().__init__()
        self._listening = listening
        self._context: Any = None

    def __setitem__(self, address: str, image: Any) -> None:
        if isinstance(image, SVGImage):
            # It would hold all that was laid out where it first stood; for lettering any context will do.
            self._context = image._context = self._context or image._context
        if isinstance(image, SVGImage) and not _has_text(image):
            image.draw = _Once(image.draw, self._listening)
        super().__setitem__(address, image)


@dataclass(frozen=True, slots=True)
class _Drawn:
    """Operators, the graphics states that they name, and what is set after them."""

    operators: Sequence[Any]
    states: Mapping[str, Any]
    paint: tuple[Any, ...]


class _Once:
    """Draws a picture. `draw`: WeasyPrint's way to, with a stream, width, height and style."""

    def __init__(self, draw: Callable[[Any, float, float, Any], None], listening: Listening) -> None:
        self._draw, self._listening = draw, listening
        self._known: dict[tuple[Any, ...], _Drawn | None] = {}

    def __call__(self, stream: Any, width: float, height: float, style: Any) -> None:
        key = (width, height, *_paint(stream))
        if key not in self._known:
            self._known[key] = self._drawn(stream, width, height, style)
        drawn = self._known[key]
        if drawn is None:
            self._draw(stream, width, height, style)
            return
        stream.stream.extend(drawn.operators)
        for name, state in drawn.states.items():
            stream._resources["ExtGState"].setdefault(name, copy(state))
        _set_paint(stream, drawn.paint)

    def _drawn(self, stream: Any, width: float, height: float, style: Any) -> _Drawn | None:
        """None for what needs more of its document than can be kept, or is warned of."""
        fonts: dict[Any, Any] = {}
        known = {"profiles": stream._color_profiles, "intent": stream._output_intent}
        paper = Recorder(stream.page_rectangle, fonts, None, **known)
        _set_paint(paper, _paint(stream))
        with self._listening() as heard:
            self._draw(paper, width, height, style)
        if heard or fonts or not paper.is_plain:
            return None
        return _Drawn(tuple(paper.stream), paper.states, _paint(paper))


def _has_text(image: Any) -> bool:
    return any(str(element.tag).endswith("}text") for element in image._svg.tree._etree_node.iter())


def _paint(stream: Any) -> tuple[Any, ...]:
    return tuple(getattr(stream, name) for name in _PAINT)


def _set_paint(stream: Any, paint: tuple[Any, ...]) -> None:
    for name, value in zip(_PAINT, paint, strict=True):
        setattr(stream, name, value)
