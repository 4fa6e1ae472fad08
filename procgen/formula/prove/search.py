"""Every way through a decision: regions split at the first test that is undecided, until each has its branch."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import field

from procgen.formula.prove.eliminate import Row, TooMuch, feasible
from procgen.formula.prove.space import Axis, Region, Space, Test, look
from procgen.values import dataclass

MOST_WORK = 20_000
"""Splits, and rows of inequalities looked at: some tenths of a second."""


@dataclass
class Search:
    """`regions` yields those that end in each case; a case with nothing left to learn may be `closed` meanwhile."""

    space: Space
    work: int = 0
    closed: set[int] = field(default_factory=set)
    known: dict[tuple[int, ...], bool] = field(default_factory=dict)
    said: dict[tuple[int, int], list[Row]] = field(default_factory=dict)  # of an axis, by its number and the mask

    def regions(self) -> Iterator[tuple[int, Region]]:
        """(case, region) for each region that can be; case is len(cases) where none holds. Raises TooMuch."""
        count = len(self.space.cases)
        whole = tuple(variable.domain for variable in self.space.variables)
        if not all(whole) or not all(self.possible(whole, n) for n in range(len(self.space.groups))):
            return
        ahead = [(whole, 0)]
        while ahead:
            region, case = ahead.pop()
            if all(n in self.closed for n in range(case, count + 1)):
                continue
            found = look(self.space.cases[case], region) if case < count else True
            if isinstance(found, Test):
                ahead += [(part, case) for part in self.split(region, found)]
            elif not found:
                ahead.append((region, case + 1))
            elif case not in self.closed:
                for part in self.without_impossible(region):
                    yield case, part
                    if case in self.closed:
                        break

    def without_impossible(self, region: Region) -> Iterator[Region]:
        ahead = [(region, 0)]
        while ahead:
            region, statement = ahead.pop()
            if statement == len(self.space.impossible):
                yield region
                continue
            found = look(self.space.impossible[statement], region)
            if isinstance(found, Test):
                ahead += [(part, statement) for part in self.split(region, found)]
            elif not found:
                ahead.append((region, statement + 1))

    def split(self, region: Region, test: Test) -> list[Region]:
        """The parts outside and inside a test; only those that can be."""
        self.spend(1)
        here = region[test.variable]
        variable = self.space.variables[test.variable]
        parts = []
        for mask in (here & ~test.mask, here & test.mask):
            part = (*region[: test.variable], mask, *region[test.variable + 1 :])
            if not isinstance(variable, Axis) or variable.group < 0 or self.possible(part, variable.group):
                parts.append(part)
        return parts

    def possible(self, region: Region, group: int) -> bool:
        """Whether a group's axes can be in their cells all at once."""
        key = (group, *(region[n] for n in self.space.groups[group].axes))
        if key not in self.known:
            rows = self.rows(region, group)
            self.spend(len(rows))
            self.known[key] = feasible(rows)
        return self.known[key]

    def rows(self, region: Region, group: int) -> list[Row]:
        """What a region says of a group's symbols."""
        rows = list(self.space.groups[group].always)
        for n in self.space.groups[group].axes:
            axis = self.space.variables[n]
            if isinstance(axis, Axis) and region[n] != axis.domain:
                if (n, region[n]) not in self.said:
                    self.said[n, region[n]] = axis.rows(region[n])
                rows += self.said[n, region[n]]
        return rows

    def spend(self, work: int) -> None:
        self.work += work
        if self.work > MOST_WORK:
            raise TooMuch
