"""The page's own scripts, classic and without a build step: modules put one after the other."""

from __future__ import annotations

CORE = (
    "numbers.js", "cells.js", "operations.js", "evaluate.js", "readings.js", "scope.js", "verdicts.js", "bench.js",
)  # fmt: skip
"""Judge readings; touch no page."""
