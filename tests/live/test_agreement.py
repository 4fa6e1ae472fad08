"""The page judges as the command line does: verdict by verdict, in the same words, at every edge of every decision."""

from __future__ import annotations

import json
from dataclasses import asdict
from random import Random
from typing import Any

import pytest
from engine import run
from jobs import Content, as_file, judged, loaded, random_job

from procgen.model.verdict import Judged
from procgen.model.workshop import Workshop

JUDGE = """
function answer({ job, order }) {
  const pages = KNOWN[job.family]
  return order.filter(id => pages[id]).flatMap(id => {
    const { shared, cards } = pages[id]
    for (const one of Object.values(cards)) Object.assign(one, shared)
    return Verdicts.verdicts(new Bench(job, cards).scope(id), cards[id])
  })
}
"""


def on_the_page(jobs: list[Content], data: dict[str, Any], orders: list[list[str]]) -> list[list[Content]]:
    """The verdicts of each job's cards, each by what its own page has."""
    asked = [{"job": job, "order": order} for job, order in zip(jobs, orders, strict=True)]
    return run(JUDGE, asked, data)


def plainly(found: Judged) -> list[Content]:
    return [json.loads(json.dumps(asdict(verdict))) for verdict in found.verdicts]


def same(ours: Content, theirs: Content) -> None:
    theirs = {key: value for key, value in theirs.items() if key != "bound"}
    assert set(ours) == set(theirs)
    for key, value in ours.items():
        if key == "margins":
            assert len(value) == len(theirs[key]), (ours, theirs)
            for a, b in zip(value, theirs[key], strict=True):
                for name in a:
                    wanted = pytest.approx(a[name], rel=1e-9, abs=1e-9) if isinstance(a[name], float) else a[name]
                    assert b[name] == wanted, (name, a, b)
        else:
            assert theirs[key] == value, (key, ours, theirs)


@pytest.mark.parametrize("family", ["avocet", "bittern", "curlew", "dunlin", "grebe", "plover"])
def test_verdicts_of_jobs_at_random(family: str, workshop: Workshop, data: dict[str, Any]) -> None:
    random = Random(family)
    order = [card for card, _ in workshop.deck]
    jobs = [random_job(random, workshop, workshop.families[family], order, full) for full in (1.0, 0.97, 0.9, 0.6, 0.1)]
    seen = 0
    for job, found in zip(jobs, on_the_page(jobs, data, [order] * len(jobs)), strict=True):
        ours = plainly(judged(loaded(as_file(job), workshop), workshop))
        assert [(v["card"], v["decision"], v["member"]) for v in ours] == [
            (v["card"], v["decision"], v["member"]) for v in found
        ]
        for a, b in zip(ours, found, strict=True):
            same(a, b)
            seen += 1
    assert seen > 100


def test_depths_are_read_in_whatever_length_they_are_written(workshop: Workshop, data: dict[str, Any]) -> None:
    """NIST SP 811, B.8: an inch is 25.4 mm. A key in inches is that depth, on the page as on the command line."""
    sizes = {"3 mm": 98.402, "8": 98.46, "1 1/2 in": 98.44, "3 in": 98.43, "10.2 cm": 98.42, "4.8 in": 98.403}
    bore = {depth: {"thrust": f"{size} mm", "axial": f"{size - 0.06:.3f} mm"} for depth, size in sizes.items()}
    readings = {"cylinder": {"A1": {"shadow": "even", "wall": "sound", "thumbnail": "passes", "bore": bore}}}
    session = {"id": "survey", "card": "cylinder-survey", "gauge": {"bore": "bore_gauge_1"}, "readings": readings}
    job = {"id": "inches", "family": "bittern", "variant": "bittern-51", "build": "bittern-51", "gauges": {}}
    job |= {"sessions": [session], "overrides": []}
    ours = plainly(judged(loaded(as_file(job), workshop), workshop))
    ours = [verdict for verdict in ours if verdict["card"] == "cylinder-survey"]
    [found] = on_the_page([job], data, [["cylinder-survey"]])
    for a, b in zip(ours, found, strict=True):
        same(a, b)
    told = [line for verdict in ours for margin in verdict["margins"] for line in margin["readings"]]
    assert any("1 1/2 in" in line for line in told), told
