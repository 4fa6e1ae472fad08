"""The pages' own scripts, classic and without a build step: modules one after the other, without their comments."""

from __future__ import annotations

from jinja2 import Environment
from rjsmin import jsmin

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

_STRICT = '"use strict"'
_JOINED = ";\n"


def bundle(environment: Environment, names: tuple[str, ...]) -> bytes:
    """These modules as one script, strict as a whole."""
    assert environment.loader is not None
    sources = [environment.loader.get_source(environment, f"site/live/{name}")[0] for name in names]
    return f"{_STRICT};{jsmin(_JOINED.join(sources).replace(_STRICT, ''))}\n".encode()
