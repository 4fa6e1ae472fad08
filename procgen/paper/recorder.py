"""A stream to draw into beside a document's own, so that what WeasyPrint writes can be kept and set again elsewhere."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from weasyprint.pdf.stream import Stream

_MORE = ("XObject", "Pattern", "Shading")


class Recorder(Stream):  # type: ignore[misc]
    """`rectangle`: of its page; `fonts`, `tags`: what is set is noted there, tags unless None.

    Groups are written out where they are drawn: with opaque paint alone they look the same, and a line's every piece
    need not be an object of its own.
    """

    def __init__(self, rectangle: Any, fonts: dict[Any, Any], tags: dict[Any, Any] | None, **inside: Any) -> None:
        plain: dict[str, Any] = {"ExtGState": {}, **{kind: {} for kind in _MORE}, "ColorSpace": None}
        resources = inside.pop("resources", plain)
        profiles, intent = inside.pop("profiles", {}), inside.pop("intent", None)
        super().__init__(fonts, rectangle, resources, {}, tags, profiles, intent, **inside)
        self._groups: dict[str, Stream] = {}

    @property
    def states(self) -> Mapping[str, Any]:
        """Graphics states by the names that operators have for them."""
        states: Mapping[str, Any] = self._resources["ExtGState"]
        return states

    @property
    def is_plain(self) -> bool:
        """Whether it needs no more of a document than operators, fonts and opaque paint: no pattern, nothing pale."""
        opaque = all(state.keys() <= {"ca", "CA"} and set(state.values()) == {1} for state in self.states.values())
        return opaque and not any(self._resources[kind] for kind in _MORE)

    def add_group(self, x: float, y: float, width: float, height: float) -> Stream:
        box = {"BBox": [x, y, x + width, y + height]}  # which an SVG sets when it knows
        shared = {"resources": self._resources, "profiles": self._color_profiles, "intent": self._output_intent}
        group = type(self)(self.page_rectangle, self._fonts, self._tags, extra=box, **shared)
        group.id = f"group {len(self._groups)}"
        self._groups[group.id] = group
        return group

    def draw_x_object(self, reference: str) -> None:
        group = self._groups.pop(reference, None)
        if group is None:
            self._resources["XObject"][reference] = None
            return
        self.stream += [b"q", *group.stream, b"Q"]
