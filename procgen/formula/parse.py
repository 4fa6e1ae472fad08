"""A formula's text read into its tree by precedence climbing.

From loosest to tightest: `a if c else b`; `or`; `and`; `not`; `<` `<=` `>` `>=` `is` `in`; `+` `-`; `*` `/`; unary `-`;
`x[member]`.
"""

from __future__ import annotations

import re

from procgen.files.problems import Problem, error
from procgen.files.text import Text
from procgen.formula.pretty import formula_text
from procgen.formula.tokens import Token, tokens_of
from procgen.formula.walk import measure
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
from procgen.units.nearest import did_you_mean

LONGEST = 2000
MOST_NODES = 200
DEEPEST = 30
_TOO_BIG = f"a formula may have {MOST_NODES} parts, {DEEPEST} deep"

_NAME = re.compile(r"[a-z][a-z0-9_]*(\.[a-z][a-z0-9_]*)*")
_WORD = re.compile(r"[a-z][a-z0-9_]*")
_COMPARISONS = ("<", "<=", ">", ">=")
_TERMS = {"+": 1, "-": 1, "*": 2, "/": 2}


def parse(text: Text) -> tuple[Formula | None, tuple[Problem, ...]]:
    """The formula, or None and what is wrong with it. Never raises, whatever the text."""
    if len(text.value) > LONGEST:
        return None, (_too_big(text, 0, f"a formula may have {LONGEST} characters; this has {len(text.value)}"),)
    tokens, problems = tokens_of(text)
    if problems:
        return None, problems
    parser = _Parser(text, tokens)
    try:
        tree = parser.whole()
    except _Stop as stop:
        return None, (*parser.problems, stop.problem)
    if parser.problems:
        return None, tuple(parser.problems)
    nodes, depth = measure(tree)
    if nodes > MOST_NODES or depth > DEEPEST:
        return None, (_too_big(text, 0, _TOO_BIG),)
    return Formula(text, tree), ()


def _too_big(text: Text, at: int, message: str) -> Problem:
    return error("formula-size", message, text.at(at), "name a part of it as a value of its own")


class _Stop(Exception):
    """Nothing honest can be said of what follows."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem


class _Parser:
    def __init__(self, text: Text, tokens: tuple[Token, ...]) -> None:
        self.text = text
        self.tokens = tokens
        self.next = 0
        self.depth = 0
        self.parts = 0
        self.problems: list[Problem] = []

    @property
    def token(self) -> Token:
        return self.tokens[self.next]

    def take(self) -> Token:
        token = self.token
        self.next = min(self.next + 1, len(self.tokens) - 1)
        return token

    def sees(self, *marks: str) -> bool:
        return self.token.kind == "mark" and self.token.text in marks

    def stop(self, message: str, hint: str = "", token: Token | None = None) -> _Stop:
        return _Stop(error("formula-syntax", message, self.text.at((token or self.token).at), hint))

    def expect(self, mark: str, after: str) -> Token:
        if not self.sees(mark):
            raise self.stop(f"expected `{mark}` {after}, found {_shown(self.token)}")
        return self.take()

    def whole(self) -> Expr:
        if self.token.kind == "end":
            hint = "leave the entry out, or write its formula"
            raise _Stop(error("formula-syntax", "a formula is empty", self.text.place, hint))
        tree = self.choice()
        if self.sees(")", "]"):
            raise self.stop(f"`{self.token.text}` closes nothing")
        if self.token.kind != "end":
            words = did_you_mean(self.token.text, ("is", "in", "not", "and", "or", "if", "else"))
            hint = words or "write < <= > >=, `is`, `in`, `and`, `or` or + - * / between two names"
            raise self.stop(f"expected an operator before {_shown(self.token)}", hint)
        return tree

    def part(self) -> None:
        self.parts += 1
        if self.parts > MOST_NODES:
            raise _Stop(_too_big(self.text, self.token.at, _TOO_BIG))

    def deeper(self) -> None:
        self.depth += 1
        if self.depth > DEEPEST:
            raise _Stop(_too_big(self.text, self.token.at, _TOO_BIG))

    def choice(self) -> Expr:
        self.deeper()
        then = self.either("or")
        if self.sees("if"):
            at = self.take().at
            condition = self.either("or")
            if not self.sees("else"):
                raise self.stop(f"expected `else` after the condition, found {_shown(self.token)}",
                                "write `a if condition else b`")  # fmt: skip
            self.take()
            then = Choose(condition, then, self.choice(), at)
        self.depth -= 1
        return then

    def either(self, operator: str) -> Expr:
        terms: list[Expr] = []
        at = self.token.at
        while True:
            terms.append(self.either("and") if operator == "or" else self.denial())
            if not self.sees(operator):
                return terms[0] if len(terms) == 1 else Logic(operator, tuple(terms), at)
            self.take()

    def denial(self) -> Expr:
        if not self.sees("not"):
            return self.comparison()
        self.deeper()
        at = self.take().at
        negated = Not(self.denial(), at)
        self.depth -= 1
        return negated

    def comparison(self) -> Expr:
        left = self.sum(1)
        if self.sees("is", "in") or (self.sees("not") and self.tokens[self.next + 1].text == "in"):
            left = self.among(left)
        elif self.sees(*_COMPARISONS):
            operator = self.take()
            right = self.sum(1)
            left = Compare(operator.text, left, right, operator.at)
            if self.sees(*_COMPARISONS):
                left = self.chain(left)
        if self.sees("is", "in", *_COMPARISONS):
            raise self.stop(f"`{self.token.text}` cannot follow a comparison", "put the comparison in parentheses")
        return left

    def chain(self, first: Compare) -> Expr:
        """`a < b < c`: told with its mend, and read as what is meant."""
        terms: list[Expr] = [first]
        at = self.token
        middle = first.right
        while self.sees(*_COMPARISONS):
            operator = self.take()
            right = self.sum(1)
            terms.append(Compare(operator.text, middle, right, operator.at))
            middle = right
        meant = Logic("and", tuple(terms), at.at)
        hint = f"write `{formula_text(meant)}`"
        self.problems.append(error("formula-syntax", "comparisons are not chained", self.text.at(at.at), hint))
        return meant

    def among(self, of: Expr) -> Expr:
        first = self.take()
        negated = first.text == "not"
        if negated or first.text == "in":
            if negated:
                self.take()
            return self.among_list(of, negated, first.at)
        if self.sees("not"):
            self.take()
            negated = True
        if self.sees("in"):
            raise self.stop("`is in` is not a comparison", "write `in (a, b)`", first)
        word = self.word("after `is not`" if negated else "after `is`", "not in (a, b)" if negated else "in (a, b)")
        return Among(of, (word.text,), (word.at,), negated, first.at)

    def among_list(self, of: Expr, negated: bool, at: int) -> Expr:
        if not self.sees("("):
            found = f", found {_shown(self.token)}"
            hint = f"write `in ({self.token.text})`" if self.token.kind == "word" else "write `in (a, b)`"
            raise self.stop("expected the words in parentheses after `in`" + found, hint)
        self.take()
        words: list[Token] = []
        while True:
            word = self.word("in the list")
            if any(word.text == other.text for other in words):
                self.problems.append(error("formula-syntax", f"`{word.text}` is in the list twice",
                                           self.text.at(word.at), "name it once"))  # fmt: skip
            words.append(word)
            if not self.sees(","):
                break
            self.take()
        self.expect(")", "after the words")
        return Among(of, tuple(w.text for w in words), tuple(w.at for w in words), negated, at)

    def word(self, where: str, many: str = "") -> Token:
        token = self.token
        if token.kind == "number":
            raise self.stop(f"expected a word {where}, found the number {token.text}",
                            "numbers are compared with < <= > >=")  # fmt: skip
        if token.kind != "word" or not _WORD.fullmatch(token.text):
            hint = f"write `{many}`" if many and self.sees("(") else ""
            raise self.stop(f"expected a word {where}, found {_shown(token)}", hint)
        return self.take()

    def sum(self, binding: int) -> Expr:
        left = self.signed()
        while self.token.kind == "mark" and _TERMS.get(self.token.text, 0) >= binding:
            operator = self.take()
            right = self.sum(_TERMS[operator.text] + 1)
            left = Arithmetic(operator.text, left, right, operator.at)
        return left

    def signed(self) -> Expr:
        if not self.sees("-"):
            return self.picked()
        self.deeper()
        at = self.take().at
        negated = Negate(self.signed(), at)
        self.depth -= 1
        return negated

    def picked(self) -> Expr:
        tree = self.atom()
        while self.sees("["):
            self.part()
            at = self.take().at
            if self.token.kind not in ("word", "number"):
                raise self.stop(f"expected the name of one of them in brackets, found {_shown(self.token)}")
            member = self.take().text
            self.expect("]", f"after `{member}`")
            tree = Pick(tree, member, at)
        return tree

    def atom(self) -> Expr:
        self.part()
        token = self.token
        if token.kind == "number":
            self.take()
            return Whole(int(token.text), token.at)
        if self.sees("("):
            self.take()
            tree = self.choice()
            if self.sees(","):
                raise self.stop("a list of words stands only after `in`", "write `x in (a, b)`")
            self.expect(")", "to close the parenthesis")
            return tree
        if token.kind != "word":
            raise self.stop(f"expected a name, a whole number or `(`, found {_shown(token)}")
        if not _NAME.fullmatch(token.text):
            lower = token.text.lower()
            hint = f"did you mean `{lower}`?" if _NAME.fullmatch(lower) else ""
            raise self.stop(f"names are lower-case letters, digits and _, joined by dots: `{token.text}`", hint)
        self.take()
        return self.call(token) if self.sees("(") else Name(token.text, token.at)

    def call(self, function: Token) -> Expr:
        self.take()
        arguments: list[Expr] = []
        if not self.sees(")"):
            arguments.append(self.choice())
            while self.sees(","):
                self.take()
                arguments.append(self.choice())
        self.expect(")", f"to close {function.text}(")
        return Call(function.text, tuple(arguments), function.at)


def _shown(token: Token) -> str:
    return "the end" if token.kind == "end" else f"`{token.text}`"
