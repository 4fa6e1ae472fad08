"""Which part of a card goes on which face.

Nothing is ever cut that must be seen at once: a step's words with its cautions are one part. A decision stays whole
where a face can hold it. After that: fewest faces, no single row of a table on a face, no last face with nothing to do
on it but to sign, few steps and tables that go on overleaf, faces filled alike.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise


@dataclass(frozen=True)
class Part:
    """A piece that is never broken. `key` is a path: "bore/words", "decide/decision1/2"; heights in mm.

    `again`: what it adds when a face opens with it: the head of its table.
    """

    key: str
    height: float
    again: float = 0.0

    @cached_property
    def groups(self) -> tuple[str, ...]:
        """What it is a part of, outermost first: its step, then a decision or table of it."""
        names = self.key.split("/")
        return tuple("/".join(names[:n]) for n in range(1, len(names)))

    @property
    def step(self) -> str:
        return self.groups[0] if self.groups else ""


@dataclass(frozen=True)
class Room:
    """What the faces hold, mm. `arrow` is kept on every face but the last; `label` where a step goes on from before."""

    first: float
    later: float
    arrow: float
    label: float = 0.0


@dataclass(frozen=True)
class Plan:
    """`opens`: index of the part that begins each face. `split`: decisions and tables that a face's end cuts through;
    `tall`: parts that fit on no face."""

    opens: tuple[int, ...]
    split: tuple[str, ...] = ()
    tall: tuple[str, ...] = ()

    @property
    def faces(self) -> int:
        return len(self.opens)


Cost = tuple[int, int, int, int, int, float]
"""Parts that overflow, decisions cut that a face holds, faces, faces with one row of a table or decision that has more,
steps and tables that go on overleaf though a face holds them, squares of what is left empty: compared in that order."""

_CLOSING = ("record", "hold")
_ALONE = 3
"""A face of closing parts alone costs as much as so many steps that go on overleaf: who signs should see what for."""


def pack(parts: Sequence[Part], room: Room) -> Plan:
    """The cheapest plan, by trying every place for every break."""
    count = len(parts)
    hard, soft = _spared(parts, room.later - room.arrow - room.label)
    begun, to_come = _rows(parts), _rows(parts[::-1])[::-1]
    begin = _begins(parts)
    if sum(part.height for part in parts[:begin]) <= room.first - room.arrow:
        for at in range(1, begin):  # what a person needs to begin stays together on the first face
            soft[at] += 1
    closing = next((n for n, part in enumerate(parts) if part.key in _CLOSING), count)
    most = max(room.first, room.later)
    spaces = [_spaces(parts, room, start) for start in range(count)]
    best: list[tuple[Cost, int]] = [((0, 0, 0, 0, 0, 0.0), 0)]  # of the first n parts, and where their last face opens
    for end in range(1, count + 1):
        found: tuple[Cost, int] | None = None
        used = 0.0
        for start in range(end - 1, -1, -1):
            used += parts[start].height
            space = spaces[start][end < count]
            over = used > space
            if over and end - start > 1:  # a part alone may overflow; it is told
                if used > most:
                    break
                continue
            overflows, cut, faces, lone, on, empty = best[start][0]
            opens_on_one = begun[start] > 1 and (to_come[start] == 1 or end - start == 1)
            ends_on_one = to_come[end - 1] > 1 and (begun[end - 1] == 1 or end - start == 1)
            cost = (
                overflows + over,
                cut + hard[start],
                faces + 1,
                lone + (opens_on_one or ends_on_one),
                on + soft[start] + (_ALONE if start >= closing and end == count else 0),
                empty + max(space - used, 0.0) ** 2,
            )
            if found is None or cost < found[0]:
                found = (cost, start)
        assert found is not None  # a part alone is always tried
        best.append(found)

    opens: list[int] = []
    tall: list[str] = []
    end = count
    while end > 0:
        start = best[end][1]
        opens.append(start)
        if sum(part.height for part in parts[start:end]) > spaces[start][end < count]:
            tall.append(parts[start].key)
        end = start
    split = dict.fromkeys(
        group for start in sorted(opens)[1:] for group in parts[start].groups[1:] if group in parts[start - 1].groups
    )
    return Plan(tuple(reversed(opens)), tuple(split), tuple(reversed(tall)))


def ends_alone(parts: Sequence[Part], plan: Plan) -> bool:
    """Whether the last face has nothing on it but to sign."""
    return len(plan.opens) > 1 and parts[plan.opens[-1]].key in _CLOSING


def _begins(parts: Sequence[Part]) -> int:
    """How many parts come before the steps: reason, tools, cautions of the whole card."""
    return next((n for n, part in enumerate(parts) if not part.key.startswith(("start/", "panel-"))), len(parts))


def _rows(parts: Sequence[Part]) -> list[int]:
    """For each part, which row of its table or decision it is, from 1; what is in none is a row by itself."""
    rows: list[int] = []
    before = ""
    for part in parts:
        table = part.groups[-1] if len(part.groups) > 1 else ""
        rows.append(rows[-1] + 1 if table and table == before else 1)
        before = table
    return rows


def _goes_on(parts: Sequence[Part], at: int) -> bool:
    """Whether a break before part `at` falls inside a step."""
    return at > 0 and parts[at].step != "" and parts[at].step == parts[at - 1].step


def _spaces(parts: Sequence[Part], room: Room, start: int) -> tuple[float, float]:
    """What a face holds that opens with a part: the last face, and one that is not the last."""
    space = room.first if start == 0 else room.later
    again = room.label + parts[start].again if _goes_on(parts, start) else 0.0
    return space - again, space - room.arrow - again


def _spared(parts: Sequence[Part], face: float) -> tuple[list[int], list[int]]:
    """For a break before each part: how many decisions it would cut that a face can hold; and how many steps and tables
    that a face can hold it sends on, and whether it parts a step's words from what they lead to."""
    whole: dict[str, float] = {}
    for part in parts:
        for group in part.groups:
            whole[group] = whole.get(group, 0.0) + part.height
    hard, soft = [0], [0]
    for before, part in pairwise(parts):
        shared = [group for group in part.groups if group in before.groups]
        cut = [group for group in shared if whole[group] <= face]
        hard.append(sum("/decision" in group for group in cut))
        leads = bool(shared) and before.key.endswith("/words")
        led = whole[part.groups[1]] if len(part.groups) > 1 else part.height
        height = led if led <= face else part.height  # of a table that no face holds, its beginning
        soft.append(len(cut) - hard[-1] + int(leads and before.height + height <= face))
    return hard, soft
