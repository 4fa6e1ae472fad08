"""The ledger of printed cards. Nothing in it stops a build: what hangs, hangs."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.check.context import Context
from procgen.compose.revision import code_of
from procgen.files.problems import Problem, warning


def noted_texts(context: Context) -> Iterator[Problem]:
    """A text that its code was not made from: edited after it was noted. What changed since would be told wrongly."""
    for said in context.workshop.ledger.texts.values():
        if code_of(said.text) != said.revision:
            message = f"this is not what revision `{said.revision}` of {said.address} said"
            yield warning("ledger-text", message, said.place, "take the text back from an older copy of the file")
