"""A procedure's file into a Procedure. Its steps are loaded the same way where a family adds or changes one."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from procgen.files.document import Cursor
from procgen.files.text import Text
from procgen.load.figures import decisions, readings, values
from procgen.load.reader import Reader, items, placed, text, word, words
from procgen.model.procedure import CautionRef, DrawingSpec, HoldPoint, Procedure, Step, TableSpec


def load_procedure(root: Cursor, reader: Reader) -> Procedure:
    """A procedure whose file has passed its schema."""
    steps = tuple(load_step(step, reader) for step in items(root.get("steps")))
    reader.unique("two-steps", steps, "steps")
    return Procedure(
        id=word(root.get("id")),
        title=word(root.get("title")),
        question=word(root.get("question")),
        stage=word(root.get("stage")),
        reason=text(root.get("reason")) or Text("", root.place),
        place=root["id"].place,
        hold=_hold(root.get("hold_point"), reader),
        record=words(root.get("record")),
        cautions=caution_refs(root.get("cautions")),
        tools=placed(root.get("tools")),
        traits=placed(root.get("traits")),
        values=values(root.get("values"), reader),
        readings=readings(root.get("readings"), reader),
        decisions=decisions(root.get("decisions"), reader),
        steps=steps,
    )


def load_step(at: Cursor, reader: Reader) -> Step:
    id = at.get("id")
    place = id.place if id is not None else at.place
    return Step(id=word(id), place=place, **step_fields(at, reader))


def step_fields(at: Cursor, reader: Reader) -> dict[str, Any]:
    """The fields that are written there, the id left out: what a family replaces, or all that a whole step has."""
    read: Mapping[str, Callable[[Cursor | None], Any]] = {
        "do": text,
        "right": text,
        "because": text,
        "when": reader.formula,
        "cautions": caution_refs,
        "show": placed,
        "table": _table,
        "read": placed,
        "decide": placed,
        "drawing": _drawing,
    }
    return {key: load(at.get(key)) for key, load in read.items() if at.get(key) is not None}


def caution_refs(at: Cursor | None) -> tuple[CautionRef, ...]:
    return tuple(CautionRef(id, place) for id, place in placed(at))


def _hold(at: Cursor | None, reader: Reader) -> HoldPoint | None:
    if at is None or at.is_empty:
        return None
    if not at.is_map:
        return HoldPoint(at.text(), 1)
    signers = at.known("signers")
    count = 1 if signers is None else int(signers.number())
    return HoldPoint(text(at.get("text")) or Text("", at.place), count, reader.formula(at.get("when")))


def _table(at: Cursor | None) -> TableSpec | None:
    return None if at is None or at.is_empty else TableSpec(word(at.get("each")), placed(at.get("show")))


def _drawing(at: Cursor | None) -> DrawingSpec | None:
    if at is None or at.is_empty:
        return None
    return DrawingSpec(word(at.get("view")), word(at.get("each")), at["view"].place)
