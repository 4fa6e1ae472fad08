"""What a part is made from is all told by its text: else a page could stay as it was though what it shows changed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, fields, is_dataclass, replace

import pytest
from made_up import DECKS, GUIDE, PRINTED, SHOP

from procgen.check.guide import guide
from procgen.compose import shop
from procgen.compose.packet import compose_packet
from procgen.draw.fonts import Fonts
from procgen.files.home import resources
from procgen.model.card import Deck
from procgen.model.workshop import Workshop
from procgen.web.offline import worker
from procgen.web.part import Part, Seals, seal
from procgen.web.site import Site, build
from procgen.web.tools import Tools, page
from tests import demo as shed


@pytest.fixture(scope="module")
def parts(fonts: Fonts, workshop: Workshop, demo_decks: tuple[Deck, ...]) -> list[Part]:
    packets = [compose_packet(workshop, job, shed.deck(job.family))[0] for job in workshop.jobs.values()]
    sites = (
        Site(SHOP, DECKS, PRINTED, GUIDE),
        Site(shop(workshop), demo_decks, (), guide(), workshop.ledger, packets),
    )
    tools = Tools(fonts, [resources("templates")])
    found: list[Part] = []

    def make(parts: Sequence[Part]) -> Sequence[Seals]:
        found.extend(parts)
        named_after_content = [part for part in parts if part.make.__module__.endswith("assets")]
        return [
            {path: seal(content) for path, content in part.made(tools).items()} if part in named_after_content else {}
            for part in parts
        ]

    for site in sites:
        build(site, fonts, make)
    return found


PLAIN = (str, bytes, int, float, bool, type(None))


def _hidden(thing: object) -> Iterator[str]:
    """What of a value its repr does not tell, or tells in no fixed order."""
    if type(thing) in PLAIN:
        return
    if type(thing) in (tuple, list):
        assert isinstance(thing, Sequence)
        for one in thing:
            yield from _hidden(one)
    elif type(thing) is dict:
        for key, value in thing.items():
            yield from (*_hidden(key), *_hidden(value))
    elif is_dataclass(thing) and type(thing).__repr__.__qualname__.endswith("__repr__"):
        text = repr(thing)
        for field in fields(thing):
            value = getattr(thing, field.name)
            if f"{field.name}={value!r}" not in text:
                yield f"{type(thing).__name__}.{field.name}"
            yield from _hidden(value)
    else:
        yield type(thing).__name__


def test_a_text_tells_all_that_a_part_is_made_from(parts: list[Part]) -> None:
    assert len(parts) > 300
    assert {hidden for part in parts for hidden in _hidden(part.values)} == set()


def test_makers_bring_nothing_along(parts: list[Part]) -> None:
    for make in {part.make for part in parts}:
        assert make.__closure__ is None
        assert make.__qualname__ == make.__name__  # a function of its module
        assert make.__module__.startswith("procgen.web.")


def test_another_value_is_another_text(parts: list[Part]) -> None:
    whole = next(part for part in parts if part.make is page and part.values[1] == "card.html")
    path, template, names = whole.values
    for name, value in names.items():
        assert replace(whole, values=(path, template, names | {name: (value,)})).text != whole.text
    assert replace(whole, values=(path, "family.html", names)).text != whole.text
    assert replace(whole, make=worker).text != whole.text


@dataclass(frozen=True)
class _Sealed:
    seen: int


def test_what_is_hidden_is_found() -> None:
    """The test's own measure."""

    class Own:
        pass

    assert list(_hidden((1, {"a": [_Sealed(2)]}))) == []
    assert list(_hidden(Own())) == ["Own"]
    assert list(_hidden(({1, 2},))) == ["set"]
