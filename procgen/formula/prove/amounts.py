"""A numeric expression as linear forms, each with the condition under which it is the one that counts."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import field
from fractions import Fraction

from procgen.formula.pretty import formula_text
from procgen.formula.prove.conditions import MIRRORED, OPPOSITE, Condition, Level, Nothing, compared, every, some, word
from procgen.formula.prove.ground import Ground
from procgen.formula.prove.linear import ONE, Linear, constant, exact, symbol
from procgen.formula.types import REDUCING
from procgen.formula.walk import children, names
from procgen.model.formula import Arithmetic, Call, Choose, Expr, Name, Negate, Whole
from procgen.values import dataclass

Pieces = tuple[tuple[Condition, Linear], ...]
MOST_PIECES = 16


@dataclass(frozen=True, slots=True)
class Symbol:
    """What a form is made of: a reading, an unknown, or an expression that is not linear, by its name or text."""

    name: str
    low: Fraction | None = None
    high: Fraction | None = None
    whole: bool = False
    spread: bool = False
    waits: frozenset[str] = Nothing
    aggregate: tuple[str, str] | None = None  # ("max", "cam_bore")


@dataclass
class Amounts:
    """Reads numeric expressions. No pieces: it does not apply. Between them, pieces cover all that it does apply to."""

    ground: Ground
    truth: Callable[[Expr, bool], Condition]
    symbols: dict[str, Symbol] = field(default_factory=dict)
    named: dict[str, Pieces] = field(default_factory=dict)
    within: list[str] = field(default_factory=list)  # names whose definitions are being read, against circles

    def pieces(self, tree: Expr, name: str = "") -> Pieces:
        """`name` is what the whole expression is called, should it turn out not to be linear."""
        linear = self.linear(tree)
        return self.opaque(tree, name) if linear is None else linear

    def linear(self, tree: Expr) -> Pieces | None:
        match tree:
            case Whole(value):
                return ((True, constant(Fraction(value))),)
            case Name():
                return self.of_name(tree.name)
            case Negate(of):
                return tuple((when, form.times(-ONE)) for when, form in self.pieces(of))
            case Arithmetic(operator, left, right):
                return combined(operator, self.pieces(left), self.pieces(right))
            case Choose(condition, then, otherwise):
                chosen = ((self.truth(condition, True), then), (self.truth(condition, False), otherwise))
                parts = [(met, self.pieces(branch)) for met, branch in chosen if met is not False]
                return few((every((met, when)), form) for met, pieces in parts for when, form in pieces)
            case Call("abs", (of,)):
                inner = self.pieces(of)
                return further(inner, tuple((w, f.times(-ONE)) for w, f in inner), ">=")
            case Call("max" | "min", (_, _, *_)):
                applying = [pieces for pieces in map(self.pieces, tree.arguments) if pieces]
                best: Pieces | None = applying[0] if applying else ()
                for other in applying[1:]:
                    best = best and further(best, other, ">=" if tree.function == "max" else "<=")
                return best
        return None

    def of_name(self, name: str) -> Pieces:
        if name not in self.named:
            if name in self.within:
                return ((True, self.symbol(Symbol(name))),)
            self.within.append(name)
            try:
                self.named[name] = self.found(name)
            finally:
                self.within.pop()
        return self.named[name]

    def found(self, name: str) -> Pieces:
        applies = self.applies(name)
        known = self.ground.constant(name)
        definition = self.ground.definition(name)
        if applies is False:
            return ()
        if isinstance(known, (int, float)):
            pieces: Pieces = ((True, constant(exact(float(known)))),)
        elif definition is not None:
            pieces = self.pieces(definition, name)
        else:
            low, high = self.bounds(name)
            waits = self.waits(Name(name, 0))
            one = Symbol(name, low, high, self.ground.whole(name), self.ground.spread(name), waits)
            pieces = ((True, self.symbol(one)),)
        return tuple((every((applies, when)), form) for when, form in pieces)

    def applies(self, name: str) -> Condition:
        when = self.ground.when(name)
        if not self.ground.applies(name):
            return False
        return True if when is None else self.truth(when, True)

    def opaque(self, tree: Expr, name: str = "") -> Pieces:
        """What is not linear: an axis of its own, of which only what it waits for and plain bounds are known."""
        used = names(tree)
        settled = isinstance(tree, Call) and all(self.ground.constant(n) is not None for n in used)
        if isinstance(tree, Call) and settled:
            known = self.ground.call(tree)
            if isinstance(known, (int, float)):
                return ((True, constant(exact(float(known)))),)
        there = self.there(tree)
        if there is False:
            return ()
        text = name or formula_text(tree)
        low, high = self.bounds(name) if name else (None, None)
        whole = bool(name) and self.ground.whole(name)
        aggregate = None
        if isinstance(tree, Call) and _runs_over(tree):
            aggregate = (tree.function, formula_text(tree.arguments[0]))
            if tree.function in ("count", "span"):
                low = low or Fraction(0)
            whole = whole or tree.function == "count"
        waits = frozenset({text}) if settled else self.waits(tree)
        spread = self.ground.spread(name) if name else any(map(self.ground.spread, used))
        return ((there, self.symbol(Symbol(text, low, high, whole, spread, waits, aggregate))),)

    def there(self, tree: Expr) -> Condition:
        """The condition under which an expression that is not linear has a value at all."""
        if isinstance(tree, Name):
            return some(when for when, _ in self.of_name(tree.name))
        parts = every(map(self.there, children(tree)))
        if isinstance(tree, Call) and _runs_over(tree):
            if tree.function in ("count", "any", "all"):
                return True
            return parts if isinstance(parts, bool) else self.question(tree)
        if isinstance(tree, Call) and tree.function == "next_up" and len(tree.arguments) == 2:
            steps, least = tree.arguments
            offered = self.ground.constant(steps.name) if isinstance(steps, Name) else None
            if not isinstance(offered, tuple) or not offered:
                return every((parts, self.question(tree)))
            largest = constant(exact(max(offered)))
            fits = some(every((w, level(form.plus(largest, -ONE), "<="))) for w, form in self.pieces(least))
            return every((parts, fits))
        return parts

    def question(self, tree: Expr) -> Condition:
        """Whether there is any such thing, where nothing more can be said."""
        spread = any(map(self.ground.spread, names(tree)))
        return word(formula_text(tree), ("there is one", "there is none"), 1, spread, self.waits(tree))

    def over_all(self, function: str, one: Symbol) -> Linear:
        """max or min of a symbol over all there are of it."""
        name = f"{function}({one.name})"
        return self.symbol(Symbol(name, one.low, one.high, one.whole, False, one.waits, (function, one.name)))

    def symbol(self, new: Symbol) -> Linear:
        self.symbols.setdefault(new.name, new)
        return symbol(new.name)

    def bounds(self, name: str) -> tuple[Fraction | None, Fraction | None]:
        low, high = self.ground.bounds(name)
        return None if low is None else exact(low), None if high is None else exact(high)

    def waits(self, tree: Expr) -> frozenset[str]:
        """The unknowns of the family that an expression hangs on, through the definitions of its names."""
        found: set[str] = set()
        seen: set[str] = set()
        ahead = list(names(tree))
        while ahead:
            name = ahead.pop()
            if name in seen or self.ground.constant(name) is not None:
                continue
            seen.add(name)
            definition = self.ground.definition(name)
            if definition is not None:
                ahead += names(definition)
            elif self.ground.unknown(name):
                found.add(name)
        return frozenset(found)


def _runs_over(call: Call) -> bool:
    return len(call.arguments) == 1 and call.function in REDUCING


def combined(operator: str, left: Pieces, right: Pieces) -> Pieces | None:
    """Sum, difference, product or quotient where it is linear; None where it is not."""
    result: list[tuple[Condition, Linear]] = []
    for when_left, a in left:
        for when_right, b in right:
            if operator in "+-":
                form = a.plus(b, ONE if operator == "+" else -ONE)
            elif operator == "*" and not (a.terms and b.terms):
                form = a.times(b.constant) if not b.terms else b.times(a.constant)
            elif operator == "/" and not b.terms and b.constant:
                form = a.times(1 / b.constant)
            else:
                return None
            result.append((every((when_left, when_right)), form))
    return few(result)


def further(left: Pieces, right: Pieces, operator: str) -> Pieces | None:
    """The larger (>=) or smaller (<=) of two."""
    result: list[tuple[Condition, Linear]] = []
    for when_left, a in left:
        for when_right, b in right:
            both = every((when_left, when_right))
            difference = a.plus(b, -ONE)
            result.append((every((both, level(difference, operator))), a))
            result.append((every((both, level(difference, OPPOSITE[operator]))), b))
    return few(result)


def few(pieces: Iterable[tuple[Condition, Linear]]) -> Pieces | None:
    """Those that can be; None where they are too many to be worth telling apart."""
    kept = tuple(piece for piece in pieces if piece[0] is not False)
    return kept if len(kept) <= MOST_PIECES else None


def level(form: Linear, operator: str) -> Condition:
    """form <operator> 0, with the first symbol's factor made 1, so that equal forms share an axis."""
    if not form.terms:
        return compared(form.constant, operator, Fraction(0))
    share = form.terms[0][1]
    scaled = form.times(1 / share)
    return Level(scaled.terms, operator if share > 0 else MIRRORED[operator], -scaled.constant)
