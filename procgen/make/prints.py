"""All the PDFs of a build: those that are known as they are, the others printed, the longest of a family first."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from functools import lru_cache, partial
from pathlib import Path
from typing import TYPE_CHECKING, Protocol

from procgen.files.problems import Place, Problem, error
from procgen.files.records import from_data, to_data
from procgen.make import causes, publish
from procgen.make.cache import Cache, digest
from procgen.make.kept import put_known
from procgen.make.pool import Failed, Workers
from procgen.make.printing import Asked, DeckJob, Piece, Printable, Said, Setting, SheetsJob, as_printed
from procgen.model.card import Card
from procgen.paper.lead import Listed
from procgen.values import dataclass

if TYPE_CHECKING:
    from procgen.model.packet import Packet


class Progress(Protocol):
    """Told how long work is getting on."""

    def more(self, count: int) -> None:
        """So many pieces more are to be done."""

    def step(self, what: str, count: int) -> None: ...

    def end(self) -> None: ...


@dataclass(frozen=True, slots=True)
class Batch:
    """Cards of one family; `deck` where they are all of its deck and go into one PDF too. `said`: by address."""

    family: str
    cards: tuple[Card, ...]
    deck: bool
    said: Mapping[str, Said]


@dataclass(frozen=True, slots=True)
class Known:
    """A piece whose files are written. `files`: digest of the content by path."""

    files: Mapping[str, str]
    problems: tuple[Problem, ...]
    faces: int = 0


class Printer:
    """Puts what is added in its place, at once where it is known, else when workers have printed it.

    `tree`: where files are written; None for a shard, whose cards go into the cache alone. `shard`
    as in an Order. `stamp`: of the templates, before workers read any.
    """

    def __init__(
        self,
        setting: Setting,
        cache: Cache,
        tree: Path | None,
        old: Path,
        workers: Workers[Asked, Piece],
        shard: tuple[int, int],
        progress: Progress,
        stamp: tuple[int, ...],
    ) -> None:
        self.setting = setting
        self.printed = 0
        self._found: dict[str, Known] = {}
        self._cache, self._tree, self._old = cache, tree, old
        self._workers, self._progress, self._stamp = workers, progress, stamp
        self._ground = ground(setting.templates, stamp)
        self._base = _base(setting, self._ground)
        self._shard, self._dealt = shard, 0

    def add(self, batch: Batch) -> None:
        """Cards of a family, and the deck that they are joined in once all are there."""
        keys = {card.address: digest("card", self._base, batch.said[card.address].digest) for card in batch.cards}
        new = [card for card in batch.cards if not self._take(keys[card.address], card.address)]
        left = {card.address for card in new}
        longest_first = sorted(batch.cards, key=lambda card: (-batch.said[card.address].length, card.address))
        ours = self._share(longest_first)
        todo = [card for card in ours if card.address in left]
        self._progress.more(len(todo))
        for card in todo:  # a card is much alike in all families
            come = partial(self._print, batch, left, card)
            self._put(card.address, keys[card.address], as_printed(card), come, card.id)
        if not new:
            self._bind(batch)
        self._workers.look()

    def add_packets(self, packets: Sequence[Packet]) -> None:
        for packet in packets:
            self._want(packet.address, self._packet_key(packet), packet)

    def known(self) -> Sequence[Known]:
        """All that was added, once workers have finished."""
        return [self._found[name] for name in sorted(self._found)]

    def _share(self, cards: Sequence[Card]) -> Sequence[Card]:
        """The k-th of n shares, of about the same length; everybody who adds the same in the same order deals alike."""
        which, shares = self._shard
        first = (which - 1 - self._dealt) % shares
        self._dealt += len(cards)
        return cards[first::shares]

    def _put(self, name: str, key: str, job: Printable, then: Callable[[], None] = lambda: None, kin: str = "") -> None:
        def come(piece: Piece | Failed) -> None:
            self._found[name] = _failed(name, piece.why) if isinstance(piece, Failed) else self._keep(key, piece)
            then()

        self._workers.put((self.setting, job, self._ground), come, kin)

    def _print(self, batch: Batch, left: set[str], card: Card) -> None:
        """A card came back; `left` are those of its batch that did not yet."""
        self.printed += 1
        self._progress.step(card.address, 1)
        left.remove(card.address)
        if not left:
            self._bind(batch)

    def _bind(self, batch: Batch) -> None:
        """The deck of a family whose cards are all there, and its sheets; a glance card has a sheet of its own."""
        if self._tree is None or not batch.deck:
            return
        known = [self._found[card.address] for card in batch.cards]
        paths = [path for one in known for path in one.files]
        if not paths or not all(one.files or not one.problems for one in known):  # one could not be printed
            return
        contents = [content for one in known for content in one.files.values()]
        code, files = causes.code(causes.JOINING), tuple(self._tree / path for path in paths)
        self._want(batch.family, digest("deck", self._base, code, *contents), DeckJob(batch.family, files))
        if not self.setting.glance:
            cards = tuple(
                Listed(card.title, card.revision, one.faces)
                for card, one in zip(batch.cards, known, strict=True)
                if one.files
            )
            key = digest("sheets", self._base, repr(self.setting.stock.place), repr(cards), *contents)
            job = SheetsJob(batch.family, batch.cards[0].family_name, cards, files)
            self._want(f"{batch.family} sheets", key, job)

    def _want(self, name: str, key: str, job: Printable) -> None:
        if not self._take(key, name):
            self._put(name, key, job)

    def _packet_key(self, packet: Packet) -> str:
        return digest("packet", self._base, causes.templates(self.setting.templates, ("packet",)), repr(packet))

    def _take(self, key: str, name: str) -> bool:
        """What the cache has, if it has it whole."""
        record = self._cache.get_record(key)
        if record is None:
            return False
        for path, content in record["files"].items():
            if put_known(self._cache, path, content, self._tree, self._old) is None:
                return False
        self._found[name] = Known(record["files"], from_data(record["problems"]), record["faces"])
        return True

    def _keep(self, key: str, piece: Piece) -> Known:
        files = {path: digest(content) for path, content in piece.files}
        if causes.stamp(self.setting.templates) == self._stamp:  # else nobody knows by which templates
            for path, content in piece.files:
                self._cache.keep(content, files[path])
            for name, content in piece.kept:
                self._cache.put(name, content)
            record = {"files": files, "faces": piece.faces, "problems": to_data(piece.problems)}
            self._cache.put_record(key, record)
        for path, content in piece.files:
            self._write(path, content)
        return Known(files, piece.problems, piece.faces)

    def _write(self, path: str, content: bytes) -> None:
        if self._tree is not None:
            publish.write(self._tree, path, content, self._old)


@lru_cache(maxsize=4)
def ground(folders: tuple[Path, ...], stamp: tuple[int, ...]) -> str:
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


def _failed(name: str, why: str) -> Known:
    hint = "this is a fault of procgen or of a template; the other cards do not depend on it"
    return Known({}, (error("printing-failed", f"{name} could not be printed: {why}", Place(name), hint),))
