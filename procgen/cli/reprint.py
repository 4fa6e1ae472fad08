"""`procgen reprint`: what hangs on walls and is superseded, by what changed."""

from __future__ import annotations

import json
import sys
from argparse import Namespace

from procgen.cli import PROBLEMS, SOUND
from procgen.cli.ways import check_workshop, tell
from procgen.cli.wrapping import wrapped
from procgen.compose import compose_deck
from procgen.files.reporters import as_json
from procgen.ledger.report import counted, data, lines
from procgen.ledger.standing import CURRENT, hanging

SUPERSEDED = 3


def run(words: Namespace) -> int:
    checked = check_workshop(words.workshop)
    if not checked.is_sound:
        problems = [problem for problem in checked.problems if problem.is_error]
        if words.json:
            print(as_json(problems), end="")
        else:
            tell(problems, checked.sources)
        return PROBLEMS
    assert checked.context is not None
    workshop = checked.workshop
    noted = {one.family for one in workshop.ledger.prints}
    decks = (
        compose_deck(workshop, family, checked.context.benches[id])
        for id, family in workshop.families.items()
        if id in noted
    )
    hung = list(hanging(workshop.ledger, {card.address: card for deck in decks for card in deck.cards}))
    if words.json:
        print(json.dumps(data(hung), ensure_ascii=False, indent=1))
    else:
        for line in lines(hung, {id: family.name for id, family in workshop.families.items()}):
            print(*wrapped(line), sep="\n")
        print(counted(hung), file=sys.stderr)
    return SOUND if all(one.state == CURRENT for one in hung) else SUPERSEDED
