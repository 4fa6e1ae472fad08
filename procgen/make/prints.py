"""All the PDFs of a build: those that are known as they are, the others printed, the longest first."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Protocol

from procgen.files.problems import Place, Problem, error
from procgen.files.records import from_data, to_data
from procgen.make import causes, publish
from procgen.make.cache import Cache, digest
from procgen.make.pool import Failed, Workers
from procgen.make.printing import Asked, DeckJob, Piece, Printable, Setting
from procgen.model.card import Card

if TYPE_CHECKING:
    from procgen.model.packet import Packet


class Progress(Protocol):
    """Told how long work is getting on."""

    def start(self, total: int) -> None: ...

    def step(self, what: str, count: int) -> None: ...

    def end(self) -> None: ...


@dataclass(frozen=True, slots=True)
class Batch:
    """Cards of one family; `deck` where they are all of its deck and go into one PDF too."""

    family: str
    cards: tuple[Card, ...]
    deck: bool


@dataclass(frozen=True, slots=True)
class Known:
    """A piece whose files are written. `files`: digest of the content by path."""

    files: Mapping[str, str]
    problems: tuple[Problem, ...]
    faces: int = 0


@dataclass(slots=True)
class Printer:
    """`tree`: where files are written; None for a shard, whose cards go into the cache alone. `shard`
    as in an Order. `stamp`: of the templates, before workers read any."""

    setting: Setting
    cache: Cache
    tree: Path | None
    old: Path
    workers: Workers[Asked, Piece]
    shard: tuple[int, int]
    progress: Progress
    stamp: tuple[int, ...]
    printed: int = 0
    _base: str = ""
    _ground: str = ""

    def all(self, batches: Sequence[Batch], packets: Sequence[Packet] = ()) -> Mapping[str, Known]:
        """What each card and packet (by its address) and each deck (by its family's id) came to."""
        ground = _ground(self.setting.templates, self.stamp)
        self._base, self._ground = _base(self.setting, ground), ground
        found: dict[str, Known] = {}
        batches = [replace(batch, cards=tuple(map(_as_printed, batch.cards))) for batch in batches]
        cards = {card.address: card for batch in batches for card in batch.cards}
        keys, length = {}, {}
        for address, card in cards.items():
            text = repr(card)
            keys[address], length[address] = digest("card", self._base, text), len(text)
        self._take(keys, found)
        ours = _share(sorted(cards, key=lambda one: (-length[one], one)), self.shard)
        todo = {one: cards[one] for one in ours if one not in found}
        self.progress.start(len(todo))
        self._run(todo, keys, found)
        self.progress.end()
        if self.tree is not None:
            decks = dict(self._decks([batch for batch in batches if batch.deck], found))
            keys = {family: self._deck_key(job, found) for family, job in decks.items()}
            self._take(keys, found)
            self._run({family: job for family, job in decks.items() if family not in found}, keys, found)
            keys = {packet.address: self._packet_key(packet) for packet in packets}
            self._take(keys, found)
            self._run({one.address: one for one in packets if one.address not in found}, keys, found)
        return found

    def _decks(self, batches: Sequence[Batch], found: Mapping[str, Known]) -> Iterator[tuple[str, DeckJob]]:
        """Those whose cards are all there."""
        assert self.tree is not None
        for batch in batches:
            known = [found[card.address] for card in batch.cards]
            paths = [path for one in known for path in one.files]
            cards = tuple(card for card, one in zip(batch.cards, known, strict=True) if one.files)
            if paths and all(one.files or not one.problems for one in known):  # else one could not be printed
                files = tuple(self.tree / path for path in paths)
                yield batch.family, DeckJob(cards, files, tuple(one.faces for one in known if one.files))

    def _deck_key(self, job: DeckJob, found: Mapping[str, Known]) -> str:
        cards = [name for card in job.cards for name in found[card.address].files.values()]
        said = [f"{card.title}\n{card.revision}" for card in job.cards]  # on the page that goes before the sheets
        place = repr(self.setting.stock.place)
        return digest("deck", self._base, causes.code(causes.JOINING), place, *said, *cards)

    def _packet_key(self, packet: Packet) -> str:
        return digest("packet", self._base, causes.templates(self.setting.templates, ("packet",)), repr(packet))

    def _take(self, keys: Mapping[str, str], found: dict[str, Known]) -> None:
        """What the cache has."""
        for name, key in keys.items():
            record = self.cache.get_record(key)
            if record is None:
                continue
            contents = {path: self.cache.get(content) for path, content in record["files"].items()}
            if all(content is not None for content in contents.values()):
                for path, content in contents.items():
                    self._write(path, content or b"")
                found[name] = Known(record["files"], from_data(record["problems"]), record["faces"])

    def _run(self, jobs: Mapping[str, Printable], keys: Mapping[str, str], found: dict[str, Known]) -> None:
        if not jobs:
            return
        names = list(jobs)
        kin = [job.id if isinstance(job, Card) else "" for job in jobs.values()]  # a card is much alike in all families
        for index, piece in self.workers.run([(self.setting, job, self._ground) for job in jobs.values()], kin):
            name = names[index]
            found[name] = _failed(name, piece.why) if isinstance(piece, Failed) else self._keep(keys[name], piece)
            if isinstance(jobs[name], Card):
                self.printed += 1
                self.progress.step(name, 1)

    def _keep(self, key: str, piece: Piece) -> Known:
        files = {path: digest(content) for path, content in piece.files}
        if causes.stamp(self.setting.templates) == self.stamp:  # else nobody knows by which templates
            for _, content in piece.files:
                self.cache.keep(content)
            for name, content in piece.kept:
                self.cache.put(name, content)
            record = {"files": files, "faces": piece.faces, "problems": to_data(piece.problems)}
            self.cache.put_record(key, record)
        for path, content in piece.files:
            self._write(path, content)
        return Known(files, piece.problems, piece.faces)

    def _write(self, path: str, content: bytes) -> None:
        if self.tree is not None:
            publish.write(self.tree, path, content, self.old)


@lru_cache(maxsize=4)
def _ground(folders: tuple[Path, ...], stamp: tuple[int, ...]) -> str:
    """What all that is laid out depends on, in any setting. `stamp`: of the `folders` of templates."""
    return digest(
        causes.code(causes.PRINTING),
        causes.templates(folders, ("cards", "drawings")),
        causes.fonts(),
        causes.libraries(),
    )


def _base(setting: Setting, ground: str) -> str:
    """What all cards of a printing depend on."""
    stock = replace(setting.stock, place=Place(""))
    said = (setting.shop, stock, setting.read_from, setting.theme, setting.sheets, setting.folder, setting.glance)
    return digest(ground, repr(said))


def _as_printed(card: Card) -> Card:
    """Without what only its page shows, which is much to send to a worker."""
    return replace(card, origins={}, live=None)


def _share(names: Sequence[str], shard: tuple[int, int]) -> Sequence[str]:
    """The k-th of n parts of about the same length; everybody who is asked deals the same way."""
    which, parts = shard
    return names[which - 1 :: parts]


def _failed(name: str, why: str) -> Known:
    hint = "this is a fault of procgen or of a template; the other cards do not depend on it"
    return Known({}, (error("printing-failed", f"{name} could not be printed: {why}", Place(name), hint),))
