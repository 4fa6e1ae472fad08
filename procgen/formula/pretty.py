"""A formula's tree written out again as a formula, with no more parentheses than it needs."""

from __future__ import annotations

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

_CHOICE, _OR, _AND, _NOT, _COMPARE, _SUM, _PRODUCT, _SIGN, _ATOM = range(9)


def formula_text(tree: Expr) -> str:
    """The formula as an author would write it; `parse` reads it back into the same tree."""
    return _write(tree)[0]


def _write(tree: Expr) -> tuple[str, int]:
    """The text, and how tightly its outermost operator binds."""
    match tree:
        case Whole():
            return str(tree.value), _ATOM
        case Name():
            return tree.name, _ATOM
        case Pick():
            return f"{_at_least(_ATOM, tree.of)}[{tree.member}]", _ATOM
        case Call():
            return f"{tree.function}({', '.join(map(formula_text, tree.arguments))})", _ATOM
        case Negate():
            return f"-{_at_least(_SIGN, tree.of)}", _SIGN
        case Arithmetic():
            binds = _SUM if tree.operator in "+-" else _PRODUCT
            return f"{_at_least(binds, tree.left)} {tree.operator} {_at_least(binds + 1, tree.right)}", binds
        case Compare():
            return f"{_at_least(_SUM, tree.left)} {tree.operator} {_at_least(_SUM, tree.right)}", _COMPARE
        case Among():
            return f"{_at_least(_SUM, tree.of)} {_words(tree)}", _COMPARE
        case Logic():
            binds = _OR if tree.operator == "or" else _AND
            return f" {tree.operator} ".join(_at_least(binds + 1, term) for term in tree.terms), binds
        case Not():
            return f"not {_at_least(_NOT, tree.of)}", _NOT
        case Choose():
            then, condition = _at_least(_OR, tree.then), _at_least(_OR, tree.condition)
            return f"{then} if {condition} else {formula_text(tree.otherwise)}", _CHOICE


def _at_least(binds: int, tree: Expr) -> str:
    text, own = _write(tree)
    return text if own >= binds else f"({text})"


def _words(tree: Among) -> str:
    if len(tree.words) == 1:
        return f"is {'not ' * tree.negated}{tree.words[0]}"
    return f"{'not ' * tree.negated}in ({', '.join(tree.words)})"
