"""Labels and badges as boxes of lettering, measured by the fonts' own metrics; several forms where one may not fit."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.draw.boxes import Box, Spot
from procgen.draw.fonts import FIGURE, SUB, TEXT, Fonts
from procgen.model.scene import Badge, Entry, Label
from procgen.values import dataclass

MM = 25.4 / 72
LEADING = 1.2
FIGURE_SIZE = 1.4  # of the step size
BADGE = 1.6  # across, of the step size in mm
HALO = 0.6  # mm of white round a badge
BROKEN = 8.0  # mm that a label may stand further off to keep its words whole
GAP = 1.0  # mm between a badge and its name


@dataclass(frozen=True, slots=True)
class Text:
    """One line of lettering: baseline start, at the left, middle or end as `anchor` says."""

    at: Spot
    text: str
    family: str
    size: float  # mm
    anchor: str = "start"
    bold: bool = False
    accent: bool = False
    white: bool = False

    def moved(self, right: float, down: float) -> Text:
        at = self.at[0] + right, self.at[1] + down
        return Text(at, self.text, self.family, self.size, self.anchor, self.bold, self.accent, self.white)


@dataclass(frozen=True, slots=True)
class Form:
    """One way to set a label: its box from (0, 0), its texts, where a leader may meet it, what it costs to be set so.

    `disc`: centre and radius of a badge in it.
    """

    width: float
    height: float
    texts: tuple[Text, ...]
    ports: tuple[tuple[Spot, str], ...]  # and the side a leader comes from; "" for a badge, to its middle
    cost: float = 0.0
    disc: tuple[Spot, float] | None = None

    def box(self, left: float, top: float) -> Box:
        return Box(left, top, left + self.width, top + self.height)


@dataclass(frozen=True, slots=True)
class Letters:
    """Makes forms in one type size (pt)."""

    fonts: Fonts
    size: float

    @property
    def step(self) -> float:
        """The step size, mm: the least that anything is written in."""
        return self.size * MM

    @property
    def line(self) -> float:
        return LEADING * self.step

    def width(self, text: str, family: str = TEXT, size: float | None = None, bold: bool = False) -> float:
        return self.fonts.width(text, family, size or self.step, bold)

    def forms(self, label: Label) -> Iterator[Form]:
        """Set to the right of a leader, to the left of one, or centred; then the same with its words broken."""
        words = tuple(map(printed, label.words))
        yield from self._set(label, words, 0.0)
        widest = max((len(line) for line in words), default=0)
        broken = tuple(part for line in words for part in (_halved(line) if len(line) > widest * 0.6 else (line,)))
        if broken != words:
            yield from self._set(label, broken, BROKEN)

    def _set(self, label: Label, words: tuple[str, ...], cost: float) -> Iterator[Form]:
        family, bold = (SUB, False) if label.strong else (TEXT, False)
        lines = [(printed(label.figure), FIGURE, self.step * FIGURE_SIZE)] if label.figure else []
        lines += [(text, family, self.step) for text in words]
        width = max(self.width(text, family, size) for text, family, size in lines)
        height = sum(size * (1.0 if family == FIGURE else LEADING) for _, family, size in lines)
        first = lines[0][2] * (1.0 if label.figure else LEADING) / 2
        ways = {"left": "start", "right": "end", "": "middle"}
        for port, anchor in ways.items():
            x = {"start": 0.0, "end": width, "middle": width / 2}[anchor]
            top, texts = 0.0, []
            for text, family, size in lines:
                tall = size * (1.0 if family == FIGURE else LEADING)
                baseline = top + tall / 2 + self.fonts.face(family).cap * size / 2
                texts.append(Text((x, baseline), text, family, size, anchor, bold, label.accent and family == FIGURE))
                top += tall
            if port:
                ports: tuple[tuple[Spot, str], ...] = (((0.0 if port == "left" else width, first), port),)
            else:
                ports = (((width / 2, 0.0), "above"), ((width / 2, height), "below"))
            yield Form(width, height, tuple(texts), ports, cost)

    def badge(self, badge: Badge) -> Form:
        radius = BADGE * self.step / 2
        middle = radius + HALO
        baseline = middle + self.fonts.face(FIGURE).cap * self.step / 2
        number = Text((middle, baseline), badge.number, FIGURE, self.step, "middle", white=True)
        return Form(2 * middle, 2 * middle, (number,), (((middle, middle), ""),), 0.0, ((middle, middle), radius))

    def names(self, badge: Badge, disc: tuple[Spot, float]) -> Iterator[tuple[Box, Text]]:
        """Where a badge's name may stand: right of it, left, over it, under it."""
        (x, y), radius = disc
        wide, low = self.width(badge.name), self.fonts.face(TEXT).cap * self.step / 2
        half, away = self.line / 2, radius + HALO
        aside = away + GAP / 2
        for anchor, left, middle in (
            ("start", x + aside, y),
            ("end", x - aside - wide, y),
            ("middle", x - wide / 2, y - away - half),
            ("middle", x - wide / 2, y + away + half),
        ):
            at = {"start": left, "end": left + wide, "middle": x}[anchor], middle + low
            yield Box(left, middle - half, left + wide, middle + half), Text(at, badge.name, TEXT, self.step, anchor)

    def legend(self, entries: tuple[Entry, ...], width: float) -> tuple[tuple[Text, ...], float]:
        """Entries side by side as far as they go, figure above words, a large one before them; and their height."""
        texts: list[Text] = []
        x = top = 0.0
        figure, line = self.step * FIGURE_SIZE, self.line
        tall = figure + line
        for entry in entries:
            words, face, size = printed(entry.words), FIGURE, figure if entry.large else self.step
            wide = max(self.width(entry.figure, face, size), self.width(words))
            if x and x + wide > width:
                x, top = 0.0, top + tall + 0.3 * line
            cap = self.fonts.face(face).cap
            texts.append(Text((x, top + figure / 2 + cap * size / 2), entry.figure, face, size))
            low = self.fonts.face(TEXT).cap * self.step / 2
            texts.append(Text((x, top + figure + line / 2 + low), words, TEXT, self.step))
            x += wide + 1.2 * self.step
        return tuple(texts), top + tall if entries else 0.0

    def wrapped(self, text: str, width: float) -> tuple[tuple[Text, ...], float]:
        """A sentence in lines, and their height."""
        lines: list[str] = []
        for word in printed(text).split(" "):
            longer = f"{lines[-1]} {word}" if lines else word
            if lines and self.width(longer) <= width:
                lines[-1] = longer
            else:
                lines.append(word)
        low = self.fonts.face(TEXT).cap * self.step / 2
        texts = tuple(Text((0.0, (n + 0.5) * self.line + low), line, TEXT, self.step) for n, line in enumerate(lines))
        return texts, len(lines) * self.line


def printed(text: str) -> str:
    """No face has the narrow space that keeps a number and its unit together; the common one does as well."""
    return text.replace("\u202f", "\u00a0")


def _halved(line: str) -> tuple[str, ...]:
    """A line broken at the space nearest its middle."""
    spaces = [n for n, sign in enumerate(line) if sign == " "]
    if not spaces:
        return (line,)
    at = min(spaces, key=lambda n: abs(n - len(line) / 2))
    return line[:at], line[at + 1 :]
