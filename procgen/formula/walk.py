"""Going through a formula's tree."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.model.formula import Among, Arithmetic, Call, Choose, Compare, Expr, Logic, Name, Negate, Not, Pick


def children(tree: Expr) -> tuple[Expr, ...]:
    """The parts of a node, in the order in which they are written."""
    match tree:
        case Pick(of=of) | Negate(of=of) | Not(of=of) | Among(of=of):
            return (of,)
        case Arithmetic(left=left, right=right) | Compare(left=left, right=right):
            return (left, right)
        case Call(arguments=arguments):
            return arguments
        case Logic(terms=terms):
            return terms
        case Choose(condition=condition, then=then, otherwise=otherwise):
            return (then, condition, otherwise)
        case _:
            return ()


def nodes(tree: Expr) -> Iterator[Expr]:
    """Every node, each before its parts."""
    yield tree
    for child in children(tree):
        yield from nodes(child)


def names(tree: Expr) -> tuple[str, ...]:
    """The names a formula uses, each once, in the order in which they are written."""
    return tuple(dict.fromkeys(node.name for node in nodes(tree) if isinstance(node, Name)))


def measure(tree: Expr) -> tuple[int, int]:
    """How many nodes there are, and how deep they lie."""
    parts = [measure(child) for child in children(tree)]
    return 1 + sum(nodes for nodes, _ in parts), 1 + max((depth for _, depth in parts), default=0)


def start(tree: Expr) -> int:
    """Where what a node stands for begins: an operator's node is placed at its operator, not at its left side."""
    match tree:
        case Arithmetic(left=first) | Compare(left=first) | Among(of=first) | Pick(of=first) | Choose(then=first):
            return start(first)
        case Logic(terms=terms):
            return start(terms[0])
        case _:
            return tree.at
