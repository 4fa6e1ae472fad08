"""Conditions as they are proved: every `not` worked inwards, every comparison a linear form against a constant."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction
from functools import lru_cache

from procgen.formula.prove.linear import Form
from procgen.values import dataclass

Nothing: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Word:
    """One of some of a choice's words: bit n of `mask` stands for the n-th of `options`."""

    key: str
    options: tuple[str, ...]
    mask: int
    spread: bool = False  # one for each of something the decision has not got
    waits: frozenset[str] = Nothing  # the unknowns it hangs on


@dataclass(frozen=True, slots=True)
class Level:
    """A form against a constant."""

    form: Form
    operator: str  # < <= > >=
    at: Fraction


@dataclass(frozen=True, slots=True)
class Every:
    """Holds where all parts do."""

    parts: tuple[Condition, ...]


@dataclass(frozen=True, slots=True)
class Some:
    """Holds where any part does."""

    parts: tuple[Condition, ...]


Condition = bool | Word | Level | Every | Some

OPPOSITE = {"<": ">=", "<=": ">", ">": "<=", ">=": "<"}
MIRRORED = {"<": ">", "<=": ">=", ">": "<", ">=": "<="}


def word(
    key: str, options: tuple[str, ...], mask: int, spread: bool = False, waits: frozenset[str] = Nothing
) -> Condition:
    """A test of a choice, or its outcome where none or all of its words will do."""
    if mask == 0 or mask == full(options):
        return mask != 0
    return Word(key, options, mask, spread, waits)


def compared(left: Fraction, operator: str, right: Fraction) -> bool:
    return {"<": left < right, "<=": left <= right, ">": left > right, ">=": left >= right}[operator]


def full(options: tuple[str, ...]) -> int:
    return (1 << len(options)) - 1


def every(parts: Iterable[Condition]) -> Condition:
    return _joined(Every, parts, True)


def some(parts: Iterable[Condition]) -> Condition:
    return _joined(Some, parts, False)


def _joined(kind: type[Every] | type[Some], parts: Iterable[Condition], neutral: bool) -> Condition:
    kept: dict[Condition, None] = {}
    for part in parts:
        if isinstance(part, bool):
            if part is not neutral:
                return part
        elif isinstance(part, kind):
            kept.update(dict.fromkeys(part.parts))
        else:
            kept[part] = None
    if len(kept) < 2:
        return next(iter(kept), neutral)
    return kind(tuple(kept))


def negated(condition: Condition) -> Condition:
    match condition:
        case bool():
            return not condition
        case Word(key, options, mask, spread, waits):
            return Word(key, options, full(options) ^ mask, spread, waits)
        case Level(form, operator, at):
            return Level(form, OPPOSITE[operator], at)
        case Every(parts):
            return Some(tuple(map(negated, parts)))
        case Some(parts):
            return Every(tuple(map(negated, parts)))


def atoms(condition: Condition) -> Iterator[Word | Level]:
    match condition:
        case Word() | Level():
            yield condition
        case Every(parts) | Some(parts):
            for part in parts:
                yield from atoms(part)


def spelled(condition: Condition) -> str:
    """A text that is the same for the same condition; readable where it must be shown."""
    match condition:
        case Word(key, options, mask):
            return f"{key} is {' or '.join(option for n, option in enumerate(options) if mask >> n & 1)}"
        case Level(form, operator, at):
            terms = " + ".join(name if share == 1 else f"{float(share):g} {name}" for name, share in form)
            return f"{terms} {operator} {float(at):.12g}"
        case Every(parts):
            return " and ".join(f"({spelled(part)})" for part in parts)
        case Some(parts):
            return " or ".join(f"({spelled(part)})" for part in parts)
        case _:
            return str(condition)


@lru_cache(maxsize=256)
def present(options: tuple[str, ...]) -> tuple[tuple[str, ...], tuple[int, ...]]:
    """What can be present where each of many is one of `options`: every set but the empty one, the small ones first.

    As words ("hone, bore") and as masks over `options`.
    """
    masks = sorted(range(1, 1 << len(options)), key=lambda m: (m.bit_count(), m))
    words = tuple(", ".join(option for n, option in enumerate(options) if m >> n & 1) for m in masks)
    return words, tuple(masks)


def any_present(condition: Word) -> Condition:
    """At least one of the many is among the words."""
    words, masks = present(condition.options)
    met = sum(1 << n for n, m in enumerate(masks) if m & condition.mask)
    return word(condition.key, words, met, waits=condition.waits)
