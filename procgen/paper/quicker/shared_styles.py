"""Computed styles kept from one document to the next: all cards of a size have the same style sheets, and working out
what each property comes to takes as long as setting the text.

WeasyPrint shares a style among a document's elements that the same rules apply to; we share it among documents. What
makes styles there is not its public face, so its version is pinned.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from weasyprint import css

_KEPT = 4000
"""Styles of one set of sheets; beyond that all are made anew, since an element with its own width has its own style."""

Styles = dict[Any, Any]
"""Of one set of style sheets: computed styles by the parent's and by what is declared."""

_now: Styles | None = None


class _StyleFor(css.StyleFor):  # type: ignore[misc]
    """The styles of one document, those that are known among them."""

    def set_computed_styles(self, element: Any, parent: Any, *more: Any, pseudo_type: Any = None, **named: Any) -> None:
        declared = self._cascaded_styles.get((element, pseudo_type), {})
        # The viewport takes overflow off what it is declared on; of what is generated the text decides.
        if _now is None or pseudo_type or "overflow" in declared:
            super().set_computed_styles(element, parent, *more, pseudo_type=pseudo_type, **named)
            return
        above = self._computed_styles.get((parent, None))  # which a kept style keeps too
        key = id(above), tuple((name, _name(value), _plain(weight)) for name, (value, weight) in declared.items())
        found = _now.get(key)
        if found is None or found.parent_style is not above:
            super().set_computed_styles(element, parent, *more, **named)
            _now[key] = self._computed_styles[element, None]
            return
        self._computed_styles[element, None] = found
        if found["anchor"]:
            named["target_collector"].collect_anchor(found["anchor"])


def _name(value: Any) -> Any:
    """What equals nothing but the same value. A kept style keeps what is declared."""
    try:
        hash(value)
    except TypeError:
        return id(value)
    return value


def _plain(weight: tuple[Any, ...]) -> Any:
    """That of a page's rule has a list in it."""
    return weight if isinstance(weight[-1], tuple) else repr(weight)


@contextmanager
def kept(styles: Styles) -> Iterator[None]:
    """What is laid out meanwhile takes its styles from there, and adds those that are new."""
    global _now
    css.StyleFor = _StyleFor
    if len(styles) > _KEPT:
        styles.clear()
    _now = styles
    try:
        yield
    finally:
        _now = None
