"""A condition written out for people: alternatives, each of clauses that hold together."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Protocol

from procgen.formula.normal import MIRRORED, positive
from procgen.formula.pretty import formula_text
from procgen.formula.walk import children
from procgen.model.formula import (
    Among,
    Arithmetic,
    Call,
    Choose,
    Compare,
    Expr,
    Logic,
    Name,
    Negate,
    Not,
    Pick,
    Whole,
)
from procgen.units.lists import listed
from procgen.values import dataclass


class Wording(Protocol):
    """How one card speaks of the names in its formulas."""

    def title(self, name: str) -> str:
        """What a name is called: "Running clearance"; a decision's is its question."""

    def choice_word(self, name: str, word: str) -> str:
        """What a choice, trait or branch is called: "slides over the ridge", "fitted", "Replace the shell"."""

    def stands_apart(self, name: str) -> bool:
        """Whether its choices make no sentence with its title, as those of a part's kind: "kind: cup"."""

    def clause(self, name: str) -> str:
        """What its choices stand in where it has a clause of its own, as a trait: "the block is {}"; else ""."""

    def options(self, name: str) -> tuple[str, ...]:
        """All the words of a choice, so that a denied one can be said outright; () where they are not listed."""

    def figure(self, name: str) -> str | None:
        """The figure as printed, with its unit, of a name that no reading touches; None for any other name."""

    def counts(self, name: str) -> bool:
        """Whether it says how many: a whole number, of nothing that is measured."""

    def axes(self, name: str) -> tuple[str, ...]:
        """What there is one of the name for each of."""

    def each_word(self, axis: str) -> str:
        """One member of an axis: "cam bearing"."""


@dataclass(frozen=True, slots=True)
class Figured:
    """A figure in a clause: its text with the unit, and the name it stands for ("" for a plain number)."""

    text: str
    name: str = ""


Piece = str | Figured
Clause = tuple[Piece, ...]

_SYMBOLS = {"<": "<", "<=": "≤", ">": ">", ">=": "≥"}
_BETWEEN = {"<": "under", "<=": "at most", ">": "over", ">=": "at least"}
_NONE = {">": "1 or more", "<=": "none"}  # of what is counted, against 0
_SIGNS = {"+": " + ", "-": " − ", "*": " × ", "/": " ÷ "}
_REDUCED = {"max": "largest", "min": "smallest", "mean": "mean", "span": "span of", "sum": "sum of"}


def alternatives(tree: Expr, wording: Wording, each: tuple[str, ...] = ()) -> tuple[tuple[Clause, ...], ...]:
    """A condition of an entry that has one for each of `each`: any one alternative is enough, all of its clauses hold.

    A `not` is said by its opposite. An `or` within an `and` stays one clause; two closed limits of one thing are one.
    """
    writer = _Writer(wording, each)
    return tuple(
        tuple(_merged(clause) for clause in writer.together(_terms(option, "and")))
        for option in _terms(positive(tree), "or")
    )


def plain_text(clause: Clause) -> str:
    return "".join(piece if isinstance(piece, str) else piece.text for piece in clause)


def lowered(title: str) -> str:
    """A title within a sentence: its first letter small, unless the first word is a name or a mark (V8, NPT, A)."""
    first = title.split(" ", 1)[0]
    return (
        title
        if any(c.isupper() or c.isdigit() for c in first[1:]) or len(first) == 1
        else title[:1].lower() + title[1:]
    )


class _Writer:
    def __init__(self, wording: Wording, each: tuple[str, ...]) -> None:
        self.wording, self.each = wording, each

    def together(self, terms: Sequence[Expr]) -> list[list[Piece]]:
        """The clauses of what holds together: "clearance 0.030 mm to 0.080 mm" for a closed limit on either side."""
        clauses: list[list[Piece]] = []
        before: Expr | None = None
        for term in terms:
            ends = self.ends(before, term) if before is not None else None
            if ends is None:
                clauses.append(self.condition(term, ()))
            else:
                of, low, high = ends
                clauses[-1] = [*self.amount(of), " ", *self.amount(low, True), " to ", *self.amount(high, True)]
            before = term if ends is None else None  # each limit is said once and none is lost
        return clauses

    def ends(self, first: Expr, second: Expr) -> tuple[Expr, Expr, Expr] | None:
        """What two neighbouring limits hold, from where to where; None where they are no such pair."""
        sides = [self.limit(term) for term in (first, second) if isinstance(term, Compare)]
        match sides:
            case [(">=", of, low), ("<=", other, high)] | [("<=", of, high), (">=", other, low)]:
                closed = all(isinstance(end, (Name, Whole)) and self.is_figure(end) for end in (low, high))
                return (of, low, high) if closed and formula_text(of) == formula_text(other) else None
        return None

    def limit(self, tree: Compare) -> tuple[str, Expr, Expr]:
        """A comparison with its figure, if one side is one, on the right."""
        if self.is_figure(tree.left) and not self.is_figure(tree.right):
            return MIRRORED[tree.operator], tree.right, tree.left
        return tree.operator, tree.left, tree.right

    def condition(self, tree: Expr, within: tuple[str, ...]) -> list[Piece]:
        """`within` are the axes whose "any" or "every" stands before it already."""
        match tree:
            case Logic():
                nested = [self.condition(term, within) for term in tree.terms]
                closed = [
                    ["(", *p, ")"] if isinstance(t, Logic) else p for t, p in zip(tree.terms, nested, strict=True)
                ]
                return _joined(closed, f" {tree.operator} ")
            case Not():
                return ["not ", *self.condition(tree.of, within)]
            case Among():
                return self.among(tree, within)
            case Compare():
                return self.compare(tree)
            case Call(function="any" | "all", arguments=(argument,)):
                axes = self.axes_of(argument)
                before = {"any": "any", "all": "every"}[tree.function]
                ofs = listed([self.wording.each_word(axis) for axis in axes])
                if isinstance(argument, Among) and self.wording.stands_apart(_named(argument.of)):
                    return [f"{before} {ofs} of ", *self.among(argument, within, " ")]
                return [f"{before} {ofs}: ", *self.condition(argument, (*within, *axes))]
            case _:
                return self.amount(tree)

    def among(self, tree: Among, within: tuple[str, ...], apart: str = ": ") -> list[Piece]:
        """ "thumbnail slides over the ridge"; of a decision its question, left out where "any cylinder:" leads in."""
        named = _named(tree.of)
        words: Sequence[str] = tree.words
        options = self.wording.options(named) if named else ()
        denied = tree.negated
        if denied and set(options) > set(words):
            words, denied = [word for word in options if word not in words], False
        shown = listed([self.wording.choice_word(named, word) if named else word for word in words], "or")
        shown = f"not {shown}" if denied else shown
        if clause := self.wording.clause(named):
            return [clause.replace("{}", shown)]
        title = _text(self.amount(tree.of))
        if title.endswith("?"):
            return [shown if within else f"{title[:-1]}: {shown}"]
        if self.wording.stands_apart(named):
            return [f"{title}{apart}{shown}"]
        return [f"{title} {shown}"]

    def compare(self, tree: Compare) -> list[Piece]:
        operator, left, right = self.limit(tree)
        is_none = isinstance(right, Whole) and right.value == 0 and operator in _NONE
        if is_none and isinstance(left, Name) and self.wording.counts(left.name):
            return [*self.amount(left), ": ", _NONE[operator]]
        if isinstance(right, (Name, Whole)) and self.is_figure(right):
            return [*self.amount(left), f" {_SYMBOLS[operator]} ", *self.amount(right, True)]
        against = self.amount(right, True)
        if isinstance(right, Name):  # quoted, for titles have commas and prepositions of their own
            against = ["“", *against, "”"]
        return [*self.amount(left), f" {_BETWEEN[operator]} ", *against]

    def is_figure(self, tree: Expr) -> bool:
        """Whether no reading touches it."""
        if isinstance(tree, Name):
            return self.wording.figure(tree.name) is not None
        return isinstance(tree, Whole) or (bool(children(tree)) and all(map(self.is_figure, children(tree))))

    def amount(self, tree: Expr, figures: bool = False) -> list[Piece]:
        """A quantity: by its titles, or with `figures` by its known figures."""
        match tree:
            case Whole():
                return [Figured(str(tree.value))]
            case Name():
                figure = self.wording.figure(tree.name) if figures else None
                return [lowered(self.wording.title(tree.name)) if figure is None else Figured(figure, tree.name)]
            case Pick():
                return [*self.amount(tree.of), f" {self.wording.choice_word(_named(tree.of), tree.member)}"]
            case Negate():
                return ["−", *self.operand(tree.of)]
            case Arithmetic():
                sides = self.operand(tree.left), self.operand(tree.right)
                if tree.operator in "+-" and not _is_sum(tree.right):
                    sides = self.amount(tree.left, True), self.amount(tree.right, True)
                return _joined(sides, _SIGNS[tree.operator])
            case Choose():
                parts = self.amount(tree.then, figures), self.amount(tree.otherwise, figures)
                return [*parts[0], " if ", *self.condition(positive(tree.condition), ()), ", else ", *parts[1]]
            case Call():
                return self.called(tree)
            case _:
                return self.condition(positive(tree), ())

    def operand(self, tree: Expr) -> list[Piece]:
        inner = self.amount(tree, True)
        return ["(", *inner, ")"] if isinstance(tree, (Arithmetic, Choose)) else inner

    def called(self, tree: Call) -> list[Piece]:
        parts = [self.amount(argument, True) for argument in tree.arguments]
        match tree.function:
            case "only":
                return [*parts[0], " where ", *self.condition(positive(tree.arguments[1]), ())]
            case "abs":
                of = tree.arguments[0]
                if isinstance(of, Arithmetic) and of.operator == "-":
                    return ["difference of ", *self.operand(of.left), " and ", *self.operand(of.right)]
                return ["size of ", *parts[0]]
            case "count":
                words = [f"{self.wording.each_word(axis)}s" for axis in self.axes_of(tree.arguments[0])]
                counted = self.condition(positive(tree.arguments[0]), self.axes_of(tree.arguments[0]))
                return [f"number of {listed(words)} with ", *counted] if words else ["number of ", *parts[0]]
            case "next_up":
                return ["next of ", *parts[0], " from ", *parts[1], " up"]
            case "sqrt":
                return ["square root of ", *parts[0]]
            case function if function in _REDUCED and len(parts) == 1:
                return [f"{_REDUCED[function]} ", *parts[0]]
            case function:
                lead = _REDUCED.get(function, function.replace("_", " "))
                return [f"{lead} of ", *_joined(parts[:-1], ", "), " and " if parts[:-1] else "", *parts[-1]]

    def axes_of(self, tree: Expr) -> tuple[str, ...]:
        """What an aggregate of `tree` runs over."""
        if isinstance(tree, Name):
            return tuple(axis for axis in self.wording.axes(tree.name) if axis not in self.each)
        found: dict[str, None] = {}
        for child in children(tree):
            found |= dict.fromkeys(self.axes_of(child))
        if isinstance(tree, Call) and tree.function in ("any", "all", "count", *_REDUCED) and len(tree.arguments) == 1:
            return ()
        return tuple(found)


def _terms(tree: Expr, operator: str) -> tuple[Expr, ...]:
    return tree.terms if isinstance(tree, Logic) and tree.operator == operator else (tree,)


def _named(tree: Expr) -> str:
    """The name whose words a choice has; "" where it is worked out."""
    while isinstance(tree, Pick):
        tree = tree.of
    return tree.name if isinstance(tree, Name) else ""


def _is_sum(tree: Expr) -> bool:
    return isinstance(tree, Choose) or (isinstance(tree, Arithmetic) and tree.operator in "+-")


def _joined(parts: Sequence[Sequence[Piece]], between: str) -> list[Piece]:
    pieces: list[Piece] = []
    for part in parts:
        pieces += [between, *part] if pieces else part
    return pieces


def _text(pieces: Sequence[Piece]) -> str:
    return plain_text(tuple(pieces))


def _merged(pieces: Sequence[Piece]) -> Clause:
    """Neighbouring texts made one."""
    merged: list[Piece] = []
    for piece in pieces:
        if isinstance(piece, str) and merged and isinstance(merged[-1], str):
            merged[-1] += piece
        elif piece:
            merged.append(piece)
    return tuple(merged)
