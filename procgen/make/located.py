"""Where in the workshop's files a card or a step of it is written, for what paper says of it."""

from __future__ import annotations

from dataclasses import replace

from procgen.files.problems import Problem
from procgen.model.workshop import Workshop


def located(problem: Problem, workshop: Workshop) -> Problem:
    """A problem of a family's card at the line of its procedure, or of the step; any other as it is."""
    address, _, id = problem.place.path.partition("#")
    family, _, card = address.partition("/")
    procedure = workshop.procedures.get(card)
    if procedure is None or family not in workshop.families:
        return problem
    steps = {step.id: step.place for step in procedure.steps}
    named = problem.message.startswith(address)
    message = problem.message if named else f"{workshop.families[family].name}: {problem.message}"
    return replace(problem, place=steps.get(id, procedure.place), message=message)
