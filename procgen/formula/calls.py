"""The types of calls: the built-in functions, and those that a vocabulary brings."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Sequence

from procgen.files.problems import Problem, error
from procgen.formula.found import Found, Wrong, brief
from procgen.formula.types import BUILT_IN, REDUCING, TRUTH, Kind, Type, Vocabulary, in_words, mend, number
from procgen.formula.walk import start
from procgen.model.formula import Call, Expr, Formula, Function, Whole
from procgen.units.dimension import CLOCK, LEVEL, NUMBER, Dimension
from procgen.units.lists import listed

_KINDS: dict[Kind, str] = {"number": "a number or size", "choice": "a choice", "truth": "a condition", "list": "a list"}
_MENDS: dict[tuple[Kind, Kind], str] = {
    ("number", "list"): "take max(), min() or mean() of it, or next_up()",
    ("number", "truth"): "write `a if condition else b`, or count() how many hold",
    ("truth", "number"): "compare it with < <= > >=",
}


class Calls(ABC):
    """The part of typing that looks at calls; the rest of the tree is in `infer`."""

    def __init__(self, formula: Formula, vocabulary: Vocabulary, each: tuple[str, ...]) -> None:
        self.text = formula.text
        self.vocabulary = vocabulary
        self.each = each
        self.problems: list[Problem] = []

    @abstractmethod
    def of(self, tree: Expr) -> Found | None:
        """What `tree` is, or None where that is wrong; then it is told already."""

    def wanted(self, tree: Expr, kind: Kind, by: str) -> Found | None:
        """What `tree` is, told and None where it is not of the kind that `by` takes."""
        found = self.of(tree)
        if found is None or found.type.kind == kind:
            return found
        hint = _MENDS.get((kind, found.type.kind), "")
        if kind == "truth" and found.type.kind == "choice":
            hint = f"write `{brief(tree).strip('`')} is {next(iter(found.type.options), 'word')}`"
        message = f"{by} takes {_KINDS[kind]}; {brief(tree)} is {in_words(found.type)}"
        self.problems.append(error("formula-kind", message, self.text.at(start(tree)), hint))
        return None

    def agreed(self, parts: Sequence[tuple[Expr, Found]]) -> Dimension | None:
        """The one dimension of all `parts`, or None. A plain 0 is nothing of any size, though no point on a scale."""
        dimensions = {found.type.dimension for tree, found in parts if not is_zero(tree)}
        if len(dimensions) != 1:
            return None if dimensions else NUMBER
        dimension = dimensions.pop()
        return None if dimension.point and any(is_zero(tree) for tree, _ in parts) else dimension

    def call(self, tree: Call) -> Found | None:
        function = self.vocabulary.functions().get(tree.function)
        if function is not None:
            return self.registered(tree, function)
        if tree.function not in BUILT_IN:
            for argument in tree.arguments:
                self.of(argument)
            known = [*BUILT_IN, *self.vocabulary.functions()]
            hint = mend(tree.function, known) or "the functions are listed in the guide"
            raise Wrong("unknown-function", f"no function is named `{tree.function}`", tree.at, hint)
        if tree.function in ("max", "min") and len(tree.arguments) > 1:
            return self.largest_of(tree)
        self.counted(
            tree, ("x", "condition") if tree.function == "only" else ("list", "x")[tree.function != "next_up" :]
        )
        if tree.function in REDUCING:
            return self.reduced(tree)
        return {"only": self.only, "abs": self.absolute, "sqrt": self.root, "next_up": self.next_up}[tree.function](
            tree
        )

    def counted(self, tree: Call, takes: Sequence[str]) -> None:
        if len(tree.arguments) != len(takes):
            message = f"{tree.function}() takes {_count(len(takes))}; this gives it {len(tree.arguments)}"
            raise Wrong("formula-arguments", message, tree.at, f"write {tree.function}({', '.join(takes)})")

    def largest_of(self, tree: Call) -> Found | None:
        parts = [(part, self.wanted(part, "number", f"{tree.function}()")) for part in tree.arguments]
        sound = [(part, found) for part, found in parts if found is not None]
        if len(sound) < len(parts):
            return None
        dimension = self.agreed(sound)
        if dimension is None:
            names = listed(list(dict.fromkeys(in_words(found.type) for _, found in sound)))
            raise Wrong("formula-dimension", f"{tree.function}() of {names}", tree.at)
        self.can_order(tree, dimension)
        return Found.over(number(dimension), *(found for _, found in sound))

    def can_order(self, tree: Call, dimension: Dimension) -> None:
        if dimension == CLOCK:
            message = f"{tree.function}() of clock positions, which go round: none is the largest"
            raise Wrong("formula-dimension", message, tree.at)

    def reduced(self, tree: Call) -> Found | None:
        name, argument = tree.function, tree.arguments[0]
        if name in ("any", "all"):
            found = self.wanted(argument, "truth", f"{name}()")
        elif name == "count":
            found = self.of(argument)
        else:
            found = self.of(argument)
            if found is not None and found.type.kind != "list":
                found = self.wanted_again(argument, found, name)
        if found is None:
            return Found(TRUTH) if name in ("any", "all") else None
        over = [axis for axis in found.type.axes if axis not in self.each]
        if not over and found.type.kind != "list":
            raise Wrong("formula-axes", f"{name}() has nothing to run over: there is one {brief(argument)} here",
                          tree.at, f"write {brief(argument)} alone")  # fmt: skip
        rest, dimension = found.without(*over), found.type.dimension
        if name in ("any", "all"):
            return rest
        if name == "count":
            return Found.over(number(NUMBER), rest)
        self.can_order(tree, dimension)
        if name == "sum" and (dimension.point or dimension == LEVEL):
            raise Wrong("formula-dimension", f"sum() adds up {in_words(found.type)[2:].strip()}s", tree.at,
                          "take mean() or max()")  # fmt: skip
        return Found.over(number(dimension.difference if name == "span" else dimension), rest)

    def wanted_again(self, tree: Expr, found: Found, function: str) -> Found | None:
        if found.type.kind == "number":
            return found
        hint = "count() how many hold" if found.type.kind == "truth" else "write count(x is …)"
        message = f"{function}() takes numbers or sizes; {brief(tree)} is {in_words(found.type)}"
        self.problems.append(error("formula-kind", message, self.text.at(start(tree)), hint))
        return None

    def only(self, tree: Call) -> Found | None:
        found, condition = self.of(tree.arguments[0]), self.wanted(tree.arguments[1], "truth", "only()")
        return None if found is None else Found.over(found.type, found, *([condition] if condition else []))

    def absolute(self, tree: Call) -> Found | None:
        found = self.wanted(tree.arguments[0], "number", "abs()")
        if found is not None and found.type.dimension.point:
            message = f"abs() of {in_words(found.type)}, which has no sign"
            raise Wrong("formula-dimension", message, tree.at, "take a difference of two first")
        return found

    def root(self, tree: Call) -> Found | None:
        found = self.wanted(tree.arguments[0], "number", "sqrt()")
        if found is None:
            return None
        dimension = found.type.dimension
        if dimension.point or any(power % 2 for power in dimension.powers):
            message = f"sqrt() of {in_words(found.type)}, which is the square of nothing"
            raise Wrong("formula-dimension", message, tree.at)
        half = Dimension(tuple(power // 2 for power in dimension.powers))
        return Found.over(number(half), found)

    def next_up(self, tree: Call) -> Found | None:
        steps = self.wanted(tree.arguments[0], "list", "next_up()")
        found = self.wanted(tree.arguments[1], "number", "next_up()")
        if steps is None or found is None:
            return None
        if steps.type.dimension != found.type.dimension:
            message = f"looks for {in_words(found.type)} in {in_words(steps.type)}"
            raise Wrong("formula-dimension", message, tree.at)
        self.can_order(tree, steps.type.dimension)
        return Found.over(number(found.type.dimension), steps, found)

    def registered(self, tree: Call, function: Function) -> Found | None:
        parts = [self.of(argument) for argument in tree.arguments]
        self.counted(tree, [parameter.name for parameter in function.takes])
        for argument, found, parameter in zip(tree.arguments, parts, function.takes, strict=True):
            if found is None:
                continue
            want = Type("list" if parameter.many else "number", parameter.dimension)
            if not fits(argument, found.type, want):
                message = (
                    f"{function.name}() takes {in_words(want)} as `{parameter.name}`; this is {in_words(found.type)}"
                )
                code = "formula-dimension" if found.type.kind == want.kind else "formula-kind"
                self.problems.append(error(code, message, self.text.at(start(argument))))
                return None  # where two stand in each other's place, the second would be the same slip
        gives: Kind = "list" if function.gives_list else "number"
        sound = [found for found in parts if found is not None]
        return Found.over(Type(gives, function.gives), *sound) if len(sound) == len(parts) else None


def fits(tree: Expr, found: Type, want: Type) -> bool:
    """Whether `tree` may stand where `want` is wanted; a plain 0 may where any size is."""
    if found.kind != want.kind or found.kind not in ("number", "list"):
        return found.kind == want.kind
    return found.dimension == want.dimension or (is_zero(tree) and not want.dimension.point)


def is_zero(tree: Expr) -> bool:
    return isinstance(tree, Whole) and tree.value == 0


def _count(arguments: int) -> str:
    return f"{arguments} argument{'s' * (arguments != 1)}"
