"""The ledger of printed cards."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from procgen.files.document import Cursor
from procgen.files.problems import Problem, warning
from procgen.load.reader import Reader, entries, items, word
from procgen.model.ledger import Ledger, Print, Said
from procgen.units.nearest import did_you_mean


def load_ledger(at: Cursor, reader: Reader) -> Ledger:
    prints = tuple(_print(one, reader) for one in items(at.known("printed")))
    return Ledger(prints, {(said.address, said.revision): said for said in _texts(at)})


def noted_names(ledger: Ledger, families: Collection[str], cards: Collection[str]) -> Iterator[Problem]:
    """Names that the workshop does not have: misspelt, or of what has left it while a card of it still hangs. No error,
    so that a family may leave.
    """
    told = set()
    for one in ledger.prints:
        named = (
            (f"a card of `{one.family}`", "family", one.family, families),
            (f"the card `{one.card}`", "procedure", one.card, cards),
        )
        for what, kind, id, known in named:
            if id not in known and what not in told and not one.down:
                told.add(what)
                message = f"{what} is noted as printed, but no {kind} has that id"
                hint = did_you_mean(id, known) or "take it down, and write `down:` with the day"
                yield warning("ledger-name", message, one.place, hint)


def _print(at: Cursor, reader: Reader) -> Print:
    return Print(
        family=word(at["family"]),
        card=word(at["card"]),
        revision=word(at["revision"]),
        stock=word(at.get("stock")),
        on=reader.day(at.get("on")),
        where=word(at.get("where")),
        down=reader.day(at.get("down")),
        place=at.place,
    )


def _texts(at: Cursor) -> Iterator[Said]:
    for key, text, place in entries(at.known("revisions")):
        family, card, revision = key.split("/")
        yield Said(family, card, revision, text.text().value, place)
