"""A formula's truth as a condition over choices and linear forms, for one family, variant and member."""

from __future__ import annotations

from procgen.formula.pretty import formula_text
from procgen.formula.prove.amounts import Amounts, Pieces, level
from procgen.formula.prove.conditions import (
    OPPOSITE,
    Condition,
    Every,
    Level,
    Some,
    Word,
    any_present,
    atoms,
    every,
    negated,
    some,
    spelled,
    word,
)
from procgen.formula.prove.ground import Ground, Remembered
from procgen.formula.prove.linear import ONE, Form, Linear, symbol
from procgen.formula.walk import children, names
from procgen.model.formula import Among, Arithmetic, Call, Choose, Compare, Expr, Logic, Name, Negate, Not, Pick

HOLDS = ("holds", "does not hold")
MOST_OUTCOMES = 10


class Reduction:
    """Reads formulas, and keeps what it met: the symbols of the forms, and the author's names along each form."""

    def __init__(self, ground: Ground) -> None:
        self.ground: Ground = Remembered(ground)
        self.amounts = Amounts(self.ground, self.truth)
        self.labels: dict[Form, dict[str, Pieces]] = {}
        self.within: list[str] = []

    def truth(self, tree: Expr, holds: bool = True) -> Condition:
        """The condition under which `tree` is true, or false where `holds` is False."""
        match tree:
            case Logic(operator, terms):
                join = every if (operator == "and") is holds else some
                return join([self.truth(term, holds) for term in terms])
            case Not(of):
                return self.truth(of, not holds)
            case Compare():
                return self.comparison(tree, holds)
            case Among():
                return self.among(tree, holds)
            case Choose(condition, then, otherwise):
                return some((every((self.truth(condition), self.truth(then, holds))),
                             every((self.truth(condition, False), self.truth(otherwise, holds)))))  # fmt: skip
            case Call("any" | "all", (of,)):
                return self.over_many(of, tree.function == "any", holds)
            case Name(name) if name not in self.within and (definition := self.ground.definition(name)) is not None:
                self.within.append(name)
                try:
                    return every((self.amounts.applies(name), self.truth(definition, holds)))
                finally:
                    self.within.pop()
            case _:
                return self.opaque(tree, holds)

    def comparison(self, tree: Compare, holds: bool) -> Condition:
        operator = tree.operator if holds else OPPOSITE[tree.operator]
        left, right = self.amounts.pieces(tree.left), self.amounts.pieces(tree.right)
        labels = self.mentioned(tree.left) | self.mentioned(tree.right)
        parts = []
        for when_left, a in left:
            for when_right, b in right:
                met = level(a.plus(b, -ONE), operator)
                parts.append(every((when_left, when_right, met)))
                for guard in (when_left, when_right):
                    self.label(guard, labels)
                if isinstance(met, Level):  # told by all of its names: what cancels out in it may still be read
                    self.labels.setdefault(met.form, {}).update(labels)
        return some(parts)

    def label(self, condition: Condition, labels: dict[str, Pieces]) -> None:
        """Keep by which of the author's names a condition's forms are to be told; a symbol without one, by its own."""
        made_of = {label: {name for _, form in pieces for name, _ in form.terms} for label, pieces in labels.items()}
        for atom in atoms(condition):
            if isinstance(atom, Level):
                here = {name for name, _ in atom.form}
                told = self.labels.setdefault(atom.form, {})
                told.update((label, labels[label]) for label, symbols in made_of.items() if symbols & here)
                for name in sorted(here.difference(*made_of.values())):
                    told[name] = ((True, symbol(name)),)

    def mentioned(self, tree: Expr) -> dict[str, Pieces]:
        """The names, and the expressions that are not linear, that a comparison sets against each other."""
        linear = isinstance(tree, (Negate, Arithmetic, Choose)) or (
            isinstance(tree, Call) and (tree.function == "abs" or len(tree.arguments) > 1)
        )
        pieces = self.amounts.pieces(tree)
        if linear and formula_text(tree) not in self.amounts.symbols:
            parts = children(tree)
            if isinstance(tree, Choose):
                parts = (tree.then, tree.otherwise)
            return {label: part for child in parts for label, part in self.mentioned(child).items()}
        return {formula_text(tree): pieces} if any(form.terms for _, form in pieces) else {}

    def among(self, tree: Among, holds: bool) -> Condition:
        wanted = holds is not tree.negated
        of = tree.of
        base = of
        while isinstance(base, Pick):
            base = base.of
        if not isinstance(base, Name):
            return self.opaque(tree, holds)
        applies = self.amounts.applies(base.name)
        known = self.ground.constant(base.name)
        if isinstance(known, str):
            return every((applies, (known in tree.words) is wanted))
        options = self.ground.options(base.name)
        if options is None:  # nothing is known of what it can be: each word is a question of its own
            parts = [self.opaque(Among(of, (w,), (0,), False, tree.at), wanted) for w in tree.words]
            return every((applies, some(parts) if wanted else every(parts)))
        mask = sum(1 << n for n, option in enumerate(options) if (option in tree.words) is wanted)
        waits = self.amounts.waits(base)
        return every((applies, word(formula_text(of), options, mask, self.ground.spread(base.name), waits)))

    def opaque(self, tree: Expr, holds: bool) -> Condition:
        """A truth of which nothing more is known."""
        spread = any(map(self.ground.spread, names(tree)))
        truth = word(formula_text(tree), HOLDS, 1 if holds else 2, spread, self.amounts.waits(tree))
        return every((self.amounts.there(tree), truth))

    def over_many(self, of: Expr, either: bool, holds: bool) -> Condition:
        """any (`either`) or all; those that do not apply are left out, and it does not apply where none is left."""
        deciding, other = self.truth(of, either), self.truth(of, not either)
        met = self.any_of(deciding)
        if either is holds:
            return met
        return negated(met) if negated(deciding) == other else every((negated(met), self.any_of(other)))

    def any_of(self, condition: Condition) -> Condition:
        """That `condition` holds for at least one of those that the decision has not got one each of."""
        if not any(map(self.is_spread, atoms(condition))):
            return condition
        if isinstance(condition, Some):
            return some(map(self.any_of, condition.parts))
        if isinstance(condition, Every):
            choice = _one_choice(condition)
            if choice is not None:
                return self.any_of(choice)
            shared = [part for part in condition.parts if not any(map(self.is_spread, atoms(part)))]
            if shared:
                own = [part for part in condition.parts if part not in shared]
                return every((*shared, self.any_of(every(own))))
        if isinstance(condition, Word) and len(condition.options) <= MOST_OUTCOMES:
            return any_present(condition)
        if isinstance(condition, Level):
            spread = [one for name, _ in condition.form if (one := self.amounts.symbols[name]).spread]
            if len(spread) == 1:
                share = dict(condition.form)[spread[0].name]
                largest = (condition.operator in (">", ">=")) is (share > 0)
                over = self.amounts.over_all("max" if largest else "min", spread[0])
                met = level(Linear(condition.form, -condition.at).replaced({spread[0].name: over}), condition.operator)
                self.label(met, {})
                return met
        return self.any_opaque(condition)

    def any_opaque(self, condition: Condition) -> Condition:
        """The condition as a truth of its own, that may hold for some and not for others."""
        text, other = spelled(condition), spelled(negated(condition))
        waits = frozenset[str]().union(*(self.waits(atom) for atom in atoms(condition)))
        truth = Word(min(text, other), HOLDS, 1 if text < other else 2, True, waits)
        return any_present(truth)

    def is_spread(self, atom: Word | Level) -> bool:
        if isinstance(atom, Word):
            return atom.spread
        return any(self.amounts.symbols[name].spread for name, _ in atom.form)

    def waits(self, atom: Word | Level) -> frozenset[str]:
        if isinstance(atom, Word):
            return atom.waits
        return frozenset[str]().union(*(self.amounts.symbols[name].waits for name, _ in atom.form))


def _one_choice(condition: Every) -> Condition | None:
    """The one word test that says the same, where all of it is about one choice."""
    found = tuple(atoms(condition))
    first = found[0]
    if not isinstance(first, Word) or any(not isinstance(a, Word) or a.key != first.key for a in found):
        return None
    return word(first.key, first.options, _mask(condition), first.spread, first.waits)


def _mask(condition: Condition) -> int:
    match condition:
        case Word(mask=mask):
            return mask
        case Every(parts):
            result = -1
            for part in parts:
                result &= _mask(part)
            return result
        case Some(parts):
            result = 0
            for part in parts:
                result |= _mask(part)
            return result
        case _:
            raise AssertionError(condition)
