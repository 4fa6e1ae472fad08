"""Two engines' cards set side by side."""

from pathlib import Path

from procgen.compose import benches
from procgen.compose.compare import engines, text_of
from procgen.load.workshop import load_workshop

ROOT = Path(__file__).parent.parent.parent


def test_a_family_a_variant_and_what_each_says() -> None:
    workshop = load_workshop(ROOT, Path.read_bytes).workshop
    assert workshop is not None
    known = engines({id: benches(workshop, family) for id, family in workshop.families.items()})
    assert {"bittern", "bittern-51", "bittern-55"} <= known.keys()
    both, short, long = (text_of("travel", known[id]) for id in ("bittern", "bittern-51", "bittern-55"))
    assert both.split("\n")[0] == short.split("\n")[0] == long.split("\n")[0] == "Bittern, V8, iron block"
    assert len({both, short, long}) == 3
