"""The oil's route as a flow path: from the source down to every bearing, what is alike drawn as one."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from procgen.model.scene import Arrow, Label, Path, Scene, Shape
from procgen.trade.galleys import SOURCES, natural, network, reach
from procgen.trade.scenes.view import Given, numbers

ROW, STEP = 10.0, 6.0  # mm between rows and columns as drawn
ONE_ROW = 20  # letters that a stretch without branches takes in one row
WORDS = {"filter_in": "to filter", "filter_out": "from filter", "pump": "pump", "pickup": "pick-up", "deck": "head"}

Branch = tuple[str, tuple["Branch", ...]]
"""What stands in a row, and what the oil comes to next."""


def oil_route(given: Given) -> tuple[Scene, ...]:
    """Rows from the source down; a row further right is fed by the one above it further left."""
    net = network(given.family)
    source = next((node for node in ("pickup", "pump", *SOURCES) if node in net.next), None)
    if source is None or not given.family.passages:
        return ()
    came_from = reach(net, source)
    shapes: list[Shape] = []
    labels: list[Label] = []
    said: list[str] = []
    for row, (depth, up, text, feeds) in enumerate(_rows(_branch([source], came_from))):
        x, y = depth * STEP, -row * ROW
        if depth:
            shapes += [Path(((x - STEP, -up * ROW), (x - STEP, y), (x, y)), "outline"), Arrow((x + 2.0, y), 90.0)]
        labels.append(Label((x + 2.0, y), words=(text,), place="beside", sides=("right",), strong=not feeds))
        said.append(text)
    return (
        Scene(
            id="oil-route",
            title="The oil’s way",
            view="from the top down",
            describe=f"The oil’s way from the top down: {', '.join(said)}.",
            shapes=tuple(shapes),
            labels=tuple(labels),
            to_scale=False,
        ),
    )


def _branch(nodes: list[str], came_from: Mapping[str, str]) -> Branch:
    """Nodes of one kind, and what follows them, of one kind together."""
    following: dict[str, list[str]] = {}
    for node, before in came_from.items():
        if before in nodes:
            following.setdefault(_kind(node), []).append(node)
    said, further = _said(nodes), tuple(_branch(found, came_from) for found in following.values())
    while len(further) == 1 and len(f"{said}, {further[0][0]}") <= ONE_ROW:
        said, further = f"{said}, {further[0][0]}", further[0][1]
    return said, further


def _kind(node: str) -> str:
    """What alike nodes share: "passage D" of D1 to D5, "main" of all mains."""
    kind, _, id = node.partition(" ")
    return f"{kind} {re.sub(r'[0-9]+$', '', id)}" if kind in ("passage", "lifters") else kind


def _said(nodes: list[str]) -> str:
    kind, _, first = nodes[0].partition(" ")
    ids = sorted((node.partition(" ")[2] for node in nodes), key=natural)
    if kind == "passage":
        stem = re.sub(r"[0-9]+$", "", first)
        return first if len(ids) == 1 else f"{ids[0]}–{ids[-1].removeprefix(stem)}" if stem else ", ".join(ids)
    if kind in ("main", "cam", "groove"):
        return f"{kind} {numbers(ids)}"
    return WORDS.get(kind, nodes[0])


def _rows(branch: Branch) -> Iterator[tuple[int, int, str, bool]]:
    """Each row's depth, the row that feeds it, its words, and whether it feeds others; in reading order."""
    rows: list[tuple[int, int, str, bool]] = []

    def walk(each: Branch, depth: int, up: int) -> None:
        row = len(rows)
        rows.append((depth, up, each[0], bool(each[1])))
        for following in each[1]:
            walk(following, depth + 1, row)

    walk(branch, 0, 0)
    yield from rows
