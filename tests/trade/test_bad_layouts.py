"""Mistakes in a family's file, one at a time: each a clear problem at its line, through loading and checking."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from textwrap import dedent

import pytest

from procgen.check import check, told_once
from procgen.load.workshop import load_workshop

TEAL = "procedures/families/teal.yaml"
SOUND = dedent("""\
    format: family/1
    id: teal
    name: Teal
    units: {length: mm}
    layout: {kind: inline}
    traits: {cam.shells: fitted}
    block: {length: 200, pan_rail_z: -50, side_walls: [-90, 90]}
    mains:
      bearings:
        every: {housing_bore: 60, width: 22, saddle_groove: cut}
        1: {x: 50}
        2: {x: 150}
    cam:
      centre: {y: 0, z: 100}
      bearings:
        every: {block_bore: 50, width: 20, block_hole: {clock: 6:00, diameter: 6}}
        1: {x: 50, shell_hole: {clock: 6:00, diameter: 6}}
        2: {x: 150, shell_hole: {clock: 6:00, diameter: 6}}
    passages:
      MG: {from: [0, 64, 48], to: [200, 64, 48], diameter: 10, opens: [plug MG-F, plug MG-R]}
      M1: {from: [50, 80, 60], to: [50, 24, 18], diameter: 7, opens: [plug S1, main 1], crosses: [MG]}
      M2: {from: [150, 80, 60], to: [150, 24, 18], diameter: 7, opens: [plug S2, main 2], crosses: [MG]}
      C1: {from: [50, 0, 30], to: [50, 0, 75], diameter: 6, opens: [main 1, cam 1]}
      C2: {from: [150, 0, 30], to: [150, 0, 75], diameter: 6, opens: [main 2, cam 2]}
      FO: {from: [100, 90, 48], to: [100, 64, 48], diameter: 8, opens: [filter_out, passage MG]}
    plugs:
      MG-F: {thread: 1/4-18 NPT, at: [0, 64, 48], closes: MG, where: front face}
      MG-R: {thread: 1/4-18 NPT, at: [200, 64, 48], closes: MG, where: rear face}
      S1: {thread: R 1/8, at: [50, 80, 60], closes: M1, where: side wall}
      S2: {thread: R 1/8, at: [150, 80, 60], closes: M2, where: side wall}
    """)

Tell = Callable[[str], list[str]]


@pytest.fixture
def tell(tmp_path: Path) -> Tell:
    """The errors of a workshop with that one family, as text: place, code, message, mend, related places."""

    def write_and_check(family: str) -> list[str]:
        (tmp_path / TEAL).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / "procedures/workshop.yaml").write_text("format: workshop/1\nname: Test shed\n", encoding="utf-8")
        (tmp_path / TEAL).write_text(family, encoding="utf-8")
        loaded = load_workshop(tmp_path, Path.read_bytes)
        assert loaded.workshop is not None
        found = told_once((*loaded.problems, *check(loaded.workshop)[1]))
        return [
            f"{p.place.line}:{p.place.column} {p.code}: {p.message} -> {p.hint}"
            + "".join(f" | {r.place.line}: {r.message}" for r in p.related)
            for p in found
            if p.is_error
        ]

    return write_and_check


def line(beginning: str, family: str = SOUND) -> int:
    (found,) = (n for n, text in enumerate(family.splitlines(), 1) if text.strip().startswith(beginning))
    return found


def changed(old: str, new: str) -> str:
    assert SOUND.count(old) == 1, old
    return SOUND.replace(old, new)


def test_the_sound_family_is_sound(tell: Tell) -> None:
    assert tell(SOUND) == []


def test_a_passage_that_misses_the_one_it_names(tell: Tell) -> None:
    missed = changed("to: [100, 64, 48], diameter: 8", "to: [100, 64.3, 48], diameter: 8")
    assert tell(missed) == [
        f"{line('FO:')}:83 end-off-axis: Teal: FO ends 0.300 mm off the axis of MG, which it opens to"
        f" -> move the end onto the axis, or name what it does open to | {line('MG:')}: passage MG"
    ]


def test_a_crossing_that_misses(tell: Tell) -> None:
    """M2 and its plug turned about the crank by 0.3 in 80, which is how far MG lies from it."""
    missed = changed("[150, 80, 60], to: [150, 24, 18]", "[150, 79.7744, 60.2996], to: [150, 23.9323, 18.0899]")
    assert tell(missed.replace("at: [150, 80, 60]", "at: [150, 79.7744, 60.2996]")) == [
        f"{line('M2:')}:3 passages-apart: Teal: M2 and MG are said to meet, and pass 0.300 mm apart"
        f" -> move one, or take MG out of `crosses` | {line('MG:')}: passage MG"
    ]


def test_a_crossing_that_nobody_names(tell: Tell) -> None:
    """One problem, at its cause: that main 2 gets no oil by what the file says is its echo."""
    unsaid = changed("opens: [plug S2, main 2], crosses: [MG]", "opens: [plug S2, main 2]")
    assert tell(unsaid) == [
        f"{line('M2:')}:3 crossing-not-said: Teal: M2 and MG meet in the drawing, and neither names the other"
        f" -> add MG to `crosses` of M2, or move one | {line('MG:')}: passage MG"
    ]


def test_a_bearing_that_no_oil_reaches(tell: Tell) -> None:
    stopped = changed(
        "every: {housing_bore: 60, width: 22, saddle_groove: cut}", "every: {housing_bore: 60, width: 22}"
    )
    plain = stopped.replace("2: {x: 150}\ncam", "2: {x: 150, saddle_groove: none}\ncam")
    assert tell(plain) == [f"{line('2: {x: 150, shell')}:12 no-oil: Teal: no passage brings oil to cam bearing 2 -> "]


def test_a_passage_without_a_length(tell: Tell) -> None:
    flat = changed("M2: {from: [150, 80, 60], to: [150, 24, 18]", "M2: {from: [150, 80, 60], to: [150, 80, 60]")
    assert tell(flat) == [
        f"{line('M2:')}:3 no-length: Teal: M2 has no length: it goes from one point to the same"
        " -> give `from` and `to` the two ends of the drilling"
    ]


def test_a_passage_in_the_wrong_unit(tell: Tell) -> None:
    thin = changed("diameter: 8, opens: [filter_out", "diameter: 0.31, opens: [filter_out")
    assert tell(thin) == [
        f"{line('FO:')}:3 no-diameter: Teal: FO is 0.31 mm across; no oil passage is under 1.00 mm"
        " -> check its diameter and the file's unit of length"
    ]


def test_two_plugs_of_one_id(tell: Tell) -> None:
    twice = changed("  S2: {thread", "  S1: {thread")
    at = line("S1: {thread: R 1/8, at: [50", twice)
    assert f"{at + 1}:3 duplicate-key: `S1` is written twice -> keep one of the two | {at}: first written here" in tell(
        twice
    )


def test_a_thread_smaller_than_its_passage(tell: Tell) -> None:
    small = changed("MG-F: {thread: 1/4-18 NPT", "MG-F: {thread: R 1/8")
    assert tell(small) == [
        f"{line('MG-F:')}:3 tap-drill: Teal: plug MG-F is too small for MG: R 1/8 is tapped from 8.60 mm, "
        f"the passage is 10.00 mm -> a larger plug | {line('MG:')}: passage MG"
    ]


def test_a_shell_hole_at_the_wrong_clock(tell: Tell) -> None:
    turned = changed("2: {x: 150, shell_hole: {clock: 6:00,", "2: {x: 150, shell_hole: {clock: 6:20,")
    assert tell(turned) == [
        f"{line('2: {x: 150, shell')}:37 shell-hole: Teal: the shell of cam bearing 2 has its hole at 6:20, the block "
        "at 6:00 (16 % open), and there is no groove between them"
        " -> give both one clock position, or describe the groove"
    ]


def test_with_a_groove_behind_it_a_shell_hole_may_be_anywhere(tell: Tell) -> None:
    turned = changed("2: {x: 150, shell_hole: {clock: 6:00,", "2: {x: 150, shell_hole: {clock: 9:00,")
    grooved = turned.replace("opens: [main 2, cam 2]", "opens: [main 2, groove 2]").replace(
        "width: 20, block_hole", "width: 20, groove: {in: block, width: 6, depth: 2}, block_hole"
    )
    assert tell(grooved) == []


LOOP = """\
  L1: {from: [120, -60, 0], to: [160, -60, 0], diameter: 5, opens: [passage L3, passage L2]}
  L2: {from: [160, -60, 0], to: [140, -60, 30], diameter: 5, opens: [passage L1, passage L3]}
  L3: {from: [140, -60, 30], to: [120, -60, 0], diameter: 5, opens: [passage L2, passage L1]}
"""


def test_a_loop_that_no_opening_reaches(tell: Tell) -> None:
    looped = changed("plugs:\n", f"{LOOP}plugs:\n")
    at = line("L1:", looped)
    assert tell(looped) == [
        f"{at}:3 no-opening: Teal: no opening reaches L1, L2 and L3: joined only to one another, no drill made them "
        "and no brush cleans them -> name the plug, bearing or port that one of them opens to"
        f" | {at + 1}: passage L2 | {at + 2}: passage L3"
    ]


@pytest.mark.parametrize(
    ("plug", "passage", "column", "cost"),
    [("S1", "M1", 67, "main 1, cam 1 would starve, and oil would come out from its hole"),
     ("MG-R", "MG", 79, "nothing would have oil pressure, and oil would come out behind the flywheel")],
)  # fmt: skip
def test_a_plug_taken_out_of_the_file(tell: Tell, plug: str, passage: str, column: int, cost: str) -> None:
    """Loading sees that it is not there, and the layout what that costs: said once, with the nearest right name."""
    gone = "\n".join(text for text in SOUND.splitlines() if not text.startswith(f"  {plug}:")) + "\n"
    found = tell(gone)
    (told,) = found
    said, _, mend = told.partition(" -> ")
    assert f"{said} -> {mend.rpartition('; ')[2]}" == (
        f"{line(f'{passage}:')}:{column} open-end: Teal: an end of {passage} opens to plug {plug}, "
        f"which is not listed: {cost} -> list {plug}, or name what closes this end"
    )
