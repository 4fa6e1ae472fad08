"""Whoever writes a formula finds each function with an example that holds."""

import re

from procgen.check.functions import told
from procgen.trade.registry import FUNCTIONS

TOLD = {call.partition("(")[0]: (call, says, rule, example) for call, says, rule, example in told()}


def test_every_function_is_there_with_its_rule_and_an_example() -> None:
    assert TOLD.keys() == FUNCTIONS.keys()
    for name, (call, says, rule, example) in TOLD.items():
        assert call.count(",") + 1 == len(FUNCTIONS[name].takes)
        assert says
        assert rule
        figures, _, comes_to = example.partition(" → ")
        assert len(figures.split("; ")) == len(FUNCTIONS[name].takes), name
        assert re.match(r"−?\d", comes_to), name


def test_examples_are_what_they_come_to_by_hand() -> None:
    """π · 98.40² / 4 · 84.20 mm³; π · 98.40 mm · 80 /min; 2 · 9.80665 · 78 / (2 sin 60°) would be another angle:
    78 kg on two legs at 45° is 9.80665 · 78 / (2 sin 45°) = 540.9 N in each; 78 · 9.80665 · 0.26 = 198.9 N·m.
    """
    come_to = {name: example.partition(" → ")[2] for name, (_, _, _, example) in TOLD.items()}
    assert come_to["swept_volume"].startswith("640313")
    assert come_to["rim_speed"] == "24.73 m/min"
    assert come_to["leg_tension"] == "540.9 N"
    assert come_to["stand_moment"] == "198.9 N·m"
    assert come_to["hatch_supplement"] == "135.0°"
