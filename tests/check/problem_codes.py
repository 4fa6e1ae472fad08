"""Every problem code that the source can tell, found by reading the source, never by running it.

A function or record with a parameter `code` hands a code on. Of every call to one the code is read off: a text, either
side of an if, the texts that a variable is given, or an f-string whose one hole is a parameter, with what the callers
give for it. A code in any other form fails, so that none can hide.
"""

import ast
from collections.abc import Iterator, Sequence
from pathlib import Path

import procgen

ROOT = Path(procgen.__file__).parent
KEPT = ROOT / "files" / "records.py"
"""Brings back from the cache what was told before."""

Inside = ast.FunctionDef | None


def all_codes() -> dict[str, str]:
    """Code -> where it is first told."""
    trees = {path: ast.parse(path.read_text(encoding="utf-8")) for path in sorted(ROOT.rglob("*.py")) if path != KEPT}
    places = {name: place for tree in trees.values() for name, place in _takers(tree)}
    found: dict[str, str] = {}
    for path, tree in trees.items():
        for call, inside in _calls(tree):
            name = _called(call)
            if len(call.args) + len(call.keywords) == 1:
                continue  # no problem is told by a code alone; this is another library's
            if name in places and (given := _argument(call, "code", places[name])) is not None:
                for code in _texts(given, inside, tree):
                    found.setdefault(code, f"{path.relative_to(ROOT.parent)}:{call.lineno}")
    return found


def _takers(tree: ast.Module) -> Iterator[tuple[str, int]]:
    """What takes a `code`, and at which place among its arguments."""
    for node in ast.walk(tree):
        if isinstance(node, ast.ClassDef):
            start = next((f for f in node.body if isinstance(f, ast.FunctionDef) and f.name == "__init__"), None)
            fields = [f.target.id for f in node.body if isinstance(f, ast.AnnAssign) and isinstance(f.target, ast.Name)]
            names = fields if start is None else _parameters(start)
        elif isinstance(node, ast.FunctionDef) and node.name != "__init__":
            names = _parameters(node)
        else:
            continue
        if "code" in names:
            yield node.name, names.index("code")


def _calls(node: ast.AST, inside: Inside = None) -> Iterator[tuple[ast.Call, Inside]]:
    """Every call, with the function it stands in."""
    for child in ast.iter_child_nodes(node):
        if isinstance(child, ast.Call):
            yield child, inside
        yield from _calls(child, child if isinstance(child, ast.FunctionDef) else inside)


def _called(call: ast.AST | None) -> str:
    function = getattr(call, "func", None)
    if getattr(getattr(function, "value", None), "id", "") == "LOGGER":  # a library's, which knows no codes
        return ""
    return str(getattr(function, "id", getattr(function, "attr", "")))


def _parameters(function: ast.FunctionDef) -> list[str]:
    return [argument.arg for argument in function.args.args if argument.arg != "self"]


def _argument(call: ast.Call, name: str, place: int) -> ast.expr | None:
    named = next((keyword.value for keyword in call.keywords if keyword.arg == name), None)
    return named if named is not None else call.args[place] if len(call.args) > place else None


def _texts(given: ast.expr, inside: Inside, tree: ast.Module) -> Iterator[str]:
    match given:
        case ast.Constant(value=str(text)):
            yield text
        case ast.IfExp(body=body, orelse=orelse):
            yield from _texts(body, inside, tree)
            yield from _texts(orelse, inside, tree)
        case ast.Attribute(attr="code"):
            return  # of something that was told elsewhere
        case ast.Name(id=name) if inside is not None:
            found = list(_of_variable(name, inside, tree))
            if name not in _parameters(inside):  # a parameter is read off where the function is called
                assert found, f"line {given.lineno}: nothing tells which code `{name}` is"
                yield from found
        case ast.JoinedStr(values=parts) if inside is not None:
            (hole,) = [part.value for part in parts if isinstance(part, ast.FormattedValue)]
            for word in _given_for(hole, inside, tree):
                yield "".join(str(part.value) if isinstance(part, ast.Constant) else word for part in parts)
        case _:
            raise AssertionError(f"line {given.lineno}: a code in a form that can't be read off: {ast.unparse(given)}")


def _given_for(hole: ast.expr, inside: ast.FunctionDef, tree: ast.Module) -> Iterator[str]:
    """What the callers of a function give for one of its parameters."""
    assert isinstance(hole, ast.Name)
    place = _parameters(inside).index(hole.id)
    for call, caller in _calls(tree):
        if _called(call) == inside.name and (given := _argument(call, hole.id, place)) is not None:
            yield from _texts(given, caller, tree)


def _of_variable(name: str, inside: ast.FunctionDef, tree: ast.Module) -> Iterator[str]:
    """The texts that a variable is given: alone, out of a tuple, or by a loop over the keys of a map."""
    for node in ast.walk(inside):
        match node:
            case ast.Assign(targets=[ast.Name(id=target)], value=value) if target == name:
                yield from _texts(value, inside, tree)
            case ast.Assign(targets=[ast.Tuple(elts=parts)], value=ast.Name(id=whole)):
                yield from _out_of(_tuples_of(whole, inside, tree), name, parts)
            case ast.For(
                target=ast.Tuple(elts=[ast.Tuple(elts=parts), *_]), iter=ast.Call(func=ast.Attribute(value=of))
            ):
                keys = (n.slice for n in ast.walk(inside) if isinstance(n, ast.Subscript) and _same(n.value, of))
                yield from _out_of(keys, name, parts)


def _out_of(tuples: Iterator[ast.expr], name: str, parts: Sequence[ast.expr]) -> Iterator[str]:
    """What stands in tuples at the place that `name` has among `parts`."""
    for place in (place for place, part in enumerate(parts) if getattr(part, "id", "") == name):
        for one in tuples:
            if isinstance(one, ast.Tuple) and isinstance(one.elts[place], ast.Constant):
                yield str(one.elts[place].value)  # type: ignore[attr-defined]


def _tuples_of(name: str, inside: ast.FunctionDef, tree: ast.Module) -> Iterator[ast.expr]:
    """The tuples that a variable is given, where a function of this module gives it them too."""
    for node in ast.walk(inside):
        if isinstance(node, ast.Assign) and getattr(node.targets[0], "id", "") == name:
            called = {_called(part) for part in ast.walk(node.value) if isinstance(part, ast.Call)}
            yield node.value
            for function in (f for f in ast.walk(tree) if isinstance(f, ast.FunctionDef) and f.name in called):
                yield from (r.value for r in ast.walk(function) if isinstance(r, ast.Return) and r.value is not None)


def _same(one: ast.expr, other: ast.expr) -> bool:
    return ast.unparse(one) == ast.unparse(other)
