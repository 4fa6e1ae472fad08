"""Drawings that steps ask for: views there are, and what each can be asked for."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.check.context import Context
from procgen.files.problems import Problem, error
from procgen.formula.types import mend
from procgen.trade.scenes import VIEWS


def drawings(context: Context) -> Iterator[Problem]:
    """A drawing that nothing can draw, or that is asked for each of something that it has not one of."""
    for procedure, _, _ in context.cards():
        for step in procedure.steps:
            asked = step.drawing
            if asked is None:
                continue
            view = VIEWS.get(asked.view)
            if view is None:
                hint = mend(asked.view, tuple(VIEWS))
                yield error("unknown-view", f"there is no drawing `{asked.view}`", asked.place, hint)
            elif asked.each not in ("", view.each):
                has = f"one for each {view.each}" if view.each else "one for the whole engine"
                hint = f"write `each: {view.each}`" if view.each else "leave `each` out"
                message = f"the drawing `{view.name}` is {has}, not for each `{asked.each}`"
                yield error("drawing-each", message, asked.place, hint)
