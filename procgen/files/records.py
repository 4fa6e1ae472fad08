"""Problems and sums of a build as plain data, to be kept in the cache."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from procgen.files.problems import Place, Problem, Related, Severity


def to_data(problems: Sequence[Problem]) -> list[Any]:
    return [[one.severity.value, one.code, one.message, _flat(one.place), one.hint, _related(one)] for one in problems]


def from_data(data: Sequence[Any]) -> tuple[Problem, ...]:
    return tuple(
        Problem(
            Severity(severity),
            code,
            message,
            Place(*place),
            tuple(Related(Place(*where), text) for where, text in related),
            hint,
        )
        for severity, code, message, place, hint, related in data
    )


def _related(problem: Problem) -> list[Any]:
    return [[_flat(other.place), other.message] for other in problem.related]


def _flat(place: Place) -> list[str | int]:
    return [place.path, place.line, place.column]
