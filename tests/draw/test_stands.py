"""The masks that close places are held against every place looked at by itself."""

from random import Random

import numpy as np
import pytest

from procgen.draw.boxes import Box
from procgen.draw.grid import Grid
from procgen.draw.lettering import Form
from procgen.draw.stands import REACH, STEP, Stands, nearest

Spot = tuple[float, float]


def _spot(random: Random) -> Spot:
    return random.uniform(-60.0, 60.0), random.uniform(-60.0, 60.0)


def _box(random: Random) -> Box:
    left, top = _spot(random)
    return Box(left, top, left + random.uniform(0.0, 20.0), top + random.uniform(0.0, 20.0))


@pytest.mark.parametrize("seed", range(12))
@pytest.mark.parametrize("badge", [False, True])
def test_what_is_open_is_what_touches_nothing(seed: int, badge: bool) -> None:
    random = Random(seed)
    frame = Box(-random.uniform(20, 60), -random.uniform(20, 60), random.uniform(20, 60), random.uniform(20, 60))
    boxes, lines = [_box(random) for _ in range(5)], [(_spot(random), _spot(random)) for _ in range(4)]
    inked, metal = Grid(frame), Grid(frame)
    inked.lines([[_spot(random), _spot(random)] for _ in range(3)])
    metal.polygon([_spot(random) for _ in range(4)])
    width, height, port = random.uniform(2, 25), random.uniform(2, 12), (random.uniform(0, 2), random.uniform(0, 2))
    form = Form(width, height, (), ((port, ""),), 0.0, ((1.0, 1.0), 1.0) if badge else None)
    anchor, weight, gap = _spot(random), random.uniform(0.7, 1.3), 0.7

    stands = Stands(form, form.ports[0], anchor, weight, gap)
    stands.open_in(frame, inked, metal)
    stands.close_on(boxes)
    stands.keep_off(lines)
    found = {(at.right, at.down) for at, _ in nearest([stands]) if stands.is_off_lines(at)}

    expected = set()
    for right in np.arange(-REACH, REACH + STEP, STEP):
        for down in np.arange(-REACH, REACH + STEP, STEP):
            box = form.box(anchor[0] + right * weight - port[0], anchor[1] + down * weight - port[1])
            kept = box.grown(gap)
            near = 1.5 * STEP <= np.hypot(right, down) <= REACH
            clear = inked.is_free(box.grown(gap / 2)) and (badge or metal.is_free(box))
            touches = any(map(kept.overlaps, boxes)) or any(map(kept.crossed_by, lines))
            if near and frame.holds(box) and clear and not touches:
                expected.add((float(right), float(down)))
    assert found == expected


def test_nearest_come_first() -> None:
    frame = Box(-100.0, -100.0, 100.0, 100.0)
    form = Form(4.0, 3.0, (), (((0.0, 0.0), ""),))
    stands = Stands(form, form.ports[0], (0.0, 0.0), 1.0, 0.7)
    stands.open_in(frame, Grid(frame), Grid(frame))
    far = [at.far for at, _ in nearest([stands])]
    assert far == sorted(far)
    assert len(far) == len({(at.row, at.column) for at, _ in nearest([stands])})


@pytest.mark.parametrize("side", ["left", "right", "above", "below"])
def test_a_leader_need_not_double_back(side: str) -> None:
    """It comes to the label's side from that side, and runs level there; to the middle it comes steeply."""
    frame = Box(-200.0, -200.0, 200.0, 200.0)
    stands = Stands(Form(4.0, 3.0, (), ()), ((0.0, 0.0), side), (0.0, 0.0), 1.0, 0.7)
    stands.open_in(frame, Grid(frame), Grid(frame))
    found = {(at.right, at.down) for at, _ in nearest([stands])}
    turn = {"left": (1, 0), "right": (-1, 0), "above": (0, 1), "below": (0, -1)}[side]
    for right, down in found:
        ahead, aside = right * turn[0] + down * turn[1], right * turn[1] + down * turn[0]
        assert ahead > (3.0 if turn[0] else abs(aside))
    assert len(found) > (800 if turn[0] else 400)
