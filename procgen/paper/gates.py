"""What must hold of every card before it leaves the press. Each gate sees what the others miss."""

from __future__ import annotations

from typing import Any

from procgen.draw.fonts import Fonts
from procgen.files.problems import Problem
from procgen.model.card import Card, Shop
from procgen.model.workshop import Stock
from procgen.paper.fit import Fit
from procgen.paper.pack import Plan


def coverage(card: Card, shop: Shop, fonts: Fonts) -> tuple[Problem, ...]:
    return ()


def faces(card: Card, document: Any, fit: Fit, stock: Stock, plan: Plan, fonts: Fonts) -> tuple[Problem, ...]:
    return ()
