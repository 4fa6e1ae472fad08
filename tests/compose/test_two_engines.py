"""Two engines' cards set side by side."""

from pathlib import Path

from procgen.compose import benches
from procgen.compose.compare import differences, engines
from procgen.load.workshop import load_workshop

SMALL = Path(__file__).parent.parent / "check" / "workshop"


def test_only_what_differs_is_told() -> None:
    workshop = load_workshop(SMALL, Path.read_bytes).workshop
    assert workshop is not None
    known = engines({id: benches(workshop, family) for id, family in workshop.families.items()})
    assert list(differences("wear", known["teal"], known["teal"])) == []
    told = [line for line in differences("wear", known["teal"], known["smew"]) if line[:1] in "+-" and line]
    assert told[:2] == ["- Teal, inline two, iron block", "+ Smew, inline three, iron block"]
    assert "- each cylinder: 1, 2" in told  # the cylinders to measure
    assert "+ each cylinder: 1, 2, 3" in told
