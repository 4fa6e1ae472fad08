"""Verdicts on ten thousand bores against a calculation written here from the rules, vectorised, without procgen.

Each stands in a job as a cylinder of an engine, judged by the shop's own survey card, and is drawn about the limits, so
that many lie close. The calculation: ridge, out-of-round and taper from the sizes; U of a difference by
squares of each reading's own error; guarded comparison (ISO 14253-1); first branch that holds.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from procgen.compose import Bench
from procgen.compose.readings import Readings
from procgen.files.problems import Place
from procgen.model.job import Job, Session, Taken
from procgen.units.dimension import LENGTH
from procgen.units.quantity import parse_quantity
from tests.packets.shed import workshop

COUNT, ENGINE = 10_000, 4
DEPTHS = ("3", "12", "40", "75", "105", "120")  # of a Bittern: one above ring travel, four in it, one below
INSIDE = slice(1, 5)
STEP = 0.001
OWN = 0.0023  # U of a difference of two readings at one setting, mm
RIDGE_CLEAR, RIDGE_MAX, ROUND_MAX, TAPER_MAX, WEAR_LEFT = 0.127, 0.1524, 0.05, 0.08, 0.020
NOWHERE = Place("drawn")
WORDS = {"shadow": ("even", "uneven"), "wall": ("sound", "scored", "cracked"), "thumbnail": ("passes", "catches"),
         "hatch": ("worn", "whole")}  # fmt: skip
LIKELY = {"shadow": (0.97, 0.03), "wall": (0.97, 0.02, 0.01), "thumbnail": (0.97, 0.03), "hatch": (0.8, 0.2)}


def drawn(seed: int = 1) -> tuple[np.ndarray, dict[str, np.ndarray]]:
    """Sizes by bore, depth and way across, as a gauge shows them; and what was seen, as the place of the word."""
    rng = np.random.default_rng(seed)
    wear = rng.uniform(0.0, 0.17, COUNT)
    fall = np.array([1.0, 0.72, 0.5, 0.35])
    taper = rng.uniform(0.0, 1.0, (COUNT, 1))
    across = 98.408 + wear[:, None] * (1 - taper * (1 - fall))
    oval = rng.uniform(0.0, 0.058, (COUNT, 4)) * rng.uniform(0.2, 1.0, (COUNT, 1))
    sizes = np.empty((COUNT, 6, 2))
    sizes[:, INSIDE, 0], sizes[:, INSIDE, 1] = across, across - oval
    sizes[:, 0, :] = 98.408 + rng.uniform(0.0, 0.01, (COUNT, 2))
    sizes[:, 5, :] = 98.408 + rng.uniform(-0.001, 0.001, (COUNT, 2))
    seen = {name: rng.choice(len(words), COUNT, p=LIKELY[name]) for name, words in WORDS.items()}
    return np.round(sizes / STEP) * STEP, seen


def independent(sizes: np.ndarray, seen: dict[str, np.ndarray]) -> tuple[np.ndarray, np.ndarray]:
    """For each bore the branches that may be the first to hold, as bits of ORDER; and whether one alone may."""
    inside = sizes[:, INSIDE, :]
    out_of_round = np.abs(inside[..., 0] - inside[..., 1]).max(1)
    taper = np.ptp(inside, axis=1).max(1)
    ridge = inside[..., 0].max(1) - sizes[:, 0, 0]
    largest = inside.reshape(COUNT, -1).max(1)
    wear = largest - sizes[:, 5, :].mean(1)
    u_wear = OWN / np.sqrt(2) * np.sqrt(1.5)  # one reading less the mean of two

    def above(value: np.ndarray, limit: float, u: float = OWN) -> tuple[np.ndarray, np.ndarray]:
        """(surely above, possibly above): at U above the limit it is still too close, at U below it is inside."""
        over = np.round(value - limit, 9)
        return over > np.round(u, 9) + 1e-6, over > -np.round(u, 9) + 1e-6

    def either(*parts: tuple[np.ndarray, np.ndarray]) -> tuple[np.ndarray, np.ndarray]:
        return np.any([sure for sure, _ in parts], axis=0), np.any([may for _, may in parts], axis=0)

    def plain(truth: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        return truth, truth

    stop = plain(seen["wall"] == 2)
    bore = either(
        plain((seen["thumbnail"] == 1) | (seen["shadow"] == 1) | (seen["wall"] == 1)),
        above(ridge, RIDGE_MAX), above(out_of_round, ROUND_MAX), above(taper, TAPER_MAX),
    )  # fmt: skip
    ask = above(ridge, RIDGE_CLEAR)
    worn_sure, worn_may = above(wear, WEAR_LEFT, u_wear)
    whole = seen["hatch"] == 1
    leave = whole & ~worn_may, whole & ~worn_sure
    hone = ~whole | worn_sure, ~whole | worn_may
    left = np.ones(COUNT, bool)  # no branch before surely holds
    possible = np.zeros((COUNT, 5), bool)
    for number, (sure, may) in enumerate((stop, bore, ask, leave, hone)):
        possible[:, number] = left & may
        left &= ~sure
    return possible, possible.sum(1) == 1


ORDER = ("stop", "bore", "ask", "leave", "hone")


def judged(sizes: np.ndarray, seen: dict[str, np.ndarray]) -> list[tuple[str, ...]]:
    """By procgen: the branches still possible of each bore, in engines of ENGINE cylinders."""
    shop = workshop()
    family = shop.families["bittern"]
    names = [str(n) for n in range(ENGINE)]
    many = replace(family, members={**family.members, "cylinder": {name: {} for name in names}})
    first = Bench(shop, many, many.variants[0])
    whole = np.rint(sizes * 1000).astype(int)
    quantities = {n: parse_quantity(f"{n / 1000:.3f} mm", LENGTH) for n in np.unique(whole).tolist()}
    travel = (Taken("gear", (), "original", NOWHERE), Taken("ridge_seen", (), "there", NOWHERE))
    found: list[tuple[str, ...]] = []
    for start in range(0, len(sizes), ENGINE):
        taken = [Taken("ring_plan", (), "old", NOWHERE)]
        for n, name in enumerate(names, start=start):
            taken += [Taken(word, (name,), words[seen[word][n]], NOWHERE) for word, words in WORDS.items()]
            for depth, pair in zip(DEPTHS, whole[n].tolist(), strict=True):
                for way, size in zip(("thrust", "axial"), pair, strict=True):
                    taken.append(Taken("bore", (name, depth, way), quantities[size], NOWHERE))
        sessions = (
            Session("travel", "travel", "", "", None, {}, travel, NOWHERE),
            Session("survey", "cylinder-survey", "", "", None, {"bore": "bore_gauge_1"}, tuple(taken), NOWHERE),
        )
        job = Job("many", "", "bittern", "bittern-51", "bittern-51", NOWHERE, gauges=shop.gauges, sessions=sessions)
        bench = Bench(shop, many, many.variants[0], Readings(job, shop.procedures, shop.guard))
        bench.procedures, bench.lexicons = first.procedures, first.lexicons  # the same for all of them
        card = bench.card("cylinder-survey")
        decision = card.procedure.decisions["hone_or_bore"]
        found += [card.possible(decision, {"cylinder": name})[0] for name in names]
    return found


@pytest.fixture(scope="module")
def bores() -> tuple[np.ndarray, dict[str, np.ndarray]]:
    return drawn()


def test_ten_thousand_bores(bores: tuple[np.ndarray, dict[str, np.ndarray]]) -> None:
    possible, _ = independent(*bores)
    found = judged(*bores)
    expected = [tuple(name for name, may in zip(ORDER, row, strict=True) if may) for row in possible]
    differing = [n for n in range(COUNT) if found[n] != expected[n]]
    told = [(n, found[n], expected[n], bores[0][n].tolist()) for n in differing[:3]]
    assert differing == [], told
    outcomes = {name: sum(one == (name,) for one in found) for name in ORDER}
    assert min(outcomes.values()) > 30, outcomes  # each branch is put to the test
    assert sum(len(one) > 1 for one in found) > 300  # and so is what lies close
