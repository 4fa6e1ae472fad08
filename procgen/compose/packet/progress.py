"""How far the deck is done for one engine."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from procgen.compose.spoken import Speaker
from procgen.formula import State
from procgen.model.card import Card, plain
from procgen.model.packet import BEGUN, DONE, UNCALLED, WAITING, Progress
from procgen.model.verdict import Verdict


def progress(cards: Iterable[Card], verdicts: Sequence[Verdict], speakers: Mapping[str, Speaker]) -> Iterator[Progress]:
    """Every stage, in the order of work. `cards`: the family's, whose revisions hang on the wall."""
    for card in cards:
        own = [verdict for verdict in verdicts if verdict.card == card.id]
        open_ = sum(not verdict.is_settled for verdict in own)
        yield Progress(
            stage=card.stage,
            card=card.id,
            title=card.title,
            state=_state(open_, len(own), card, speakers[card.id]),
            open=open_,
            revision=card.revision,
            hold="" if card.hold is None else plain(card.hold.text),
            signers=() if card.hold is None else card.hold.signers,
        )


def is_begun(speaker: Speaker) -> bool:
    """Whether anything was read for the card, or decided by a person."""
    readings, id = speaker.first.bench.readings, speaker.first.procedure.id
    assert readings is not None
    read = any(reported.session.card == id for reported in readings.all())
    return read or any(override.card == id for override in readings.job.overrides)


def _state(open_: int, decisions: int, card: Card, speaker: Speaker) -> str:
    if is_begun(speaker):
        return BEGUN if open_ else DONE
    if not decisions:
        return UNCALLED if _is_uncalled(card, speaker) else WAITING
    return WAITING if open_ else DONE


def _is_uncalled(card: Card, speaker: Speaker) -> bool:
    """Whether all that the card decides for its family hangs on what was decided otherwise: a bore when all are honed.

    What only waits, as a bore does for its pistons, is false; what hangs on a decision that is not made does not apply.
    """
    scope = speaker.first
    decisions = scope.procedure.decisions.values()
    states = {scope.applies(one.when, bound).state for one in decisions for bound in scope.indices(one.each)}
    return states == {State.NONE} and any(step.decisions for step in card.steps)
