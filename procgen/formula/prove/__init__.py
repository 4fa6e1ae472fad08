"""Whether a decision always finds a branch, and which branches can be taken: for one family, variant and member."""

from __future__ import annotations

from procgen.formula.prove.decide import prove, settled
from procgen.formula.prove.ground import TOO_MANY, Case, Constant, Ground, Proof

__all__ = ["TOO_MANY", "Case", "Constant", "Ground", "Proof", "prove", "settled"]
