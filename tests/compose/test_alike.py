"""What is worked out once for all that agree in it is what it would be if each were worked out by itself."""

from collections.abc import Iterator, Mapping
from itertools import product
from pathlib import Path

import pytest

from procgen.compose import Bench, CardScope, Proofs, benches
from procgen.compose.alike import Alike
from procgen.compose.card import formulas_of
from procgen.compose.common import Common
from procgen.compose.grounds import DecisionGround
from procgen.compose.proofs import grounds_of
from procgen.formula import NONE, Cell, Spread, evaluate, known, names, reading, refused, single, unknown, wanting
from procgen.formula.fold import simplified
from procgen.formula.prove import Case, prove
from procgen.model.formula import Expr
from procgen.model.workshop import Workshop
from tests import demo
from tests.compose.small_shed import card_file, made, shed, shop, teal


@pytest.fixture(scope="module")
def workshop() -> Workshop:
    return demo.workshop()


@pytest.fixture(scope="module")
def all_benches(workshop: Workshop) -> list[Bench]:
    """Of every family and variant, with all in common that can be."""
    common = Common(workshop)
    return [bench for family in workshop.families.values() for bench in benches(workshop, family, common).values()]


@pytest.mark.parametrize(
    ("a", "b"),
    [
        (known(1.0), known(True)),
        (known(0.0), known(-0.0)),
        (known(0.0), known(False)),
        (known("1.0"), known(1.0)),
        (known((0.0, 1.0)), known((-0.0, 1.0))),
        (unknown("bore"), unknown("stroke")),
        (unknown("bore"), wanting("bore")),
        (unknown(), NONE),
        (refused("divides by nothing", 3), refused("divides by nothing", 4)),
        (known(1.0), reading(1.0, "bore")),
        (reading(1.0, "bore"), reading(1.0, "shadow")),
    ],
)
def test_what_differs_at_all_stays_apart(a: Cell, b: Cell) -> None:
    alike = Alike()
    assert alike.one(single(a)) is not alike.one(single(b))
    assert alike.one(single(a)) is alike.one(single(a))


def test_the_order_of_cells_counts() -> None:
    """An aggregate takes them in their order, and of two that are as large the first."""
    alike, there, back = Alike(), {("1",): NONE, ("2",): known(1.0)}, {("2",): known(1.0), ("1",): NONE}
    assert alike.one(Spread(("cylinder",), there)) is not alike.one(Spread(("cylinder",), back))


def test_every_formula_of_every_family(all_benches: list[Bench]) -> None:
    count = 0
    for bench in all_benches:
        for scope in map(bench.card, bench.procedures):
            for formula in formulas_of(scope.procedure):
                for bound in _bounds(formula.tree, scope):
                    count += 1
                    assert scope.cell(formula, bound) == evaluate(formula.tree, scope, bound).one
                    assert scope.left(formula.tree, bound) == simplified(formula.tree, scope, bound)
    assert count > 10_000


def _bounds(tree: Expr, scope: CardScope) -> Iterator[Mapping[str, str]]:
    """Each first and last member of each of the formula's axes that an entry can have, and none at all."""
    axes = list(dict.fromkeys(axis for name in names(tree) for axis in scope.whole(name).axes if axis != "axis"))
    yield {}
    for some in product(*({scope.members(axis)[0], scope.members(axis)[-1]} for axis in axes)):
        yield dict(zip(axes, some, strict=True))


def test_each_family_by_itself_comes_to_the_same(workshop: Workshop, all_benches: list[Bench]) -> None:
    for bench in all_benches:
        alone = Bench(workshop, bench.family, bench.variant)
        for card, procedure in bench.procedures.items():
            for name in procedure.values:
                assert bench.card(card).whole(name) == alone.card(card).whole(name)


class Asking:
    """A ground that notes which names it was asked about."""

    def __init__(self, ground: DecisionGround, asked: set[str]) -> None:
        self._ground, self._asked = ground, asked

    def __getattr__(self, question: str):  # type: ignore[no-untyped-def]
        def ask(about):  # type: ignore[no-untyped-def]
            self._asked.update((about,) if isinstance(about, str) else names(about))
            return getattr(self._ground, question)(about)

        return ask


def test_a_proof_asks_only_what_it_is_known_by(all_benches: list[Bench]) -> None:
    for bench in all_benches:
        proofs = Proofs(bench)
        for card, procedure in bench.procedures.items():
            scope = bench.card(card)
            for decision in procedure.decisions.values():
                asked: set[str] = set()
                cases = [Case(branch.id, branch.when and branch.when.tree) for branch in decision.branches]
                never = [formula.tree for formula, _ in decision.impossible]
                ground = Asking(DecisionGround(scope, next(scope.indices(decision.each)), proofs.outcomes), asked)
                prove(cases, ground, never)
                assert asked <= set(grounds_of(scope, decision))


def test_what_a_reading_waits_on_is_proved_apart(tmp_path: Path) -> None:
    """Of the second bearing wear is read only where the play is more than the branch allows."""
    cam = """
        cam:
          bearings:
            every: {journal: 50.0, bore_installed: 50.05}
            1: {x: 40.0}
            2: {x: 90.0, bore_installed: 50.10}
        """
    parts = """
        readings:
          play: {title: Play, each: cam_bearing, measure: length, with: bore_gauge}
          wear:
            title: Wear
            each: cam_bearing
            measure: length
            with: bore_gauge
            when: play > cam_bearing.bore_installed - cam_bearing.journal
        decisions:
          fit:
            title: Fit?
            each: cam_bearing
            branches:
              - {id: worn, when: "wear > 0 and play < shop.wear_max", then: Worn.}
            otherwise: {id: good, then: Good.}
        steps:
          - {id: x, do: Look., read: [play, wear], decide: [fit]}
        """
    workshop = shed(tmp_path, {**teal(cam), **card_file("look", parts), **shop("look, wear")})
    bench = made(workshop)[""]
    scope = bench.card("look")
    found = Proofs(bench).of(scope, scope.procedure.decisions["fit"])
    assert [sorted(one.proof.taken) for one in found] == [["good", "worn"], ["good"]]
