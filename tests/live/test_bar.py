"""The bar at the foot of a page: what it says of a figure and its limit."""

from __future__ import annotations

from engine import LIVE, run


def test_what_is_counted_is_told_without_a_limit_of_nought() -> None:
    bar = (LIVE / "bar.js").read_text()
    missing = {"value": 0, "value_text": "0", "limit": 0, "limit_text": "0", "limit_is": "most", "uncertainty": 0}
    wear = {"value": 0.077, "value_text": "0.077 mm", "limit": 0.08, "limit_text": "0.080 mm", "uncertainty": 0.004}
    asked = [
        missing,
        missing | {"value": 2, "value_text": "2"},
        wear | {"limit_is": "most"},
        wear | {"limit_is": "least"},
    ]
    said = run(f"{bar}\nconst answer = margin => Bar.amount(margin).join('')", asked)
    assert said == ["none", "2", "0.077 mm of ≤\u00a00.080 mm", "0.077 mm of ≥\u00a00.080 mm"]
