"""A verdict bar: a thick line to the limit, a tall tick there, hatch beyond, a dot with the gauge's whisker."""

from __future__ import annotations

from html import escape

from procgen.draw.inks import PAPER, THEMES
from procgen.draw.strokes import number
from procgen.model.packet import Bar, Line

HEIGHT = 7.0  # mm
_MIDDLE, _LINE, _TICK, _DOT, _HATCH = HEIGHT / 2, 0.9, 1.1, 1.35, 1.6


def verdict_bar(line: Line, width: float, theme: str = "colour") -> str:
    """An SVG `width` mm wide. What it shows is said in words in its title."""
    inks, bar = THEMES[theme], line.bar
    parts = [*_hatch(bar, width, inks.pens["hatch"].colour)]
    left = 0.0 if bar.least is None else bar.least * width
    right = width if bar.most is None else bar.most * width
    parts.append(_path(f"M{number(left)} {_MIDDLE}H{number(right)}", inks.ink, _LINE))
    if bar.least is None:
        end = 2.0 if bar.from_nought else 1.2
        parts.append(_path(f"M0.2 {number(_MIDDLE - end / 2)}v{end}", inks.ink, 0.4))
    low, high, dot = (share * width for share in (bar.low, bar.high, bar.dot))
    at = min(max(dot, _DOT), width - _DOT)
    if high - low > 2 * _DOT:
        parts.append(_path(f"M{number(low)} {_MIDDLE}H{number(high)}", inks.accent, 0.5))
        for end in (low, high):
            parts.append(_path(f"M{number(end)} {number(_MIDDLE - 1.2)}v2.4", inks.accent, 0.5))
    parts.append(f'<circle cx="{number(at)}" cy="{_MIDDLE}" r="{_DOT + 0.35}" fill="{PAPER}"/>')
    parts.append(f'<circle cx="{number(at)}" cy="{_MIDDLE}" r="{_DOT}" fill="{inks.accent}"/>')
    for tick in (bar.least, bar.most):  # last, so that nothing hides a limit
        if tick is not None:
            parts.append(_path(f"M{number(tick * width)} 0.6V{number(HEIGHT - 0.6)}", inks.ink, _TICK))
    said = f"{line.title} {line.of}: {line.side}, U {line.uncertainty}"
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" width="{number(width)}mm" height="{HEIGHT}mm" '
        f'viewBox="0 0 {number(width)} {HEIGHT}"><title>{escape(said)}</title>{"".join(parts)}</svg>'
    )


def taken_arm(width: float, theme: str = "colour") -> str:
    """The way that was taken: out of the line by 45°, and a blunt end."""
    inks, level = THEMES[theme], HEIGHT * 0.7
    arm = f"M0.6 0V{number(level - 2.2)}L2.8 {number(level)}H{number(width - 0.6)}"
    parts = [_path(arm, inks.accent, 1.0), _path(f"M{number(width - 0.6)} {number(level - 2.6)}v5.2", inks.accent, 1.2)]
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" width="{number(width)}mm" height="{HEIGHT}mm" '
        f'viewBox="0 0 {number(width)} {HEIGHT}"><title>decided</title>{"".join(parts)}</svg>'
    )


def _hatch(bar: Bar, width: float, colour: str) -> list[str]:
    """Beyond each limit, at 45°."""
    spans = []
    if bar.most is not None:
        spans.append((bar.most * width + 1.2, width))
    if bar.least is not None:
        spans.append((0.0, bar.least * width - 1.2))
    strokes = []
    for start, end in spans:
        x = start
        while x + 2.8 <= end + 0.01:
            strokes.append(f"M{number(x)} {number(_MIDDLE + 1.4)}l2.8 -2.8")
            x += _HATCH
    return [_path("".join(strokes), colour, 0.3)] if strokes else []


def _path(d: str, colour: str, width: float) -> str:
    return f'<path d="{d}" fill="none" stroke="{colour}" stroke-width="{width}"/>'
