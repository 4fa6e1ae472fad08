"""The style sheet of a card: sizes, widths and shapes that follow from stock, theme and type size."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from jinja2 import Environment

from procgen.draw.fonts import HEAD
from procgen.paper import shapes
from procgen.paper.fit import BLANK_HEIGHT, INITIALS, SHORT_WIDTH, Fit
from procgen.paper.sizes import POINT
from procgen.paper.theme import THEMES, Theme


def card_css(templates: Environment, fit: Fit, theme: Theme) -> str:
    """`cards/card.css` filled in."""
    return templates.get_template("cards/card.css").render(**_names(fit, theme))


def _names(fit: Fit, theme: Theme) -> Mapping[str, Any]:
    """Names for `cards/card.css`; lengths in millimetres."""
    sizes, page, line = fit.sizes, fit.page, fit.line
    head = fit.fonts.face(HEAD)
    alert = head.cap * sizes.value * POINT
    content = (head.ascent + head.descent) * sizes.value * POINT
    leading = 1.16 * sizes.value * POINT
    baseline = (leading - content) / 2 + head.ascent * sizes.value * POINT
    hatch_from = 2 * 1.6 + 5 + alert * 100 / 92 + fit.width("WARNING", HEAD, sizes.value)
    text_line = 1.24 * sizes.step * POINT
    arrow_height = line.gap + text_line
    stub_lead = max(0.62 * sizes.value * POINT - line.bend, 0.0)  # the arm meets its bar at the middle of the action
    uri = shapes.uri
    bend = shapes.bend
    return {
        "s": sizes,
        "p": page,
        "l": line,
        "c": theme,
        "stroke": shapes.stroke(theme.accent),
        "hair": shapes.stroke(theme.ink),
        "tick": uri(shapes.cut_box(line.box, line.box, line.stroke, theme.accent)),
        "lift": max((line.box - text_line) / 2, 0.0),
        "blank": uri(shapes.cut_box(fit.blank_width, BLANK_HEIGHT, line.stroke, theme.accent)),
        "blank_width": fit.blank_width,
        "blank_height": BLANK_HEIGHT,
        "short": uri(shapes.cut_box(SHORT_WIDTH, BLANK_HEIGHT, line.stroke, theme.accent)),
        "short_width": SHORT_WIDTH,
        "choice": uri(shapes.cut_box(6.0, 6.0, line.stroke, theme.accent)),
        "choice_room": 6.0 + 1.2,
        "choice_line": max(text_line, 7.0),
        "choice_drop": (max(text_line, 7.0) - 6.0) / 2,
        "initials": uri(shapes.cut_box(*INITIALS, line.stroke, theme.accent)),
        "initials_width": INITIALS[0],
        "initials_room": 2 * (INITIALS[0] + 2.0) + 1.0,
        "initials_line": 1.2 * sizes.hand * POINT,
        "initials_drop": INITIALS[1] - 1.2 * sizes.hand * POINT - 0.8,
        "arrow": uri(shapes.arrowhead(line.thick * 4, arrow_height, line.thick, theme.accent)),
        "arrow_line": text_line,
        "alerts": {level: uri(shapes.alert(alert, signal.word)) for level, signal in theme.signals.items()},
        "alert_drop": baseline - alert,
        "alert_room": alert * 100 / 92 + 1.4,
        "hatch": uri(shapes.hatch(page.across - hatch_from, leading + 0.3, theme.ink)),
        "widest": {level: max(other.signals[level].border for other in THEMES.values()) for level in theme.signals},
        "bend": uri(bend(line.bend + line.thick, line.bend, line.thick, theme.accent)),
        "stub": uri(bend(line.bend + line.thick + 0.2 * sizes.step, line.bend, line.thick, theme.accent, stub_lead)),
        "stub_thin": uri(
            bend(
                line.bend + (line.thick + line.thin) / 2 + 0.2 * sizes.step, line.bend, line.thin, theme.ink, stub_lead
            )
        ),
        "bend_thin": uri(bend(line.bend + (line.thick + line.thin) / 2, line.bend, line.thin, theme.ink)),
    }
