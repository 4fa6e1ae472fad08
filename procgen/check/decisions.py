"""Decisions: does every combination of readings find a branch, and can every branch be taken?"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping

from procgen.check.context import Context
from procgen.compose import CardScope, Proven
from procgen.compose.card import missing, speaker_for
from procgen.compose.spoken import Speaker
from procgen.compose.wording import CardWording
from procgen.files.problems import Problem, Related, error, note
from procgen.formula import Refused, known, names
from procgen.formula.prove import TOO_MANY
from procgen.formula.words import lowered
from procgen.model.procedure import Decision, ValueSpec

Found = tuple[Proven, Speaker]


def gaps(context: Context) -> Iterator[Problem]:
    """A decision that leaves a combination of readings without a branch, told by an example. Add a branch, widen one,
    or say under `impossible` why it can't be. Where the family does not state a limit yet, the proof stays open.
    """
    told: dict[tuple[Decision, str, str], list[str]] = defaultdict(list)
    for proven, speaker in _proofs(context):
        proof = proven.proof
        if proof.status == "gap":
            what = example(proof.example, speaker)
            told[proven.decision, "gap", f"no branch of `{proven.decision.name}` for {what}"].append(
                _whose(proven, speaker)
            )
        elif proof.status == "open":
            waits = "; ".join(_title(name, speaker) for name in proof.waits_for)
            message = f"whether `{proven.decision.name}` is complete waits for {waits}"
            told[proven.decision, "open-decision", message].append(speaker.first.bench.family.name)
        if proof.falls_to_otherwise is not None:
            what = example(proof.falls_to_otherwise, speaker)
            message = f"`otherwise` of `{proven.decision.name}` takes, for example, {what}"
            told[proven.decision, "otherwise", message].append(speaker.first.bench.family.name)
    for (decision, code, message), families in told.items():
        whole = f"{message} ({', '.join(dict.fromkeys(families))})"
        if code == "gap":
            yield error(code, whole, decision.place, "add a branch for it, or state why it is impossible")
        else:
            yield note(code, whole, decision.place)


def unreachable(context: Context) -> Iterator[Problem]:
    """A branch that no reading reaches in any family: the branches before it take everything it would."""
    taken: dict[tuple[str, str], set[str]] = defaultdict(set)
    decisions: dict[tuple[str, str], Decision] = {}
    for proven, _ in _proofs(context):
        key = (proven.card, proven.decision.name)
        if TOO_MANY in proven.proof.waits_for:  # not all that it reaches was found
            taken[key] |= {branch.id for branch in proven.decision.branches}
        decisions[key] = proven.decision
        taken[key] |= proven.proof.taken
    for key, decision in decisions.items():
        for branch in decision.branches:
            if branch.id not in taken[key]:
                message = f"branch `{branch.id}` of `{decision.name}` is never taken, in any family"
                hint = "the branches before it take all of it: move it up, narrow them, or leave it out"
                yield error("unreachable", message, branch.place, hint)


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


def _proofs(context: Context) -> Iterator[Found]:
    for family, proofs in context.proofs.items():
        made = context.benches[family]
        for one in proofs:
            for card in context.whole_cards(one.bench):
                speaker = speaker_for(card, made)
                for proven in one.of_card(card):
                    yield proven, speaker


def _whose(proven: Proven, speaker: Speaker) -> str:
    member = " ".join(proven.member.values())
    family = speaker.first.bench.family.name
    return f"{family} {member}" if member else family


def _title(name: str, speaker: Speaker) -> str:
    meaning = speaker.first.lexicon.meanings.get(name)
    return name if meaning is None else lowered(meaning.title)


def _inherited(value: ValueSpec, why: Refused, scope: CardScope) -> bool:
    """Whether the refusal came from one of the values in the formula, where it is told."""
    assert value.formula is not None
    return any(cell.refused is why for name in names(value.formula.tree) for cell in scope.whole(name).cells.values())
