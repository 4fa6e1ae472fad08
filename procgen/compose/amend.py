"""A procedure with a family's amendments worked in."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from procgen.model.family import Amendment, Family
from procgen.model.procedure import Procedure, Step


def amended(procedure: Procedure, family: Family) -> Procedure:
    """The procedure for this family: the very same object where the family changes nothing in it."""
    amendment = family.amendments.get(procedure.id)
    if amendment is None:
        return procedure
    return replace(
        procedure,
        steps=tuple(_steps(procedure.steps, amendment)),
        values={**procedure.values, **amendment.values},
    )


def _steps(steps: tuple[Step, ...], amendment: Amendment) -> Iterator[Step]:
    for step in steps:
        for added in amendment.before.get(step.id, ()):
            yield _changed(added, amendment)
        if step.id not in amendment.drop:
            yield _changed(step, amendment)
        for added in amendment.after.get(step.id, ()):
            yield _changed(added, amendment)


def _changed(step: Step, amendment: Amendment) -> Step:
    fields: dict[str, Any] = dict(amendment.replace.get(step.id, {}))
    fields["cautions"] = fields.get("cautions", step.cautions) + amendment.cautions.get(step.id, ())
    return replace(step, **fields)
