"""The stage mark: a drawn scale, one graduation a stage, the card's own stage a solid block on it."""

from __future__ import annotations

from html import escape

from procgen.draw.fonts import SUB, TEXT, Fonts
from procgen.model.card import Stage
from procgen.paper.sizes import POINT, Sizes
from procgen.paper.theme import Theme


def scale(stage: Stage, width: float, fonts: Fonts, sizes: Sizes, theme: Theme) -> str:
    """An SVG `width` mm wide. The stages before and after are named at the ends where there is room."""
    one = width / stage.total
    short, long, rule = 1.4, 2.6, 0.35
    baseline = 1.0 + sizes.step * POINT * 0.76
    floor = baseline + 1.4 + long
    own = f"{stage.number} {stage.name}"
    own_width = fonts.width(own, SUB, sizes.step * POINT)
    block = (stage.number - 1) * one
    own_x = max(0.0, min(block, width - own_width))

    ticks = "".join(
        f"M{min(max(i * one, rule / 2), width - rule / 2):.3f},{floor:.3f}v{-(long if i % 5 == 0 else short):.3f}"
        for i in range(stage.total + 1)
    )
    parts = [
        f'<path d="{ticks}M0,{floor:.3f}H{width:.3f}" fill="none" stroke="{theme.ink}" stroke-width="{rule}"/>',
        f'<rect x="{block:.3f}" y="{floor - long:.3f}" width="{one:.3f}" height="{long + rule / 2:.3f}" '
        f'fill="{theme.accent}"/>',
        lettered(own, own_x, baseline, SUB, sizes.step, theme.accent),
    ]
    gap = 3.0
    before = f"after {stage.number - 1} {stage.before}" if stage.before else ""
    after = f"then {stage.number + 1} {stage.after}" if stage.after else ""
    if before and fonts.width(before, TEXT, sizes.hand * POINT) + gap < own_x:
        parts.append(lettered(before, 0, baseline, TEXT, sizes.hand, theme.quiet))
    room = width - own_x - own_width - gap
    after_width = fonts.width(after, TEXT, sizes.hand * POINT)
    if after and after_width < room:
        parts.append(lettered(after, width - after_width, baseline, TEXT, sizes.hand, theme.quiet))
    height = floor + rule / 2
    title = f"Stage {stage.number} of {stage.total}, {stage.name}"
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width:.3f}mm" height="{height:.3f}mm" '
        f'viewBox="0 0 {width:.3f} {height:.3f}"><title>{escape(title)}</title>{"".join(parts)}</svg>'
    )


def lettered(text: str, x: float, y: float, family: str, size: float, colour: str) -> str:
    """A `<text>` with its baseline from (x, y), mm; `size` in pt."""
    return (
        f'<text x="{x:.3f}" y="{y:.3f}" font-family="{family}" font-size="{size * POINT:.3f}" fill="{colour}">'
        f"{escape(text)}</text>"
    )
