"""Packing, held to trying every way by brute force, and to what must never happen."""

from __future__ import annotations

from itertools import combinations, pairwise

from hypothesis import given, settings
from hypothesis import strategies as st

from procgen.paper.pack import Part, Room, pack

ROOM = Room(first=60, later=100, arrow=8, label=6)


def _parts(shape: list[tuple[int, list[float]]]) -> list[Part]:
    """Steps of some parts each: words, then a decision's arms."""
    parts = []
    for number, (kind, heights) in enumerate(shape):
        for i, height in enumerate(heights):
            arm = f"s{number}/words" if i == 0 else f"s{number}/decision1/{i}"
            parts.append(Part(arm if kind == 0 else f"p{number}-{i}", height))
    return parts


def _fits(parts: list[Part], opens: tuple[int, ...]) -> bool:
    edges = [*opens, len(parts)]
    for face, start in enumerate(opens):
        end = edges[face + 1]
        space = ROOM.first if face == 0 else ROOM.later
        if end < len(parts):
            space -= ROOM.arrow
        if start and parts[start].step and parts[start].step == parts[start - 1].step:
            space -= ROOM.label
        if sum(part.height for part in parts[start:end]) > space:
            return False
    return True


def _cuts(parts: list[Part], opens: tuple[int, ...]) -> int:
    """Decisions cut that would fit on a face."""
    count = 0
    for start in opens[1:]:
        for group in parts[start].groups[1:]:
            whole = sum(part.height for part in parts if group in part.groups)
            if group in parts[start - 1].groups and whole <= ROOM.later - ROOM.arrow - ROOM.label:
                count += 1
    return count


shapes = st.lists(
    st.tuples(st.integers(0, 1), st.lists(st.integers(5, 45).map(float), min_size=1, max_size=4)),
    min_size=1,
    max_size=3,
)


def test_the_last_step_goes_on_overleaf_rather_than_leave_a_face_with_a_hold_alone() -> None:
    step = [Part("s/words", 40), Part("s/box1", 25), Part("s/decision1/1", 20)]
    end = [Part("record", 10), Part("hold", 10)]
    first = Part("start/reason", 50)
    assert pack([first, *step, *end], ROOM).opens == (0, 1, 3)
    assert pack([first, *step[:2], Part("s/decision1/1", 20), Part("s/decision1/2", 60), *end], ROOM).opens[-1] == 5
    longer = [Part("s/words", 25), Part("s/box1", 20), Part("s/decision1/1", 36), *end]  # all but the hold has room
    assert pack([first, *longer], ROOM).opens == (0, 1, 3)


@given(shapes)
@settings(max_examples=150)
def test_no_plan_cuts_less_or_takes_fewer_faces(shape: list[tuple[int, list[float]]]) -> None:
    parts = _parts(shape)
    plan = pack(parts, ROOM)
    assert plan.opens[0] == 0
    assert list(plan.opens) == sorted(set(plan.opens))
    assert not plan.tall  # every part here fits
    assert _fits(parts, plan.opens)
    every = (
        (0, *breaks)
        for n in range(len(parts))
        for breaks in combinations(range(1, len(parts)), n)
        if _fits(parts, (0, *breaks))
    )
    best = min((_cuts(parts, opens), len(opens)) for opens in every)
    assert (_cuts(parts, plan.opens), plan.faces) == best


def test_a_part_taller_than_a_face_is_told_and_stands_alone() -> None:
    plan = pack([Part("a/words", 20), Part("b/words", 130), Part("c/words", 20)], ROOM)
    assert plan.tall == ("b/words",)
    assert plan.opens == (0, 1, 2)


def _lone(parts: list[Part], opens: tuple[int, ...]) -> int:
    """Faces with one row of a table or decision that has more."""
    edges = [*opens, len(parts)]
    tables = [part.key.rpartition("/")[0] for part in parts if part.key.count("/") == 2]
    return sum(
        any(here.count(table) == 1 < tables.count(table) for table in here)
        for start, end in pairwise(edges)
        for here in [[part.key.rpartition("/")[0] for part in parts[start:end] if part.key.count("/") == 2]]
    )


@given(st.lists(st.integers(2, 9), min_size=1, max_size=2), st.integers(9, 45))
@settings(max_examples=100)
def test_no_plan_of_as_few_faces_leaves_fewer_rows_alone(tables: list[int], words: int) -> None:
    parts = [
        Part(f"s{n}/words" if row == 0 else f"s{n}/grid1/{row}", float(words) if row == 0 else 24.0)
        for n, rows in enumerate(tables)
        for row in range(rows + 1)
    ]
    plan = pack(parts, ROOM)
    every = (
        (0, *breaks) for breaks in combinations(range(1, len(parts)), plan.faces - 1) if _fits(parts, (0, *breaks))
    )
    assert _lone(parts, plan.opens) == min(_lone(parts, opens) for opens in every)


def test_a_table_longer_than_a_face_leaves_no_row_alone_and_begins_below_its_words() -> None:
    def opens(rows: int) -> tuple[int, ...]:
        return pack(
            [Part("a/words", 30), *(Part(f"a/grid1/{row}", 10) for row in range(1, rows + 1)), Part("b/words", 40)],
            ROOM,
        ).opens

    assert opens(13) == (0, 3, 10)  # not (0, 2, 10), which fills faces more alike
    assert opens(16) == (0, 3, 9, 15)  # not (0, 1, 8, 14), with words alone


def test_words_stay_with_what_they_lead_to() -> None:
    parts = [Part("a/words", 45), Part("b/words", 10), Part("b/decision1/1", 40), Part("b/decision1/2", 40)]
    assert pack(parts, ROOM).opens == (0, 1)


def test_a_table_goes_on_overleaf_sooner_than_it_costs_a_face() -> None:
    table = [Part("a/words", 20), *(Part(f"a/grid1/{i}", 14) for i in range(1, 6))]
    decision = [Part("a/words", 20), *(Part(f"a/decision1/{i}", 14) for i in range(1, 6))]
    after = [Part("b/words", 40)]
    assert pack([*table, *after], ROOM).faces == 2
    assert pack([*decision, *after], ROOM).faces == 3


def test_faces_are_filled_alike() -> None:
    parts = [Part(f"s{i}/words", 30.0) for i in range(5)]
    assert pack(parts, ROOM).opens == (0, 1, 3)


def test_a_repeated_table_head_takes_its_room() -> None:
    rows = [Part(f"a/grid1/{i}", 10.0, again=0.0 if i == 1 else 9.0) for i in range(1, 15)]
    plan = pack(rows, ROOM)
    assert plan.split == ("a/grid1",)
    edges = [*plan.opens, len(rows)]
    for face, start in enumerate(plan.opens[1:], start=1):
        assert 9.0 + ROOM.label + sum(row.height for row in rows[start : edges[face + 1]]) <= ROOM.later


def test_what_is_needed_to_begin_stays_on_the_first_face() -> None:
    start = [Part("start/reason", 20.0), Part("start/bring", 12.0), Part("panel-1", 18.0)]
    steps = [Part(f"s{i}/words", 45.0) for i in range(4)]
    assert pack([*start, *steps], ROOM).opens[1] == 3
    tall = [*start[:2], Part("panel-1", 40.0)]  # more than a first face holds
    assert pack([*tall, *steps], ROOM).opens[1] < 3
