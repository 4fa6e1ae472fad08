"""The language of conditions and formulas: read, typed, evaluated, written out for people and for the page.

formula, problems = parse(text)
type, problems = infer(formula, vocabulary, each, expected)
spread = evaluate(formula.tree, scope, bound, keep)
"""

from procgen.formula.cells import (
    NONE,
    Cell,
    Refused,
    Spread,
    State,
    known,
    reading,
    refused,
    single,
    uncertainty,
    unknown,
    wanting,
)
from procgen.formula.evaluate import Scope, evaluate
from procgen.formula.infer import infer
from procgen.formula.parse import parse
from procgen.formula.pretty import formula_text
from procgen.formula.types import TRUTH, Type, Vocabulary, number
from procgen.formula.walk import names, nodes

__all__ = [
    "NONE",
    "TRUTH",
    "Cell",
    "Refused",
    "Scope",
    "Spread",
    "State",
    "Type",
    "Vocabulary",
    "evaluate",
    "formula_text",
    "infer",
    "known",
    "names",
    "nodes",
    "number",
    "parse",
    "reading",
    "refused",
    "single",
    "uncertainty",
    "unknown",
    "wanting",
]
