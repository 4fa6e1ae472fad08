"""Verdicts for machines: what `procgen job --json` prints, by schemas/verdicts.json. Numbers in base units."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict
from typing import Any

from procgen.model.packet import Packet
from procgen.model.verdict import Judged, Margin, Verdict

FORMAT = "verdicts/1"


def record(packet: Packet, judged: Judged) -> dict[str, Any]:
    """By schemas/verdicts.json. Sizes in base units: mm, kg, s, K, degree."""
    job = judged.job
    return {
        "format": FORMAT,
        "job": {
            "id": job.id,
            "title": packet.title,
            "family": job.family,
            "found": job.found,
            "built": job.built,
        },
        "settled": packet.is_settled,
        "sentence": packet.sentence,
        "rule": packet.rule,
        "verdicts": [_verdict(verdict) for verdict in judged.verdicts],
        "queries": list(packet.queries),
        "shells_out": list(packet.shells_out),
        "buy": [asdict(purchase) for purchase in packet.purchases],
        "progress": [
            {
                "stage": one.stage.number,
                "card": one.card,
                "title": one.title,
                "state": one.state,
                "open": one.open,
                "revision": one.revision,
            }
            for one in packet.progress
        ],
        "before": [_listed(asdict(before)) for before in packet.befores],
    }


def _verdict(verdict: Verdict) -> dict[str, Any]:
    return {
        "card": verdict.card,
        "decision": verdict.decision,
        "title": verdict.title,
        "each": verdict.each,
        "member": verdict.member,
        "state": verdict.state,
        "outcomes": [{"branch": branch, "action": action} for branch, action in verdict.outcomes],
        "detail": verdict.detail,
        "margins": [_margin(margin) for margin in verdict.margins],
        "waits_for": list(verdict.waits_for),
        "settles": verdict.settles,
        "by": verdict.by,
        "reason": verdict.reason,
        "against": verdict.against,
    }


def _margin(margin: Margin) -> dict[str, Any]:
    return _listed(asdict(margin))


def _listed(map_: dict[str, Any]) -> dict[str, Any]:
    """With lists where it has tuples."""
    return {key: list(value) if isinstance(value, Sequence) and not isinstance(value, str) else value
            for key, value in map_.items()}  # fmt: skip
