"""How deep a plug may go and how far it may be turned, against the standard's lengths in inches."""

from __future__ import annotations

import pytest
from hand_built import family, passage, plug

from procgen.model.family import Family
from procgen.trade.derived import DERIVED
from procgen.trade.noses import nose, reach, turns_most

INCH = 25.4


def plugged(thread: str, crossing: float | None, long: float = 300, length: float | None = None) -> Family:
    """A galley closed at its front; `crossing` mm in, the near edge of a feed of 6 mm."""
    ends = ("plug F", "cam 1")
    galley = passage("G", (0, 0, 0), (long, 0, 0), 8, ends)
    feeds = () if crossing is None else (
        passage("R", (crossing + 3, 0, 50), (crossing + 3, 0, 0), 6, ("pump", "passage G")),)  # fmt: skip
    return family(passages=(galley, *feeds), plugs=(plug("F", thread, (0, 0, 0), "G", length=length),))


def turns(thread: str, crossing: float | None, length: float | None = None) -> float | None:
    built = plugged(thread, crossing, length=length)
    return turns_most(built, built.plugs["F"])


# 1/4-18 NPT: hand-tight 0.2278 in, 18 turns to the inch
@pytest.mark.parametrize("free", [0.0, 0.5, 1.0, 2.5, 3.0])
def test_turns_are_counted_by_halves_and_down(free: float) -> None:
    room = (0.2278 + free / 18) * INCH
    assert turns("1/4-18 NPT", room) == free
    assert turns("1/4-18 NPT", room + 0.49 / 18 * INCH) == free
    assert turns("1/4-18 NPT", room - 0.01) == max(0.0, free - 0.5)


def test_never_more_than_three_turns() -> None:
    """Iron cracks before that helps; common practice, no source."""
    assert turns("1/4-18 NPT", 100) == turns("1/4-18 NPT", None) == 3


def test_a_plug_cut_short_never_gets_there() -> None:
    assert turns("1/4-18 NPT", 7.0) == 0.5
    assert turns("1/4-18 NPT", 7.0, length=6.9) == 3


def test_a_straight_plug_stops_on_its_washer() -> None:
    built = plugged("M14x1.5", 20)
    assert turns("M14x1.5", 20) is None
    assert DERIVED["plug.turns_most"].work_out(built) == {"F": None}
    assert DERIVED["plug.turns_most"].work_out(plugged("1/4 gas", 20)) == {}  # not a listed thread: can't be told


def test_where_nothing_crosses_the_far_end_is_the_limit() -> None:
    built = plugged("1/8-27 NPT", None, long=17)
    found = nose(built, built.plugs["F"])
    assert found is not None
    assert (found.room, found.behind) == (17, "cam 1")
    assert found.most == pytest.approx((0.1615 + 3 / 27) * INCH)


# 1/4-18 NPT three turns past hand-tight: 0.2278 + 3/18 in, 10.0 mm
@pytest.mark.parametrize(("room", "said"), [(12.0, 12.0), (29.9, 29.9), (30.2, None), (290.0, None)])
def test_a_depth_that_no_plug_reaches_is_not_told(room: float, said: float | None) -> None:
    built = plugged("1/4-18 NPT", room)
    assert reach(built, built.plugs["F"]) == said
    assert DERIVED["plug.nose_room"].work_out(built) == {"F": said}


def test_a_plug_known_to_be_long_is_told_its_depth_all_the_same() -> None:
    built = plugged("1/4-18 NPT", 40.0, length=45)
    assert reach(built, built.plugs["F"]) == 40
