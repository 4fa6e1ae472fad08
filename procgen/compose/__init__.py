"""(workshop, family, variants) -> a Deck of Cards, with every number, branch and amendment settled."""

from procgen.compose import figures
from procgen.compose.bench import Bench
from procgen.compose.card import compose_card, stage_of
from procgen.compose.deck import benches, compose_deck, enlivened, lives, shop
from procgen.compose.jobs import job_bench, judge
from procgen.compose.lexicon import Lexicon, Lexicons
from procgen.compose.proofs import Proofs, Proven
from procgen.compose.scope import CardScope

__all__ = [
    "Bench",
    "CardScope",
    "Lexicon",
    "Lexicons",
    "Proofs",
    "Proven",
    "benches",
    "compose_card",
    "compose_deck",
    "enlivened",
    "figures",
    "job_bench",
    "judge",
    "lives",
    "shop",
    "stage_of",
]
