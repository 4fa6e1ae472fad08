"""A cylinder as it was measured: two profiles down the bore, the diameter stretched, wear tinted."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from itertools import pairwise

from procgen.model.scene import Area, Arrow, Dimension, Label, Mark, Path, Scene, Shape, Spot
from procgen.trade.scenes.bore import Travel
from procgen.trade.scenes.view import box
from procgen.units.printing import headed, show_in, shown
from procgen.units.quantity import parse_show
from procgen.units.table import Unit
from procgen.values import dataclass

PROPORTION = 0.62  # width of the plot to the depth of the bore
GAP = 9.0  # mm from the plot to the dimension line
STEPS = (0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1.0)  # mm between lines of the diameter's scale
CLEAN_AT = 0.9  # share of ring travel at which that stands
LINES = 4  # at most, of that scale
INCH_STEPS = tuple(25.4 * step for step in (0.0001, 0.0002, 0.0005, 0.001, 0.002, 0.005, 0.01, 0.02))


@dataclass(frozen=True, slots=True)
class Station:
    """Sizes across the crank and along it, mm, at a depth (mm) below the deck; None where it was not read."""

    depth: float
    across: float | None
    along: float | None


@dataclass(frozen=True, slots=True)
class Profile:
    """One cylinder, mm. `limit` and `clean` are sizes to draw a line at: words and where, None for none."""

    id: str
    name: str
    travel: Travel
    stations: tuple[Station, ...]
    unworn: float | None
    limit: tuple[str, float] | None
    clean: tuple[str, float] | None
    before: tuple[Station, ...] = ()


@dataclass(frozen=True, slots=True)
class _Plot:
    """Where a size stands: `base` mm at nought, `stretch` times as wide."""

    base: float
    stretch: float
    width: float

    def x(self, size: float) -> float:
        return (size - self.base) * self.stretch


def bore_map(profile: Profile, unit: Unit) -> Scene | None:
    """None where nothing was read."""
    sizes = list(_sizes(profile))
    if not any(one is not None for station in profile.stations for one in (station.across, station.along)):
        return None
    plot = _plot(sizes, profile.travel.end)
    texts = [f"{_depth(s.depth, unit)}: {_pair(s, unit)}" for s in profile.stations]
    return Scene(
        id=f"bore-map-{profile.id}",
        title=f"{profile.name}: sizes in {headed(unit.symbol)}",
        view=f"squares across the crank, rings along it{'; thin line across, before' if profile.before else ''}",
        describe=(
            f"Depth below the deck downward, size to the right. The rings run from "
            f"{_text(profile.travel.top, unit, '0.05 mm')} to {_text(profile.travel.bottom, unit, '0.05 mm')}. "
            f"Read at {'; '.join(texts)}."
        ),
        shapes=tuple(_shapes(profile, plot, unit)),
        labels=tuple(_labels(profile, plot, unit)),
        largest=1.0,
        metal=(box(-GAP, -profile.travel.end, plot.width, 0.0),),
        to_scale=False,
    )


def _sizes(profile: Profile) -> Iterator[float]:
    for station in (*profile.stations, *profile.before):
        yield from (size for size in (station.across, station.along) if size is not None)
    if any(s.across is not None or s.along is not None for s in profile.stations):
        yield from () if profile.limit is None else (profile.limit[1],)
        yield from () if profile.unworn is None else (profile.unworn,)


def _plot(sizes: list[float], depth: float) -> _Plot:
    least, most = min(sizes), max(sizes)
    room = max(most - least, 0.02) * 0.08
    width = PROPORTION * depth
    return _Plot(least - room, width / (max(most - least, 0.02) + 2 * room), width)


def _shapes(profile: Profile, plot: _Plot, unit: Unit) -> Iterator[Shape]:
    travel, width = profile.travel, plot.width
    yield Area(box(0, -travel.top, width, 0), "hatch")
    yield Area(box(0, -travel.end, width, -travel.bottom), "hatch")
    across, along = _line(profile.stations, "across", plot), _line(profile.stations, "along", plot)
    if profile.unworn is not None and len(across) > 1:
        foot = plot.x(profile.unworn)
        inside = [spot for spot in across if -travel.bottom <= spot[1] <= -travel.top]
        if len(inside) > 1:
            yield Area(((foot, inside[0][1]), *inside, (foot, inside[-1][1])), "oil")
    for size in _scale(plot, unit):
        yield Path(((plot.x(size), 0), (plot.x(size), -travel.end)), "axis")
    for depth in (travel.top, travel.bottom):
        yield Path(((-2, -depth), (width, -depth)), "behind")
    yield Path(((0, -travel.end), (width, -travel.end)), "behind")
    yield Path(((-GAP, 0), (width, 0)), "deck")
    yield Dimension((-GAP / 2, -travel.top), (-GAP / 2, -travel.bottom))
    for line in (profile.limit, profile.clean):
        if line is not None and plot.x(line[1]) <= width:
            yield Path(((plot.x(line[1]), -travel.top), (plot.x(line[1]), -travel.bottom)), "limit")
    if profile.clean is not None and plot.x(profile.clean[1]) > width:
        yield Arrow((width, _clean_at(travel)), 90.0)
    if len(before := _line(profile.before, "across", plot)) > 1:
        yield Path(before, "behind")
    if len(along) > 1:
        yield Path(along, "behind")
    if len(across) > 1:
        yield Path(across, "accent")
    yield from (Mark(spot, "ring") for spot in along)
    yield from (Mark(spot, "square", "accent") for spot in across)


def _line(stations: tuple[Station, ...], way: str, plot: _Plot) -> tuple[Spot, ...]:
    read = ((getattr(station, way), station.depth) for station in sorted(stations, key=lambda s: s.depth))
    return tuple((plot.x(size), -depth) for size, depth in read if size is not None)


def _scale(plot: _Plot, unit: Unit) -> Iterator[float]:
    """Round sizes within the plot, at most LINES of them."""
    span = plot.width / plot.stretch
    steps = INCH_STEPS if unit.symbol == "in" else STEPS
    step = next((step for step in steps if span / step <= LINES), steps[-1])
    first = int(plot.base / step) + 1
    yield from (number * step for number in range(first, first + LINES) if number * step < plot.base + span)


def _labels(profile: Profile, plot: _Plot, unit: Unit) -> Iterator[Label]:
    travel = profile.travel
    marks = list(_scale(plot, unit))
    for size in marks:
        yield Label((plot.x(size), 0.5), words=(_text(size, unit, _fine(marks)),), place="beside", sides=("above",),
                    dot=False, leader=False, optional=True)  # fmt: skip
    x = -GAP / 2
    yield Label((-GAP, 0.0), words=("deck",), place="left", leader=False)
    yield Label((x, -travel.top), words=(_text(travel.top, unit, "0.05 mm"),), place="left", strong=True, leader=False)
    middle = -(travel.top + travel.bottom) / 2
    yield Label((x, middle), words=("ring", "travel"), place="left", leader=False)
    yield Label((x, -travel.bottom), words=(_text(travel.bottom, unit, "0.05 mm"),), place="left", strong=True,
                leader=False)  # fmt: skip
    yield Label((x, -(travel.bottom + travel.end) / 2), words=("unworn",), place="left", leader=False)
    for station in profile.stations:
        depth = _depth(station.depth, unit)
        apart = _apart(station)
        words = (f"at {depth}",) if apart is None else (f"at {depth}: {_text(apart, unit, '0.001 mm')}",)
        strong = apart is not None and apart == max(filter(None, map(_apart, profile.stations)), default=0.0)
        yield Label((plot.width, -station.depth), words=words, place="right", dot=False, strong=strong)
    for line, share in ((profile.limit, 0.74), (profile.clean, CLEAN_AT)):
        if line is not None and plot.x(line[1]) > plot.width:
            yield Label((plot.width, _clean_at(travel)), words=(line[0].replace("|", " "),), place="right", dot=False,
                        strong=True)  # fmt: skip
        elif line is not None:
            at = (plot.x(line[1]), -(travel.top + share * (travel.bottom - travel.top)))
            sides = ("left", "right", "above left", "above right", "below left", "below right")
            yield Label(at, words=tuple(line[0].split("|")), place="beside", sides=sides, dot=False, leader=False,
                        optional=True)  # fmt: skip


def _clean_at(travel: Travel) -> float:
    """The height of the arrow to a size beyond the scale."""
    return -(travel.top + CLEAN_AT * (travel.bottom - travel.top))


def _apart(station: Station) -> float | None:
    if station.across is None or station.along is None:
        return None
    return abs(station.across - station.along)


def _fine(marks: list[float]) -> str:
    """As many decimals as tell the lines of the scale apart."""
    step = min((b - a for a, b in pairwise(marks)), default=0.01)
    return f"{Decimal(10) ** (Decimal(f'{step:.6f}').normalize().adjusted())} mm"


def _depth(depth: float, unit: Unit) -> str:
    """As a person wrote it: no nought behind the point in mm."""
    text = _text(depth, unit, "0.1 mm")
    return text.removesuffix(".0") if unit.symbol == "mm" else text


def _pair(station: Station, unit: Unit) -> str:
    sizes = (station.across, station.along)
    return " and ".join("not read" if size is None else _text(size, unit, "0.001 mm") for size in sizes)


def _text(value: float, unit: Unit, step: str) -> str:
    return shown(value, show_in(parse_show(step), unit))
