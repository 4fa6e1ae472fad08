"""The bore in section: where the rings run, which bands they leave unworn, and at which depths it is gauged."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.model.scene import Area, Dimension, Label, Path, Scene, Shape, Spot
from procgen.trade.cylinder import light_stations, survey_stations
from procgen.trade.scenes.view import Given, box
from procgen.values import dataclass

WALL = 7.0  # mm of the block shown beside the bore
ASIDE = 6.0  # mm from that to the dimension line


@dataclass(frozen=True, slots=True)
class Travel:
    """One cylinder, mm below the deck: where the top ring turns back, where the oil ring does, where the bore ends."""

    bore: float
    top: float
    bottom: float
    end: float


def travel(given: Given) -> Travel | None:
    """None while the family does not state what ring travel follows from."""
    names = ("geometry.bore", "geometry.deck_clearance", "geometry.stroke", "geometry.bore_bottom")
    bore, gap, stroke, end = (given.size(name) for name in names)
    upper, lower = (given.size(f"ring_pack.crown_to_{name}") for name in ("top_ring_upper", "oil_ring_lower"))
    if bore is None or gap is None or stroke is None or end is None or upper is None or lower is None:
        return None
    return Travel(bore, gap + upper, gap + stroke + lower, end)


def bore_stations(given: Given) -> tuple[Scene, ...]:
    """Six depths to gauge at: one above ring travel, four in it, one below."""
    found = travel(given)
    if found is None:
        return ()
    try:
        depths = survey_stations(found.top, found.bottom, found.end)
    except ValueError:
        return ()
    texts = [given.length(depth, "0.5 mm") for depth in depths]
    return (_scene(given, found, "bore-stations", "Where to gauge the bore", depths, texts, 1 / 2),)


def ring_light_stations(given: Given) -> tuple[Scene, ...]:
    """Depths at which a ring's upper edge stands to look past it at a lamp."""
    found, width, pitch = travel(given), given.size("ring_pack.top_ring_width"), given.rules.get("station_pitch")
    if found is None or width is None or pitch is None:
        return ()
    try:
        depths = light_stations(found.top, found.bottom, width, pitch)
    except ValueError:
        return ()
    texts = [given.length(depth, "0.1 mm") for depth in depths]
    return (_scene(given, found, "light-stations", "Where the ring’s upper edge stands", depths, texts),)


def _scene(
    given: Given,
    found: Travel,
    id: str,
    title: str,
    depths: tuple[float, ...],
    texts: list[str],
    largest: float = 1.0,
) -> Scene:
    side = found.bore / 2
    stations = [Path(((-side, -depth), (side, -depth)), "accent") for depth in depths]
    labels = [
        Label((side, -depth), figure=text, place="right", accent=True, dot=False)
        for depth, text in zip(depths, texts, strict=True)
    ]
    ends = {"top": given.length(found.top, "0.05 mm"), "bottom": given.length(found.bottom, "0.05 mm")}
    unit = given.unit.symbol
    return Scene(
        id=id,
        title=f"{title}: {given.unit_word} below the deck",
        view="bore cut lengthwise",
        describe=(
            f"The bore cut lengthwise, with the deck on top. The rings run from {ends['top']} to "
            f"{ends['bottom']} {unit} below the deck. The bands above and below that are unworn. "
            f"Depths: {', '.join(texts)} {unit}."
        ),
        shapes=(*section(found), *stations),
        labels=(*_travel_labels(found, ends), *labels),
        largest=largest,
        metal=(box(-side - WALL, -found.end, side + WALL, 0.0),),
    )


def section(found: Travel) -> Iterator[Shape]:
    """The bore with its unworn bands hatched, the deck as a heavy line, and the length of ring travel beside it."""
    side, edge = found.bore / 2, found.bore / 2 + WALL
    yield Area(box(-edge, -found.end, -side, 0.0), "iron")
    yield Area(box(side, -found.end, edge, 0.0), "iron")
    yield Area(box(-side, -found.top, side, 0.0), "hatch")
    yield Area(box(-side, -found.end, side, -found.bottom), "hatch")
    for x in (-side, side):
        yield Path(((x, 0.0), (x, -found.end)), "outline")
    for depth in (found.top, found.bottom):
        yield Path(((-edge, -depth), (side, -depth)), "behind")
    yield Path(((-edge, -found.end), (-side, -found.end)), "behind")
    yield Path(((side, -found.end), (edge, -found.end)), "behind")
    yield Path(((-edge - ASIDE, 0.0), (edge, 0.0)), "deck")
    yield Dimension((-edge - ASIDE / 2, -found.top), (-edge - ASIDE / 2, -found.bottom))


def _travel_labels(found: Travel, ends: dict[str, str]) -> Iterator[Label]:
    x = -found.bore / 2 - WALL - ASIDE / 2
    at: dict[str, Spot] = {"top": (x, -found.top), "bottom": (x, -found.bottom)}
    yield Label((x - ASIDE / 2, 0.0), words=("deck",), place="left", leader=False)
    yield Label(at["top"], words=(ends["top"],), place="left", strong=True, leader=False)
    yield Label((x, -(found.top + found.bottom) / 2), words=("ring", "travel"), place="left", leader=False)
    yield Label(at["bottom"], words=(ends["bottom"],), place="left", strong=True, leader=False)
    yield Label((x, -(found.bottom + found.end) / 2), words=("unworn",), place="left", leader=False)
