"""The pages' own scripts, classic and without a build step: modules one after the other, without their comments."""

from __future__ import annotations

import re

from jinja2 import Environment

CORE = (
    "numbers.js", "cells.js", "operations.js", "evaluate.js", "readings.js", "scope.js", "verdicts.js", "bench.js",
)  # fmt: skip
"""Judge readings; touch no page."""
CARD = (*CORE, "desk.js", "slips.js", "jobpick.js", "tally.js", "entry.js", "bar.js", "arms.js", "ticks.js")
"""What only a card's page needs."""
SELDOM = ("jobfile.js", "differences.js", "compare.js")
"""What a page fetches when it is asked for: job files, and how cards differ."""
PAGE = ("dom.js", "store.js", "load.js", "units.js", "search.js", "revision.js", "start.js")
"""What every page has, begun by the last."""


def bundle(environment: Environment, names: tuple[str, ...]) -> bytes:
    """These modules as one script, strict as a whole."""
    assert environment.loader is not None
    sources = (environment.loader.get_source(environment, f"site/live/{name}")[0] for name in names)
    return ";\n".join((_STRICT, *(_bare(source) for source in sources))).encode() + b"\n"


def _bare(source: str) -> str:
    """Without comments and the spaces that only people need. What is quoted stays; templates do not nest."""
    lines = (_REMARK.sub("", line).strip() for line in source.splitlines())
    text = "\n".join(line for line in lines if line not in ("", _STRICT))
    parts = _QUOTED.split(text)
    return "".join(part if odd % 2 else _close(part) for odd, part in enumerate(parts))


def _close(script: str) -> str:
    return _GOES_ON.sub("", _SPACED.sub(r"\1", script))


_STRICT = '"use strict"'
_REMARK = re.compile(r'^\s*//.*|\s// [^"`]*$')
"""A comment; beside code only where no quote follows, since `//` may be quoted itself."""

_PATTERN = r"(?<=[(,=:!&|[])(?: ?)/(?:[^/\\\n[]|\\.|\[(?:[^\]\\]|\\.)*\])+/"
_QUOTED = re.compile(rf'("(?:[^"\\\n]|\\.)*"|`(?:[^`\\]|\\.)*`|{_PATTERN})')
"""A text, a template, or a pattern where one can stand: a division follows what it divides."""

_SPACED = re.compile(r" *([{}()\[\],;:?=<>*&|!]+) *")
_GOES_ON = re.compile(r"(?<=[{(\[,])\n|\n(?=[)\]}?:&|.,])")
"""A line's end that ends nothing."""
