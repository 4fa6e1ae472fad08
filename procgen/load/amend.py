"""What a family changes in cards. Each change names a card and a step that must be there to be changed."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from procgen.files.document import Cursor
from procgen.files.problems import Place, Related
from procgen.load.figures import changed_value, load_value
from procgen.load.procedure import caution_refs, load_step, step_fields
from procgen.load.reader import Reader, entries, items, text
from procgen.model.family import Amendment
from procgen.model.procedure import Procedure, Step, ValueSpec
from procgen.units.nearest import did_you_mean

BY_STEP = ("cautions", "before", "after", "replace", "drop")


def amendments(
    at: Cursor | None, reader: Reader, procedures: Mapping[str, Procedure], broken: frozenset[str]
) -> dict[str, Amendment]:
    """By card. An amendment to a card that isn't there is told and left out; one to a broken card is left out."""
    found = {}
    for card, spec, place in entries(at):
        if card in procedures:
            if not spec.is_empty:
                found[card] = _amendment(procedures[card], spec, place, reader)
        elif card not in broken:
            hint = did_you_mean(card, procedures)
            reader.error("amend-no-card", f"no procedure is called `{card}`, so it cannot be changed", place, hint)
    return found


def _amendment(card: Procedure, spec: Cursor, place: Place, reader: Reader) -> Amendment:
    before = {step: _steps(new, reader) for step, new, _ in entries(spec.get("before"))}
    after = {step: _steps(new, reader) for step, new, _ in entries(spec.get("after"))}
    added = [step for steps in (*before.values(), *after.values()) for step in steps]
    reader.unique("two-steps", (*card.steps, *added), "steps")
    places = {step: where for part in BY_STEP for step, _, where in entries(spec.get(part))}
    _known_steps(card, added, spec, reader)
    return Amendment(
        card=card.id,
        place=place,
        cautions={step: caution_refs(ids) for step, ids, _ in entries(spec.get("cautions"))},
        before=before,
        after=after,
        replace={step: step_fields(fields, reader) for step, fields, _ in entries(spec.get("replace"))},
        drop={step: why for step, reason, _ in entries(spec.get("drop")) if (why := text(reason)) is not None},
        values=_values(card, spec.get("values"), reader),
        places=places,
    )


def _steps(at: Cursor, reader: Reader) -> tuple[Step, ...]:
    return tuple(load_step(step, reader) for step in items(at))


def _known_steps(card: Procedure, added: Iterable[Step], spec: Cursor, reader: Reader) -> None:
    """Steps that the family itself adds may carry cautions; they can be neither replaced nor dropped nor built on."""
    own = [step.id for step in card.steps]
    for part in BY_STEP:
        known = [*own, *(step.id for step in added)] if part == "cautions" else own
        for step, _, place in entries(spec.get(part)):
            if step not in known:
                seen = (Related(card.place, f"`{card.id}` begins here"),)
                message = f"the card `{card.id}` has no step `{step}`"
                reader.error("amend-no-step", message, place, did_you_mean(step, known), seen)


def _values(card: Procedure, at: Cursor | None, reader: Reader) -> dict[str, ValueSpec]:
    """The card's own values with what changes; a value with a title of its own may be new."""
    found = {}
    for name, spec, place in entries(at):
        if name in card.values:
            found[name] = changed_value(card.values[name], spec, place, reader)
        elif spec.known("title") is not None:
            found[name] = load_value(name, spec, place, reader)
        else:
            hint = did_you_mean(name, card.values) or "a new value needs a title"
            reader.error("amend-no-value", f"the card `{card.id}` has no value `{name}`", place, hint)
    return found
