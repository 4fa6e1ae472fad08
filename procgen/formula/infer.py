"""What a formula gives, worked out from the types of its names alone: it holds whether or not any value is known."""

from __future__ import annotations

from procgen.files.problems import Problem, error
from procgen.formula.calls import Calls, fits
from procgen.formula.found import Found, Wrong, brief
from procgen.formula.pretty import formula_text
from procgen.formula.types import BUILT_IN, TRUTH, Type, Vocabulary, in_words, mend, number
from procgen.formula.walk import start
from procgen.model.formula import (
    Among,
    Arithmetic,
    Call,
    Choose,
    Compare,
    Expr,
    Formula,
    Logic,
    Name,
    Negate,
    Not,
    Pick,
    Whole,
)
from procgen.units.dimension import CLOCK, LEVEL, NUMBER
from procgen.units.lists import listed


def infer(
    formula: Formula, vocabulary: Vocabulary, each: tuple[str, ...] = (), expected: Type | None = None
) -> tuple[Type | None, tuple[Problem, ...]]:
    """The type of `formula` in an entry that has one for each of `each`; None and the problems where it has none.

    `expected` is what the entry wants: its kind, and the dimension of a number or list. Every problem that does not
    follow from another is told, in the order of the text. Neither type nor problems come back where a name's own
    formula is at fault.
    """
    inference = _Inference(formula, vocabulary, each)
    found = inference.of(formula.tree)
    if found is not None:
        inference.all_taken(found)
        if expected is not None:
            inference.as_expected(formula.tree, found.type, expected)
    problems = tuple(sorted(inference.problems, key=lambda problem: problem.place))
    return (None if problems or found is None else found.type), problems


class _Inference(Calls):
    def of(self, tree: Expr) -> Found | None:
        """What `tree` is, or None where that is wrong; then it is told already."""
        try:
            return self.type_of(tree)
        except Wrong as wrong:
            self.problems.append(error(wrong.code, wrong.message, self.text.at(wrong.at), wrong.hint))
            return None

    def type_of(self, tree: Expr) -> Found | None:
        match tree:
            case Whole():
                return Found(number(NUMBER))
            case Name():
                return self.name(tree)
            case Pick():
                return self.pick(tree)
            case Call():
                return self.call(tree)
            case Negate():
                return self.negate(tree)
            case Arithmetic():
                return self.arithmetic(tree)
            case Compare():
                return self.compare(tree)
            case Among():
                return self.among(tree)
            case Logic():
                return self.logic(tree)
            case Not():
                found = self.wanted(tree.of, "truth", "`not`")
                return Found.over(TRUTH, *([found] if found else []))
            case Choose():
                return self.choose(tree)

    def name(self, tree: Name) -> Found | None:
        found = self.vocabulary.type_of(tree.name)
        if found is not None:
            return Found(found, dict.fromkeys(found.axes, tree))
        if tree.name in BUILT_IN or tree.name in self.vocabulary.functions():
            raise Wrong("unknown-name", f"`{tree.name}` is a function", tree.at, f"write {tree.name}(…)")
        if tree.name in self.vocabulary.names():  # its own formula is wrong, and told there
            return None
        hint = mend(tree.name, list(self.vocabulary.names()))
        raise Wrong("unknown-name", f"nothing here is named `{tree.name}`", tree.at, hint)

    def pick(self, tree: Pick) -> Found | None:
        found = self.of(tree.of)
        if found is None:
            return None
        what = brief(tree.of)
        free = [axis for axis in found.type.axes if axis not in self.each]
        if not free:
            raise Wrong("formula-axes", f"there is only one {what} here to pick from", tree.at, f"write {what} alone")
        members = {axis: self.vocabulary.members(axis) for axis in free}
        axis = next((axis for axis in free if tree.member in (members[axis] or ())), None)
        unknown = (axis for axis in free if members[axis] is None)
        is_word = not tree.member[0].isdigit()  # and a depth is a number
        axis = axis or next((axis for axis in unknown if not (axis == "depth" and is_word)), None)
        if axis is None:
            known = [member for axis in free for member in members[axis] or ()]
            raise Wrong("unknown-word", f"{what} has no `{tree.member}`", tree.at + 1, mend(tree.member, known))
        return found.without(axis)

    def negate(self, tree: Negate) -> Found | None:
        found = self.wanted(tree.of, "number", "`-`")
        if found is not None and found.type.dimension.point:
            raise Wrong("formula-dimension", f"`-` turns {in_words(found.type)} round, which has no meaning", tree.at)
        return found

    def arithmetic(self, tree: Arithmetic) -> Found | None:
        left = self.wanted(tree.left, "number", f"`{tree.operator}`")
        right = self.wanted(tree.right, "number", f"`{tree.operator}`")
        if left is None or right is None:
            return None
        a, b = left.type.dimension, right.type.dimension
        names = in_words(left.type), in_words(right.type)
        if tree.operator in "*/":
            if a.point or b.point:
                does = "multiplies" if tree.operator == "*" else "divides"
                message = f"{does} {names[0]} {'and' if tree.operator == '*' else 'by'} {names[1]}"
                raise Wrong("formula-dimension", message, tree.at, "only a difference of two can be scaled")
            return Found.over(number(a * b if tree.operator == "*" else a / b), left, right)
        message = f"adds {names[0]} and {names[1]}" if tree.operator == "+" else f"takes {names[1]} from {names[0]}"
        if tree.operator == "+" and LEVEL in (a, b):
            raise Wrong("formula-dimension", f"{message}; sound levels do not add up", tree.at)
        if a.difference != b.difference or (b.point and a.point == (tree.operator == "+")):
            raise Wrong("formula-dimension", message, tree.at)
        if tree.operator == "-" and b.point:  # between two points lies a difference
            return Found.over(number(a.difference), left, right)
        return Found.over(number(b if b.point else a), left, right)

    def compare(self, tree: Compare) -> Found:
        what = f"`{tree.operator}`"
        left, right = self.wanted(tree.left, "number", what), self.wanted(tree.right, "number", what)
        if left is not None and right is not None:
            dimension = self.agreed([(tree.left, left), (tree.right, right)])
            if dimension is None:
                message = f"compares {in_words(left.type)} with {in_words(right.type)}"
                raise Wrong("formula-dimension", message, tree.at)
            if dimension == CLOCK:
                raise Wrong("formula-dimension", "compares clock positions, which go round: neither is the larger",
                              tree.at, "compare the angle between two of them")  # fmt: skip
        return Found.over(TRUTH, *(found for found in (left, right) if found))

    def among(self, tree: Among) -> Found:
        found = self.of(tree.of)
        if found is None:
            return Found(TRUTH)
        what, kind = brief(tree.of), found.type.kind
        if kind == "truth":
            negated = tree.negated or tree.words in (("false",), ("no",))
            raise Wrong("formula-kind", f"{what} holds or does not: it has no words", tree.at,
                          f"write `{'not ' * negated}{what.strip('`')}` alone")  # fmt: skip
        if kind != "choice":
            word = "`in`" if len(tree.words) > 1 else "`is`"
            raise Wrong("formula-kind", f"{word} compares words; {what} is {in_words(found.type)}", tree.at,
                          "compare it with < <= > >=")  # fmt: skip
        for word, at in zip(tree.words, tree.word_ats, strict=True):
            if found.type.options and word not in found.type.options:
                hint = mend(word, found.type.options)
                self.problems.append(error("unknown-word", f"{what} is never `{word}`", self.text.at(at), hint))
        return Found.over(TRUTH, found)

    def logic(self, tree: Logic) -> Found:
        parts: list[Found] = []
        for term, before in zip(tree.terms, (None, *tree.terms), strict=False):
            if isinstance(before, Among) and isinstance(term, Name) and self.is_option(term.name, before):
                hint = f"write `{formula_text(before.of)} in ({', '.join([*before.words, term.name])})`"
                problem = error(
                    "formula-kind", f"`{term.name}` is a word, not a condition", self.text.at(term.at), hint
                )
                self.problems.append(problem)
            elif (found := self.wanted(term, "truth", f"`{tree.operator}`")) is not None:
                parts.append(found)
        return Found.over(TRUTH, *parts)

    def is_option(self, word: str, before: Among) -> bool:
        """Whether `word` is left over from `shell is copper or torn`."""
        if self.vocabulary.type_of(word) is not None or not isinstance(before.of, Name):
            return False
        found = self.vocabulary.type_of(before.of.name)
        return found is not None and word in found.options

    def choose(self, tree: Choose) -> Found | None:
        condition = self.wanted(tree.condition, "truth", "`if`")
        then, otherwise = self.of(tree.then), self.of(tree.otherwise)
        if then is None or otherwise is None:
            return None
        parts = [part for part in (condition, then, otherwise) if part]
        dimension = self.agreed([(tree.then, then), (tree.otherwise, otherwise)])
        if then.type.kind != otherwise.type.kind or dimension is None:
            message = f"gives {in_words(then.type)} if the condition holds, and else {in_words(otherwise.type)}"
            raise Wrong("formula-dimension", message, tree.at)
        options = tuple(dict.fromkeys((*then.type.options, *otherwise.type.options)))
        return Found.over(Type(then.type.kind, dimension, options), *parts)

    def all_taken(self, found: Found) -> None:
        """Refuse whatever the entry has not one of and nothing ran over."""
        left: dict[Name, list[str]] = {}
        for axis, source in found.sources.items():
            if axis not in self.each:
                left.setdefault(source, []).append(axis)
        for source, axes in left.items():
            members = next((m for m in map(self.vocabulary.members, axes) if m), None)
            pick = f", or pick one: `{source.name}[{members[0]}]`" if members else ""
            kind = getattr(self.vocabulary.type_of(source.name), "kind", "number")
            take = {"number": "max(), mean() …", "truth": "any() or all()"}.get(kind, "any() or all() of a condition")
            words = listed([axis.replace("_", " ") for axis in axes])
            message = f"`{source.name}` has one for each {words}"
            self.problems.append(error("formula-axes", message, self.text.at(source.at), f"take {take}{pick}"))

    def as_expected(self, tree: Expr, found: Type, expected: Type) -> None:
        if not fits(tree, found, expected):
            message = f"this must be {in_words(expected)}; it is {in_words(found)}"
            code = "formula-dimension" if found.kind == expected.kind else "formula-kind"
            self.problems.append(error(code, message, self.text.at(start(tree))))
