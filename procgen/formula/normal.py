"""A condition with its `not` pushed inward until it stands at a word or a name, and nested `and`/`or` made flat."""

from __future__ import annotations

from procgen.model.formula import Among, Call, Choose, Compare, Expr, Logic, Not

OPPOSITE = {"<": ">=", "<=": ">", ">": "<=", ">=": "<"}
MIRRORED = {"<": ">", "<=": ">=", ">": "<", ">=": "<="}
_DUAL = {"and": "or", "or": "and", "any": "all", "all": "any"}


def positive(tree: Expr, denied: bool = False) -> Expr:
    """`tree`, or its denial, without a `not` before anything but a name."""
    match tree:
        case Not():
            return positive(tree.of, not denied)
        case Logic():
            operator = _DUAL[tree.operator] if denied else tree.operator
            return flat(operator, tuple(positive(term, denied) for term in tree.terms), tree.at)
        case Choose():
            taken = flat("and", (positive(tree.condition), positive(tree.then, denied)), tree.at)
            other = flat("and", (positive(tree.condition, True), positive(tree.otherwise, denied)), tree.at)
            return flat("or", (taken, other), tree.at)
        case Call(function="any" | "all", arguments=(argument,)):
            function = _DUAL[tree.function] if denied else tree.function
            return Call(function, (positive(argument, denied),), tree.at)
        case Compare():
            operator = OPPOSITE[tree.operator] if denied else tree.operator
            return Compare(operator, tree.left, tree.right, tree.at)
        case Among():
            return Among(tree.of, tree.words, tree.word_ats, tree.negated != denied, tree.at)
        case _:
            return Not(tree, tree.at) if denied else tree


def flat(operator: str, terms: tuple[Expr, ...], at: int) -> Expr:
    """`terms` under one operator, those of the same operator taken in."""
    inner = tuple(
        part
        for term in terms
        for part in (term.terms if isinstance(term, Logic) and term.operator == operator else (term,))
    )
    return inner[0] if len(inner) == 1 else Logic(operator, inner, at)
