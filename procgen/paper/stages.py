"""The stage scale of a packet: the whole deck, the part that is done solid, the present stage in accent."""

from __future__ import annotations

from html import escape

from procgen.draw.fonts import SUB, TEXT, Fonts
from procgen.model.packet import BEGUN, DONE, UNCALLED, Packet
from procgen.paper.sizes import POINT
from procgen.paper.stage_mark import lettered
from procgen.paper.theme import Theme

_HIGH, _LONG, _SHORT, _RULE = 3.6, 4.4, 2.2, 0.45


def stages(packet: Packet, width: float, size: float, fonts: Fonts, theme: Theme) -> str:
    """An SVG `width` mm wide, with type of `size` pt."""
    total = len(packet.progress)
    one = width / max(total, 1)
    baseline = size * POINT
    floor = baseline + 1.5 + _LONG
    parts = []
    for n, progress in enumerate(packet.progress):
        if progress.state == DONE:
            parts.append(_block(n * one, floor - _HIGH, one, _HIGH, theme.ink))
        elif progress.state == BEGUN:
            parts.append(_block(n * one, floor - _HIGH / 2, one, _HIGH / 2, theme.ink))
    now = packet.now
    states = [progress.state for progress in packet.progress]
    said = f"{states.count(DONE)} of {total - states.count(UNCALLED)} stages done"
    if now is not None:
        at = (now.stage.number - 1) * one
        parts.append(_block(at, floor - _LONG, one, _LONG + _RULE / 2, theme.accent))
        own = f"{now.stage.number} {now.stage.name}"
        own_width = fonts.width(own, SUB, size * 1.15 * POINT)
        x = max(0.0, min(at, width - own_width))
        parts.append(lettered(own, x, baseline, SUB, size * 1.15, theme.accent))
        if fonts.width(said, TEXT, size * POINT) + 3 < x:
            parts.append(lettered(said, 0, baseline, TEXT, size, theme.quiet))
        else:
            right = width - fonts.width(said, TEXT, size * POINT)
            parts += [lettered(said, right, baseline, TEXT, size, theme.quiet)] if right > x + own_width + 3 else []
    ticks = "".join(
        f"M{min(max(i * one, _RULE / 2), width - _RULE / 2):.3f},{floor:.3f}v{-(_LONG if i % 5 == 0 else _SHORT):.3f}"
        for i in range(total + 1)
    )
    parts.append(
        f'<path d="{ticks}M0,{floor:.3f}H{width:.3f}" fill="none" stroke="{theme.ink}" stroke-width="{_RULE}"/>'
    )
    height = floor + _RULE
    named = f"{said}; now {now.stage.number} {now.stage.name}" if now is not None else said
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width:.3f}mm" height="{height:.3f}mm" '
        f'viewBox="0 0 {width:.3f} {height:.3f}"><title>{escape(named)}</title>{"".join(parts)}</svg>'
    )


def _block(x: float, y: float, width: float, height: float, colour: str) -> str:
    return f'<rect x="{x:.3f}" y="{y:.3f}" width="{width:.3f}" height="{height:.3f}" fill="{colour}"/>'
