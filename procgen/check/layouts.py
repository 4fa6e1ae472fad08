"""A family's layout by geometry, and its traits."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from procgen.check.context import Context
from procgen.files.problems import Place, Problem, Related, error, warning
from procgen.model.family import Family, Passage, Plug, Variant, WaterPlug
from procgen.trade.layout import findings

Placed = Passage | Plug | WaterPlug | Variant


def geometry(context: Context) -> Iterator[Problem]:
    """A layout that cannot be: a passage without a length, one that misses what it names or meets what it doesn't, one
    that no opening reaches; a plug off its passage or too small for it, an end without its plug (and what that costs),
    a nose that shuts a crossing; a shell hole off its oil hole, a bearing that no oil reaches, a stack that does not
    add up.
    """
    for family in context.workshop.families.values():
        for finding in findings(family):
            places = [place_of(subject, family) for subject in finding.subject]
            first = finding.place or (places[0] if places else family.place)
            related = tuple(
                Related(place, " ".join(subject).replace("_", " "))
                for place, subject in zip(places, finding.subject, strict=True)
                if place.line != first.line
            )
            tell = warning if finding.is_doubtful else error
            yield tell(finding.code, f"{family.name}: {finding.message}", first, finding.hint, related)


def place_of(subject: tuple[str, str], family: Family) -> Place:
    """Where the family's file speaks of that thing; where the family begins, if it does not say."""
    kind, id = subject
    things: Mapping[str, Mapping[str, Placed]] = {
        "passage": family.passages,
        "plug": family.plugs,
        "core_plug": family.core_plugs,
        "drain_plug": family.drain_plugs,
        "variant": {variant.id: variant for variant in family.variants},
    }
    if id in things.get(kind, {}):
        return things[kind][id].place
    if kind in family.members and id in family.members[kind]:
        members = family.members[kind]
        stated = {fact.place for fact in members[id].values()}
        own = stated - {fact.place for other in members if other != id for fact in members[other].values()}
        return min(own or stated, default=family.place)  # its own line rather than that of `every`
    fact = family.fact(id)
    return family.place if fact is None else fact.place
