"""Decisions: does every combination of readings find a branch, and can every branch be taken?

Proofs are made for one family at a time; what they come to is then told for all families together.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from procgen.check.context import Context
from procgen.compose import CardScope, Proofs, Proven
from procgen.compose.card import missing, speaker_for
from procgen.compose.spoken import Speaker
from procgen.compose.wording import CardWording
from procgen.files.problems import Problem, Related, error, note
from procgen.formula import Refused, known, names
from procgen.formula.prove import TOO_MANY
from procgen.formula.words import lowered
from procgen.load.names import family_names
from procgen.model.procedure import Decision, ValueSpec
from procgen.model.workshop import Workshop

Proved = Sequence[Any]
"""What one proof came to, as plain data: card, decision, ids of the branches taken, and what is to be told of it, each
as [status, what it is known by, message, family, member]. Gaps at the same words and names are one, whatever the sizes:
each family has its own limits, in its own units."""


def proved(context: Context) -> list[Proved]:
    """The proofs of a context's families, each made once."""
    found: list[Proved] = []
    for made in context.benches.values():
        for proofs in map(Proofs, made.values()):
            for card in context.whole_cards(proofs.bench):
                speaker = speaker_for(card, made)
                found += (_proved(proven, speaker) for proven in proofs.of_card(card))
    return found


def _proved(proven: Proven, speaker: Speaker) -> Proved:
    proof, name, family = proven.proof, proven.decision.name, speaker.first.bench.family.name
    told = []
    if proof.status == "gap":
        key = [value if isinstance(value, str) else at for at, value in proof.example.items()]
        message = f"no branch of `{name}` for {example(proof.example, speaker)}"
        told.append(["gap", " ".join(key), message, family, " ".join(proven.member.values())])
    elif proof.status == "open":
        waits = "; ".join(_title(one, speaker) for one in proof.waits_for)
        told.append(["open", waits, f"whether `{name}` is complete waits for {waits}", family, ""])
    if proof.falls_to_otherwise is not None:
        what = example(proof.falls_to_otherwise, speaker)
        told.append(["otherwise", what, f"`otherwise` of `{name}` takes, for example, {what}", family, ""])
    all_found = TOO_MANY not in proof.waits_for
    taken = sorted(proof.taken) if all_found else [branch.id for branch in proven.decision.branches]
    return [proven.card, name, taken, told]


def gaps(workshop: Workshop, proofs: Sequence[Proved]) -> Iterator[Problem]:
    """A decision that leaves a combination of readings without a branch, told by an example. Add a branch, widen one,
    or say under `impossible` why it can't be. Where the family does not state a limit yet, the proof stays open.
    """
    told: dict[tuple[str, str, str, str], tuple[str, dict[str, list[str]]]] = {}
    for card, name, _, said in proofs:
        for status, key, message, family, member in said:
            _, families = told.setdefault((card, name, status, key), (message, {}))
            families.setdefault(family, []).append(member)
    for (card, name, status, _), (message, families) in told.items():
        place = _decision(workshop, card, name).place
        whole = f"{message} ({', '.join(_whose(family, members) for family, members in families.items())})"
        if status == "gap":
            yield error("gap", whole, place, "add a branch for it, or state why it is impossible")
        else:
            yield note("open-decision" if status == "open" else "otherwise", whole, place)


def unreachable(workshop: Workshop, proofs: Sequence[Proved]) -> Iterator[Problem]:
    """A branch that no reading reaches in any family: the branches before it take everything it would. No slip where
    the decision asks how an engine is built: one that is built so may yet come.
    """
    taken: dict[tuple[str, str], set[str]] = defaultdict(set)
    for card, name, branches, _ in proofs:
        taken[card, name].update(branches)
    for (card, name), reached in taken.items():
        decision = _decision(workshop, card, name)
        for branch in decision.branches:
            if branch.id not in reached:
                if asked := _built(decision, workshop):
                    message = f"no family here takes branch `{branch.id}` of `{name}`, which asks for {asked}"
                    yield note("unreachable", message, branch.place)
                    continue
                message = f"branch `{branch.id}` of `{name}` is never taken, in any family"
                hint = "the branches before it take all of it: move it up, narrow them, or leave it out"
                yield error("unreachable", message, branch.place, hint)


def _built(decision: Decision, workshop: Workshop) -> str:
    """What a decision asks of how an engine is built: traits, and the kinds of its parts."""
    whens = (decision.when, *(branch.when for branch in decision.branches))
    asked = (name for when in whens if when is not None for name in names(when.tree))
    kinds = {name.name for name in family_names().values() if name.words}
    return ", ".join(f"`{name}`" for name in dict.fromkeys(asked) if name in workshop.traits or name in kinds)


def _decision(workshop: Workshop, card: str, name: str) -> Decision:
    """As written: families change no decisions."""
    return workshop.procedures[card].decisions[name]


def refused(context: Context) -> Iterator[Problem]:
    """A formula that has no result for one family: it divides by nothing, or a function refuses its sizes."""
    for made in context.benches.values():
        for bench in made.values():
            for card in context.whole_cards(bench):
                scope = bench.card(card)
                for value in scope.procedure.values.values():
                    if value.formula is None:
                        continue
                    cell = next((c for c in scope.whole(value.name).cells.values() if c.refused is not None), None)
                    if cell is not None and cell.refused is not None and not _inherited(value, cell.refused, scope):
                        where = " ".join(filter(None, (bench.family.name, bench.variant.name if bench.variant else "")))
                        place = value.formula.text.at(cell.refused.at)
                        yield error("refused", f"`{value.name}` for {where}: {cell.refused.message}", place)


def not_yet_known(context: Context) -> Iterator[Problem]:
    """What a family does not state yet and a card asks for. It prints as a blank box to fill in, never as a guess."""
    for family_id, made in context.benches.items():
        family = context.workshop.families[family_id]
        asked = [
            (card, tuple(missing(speaker_for(card, made)))) for card in context.whole_cards(next(iter(made.values())))
        ]
        count = len({title for _, titles in asked for title in titles})
        if count:
            cards = context.workshop.procedures
            said = f"{family.name} leaves {count} figure{'' if count == 1 else 's'} blank on its cards"
            listed = tuple(Related(cards[card].place, "; ".join(titles)) for card, titles in asked if titles)
            yield note("not-yet-known", said, family.place, related=listed)


def example(found: Mapping[str, float | str], speaker: Speaker) -> str:
    """A combination of readings as a person would say it: "ridge 0.16 mm, shadow even"."""
    return ", ".join(_said(name, value, speaker) for name, value in found.items()) or "any reading at all"


def _said(name: str, value: float | str, speaker: Speaker) -> str:
    meaning = speaker.first.lexicon.meanings.get(name)
    if meaning is None:
        return f"{name} = {value:g}" if isinstance(value, float) else f"{name}: {value}"
    title = lowered(meaning.title)
    if isinstance(value, str):
        return f"{title} {CardWording(speaker).choice_word(name, value)}"
    return f"{title} {speaker.in_words(name, known(value))}"


def _whose(family: str, members: Sequence[str]) -> str:
    """ "Curlew", "Curlew 2", "Curlew 1 and 2" or "Curlew 1 and 5 more"."""
    first, *more = dict.fromkeys(members)
    others = more[0] if len(more) == 1 else f"{len(more)} more"
    return f"{family} {first}".strip() + (f" and {others}" if more else "")


def _title(name: str, speaker: Speaker) -> str:
    meaning = speaker.first.lexicon.meanings.get(name)
    return name if meaning is None else lowered(meaning.title)


def _inherited(value: ValueSpec, why: Refused, scope: CardScope) -> bool:
    """Whether the refusal came from one of the values in the formula, where it is told."""
    assert value.formula is not None
    return any(cell.refused is why for name in names(value.formula.tree) for cell in scope.whole(name).cells.values())
