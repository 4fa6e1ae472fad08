"""The few shapes that a card is drawn with, as SVG. Decorations go into the style sheet as data URIs, so that a screen
reader passes over them. Millimetres throughout."""

from __future__ import annotations

from urllib.parse import quote


def uri(svg: str) -> str:
    return f'url("data:image/svg+xml,{quote(svg)}")'


def _svg(width: float, height: float, body: str) -> str:
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width:.3f}mm" height="{height:.3f}mm" '
        f'viewBox="0 0 {width:.3f} {height:.3f}">{body}</svg>'
    )


def stroke(colour: str) -> str:
    """A piece of line, to be stretched to any height: solid, so that pieces join, and no picture, which would be drawn
    anew for each height."""
    return f"linear-gradient({colour})"


def cut_box(width: float, height: float, stroke: float, colour: str) -> str:
    """What a pen or a finger fills: an outline, white inside, its lower right corner cut at 45°."""
    cut = 0.25 * min(width, height)
    a, r, b = stroke / 2, width - stroke / 2, height - stroke / 2
    path = f"M{a:.3f},{a:.3f}H{r:.3f}V{b - cut:.3f}L{r - cut:.3f},{b:.3f}H{a:.3f}Z"
    return _svg(width, height, f'<path d="{path}" fill="#fff" stroke="{colour}" stroke-width="{stroke}"/>')


def bend(width: float, reach: float, thick: float, colour: str, lead: float | None = None) -> str:
    """Where an arm leaves the line: down, 45°, then level along the foot of the shape.

    `reach`: across and down of the 45°; `lead`: how far straight down before it.
    """
    height = reach + (1.5 * thick if lead is None else lead + thick / 2)
    x, y = thick / 2, height - thick / 2
    path = f"M{x:.3f},0V{y - reach:.3f}L{x + reach:.3f},{y:.3f}H{width:.3f}"
    return _svg(width, height, f'<path d="{path}" fill="none" stroke="{colour}" stroke-width="{thick:.3f}"/>')


def arrowhead(width: float, height: float, thick: float, colour: str) -> str:
    """The line's end at the foot of a face: it goes on overleaf."""
    head = width * 0.8
    x = width / 2
    body = (
        f'<path d="M{x:.3f},0V{height - head + 0.1:.3f}" stroke="{colour}" stroke-width="{thick:.3f}" fill="none"/>'
        f'<path d="M0,{height - head:.3f}H{width:.3f}L{x:.3f},{height:.3f}Z" fill="{colour}"/>'
    )
    return _svg(width, height, body)


def alert(height: float, colour: str) -> str:
    """The alert symbol: our own triangle, corners rounded; stroke and dot are holes that show the strip."""
    body = (
        f'<path fill="{colour}" fill-rule="evenodd" d="M50,2 Q54,2 56.5,6.5 L98.5,81 Q101,86 98,89.5 Q96.5,92 92,92 '
        "L8,92 Q3.5,92 2,89.5 Q-1,86 1.5,81 L43.5,6.5 Q46,2 50,2 Z "
        'M45,30 L55,30 L53.2,64 L46.8,64 Z M50,69.5 A6,6 0 1 1 49.99,69.5 Z"/>'
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{height * 100 / 92:.3f}mm" height="{height:.3f}mm" '
        f'viewBox="0 0 100 92">{body}</svg>'
    )


def hatch(width: float, height: float, colour: str) -> str:
    """A bar of 45° strokes, each clipped to the bar by its own ends."""
    pitch = 3.0
    strokes = "".join(
        f"M{x:.3f},{height:.3f}l{height:.3f},{-height:.3f}h{pitch / 2:.3f}l{-height:.3f},{height:.3f}z"
        for x in (i * pitch for i in range(int((width - height - pitch / 2) / pitch) + 1))
    )
    return _svg(width, height, f'<path d="{strokes}" fill="{colour}"/>')
