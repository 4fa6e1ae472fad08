"""What paper says of a card is told at the line of YAML that says it."""

from pathlib import Path

import pytest

from procgen.files.problems import Place, error
from procgen.load.workshop import load_workshop
from procgen.make.located import located
from procgen.model.workshop import Workshop

SMALL = Path(__file__).parent.parent / "check" / "workshop"
LINES = (SMALL / "procedures/deck/wear.yaml").read_text().splitlines()


@pytest.fixture(scope="module")
def workshop() -> Workshop:
    loaded = load_workshop(SMALL, Path.read_bytes)
    assert loaded.workshop is not None
    return loaded.workshop


def test_a_step(workshop: Workshop) -> None:
    found = located(error("tall", "step 2 is tall", Place("teal/wear#decide")), workshop)
    assert found.place.path == "procedures/deck/wear.yaml"
    assert "id: decide" in LINES[found.place.line - 1]
    assert found.message == "Teal: step 2 is tall"


@pytest.mark.parametrize("address", ["teal/wear", "teal/wear#hold"])
def test_a_card(workshop: Workshop, address: str) -> None:
    found = located(error("tall", "the reason is tall", Place(address)), workshop)
    assert found.place == workshop.procedures["wear"].place


@pytest.mark.parametrize("path", ["shared/stocks.yaml", "deck", "jobs/samphire", "teal/nothing"])
def test_anything_else_stays(workshop: Workshop, path: str) -> None:
    problem = error("no-sheet", "does not fit", Place(path, 3, 1))
    assert located(problem, workshop) == problem
