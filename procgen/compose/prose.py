"""An author's text as a reader sees it: emphasis understood, {names} filled in, the first sentence set apart.

Markdown is read before names are filled in, so that nothing a file holds can become markup.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import cache, lru_cache
from typing import TYPE_CHECKING

from procgen.model.card import Prose, Run

if TYPE_CHECKING:
    from markdown_it import MarkdownIt

HOLE = re.compile(r"\{([A-Za-z_][\w.]*)\}")
_LINES = re.compile(r"\s*\n\s*")
_MARKED = re.compile(r"[*\\\r\0]|(?<![^\W_])_|_(?![^\W_])")  # what could be markup; a _ within a word is none
_SENTENCE = re.compile(r"[.!?](?=\s|$)")

Fill = Callable[[str], Prose]


def holes(text: str) -> Iterator[tuple[str, int]]:
    """The names in braces, each with its offset in the text."""
    for match in HOLE.finditer(text):
        yield match.group(1), match.start(1)


def stray_brace(text: str) -> int | None:
    """Where the first brace stands that belongs to no name; None where there is none."""
    found = re.search(r"[{}]", HOLE.sub(lambda name: " " * len(name.group()), text))
    return found.start() if found else None


def prose(text: str, fill: Fill) -> Prose:
    """The text with its emphasis as runs and each {name} replaced by what `fill` makes of it."""
    return tuple(filled for run in _emphasis(text) for filled in _filled(run, fill))


def sentence_and_rest(text: Prose) -> tuple[Prose, Prose]:
    """The first sentence, and what follows it."""
    first: list[Run] = []
    for position, run in enumerate(text):
        end = None if run.figure else _SENTENCE.search(run.text)
        if end is None:
            first.append(run)
            continue
        first.append(_part(run, 0, end.end()))
        rest = [r for r in (_part(run, end.end()), *text[position + 1 :]) if r.text.strip()]
        return tuple(first), tuple(replace(r, text=r.text.lstrip()) if r is rest[0] else r for r in rest)
    return tuple(first), ()


def _filled(run: Run, fill: Fill) -> Iterator[Run]:
    start = 0
    for match in HOLE.finditer(run.text):
        if match.start() > start:
            yield _part(run, start, match.start())
        for inner in fill(match.group(1)):
            yield Run(inner.text, run.strong or inner.strong, run.emphasis or inner.emphasis, inner.figure)
        start = match.end()
    if start < len(run.text):
        yield _part(run, start) if start else run


def _part(run: Run, start: int, end: int | None = None) -> Run:
    return Run(run.text[start:end], run.strong, run.emphasis, run.figure)


@lru_cache(maxsize=4096)
def _emphasis(text: str) -> tuple[Run, ...]:
    text = _LINES.sub(" ", text.strip())
    if not _MARKED.search(text):
        return (Run(text),) if text else ()
    runs: list[Run] = []
    strong = emphasis = False
    for token in _markdown().parseInline(text)[0].children or ():
        match token.type:
            case "strong_open" | "strong_close":
                strong = token.type == "strong_open"
            case "em_open" | "em_close":
                emphasis = token.type == "em_open"
            case _:
                if token.content:
                    runs.append(Run(token.content, strong, emphasis))
    return tuple(runs)


@cache
def _markdown() -> MarkdownIt:
    from markdown_it import MarkdownIt  # only now: its import takes longer than to compose a card without markup

    return MarkdownIt("zero", {"html": False}).enable(["emphasis", "escape"])
