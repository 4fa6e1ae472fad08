"""The language of conditions and formulas: read, typed, evaluated, written out for people and for the page."""

from procgen.formula.parse import parse
from procgen.formula.pretty import formula_text

__all__ = ["formula_text", "parse"]
