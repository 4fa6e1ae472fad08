"""Reading formulas: the tree, what binds tighter, and that nothing an author can type raises."""

from __future__ import annotations

import pytest
from formulas import TREES, formula, text, told
from hypothesis import given, settings
from hypothesis import strategies as st

from procgen.files.problems import Place
from procgen.files.text import Text
from procgen.formula import formula_text, names, parse
from procgen.formula.tree import to_json
from procgen.formula.walk import measure
from procgen.model.formula import Among, Arithmetic, Call, Choose, Compare, Expr, Logic, Name, Not, Pick, Whole


def test_a_tree_with_its_places() -> None:
    tree = formula("max(bore[thrust]) - 2 * a").tree
    largest = Call("max", (Pick(Name("bore", 4), "thrust", 8),), 0)
    assert tree == Arithmetic("-", largest, Arithmetic("*", Whole(2, 20), Name("a", 24), 22), 18)


def test_conditions() -> None:
    tree = formula("a is worn and not b in (even, odd) or c <= 0").tree
    assert isinstance(tree, Logic)
    assert tree.operator == "or"
    both, compare = tree.terms
    assert isinstance(both, Logic)
    assert both.terms[0] == Among(Name("a", 0), ("worn",), (5,), False, 2)
    assert both.terms[1] == Not(Among(Name("b", 18), ("even", "odd"), (24, 30), False, 20), 14)
    assert compare == Compare("<=", Name("c", 38), Whole(0, 43), 40)


@pytest.mark.parametrize(
    ("written", "means"),
    [
        ("a - b - c", "(a - b) - c"),
        ("a - b + c", "(a - b) + c"),
        ("a / b * c", "(a / b) * c"),
        ("a + b * c", "a + (b * c)"),
        ("-a * b", "(-a) * b"),
        ("-a[x]", "-(a[x])"),
        ("a + b < c * a", "(a + b) < (c * a)"),
        ("not a < b", "not (a < b)"),
        ("not a is b and c", "(not (a is b)) and c"),
        ("a or b and c", "a or (b and c)"),
        ("a if b or c else b if c else a", "a if (b or c) else (b if c else a)"),
        ("a and b and c", "a and b and c"),
    ],
)
def test_what_binds_tighter(written: str, means: str) -> None:
    assert to_json(formula(written).tree) == to_json(formula(means).tree)


def test_parentheses_that_change_the_meaning_stay() -> None:
    for written in ("a - (b - c)", "a / (b * c)", "(a or b) and c", "(a if b else c) + a", "not (a and b)", "-(a + b)"):
        assert formula_text(formula(written).tree) == written


def test_names_in_order() -> None:
    assert names(formula("b if a is x else b + c.d").tree) == ("b", "a", "c.d")
    assert isinstance(formula("b if a is x else b").tree, Choose)


@given(TREES)
def test_a_tree_written_out_reads_back_as_itself(tree: Expr) -> None:
    nodes, depth = measure(tree)
    written = formula_text(tree)
    read, problems = parse(text(written))
    if read is None:  # only for its size
        assert problems[0].code == "formula-size", told(problems)
        assert nodes > 200 or depth > 20
    else:
        assert to_json(read.tree) == to_json(tree)


@given(st.text(max_size=60) | st.text("ab01 .,()[]<>=!+-*/'\"{}%:", max_size=60))
@settings(max_examples=300)
def test_any_text_gives_a_tree_or_problems(source: str) -> None:
    read, problems = parse(text(source))
    assert (read is None) == bool(problems)
    assert all(p.is_error and p.message and p.place.path == "f.yaml" and p.place.line >= 1 for p in problems)


def test_strange_texts_give_problems() -> None:
    for source in (
        "a.b.", "((((", "1e999", "²", "a is not", "a not", "\x00", "a[", "a not in", "in in in", "٣", "1.2.3.4", "…",
        "a" * 3000, "(" * 1500, "not " * 400, "-" * 1900, "a+" * 900 + "a", "a if a else " * 150, "a[" * 900,
        "f(" * 900,
    ):  # fmt: skip
        read, problems = parse(text(source))
        assert read is None
        assert problems


@given(st.lists(st.sampled_from(
    ["a", "b.c", "is", "not", "in", "and", "or", "if", "else", "(", ")", "[", "]", ",", "+", "-", "*", "/", "<", ">=",
     "3", "max("]
), max_size=25))  # fmt: skip
@settings(max_examples=300)
def test_any_tokens_give_a_tree_or_problems(parts: list[str]) -> None:
    read, problems = parse(text(" ".join(parts)))
    assert (read is None) == bool(problems)
    if read is not None:
        again, _ = parse(text(formula_text(read.tree)))
        assert again is not None
        assert to_json(again.tree) == to_json(read.tree)


def test_places_follow_a_folded_text() -> None:
    raw = ">-\n    thumbnail is passes\n    and ridge = 3"
    problems = parse(Text("thumbnail is passes and ridge = 3", Place("p.yaml", 7, 11), raw))[1]
    assert [str(p.place) for p in problems] == ["p.yaml:9:15"]
