"""How far the deck is done for one engine."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from procgen.compose.spoken import Speaker
from procgen.model.card import Card, plain
from procgen.model.packet import BEGUN, DONE, WAITING, Progress
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
            state=_state(open_, len(own), is_begun(speakers[card.id])),
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


def _state(open_: int, decisions: int, begun: bool) -> str:
    if not begun:
        return WAITING if open_ or not decisions else DONE
    return BEGUN if open_ else DONE
