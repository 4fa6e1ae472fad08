"""Each mistake an author is likely to make, with the column, the words and the mend."""

from __future__ import annotations

import pytest
from formulas import text, told

from procgen.formula import parse

OPERATORS = "write < <= > >=, `is`, `in`, `and`, `or` or + - * / between two names"

CASES = {
    # other notations
    "x == y": (3, "a formula has no `==`", "for a word write `is`; for sizes write <= or >=, which count a difference"
                  " below the smallest step as none"),
    "x != y": (3, "a formula has no `!=`", "for a word write `is not`; for sizes write `a < b or a > b`"),
    "x = y": (3, "a formula has no `=`", "for a word write `is`; for sizes write <= or >=, which count a difference"
                 " below the smallest step as none"),
    "x && y": (3, "a formula has no `&&`", "write `and`"),
    "x || y": (3, "a formula has no `||`", "write `or`"),
    "!x": (1, "a formula has no `!`", "write `not`"),
    "x ^ 2": (3, "a formula has no `^`", "write `x * x`, or sqrt(x) for the root"),
    "x ** 2": (3, "a formula has no `**`", "write `x * x`, or sqrt(x) for the root"),
    "x²": (2, "a formula has no `²`", "write `x * x`"),
    "x ≤ y": (3, "a formula has no `≤`", "write `<=`"),
    "x => y": (3, "a formula has no `=>`", "write `>=`"),
    "x × y": (3, "a formula has no `×`", "write `*`"),
    "x − y": (3, "a formula has no `−`", "write a plain `-`"),
    "x // y": (3, "a formula has no `//`", "write `/`; a formula never cuts a result down to a whole number"),
    "x ? y : z": (3, "a formula has no `?`", "write `a if condition else b`"),
    "{x} + y": (1, "a formula has no `{`", "braces are for texts: here the name stands bare"),
    "x is 'worn'": (6, "a formula has no quotes: words stand bare", "write `worn`"),
    'x is "very worn"': (6, "a formula has no quotes: words stand bare", "write the word's own name, bare"),
    "x $ y": (3, "a formula has no `$`", ""),
    # numbers
    "x + 0.05": (5, "a formula has no decimals: 0.05", "give it a name with `is: 0.05` and a source"),
    "x + 0,05": (5, "a formula has no decimals: 0,05", "give it a name with `is: 0,05` and a source"),
    "13 * x": (1, "a number above 12 means something: 13", "give it a name with `is: 13` and a source"),
    "x * 010": (5, "a whole number has no leading zero: 010", "write 10"),
    "x + 3 mm": (5, "a formula has no numbers with units: 3 mm", "give it a name with `is: 3 mm` and a source"),
    "x <= 0.006 in": (6, "a formula has no numbers with units: 0.006 in",
                      "give it a name with `is: 0.006 in` and a source"),
    "x > 90%": (5, "a formula has no numbers with units: 90%", "give it a name with `is: 90%` and a source"),
    "x < 60 lbf·ft and y": (5, "a formula has no numbers with units: 60 lbf·ft",
                            "give it a name with `is: 60 lbf·ft` and a source"),
    "clock + 4:30": (9, "a formula has no numbers with units: 4:30", "give it a name with `is: 4:30` and a source"),
    # form
    "": (1, "a formula is empty", "leave the entry out, or write its formula"),
    "a < b < c": (7, "comparisons are not chained", "write `a < b and b < c`"),
    "a + 1 <= b * 2 <= c - d": (16, "comparisons are not chained", "write `a + 1 <= b * 2 and b * 2 <= c - d`"),
    "a is b is c": (8, "`is` cannot follow a comparison", "put the comparison in parentheses"),
    "x in worn": (6, "expected the words in parentheses after `in`, found `worn`", "write `in (worn)`"),
    "x in ()": (7, "expected a word in the list, found `)`", ""),
    "x in (worn, worn)": (13, "`worn` is in the list twice", "name it once"),
    "x is in (worn)": (3, "`is in` is not a comparison", "write `in (a, b)`"),
    "x is (worn, torn)": (6, "expected a word after `is`, found `(`", "write `in (a, b)`"),
    "x is not (worn)": (10, "expected a word after `is not`, found `(`", "write `not in (a, b)`"),
    "x is 3": (6, "expected a word after `is`, found the number 3", "numbers are compared with < <= > >="),
    "x is a.b": (6, "expected a word after `is`, found `a.b`", ""),
    "x is": (5, "expected a word after `is`, found the end", ""),
    "a b": (3, "expected an operator before `b`", OPERATORS),
    "2 bores": (3, "expected an operator before `bores`", OPERATORS),
    "a adn b": (3, "expected an operator before `adn`", "did you mean `and`?"),
    "(a + b": (7, "expected `)` to close the parenthesis, found the end", ""),
    "max(a": (6, "expected `)` to close max(, found the end", ""),
    "a)": (2, "`)` closes nothing", ""),
    "(a, b)": (3, "a list of words stands only after `in`", "write `x in (a, b)`"),
    "a if b": (7, "expected `else` after the condition, found the end", "write `a if condition else b`"),
    "a +": (4, "expected a name, a whole number or `(`, found the end", ""),
    "a + * b": (5, "expected a name, a whole number or `(`, found `*`", ""),
    "bore[": (6, "expected the name of one of them in brackets, found the end", ""),
    "bore[thrust": (12, "expected `]` after `thrust`, found the end", ""),
    "Bore + x": (1, "names are lower-case letters, digits and _, joined by dots: `Bore`", "did you mean `bore`?"),
    "_x": (1, "names are lower-case letters, digits and _, joined by dots: `_x`", ""),
}  # fmt: skip


@pytest.mark.parametrize("source", CASES)
def test_message(source: str) -> None:
    read, problems = parse(text(source))
    assert read is None
    expected = CASES[source]
    assert told(problems)[:1] == [expected]


def test_each_strange_token_is_told_at_once() -> None:
    problems = parse(text("x == 0.05 && y ≤ 3 mm"))[1]
    assert [p.place.column for p in problems] == [3, 6, 11, 16, 18]


def test_a_formula_is_bounded() -> None:
    for source in ("a + " * 100 + "a", "(" * 40 + "a" + ")" * 40, "a" + " " * 2000, "-" * 40 + "a", "not " * 40 + "a"):
        read, problems = parse(text(source))
        assert read is None
        assert [(p.code, p.hint) for p in problems] == [("formula-size", "name a part of it as a value of its own")]
