"""Where pages find their templates, and the words they may use there."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from jinja2 import Environment

from procgen.files import templating
from procgen.units.lists import listed
from procgen.web import words
from procgen.web.drawings import bar
from procgen.web.origins import is_first, of_row, others, told_once
from procgen.web.stage_mark import graduations


def environment(templates: Sequence[Path]) -> Environment:
    """The folders in order: what a workshop's own folder holds goes before the package's."""
    found = templating.environment(templates, trim=True)
    found.filters.update(
        tidy=words.tidy,
        joined=words.joined,
        prose=words.prose,
        sentence=words.sentence,
        deferral=words.deferral,
        listed=listed,
        is_short=words.is_short,
    )
    found.globals.update(
        bar=bar,
        is_number=words.is_number,
        numeric_columns=words.numeric_columns,
        graduations=graduations,
        origin_of_row=of_row,
        other_origins=others,
        is_first=is_first,
        told_once=told_once,
    )
    return found
