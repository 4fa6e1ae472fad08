"""The small workshop of the checks with a few files over it, loaded and composed: for tests of one thing at a time."""

import shutil
from pathlib import Path
from textwrap import dedent

from procgen.compose import Bench, benches, compose_card, stage_of
from procgen.compose.card import speaker_for
from procgen.compose.revision import dump
from procgen.compose.spoken import Speaker
from procgen.files.reporters import as_lines
from procgen.load.workshop import load_workshop
from procgen.model.card import Card
from procgen.model.workshop import Workshop

SMALL = Path(__file__).parent.parent / "check" / "workshop"
SHOP, WEAR = "procedures/workshop.yaml", "procedures/deck/wear.yaml"
TEAL = "procedures/families/teal.yaml"

Files = dict[str, str]
"""Path in the workshop -> the whole text of the file."""


def shed(root: Path, files: Files | None = None) -> Workshop:
    """The small workshop with `files` in place of its own; nothing may be wrong with any of them."""
    shutil.copytree(SMALL, root, dirs_exist_ok=True)
    for path, text in (files or {}).items():
        (root / path).parent.mkdir(parents=True, exist_ok=True)
        (root / path).write_text(dedent(text), encoding="utf-8")
    loaded = load_workshop(root, Path.read_bytes)
    wrong = [problem for problem in loaded.problems if problem.is_error]
    assert not wrong, as_lines(wrong)
    assert loaded.workshop is not None
    return loaded.workshop


def text_of(path: str) -> str:
    """One of the small workshop's own files, to be changed."""
    return (SMALL / path).read_text(encoding="utf-8")


def teal(more: str = "", geometry: str = "bore: 70.0, stroke: 80.0, deck_clearance: 0.4") -> Files:
    """The family Teal with something more in its file."""
    start = "format: family/1\nid: teal\nname: Teal\nunits: {length: mm}\nlayout: {kind: inline, cylinders: 2}\n"
    return {TEAL: f"{start}traits: {{block.material: iron}}\ngeometry: {{{geometry}}}\n{dedent(more)}"}


def card_file(id: str, parts: str) -> Files:
    """A procedure with these parts, and a step that does something."""
    start = (
        f"format: procedure/1\nid: {id}\ntitle: {id.title()}\nquestion: Well?\nstage: {id.title()}\nreason: It wears.\n"
    )
    step = "" if "\nsteps:" in f"\n{dedent(parts)}" else "steps:\n  - {id: look, do: Look at it.}\n"
    return {f"procedures/deck/{id}.yaml": start + dedent(parts) + step}


def shop(deck: str, more: str = "", show: str = "length: mm") -> Files:
    """The shop with this deck."""
    start = f"format: workshop/1\nname: Test Shop\nshow: {{{show}}}\nstock: a5\ndeck: [{deck}]\n"
    return {
        SHOP: start + (dedent(more) or "rules:\n  wear_max: {title: Most wear, is: 0.10 mm, source: shop practice}\n")
    }


def made(workshop: Workshop, family: str = "teal") -> dict[str, Bench]:
    return dict(benches(workshop, workshop.families[family]))


def card(workshop: Workshop, id: str = "wear", family: str = "teal") -> Card:
    return compose_card(id, made(workshop, family), stage_of(id, workshop))


def speaker(workshop: Workshop, id: str = "wear", family: str = "teal") -> Speaker:
    return speaker_for(id, made(workshop, family))


def lines(card: Card) -> list[str]:
    """What the card says, a line at a time, without the space before it."""
    return [line.strip() for line in dump(card)]
