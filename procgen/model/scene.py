"""A drawing before it has a size: real geometry in millimetres, what is written to it, and where that points.

Coordinates of a view run right and up. Angles are clock angles: degrees from the top, clockwise. Shapes have roles, not
colours or weights: draw gives those, for the theme and the type size. Roles of lines: deck (heavy), outline, behind,
axis, accent, limit. Roles of areas: iron, hatch, oil, solid, paper, accent.
"""

from __future__ import annotations

from procgen.values import dataclass

Spot = tuple[float, float]
"""A place in a view, mm: to the right, up."""


@dataclass(frozen=True, slots=True)
class Path:
    """Straight lines from spot to spot."""

    points: tuple[Spot, ...]
    role: str
    closed: bool = False


@dataclass(frozen=True, slots=True)
class Arc:
    """A circle, or the part of it from one clock angle clockwise to another."""

    centre: Spot
    radius: float
    role: str
    start: float = 0.0
    end: float = 360.0


@dataclass(frozen=True, slots=True)
class Area:
    """A filled or hatched polygon; what lies inside a hole is left out."""

    points: tuple[Spot, ...]
    role: str
    holes: tuple[tuple[Spot, ...], ...] = ()


@dataclass(frozen=True, slots=True)
class Band:
    """A filled or hatched ring, or the part of it from one clock angle clockwise to another."""

    centre: Spot
    inner: float
    outer: float
    role: str
    start: float = 0.0
    end: float = 360.0


@dataclass(frozen=True, slots=True)
class Tube:
    """A drilling: two edges with a white core between them. One that is seen along its axis has no length."""

    start: Spot
    end: Spot
    diameter: float


@dataclass(frozen=True, slots=True)
class Arrow:
    """A small solid arrow of the paper's size: oil through a port, or a load. Its tip is at the spot, or its foot."""

    at: Spot
    towards: float  # clock angle
    from_spot: bool = False
    role: str = "outline"


@dataclass(frozen=True, slots=True)
class Dimension:
    """A line with an arrowhead at each end."""

    start: Spot
    end: Spot


@dataclass(frozen=True, slots=True)
class Mark:
    """A small mark of the paper's size: dot, square, ring."""

    at: Spot
    kind: str
    role: str = "outline"


Shape = Path | Arc | Area | Band | Tube | Arrow | Dimension | Mark


@dataclass(frozen=True, slots=True)
class Label:
    """What is written to a thing. `figure` stands above the `words`, larger.

    `place`: "free", anywhere clear of the metal with a leader to the anchor; "on", centred on the anchor; "left" or
    "right", in a column on that side, with a leader; "beside", touching the anchor on the first of `sides` that is free
    ("above right": over it, from there to the right).
    """

    anchor: Spot
    figure: str = ""
    words: tuple[str, ...] = ()
    place: str = "free"
    sides: tuple[str, ...] = ()  # left, right, above, below, above left, ...
    accent: bool = False
    dot: bool = True  # whether the leader ends in a dot at the thing
    leader: bool = True  # False in a column where the label stands level with its thing anyway
    strong: bool = False  # words in the weight of a name
    optional: bool = False  # left out where the drawing is too small for it


@dataclass(frozen=True, slots=True)
class Badge:
    """A numbered plug: a round badge as near to its place as there is room, with its name beside it if that fits.

    `away`: the clock angle in which the plug comes out, None where it comes out towards the eye.
    """

    anchor: Spot
    number: str
    name: str
    away: float | None = None


@dataclass(frozen=True, slots=True)
class Entry:
    """A line under a drawing: "12 out", or the numbers that share a thread."""

    figure: str
    words: str
    large: bool = False


@dataclass(frozen=True, slots=True)
class Scene:
    """One view. `describe` says in words all that the drawing shows, for those who cannot see it."""

    id: str
    title: str
    view: str  # "seen from the front"
    describe: str
    shapes: tuple[Shape, ...]
    labels: tuple[Label, ...] = ()
    badges: tuple[Badge, ...] = ()
    metal: tuple[tuple[Spot, ...], ...] = ()  # polygons that no label stands on
    legend: tuple[Entry, ...] = ()
    largest: float = 1.0  # the largest scale that makes sense
    lay_on: str = ""  # "Lay a shell on it", said where the drawing is full size
    to_scale: bool = True  # False: a diagram, no scale is stated

    def texts(self) -> tuple[str, ...]:
        """Everything that is written in it, in reading order."""
        labels = (text for label in self.labels for text in (label.figure, *label.words) if text)
        badges = (text for badge in self.badges for text in (badge.number, badge.name) if text)
        legend = (text for entry in self.legend for text in (entry.figure, entry.words) if text)
        return (self.title, self.view, *labels, *badges, *legend)
