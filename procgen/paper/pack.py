"""Which part of a card goes on which face: fewest faces, no step split that fits on one, then the faces filled alike."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True)
class Part:
    """A piece that is never broken. `step` is the id of the step it belongs to, "" for none; heights in mm."""

    key: str
    height: float
    step: str = ""


@dataclass(frozen=True)
class Room:
    """What the faces hold, mm. `arrow` is kept for the arrow on every face but the last; `label` heads a step that goes on."""

    first: float
    later: float
    arrow: float
    label: float = 0.0


@dataclass(frozen=True)
class Plan:
    """`opens`: index of the part that begins each face. `split`: steps that go over a face's end; `tall`: parts that fit none."""

    opens: tuple[int, ...]
    split: tuple[str, ...] = ()
    tall: tuple[str, ...] = ()

    @property
    def faces(self) -> int:
        return len(self.opens)


def pack(parts: Sequence[Part], room: Room) -> Plan:
    """The best plan, by trying every place for every break.

    The cost of a plan is compared in this order: parts that overflow, faces, steps split that would fit on one face,
    and the sum of the squares of what is left empty, which is least when the faces are filled alike.
    """
    count = len(parts)
    heights = [part.height for part in parts]
    whole: dict[str, float] = {}
    for part in parts:
        if part.step:
            whole[part.step] = whole.get(part.step, 0.0) + part.height
    least = room.later - room.arrow

    def splits(at: int) -> bool:
        return at > 0 and parts[at].step != "" and parts[at].step == parts[at - 1].step

    best: list[tuple[tuple[int, int, int, float], int]] = [((0, 0, 0, 0.0), 0)]  # best[j]: parts[:j] set, and where its last face opens
    for end in range(1, count + 1):
        found: tuple[tuple[int, int, int, float], int] | None = None
        used = 0.0
        for start in range(end - 1, -1, -1):
            used += heights[start]
            space = (room.first if start == 0 else room.later) - (room.arrow if end < count else 0.0)
            space -= room.label if splits(start) else 0.0
            over = used > space
            if over and end - start > 1:
                break
            before = best[start][0]
            needless = splits(start) and whole[parts[start].step] <= least
            empty = max(space - used, 0.0) ** 2
            cost = (before[0] + over, before[1] + 1, before[2] + needless, before[3] + empty)
            if found is None or cost < found[0]:
                found = (cost, start)
        assert found is not None
        best.append(found)

    opens: list[int] = []
    end = count
    while end > 0:
        end = best[end][1]
        opens.append(end)
    opens.reverse()
    edges = [*opens, count]
    tall = []
    for face, start in enumerate(opens):
        space = room.first if face == 0 else room.later
        space -= room.arrow if edges[face + 1] < count else 0.0
        if sum(heights[start : edges[face + 1]]) > space:
            tall.append(parts[start].key)
    split = tuple(dict.fromkeys(parts[start].step for start in opens if splits(start)))
    return Plan(tuple(opens), split, tuple(tall))
