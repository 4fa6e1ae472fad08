"""Drawings on composed cards, and what of them belongs to a card's revision."""

from dataclasses import replace

import pytest

from procgen.compose.revision import dump, revision
from procgen.model.card import Card, Deck
from procgen.model.scene import Label, Path, Scene
from procgen.model.workshop import Workshop
from tests import demo


@pytest.fixture(scope="module")
def decks(workshop: Workshop) -> dict[str, Deck]:
    return dict(demo.decks())


def card(decks: dict[str, Deck], family: str, id: str) -> Card:
    return next(card for card in decks[family].cards if card.id == id)


def test_a_card_holds_just_the_scenes_of_its_steps(decks: dict[str, Deck]) -> None:
    for deck in decks.values():
        for one in deck.cards:
            assert set(one.scenes) == {key for step in one.steps for key in step.drawings}


def test_every_drawing_that_a_card_asks_for_is_made_for_some_family(decks: dict[str, Deck], workshop: Workshop) -> None:
    asked = {(id, step.id) for id, each in workshop.procedures.items() for step in each.steps if step.drawing}
    made = {(one.id, step.id) for deck in decks.values() for one in deck.cards for step in one.steps if step.drawings}
    assert len(asked) >= 12
    assert asked <= made


def test_variants_that_differ_are_drawn_each_under_its_name(decks: dict[str, Deck]) -> None:
    titles = [scene.title for scene in card(decks, "bittern", "cylinder-survey").scenes.values()]
    assert len(titles) == 2
    assert titles[0].endswith(", 5.1 litre")
    assert titles[1].endswith(", 5.5 litre")


def test_variants_that_agree_are_drawn_once(decks: dict[str, Deck]) -> None:
    assert len(card(decks, "bittern", "deck-face").scenes) == 1


def test_a_drawing_is_part_of_what_the_card_says(decks: dict[str, Deck]) -> None:
    one = card(decks, "curlew", "plug-map")
    said = "\n".join(dump(one))
    for scene in one.scenes.values():
        assert scene.describe in said
        assert all(badge.name in said for badge in scene.badges)


def with_scene(one: Card, scene: Scene) -> Card:
    return replace(one, scenes={**one.scenes, scene.id: scene})


def test_moving_a_line_by_a_tenth_is_another_revision_and_by_a_hundredth_is_not(decks: dict[str, Deck]) -> None:
    one = card(decks, "bittern", "deck-face")
    (scene,) = one.scenes.values()

    def moved(by: float) -> Card:
        line = next(shape for shape in scene.shapes if isinstance(shape, Path) and shape.role == "accent")
        points = ((line.points[0][0] + by, line.points[0][1]), *line.points[1:])
        shapes = tuple(replace(shape, points=points) if shape is line else shape for shape in scene.shapes)
        return with_scene(one, replace(scene, shapes=shapes))

    assert revision(moved(0.2)) != one.revision
    assert revision(moved(0.001)) == one.revision


def test_another_word_on_a_drawing_is_another_revision(decks: dict[str, Deck]) -> None:
    one = card(decks, "bittern", "deck-face")
    (scene,) = one.scenes.values()
    changed = replace(scene, labels=(*scene.labels, Label((0.0, 0.0), words=("more",))))
    assert revision(with_scene(one, changed)) != one.revision


def test_each_family_whose_sizes_are_known_has_its_outline(decks: dict[str, Deck]) -> None:
    assert {id for id, deck in decks.items() if deck.family.outline is not None} == set(decks) - {"grebe"}
