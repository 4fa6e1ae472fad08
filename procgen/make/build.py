"""Everything that a workshop gives: checked, composed, printed, written, and put in place at the end or not at all."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Protocol

from procgen.check import Context, check
from procgen.compose import compose_deck, shop
from procgen.files.home import resources
from procgen.files.problems import Problem
from procgen.load.workshop import load_workshop
from procgen.make import publish
from procgen.make.order import Order, refuse_unknown
from procgen.make.printing import Batch, PrintedBatch, Setting, card_path, deck_path, print_batches
from procgen.model.card import Deck
from procgen.model.workshop import Workshop

Read = Callable[[Path], bytes]


class Progress(Protocol):
    """Told how long work is getting on."""

    def start(self, total: int) -> None: ...

    def step(self, what: str, count: int) -> None: ...

    def end(self) -> None: ...


@dataclass(frozen=True, slots=True)
class Checked:
    """`context` is None where the workshop did not load."""

    context: Context | None
    problems: tuple[Problem, ...]
    sources: Mapping[str, str]

    @property
    def is_sound(self) -> bool:
        return self.context is not None and not any(problem.is_error for problem in self.problems)

    @property
    def workshop(self) -> Workshop:
        assert self.context is not None
        return self.context.workshop


@dataclass(frozen=True, slots=True)
class Made:
    checked: Checked
    problems: tuple[Problem, ...]
    pages: int = 0
    printed: Sequence[PrintedBatch] = ()

    @property
    def is_sound(self) -> bool:
        return self.checked.is_sound and not any(problem.is_error for problem in self.problems)


def read_and_check(root: Path, read: Read) -> Checked:
    loaded = load_workshop(root, read)
    sources = {path: content.decode("utf-8", "replace") for path, content in loaded.sources.items()}
    if loaded.workshop is None:
        return Checked(None, loaded.problems, sources)
    broken = {problem.place.path for problem in loaded.problems if problem.is_error}
    context, found = check(loaded.workshop, broken)
    problems = tuple(sorted({*loaded.problems, *found}, key=lambda problem: (problem.place, problem.message)))
    return Checked(context, problems, sources)


def make(order: Order, read: Read, progress: Progress) -> Made:
    """Check, and where that is sound, make what the order says. Old output stays as it is until all of it is there.

    Raises:
        UnknownName: for a card, family or stock in the order that the workshop does not have.
    """
    checked = read_and_check(order.root, read)
    if not checked.is_sound:
        return Made(checked, checked.problems)
    assert checked.context is not None
    refuse_unknown(order, checked.workshop)
    decks = [
        compose_deck(checked.workshop, family, checked.context.benches[id])
        for id, family in checked.workshop.families.items()
    ]
    batches = tuple(_batches(decks, order))
    printed = _print(batches, _setting(checked.workshop, order), order.workers, progress)
    problems = (*checked.problems, *(problem for one in printed for problem in one.problems))
    made = Made(checked, problems, 0, printed)
    return _written(made, decks, order) if made.is_sound else made


def _batches(decks: Sequence[Deck], order: Order) -> Iterator[Batch]:
    for deck in decks:
        cards = tuple(card for card in deck.cards if order.prints(deck.family.id, card.id))
        if cards:
            yield Batch(deck.family.id, cards, len(cards) == len(deck.cards))


def _setting(workshop: Workshop, order: Order) -> Setting:
    own = order.root / "templates"
    templates = (own, resources("templates")) if own.is_dir() else (resources("templates"),)
    stock = workshop.stocks[order.stock or workshop.stock]
    theme = order.theme or workshop.theme
    return Setting(shop(workshop), stock, workshop.read_from, theme, order.cache / "fonts", templates)


def _print(batches: Sequence[Batch], setting: Setting, workers: int, progress: Progress) -> list[PrintedBatch]:
    printed = []
    progress.start(sum(len(batch.cards) for batch in batches))
    if batches:
        for one in print_batches(batches, setting, workers):
            progress.step(one.batch.family, len(one.batch.cards))
            printed.append(one)
    progress.end()
    return sorted(printed, key=lambda one: one.batch.family)


def _written(made: Made, decks: Sequence[Deck], order: Order) -> Made:
    from procgen.draw.fonts import prepare
    from procgen.web import pages

    new = publish.fresh_tree(order.out)
    if order.is_partial and order.out.is_dir():
        publish.link_tree(order.out, new)
    for one in made.printed:
        for path, content in one.files:
            publish.write(new, path, content)
    written = 0
    if order.only != "cards":
        setting = _setting(made.checked.workshop, order)
        there = {path for deck in decks for path in _prints(deck) if (new / path).exists()}
        fonts = prepare(setting.fonts)
        for path, content in pages(setting.shop, decks, there, fonts=fonts, templates=setting.templates[:-1]):
            publish.write(new, path, content)
            written += 1
    publish.publish(new, order.out)
    return Made(made.checked, made.problems, written, made.printed)


def _prints(deck: Deck) -> Iterator[str]:
    yield deck_path(deck.family.id)
    yield from (card_path(deck.family.id, card.id) for card in deck.cards)
