"""What formulas give, and what is told of those that give nothing; none of it needs a value."""

from __future__ import annotations

import pytest
from formulas import Bench

from procgen.formula import TRUTH, Type, number
from procgen.model.formula import Function, Parameter
from procgen.units import dimension as d

NPT = Function("thread_turns", (Parameter("diameter", d.LENGTH), Parameter("torque", d.TORQUE)), d.NUMBER, False,
               lambda a, b: 1.0, "for this test only")  # fmt: skip
LISTS = Function("stations", (Parameter("top", d.LENGTH), Parameter("steps", d.LENGTH, many=True)), d.LENGTH, True,
                 lambda a, b: (), "for this test only")  # fmt: skip
BENCH = Bench(
    {
        "bore": number(d.LENGTH, "cylinder", "depth", "axis"),
        "depth": number(d.LENGTH, "depth"),
        "need": number(d.LENGTH, "cylinder"),
        "geometry.bore": number(d.LENGTH),
        "geometry.stroke": number(d.LENGTH),
        "torque": number(d.TORQUE),
        "area": number(d.AREA),
        "volume": number(d.VOLUME),
        "ratio": number(d.NUMBER),
        "room": number(d.TEMPERATURE),
        "iron": number(d.TEMPERATURE),
        "warmer": number(d.TEMPERATURE_DIFFERENCE),
        "hole_clock": number(d.CLOCK, "cam_bearing"),
        "block_clock": number(d.CLOCK),
        "angle": number(d.ANGLE),
        "noise": number(d.LEVEL),
        "oversizes": Type("list", d.LENGTH),
        "in_travel": Type("truth", axes=("cylinder", "depth")),
        "shadow": Type("choice", options=("even", "uneven"), axes=("cylinder",)),
        "cam.shells": Type("choice", options=("fitted", "none")),
        "shell_face": Type("choice", options=("clean", "copper", "torn")),
        "thread": Type("choice"),
    },
    axes={"axis": ("thrust", "axial"), "cylinder": ("A1", "A2")},
    extra={"thread_turns": NPT, "stations": LISTS},
)


@pytest.mark.parametrize(
    ("source", "each", "gives"),
    [
        ("3 + 4 * ratio", (), number(d.NUMBER)),
        ("geometry.bore + geometry.stroke", (), number(d.LENGTH)),
        ("geometry.bore * geometry.stroke", (), number(d.AREA)),
        ("volume / area", (), number(d.LENGTH)),
        ("sqrt(area)", (), number(d.LENGTH)),
        ("-geometry.bore / 2", (), number(d.LENGTH)),
        ("abs(geometry.bore - geometry.stroke)", (), number(d.LENGTH)),
        ("iron - room", (), number(d.TEMPERATURE_DIFFERENCE)),
        ("room + warmer", (), number(d.TEMPERATURE)),
        ("warmer + room", (), number(d.TEMPERATURE)),
        ("room - warmer", (), number(d.TEMPERATURE)),
        ("max(room, iron)", (), number(d.TEMPERATURE)),
        ("block_clock + angle", (), number(d.CLOCK)),
        ("hole_clock - block_clock", ("cam_bearing",), number(d.ANGLE, "cam_bearing")),
        ("max(oversizes)", (), number(d.LENGTH)),
        ("next_up(oversizes, need)", ("cylinder",), number(d.LENGTH, "cylinder")),
        ("max(only(bore, in_travel))", ("cylinder",), number(d.LENGTH, "cylinder")),
        ("max(bore)", (), number(d.LENGTH)),
        ("bore[thrust] - bore[axial]", ("cylinder", "depth"), number(d.LENGTH, "cylinder", "depth")),
        ("max(span(bore[thrust]), span(bore[axial]))", ("cylinder",), number(d.LENGTH, "cylinder")),
        ("count(shadow is even) >= 2", (), TRUTH),
        ("any(shadow is even) and all(need > geometry.bore)", (), TRUTH),
        ("cam.shells is fitted", (), TRUTH),
        ("thread is anything", (), TRUTH),
        ("ratio if cam.shells is none else 0", (), number(d.NUMBER)),
        ("geometry.bore if ratio > 0 else 0", (), number(d.LENGTH)),
        ("geometry.bore > 0", (), TRUTH),
        ("depth <= geometry.bore", ("cylinder", "depth"), Type("truth", axes=("depth",))),
        ("thread_turns(geometry.bore / 2, torque)", (), number(d.NUMBER)),
        ("stations(geometry.bore, oversizes)", (), Type("list", d.LENGTH)),
        ("max(stations(0, oversizes))", (), number(d.LENGTH)),
    ],
)
def test_type(source: str, each: tuple[str, ...], gives: Type) -> None:
    assert BENCH.type(source, *each) == gives


WRONG = {
    # dimensions, at the operator
    "geometry.bore + torque": (15, "adds a length and a torque", ""),
    "torque - geometry.bore": (8, "takes a length from a torque", ""),
    "geometry.bore + 3": (15, "adds a length and a plain number", ""),
    "geometry.bore * area - volume / area": (22, "takes a length from a volume", ""),
    "geometry.bore <= torque": (15, "compares a length with a torque", ""),
    "max(geometry.bore, torque, area)": (1, "max() of a length, a torque and an area", ""),
    "room + iron": (6, "adds a temperature and a temperature", ""),
    "warmer - room": (8, "takes a temperature from a temperature difference", ""),
    "room * 2": (6, "multiplies a temperature and a plain number", "only a difference of two can be scaled"),
    "ratio / room": (7, "divides a plain number by a temperature", "only a difference of two can be scaled"),
    "-room": (1, "`-` turns a temperature round, which has no meaning", ""),
    "abs(room)": (1, "abs() of a temperature, which has no sign", "take a difference of two first"),
    "room > 0": (6, "compares a temperature with a plain number", ""),
    "room > warmer": (6, "compares a temperature with a temperature difference", ""),
    "block_clock < block_clock": (13, "compares clock positions, which go round: neither is the larger",
                                  "compare the angle between two of them"),
    "max(hole_clock)": (1, "max() of clock positions, which go round: none is the largest", ""),
    "noise + noise": (7, "adds a level and a level; sound levels do not add up", ""),
    "sqrt(volume)": (1, "sqrt() of a volume, which is the square of nothing", ""),
    "next_up(oversizes, torque)": (1, "looks for a torque in a list of lengths", ""),
    "geometry.bore if ratio > 0 else torque": (
        15, "gives a length if the condition holds, and else a torque", ""),
    "thread_turns(torque, torque)": (14, "thread_turns() takes a length as `diameter`; this is a torque", ""),
    "stations(geometry.bore, geometry.bore)": (
        25, "stations() takes a list of lengths as `steps`; this is a length", ""),
    # kinds
    "geometry.bore + shadow": (17, "`+` takes a number or size; `shadow` is a choice", ""),
    "oversizes + geometry.bore": (1, "`+` takes a number or size; `oversizes` is a list of lengths",
                                  "take max(), min() or mean() of it, or next_up()"),
    "ratio + (ratio > 0)": (10, "`+` takes a number or size; `ratio > 0` is a condition",
                            "write `a if condition else b`, or count() how many hold"),
    "not geometry.bore": (5, "`not` takes a condition; `geometry.bore` is a length", "compare it with < <= > >="),
    "cam.shells and ratio > 0": (1, "`and` takes a condition; `cam.shells` is a choice",
                                 "write `cam.shells is fitted`"),
    "ratio > 0 or geometry.bore": (14, "`or` takes a condition; `geometry.bore` is a length",
                                   "compare it with < <= > >="),
    "1 if ratio else 2": (6, "`if` takes a condition; `ratio` is a plain number", "compare it with < <= > >="),
    "geometry.bore is even": (15, "`is` compares words; `geometry.bore` is a length", "compare it with < <= > >="),
    "geometry.bore in (even, uneven)": (15, "`in` compares words; `geometry.bore` is a length",
                                        "compare it with < <= > >="),
    "any(in_travel is yes)": (15, "`in_travel` holds or does not: it has no words", "write `in_travel` alone"),
    "any(in_travel is not yes)": (15, "`in_travel` holds or does not: it has no words", "write `not in_travel` alone"),
    "any(need)": (5, "any() takes a condition; `need` is a length", "compare it with < <= > >="),
    "mean(in_travel)": (6, "mean() takes numbers or sizes; `in_travel` is a condition", "count() how many hold"),
    "max(shadow)": (5, "max() takes numbers or sizes; `shadow` is a choice", "write count(x is …)"),
    # words and names
    "geometry.boer": (1, "nothing here is named `geometry.boer`", "did you mean `geometry.bore`?"),
    "stroke * 2": (1, "nothing here is named `stroke`", "did you mean `geometry.stroke`?"),
    "ratio * zzz": (9, "nothing here is named `zzz`", ""),
    "ratio * max": (9, "`max` is a function", "write max(…)"),
    "ratio * stations": (9, "`stations` is a function", "write stations(…)"),
    "cam.shells is fittd": (15, "`cam.shells` is never `fittd`", "did you mean `fitted`?"),
    "shell_face in (clean, melted)": (23, "`shell_face` is never `melted`",
                                      "it is one of `clean`, `copper` or `torn`"),
    "shell_face is copper or torn": (25, "`torn` is a word, not a condition", "write `shell_face in (copper, torn)`"),
    "maxi(bore)": (1, "no function is named `maxi`", "did you mean `max`?"),
    "thread_turn(ratio)": (1, "no function is named `thread_turn`", "did you mean `thread_turns`?"),
    # arguments
    "max()": (1, "max() takes 1 argument; this gives it 0", "write max(x)"),
    "mean(ratio, ratio)": (1, "mean() takes 1 argument; this gives it 2", "write mean(x)"),
    "only(bore)": (1, "only() takes 2 arguments; this gives it 1", "write only(x, condition)"),
    "next_up(oversizes)": (1, "next_up() takes 2 arguments; this gives it 1", "write next_up(list, x)"),
    "sqrt(area, area)": (1, "sqrt() takes 1 argument; this gives it 2", "write sqrt(x)"),
    "thread_turns(geometry.bore)": (1, "thread_turns() takes 2 arguments; this gives it 1",
                                    "write thread_turns(diameter, torque)"),
    # many
    "max(geometry.bore)": (1, "max() has nothing to run over: there is one `geometry.bore` here",
                           "write `geometry.bore` alone"),
    "geometry.bore[thrust]": (14, "there is only one `geometry.bore` here to pick from", "write `geometry.bore` alone"),
    "max(bore[trust])": (10, "`bore` has no `trust`", "did you mean `thrust`?"),
}  # fmt: skip
# The axis `depth` has no members known beforehand, so bore[trust] could be one of those; here all are known.
ALL_KNOWN = Bench(BENCH.types, axes={**BENCH.axes, "depth": ("3", "12"), "cam_bearing": ("1", "2")}, extra=BENCH.extra)


@pytest.mark.parametrize("source", WRONG)
def test_message(source: str) -> None:
    assert ALL_KNOWN.wrong(source) == [WRONG[source]]


def test_axes_left_over_are_told_at_the_name() -> None:
    assert BENCH.wrong("geometry.bore - bore", "cylinder") == [
        (17, "`bore` has one for each depth and axis", "take max(), mean() …, or pick one: `bore[thrust]`")
    ]
    assert BENCH.wrong("bore[thrust] - need", "depth") == [
        (1, "`bore` has one for each cylinder", "take max(), mean() …, or pick one: `bore[A1]`")
    ]
    assert BENCH.wrong("in_travel", "cylinder") == [(1, "`in_travel` has one for each depth", "take any() or all()")]
    assert BENCH.wrong("shadow is even") == [
        (1, "`shadow` has one for each cylinder", "take any() or all() of a condition, or pick one: `shadow[A1]`")
    ]
    assert BENCH.wrong("need + hole_clock[x] * 0 + bore[thrust]", "cylinder") == [  # the cause, not its echo
        (22, "multiplies a clock and a plain number", "only a difference of two can be scaled")
    ]


def test_what_the_entry_has_itself_is_not_run_over() -> None:
    assert BENCH.type("max(bore)", "cylinder").axes == ("cylinder",)
    assert BENCH.wrong("max(need)", "cylinder") == [
        (1, "max() has nothing to run over: there is one `need` here", "write `need` alone")
    ]


def test_the_expected_kind_and_dimension() -> None:
    assert BENCH.wrong("geometry.bore + geometry.bore", expected=TRUTH) == [
        (1, "this must be a condition; it is a length", "")
    ]
    assert BENCH.wrong("cam.shells is fitted", expected=number(d.LENGTH)) == [
        (1, "this must be a length; it is a condition", "")
    ]
    assert BENCH.wrong("torque", expected=number(d.LENGTH)) == [(1, "this must be a length; it is a torque", "")]
    assert BENCH.infer("oversizes", (), Type("list", d.LENGTH))[0] == Type("list", d.LENGTH)
    assert BENCH.infer("0", (), number(d.LENGTH))[0] is not None


def test_several_problems_are_told_at_once_and_none_twice() -> None:
    assert BENCH.wrong("geometry.bor + torque * zzz > shadow") == [
        (1, "nothing here is named `geometry.bor`", "did you mean `geometry.bore`?"),
        (25, "nothing here is named `zzz`", ""),
        (31, "`>` takes a number or size; `shadow` is a choice", ""),
    ]


def test_a_name_whose_own_formula_is_wrong_is_no_second_problem() -> None:
    class Broken(Bench):
        def type_of(self, name: str) -> Type | None:
            return None if name == "need" else super().type_of(name)

    found, problems = Broken(BENCH.types).infer("need + geometry.bore")
    assert found is None
    assert problems == ()
