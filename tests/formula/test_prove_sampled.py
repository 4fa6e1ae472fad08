"""Random small decisions: the proof against trying them out by the thousand, by an evaluator of the tests' own.

No published proofs of such tables are at hand; what holds the prover is that a sample cannot be argued with.
"""

from __future__ import annotations

from itertools import combinations_with_replacement, product

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from proving import Facts, branch, filled, proof, tree, true

from procgen.formula.prove import prove
from procgen.formula.prove.ground import Case
from procgen.model.formula import Not

FACTS = Facts(
    {"a": 1.0, "b": 2.5, "c": 4.0},
    {"p": ("red", "green", "blue"), "q": ("shut", "open")},
    {"v": "x - y", "w": "x + y / 2 + a", "o": "abs(x - y)", "m": "max(x, y, b)", "k": "b if q is open else x"},
)
GRID = [{"x": x / 2, "y": y / 2, "p": p, "q": q} for x, y, p, q in product(range(-6, 15), range(-6, 15),
        FACTS.choices["p"], FACTS.choices["q"])]  # fmt: skip
SAMPLES = [filled(FACTS, at) for at in GRID]

numbers = st.sampled_from(["x", "y", "v", "w", "o", "m", "k", "x - 2 * y", "2 * v"])
limits = st.sampled_from(["a", "b", "c", "0", "y", "a + b", "v"])
levels = st.builds("{} {} {}".format, numbers, st.sampled_from(["<", "<=", ">", ">="]), limits)
words = st.sampled_from(["p is red", "p in (green, blue)", "p is not blue", "q is shut", "q is not shut"])
plain = st.one_of(levels, words, levels)
conditions = st.recursive(
    plain,
    lambda inner: st.one_of(
        st.builds("({} and {})".format, inner, inner),
        st.builds("({} or {})".format, inner, inner),
        st.builds("(not {})".format, inner),
    ),
    max_leaves=4,
)
tables = st.lists(conditions, min_size=1, max_size=5).map(lambda whens: {f"b{n}": w for n, w in enumerate(whens)})
often = settings(max_examples=150, suppress_health_check=[HealthCheck.too_slow], derandomize=True)


@often
@given(tables)
def test_a_proof_agrees_with_every_sample(table: dict[str, str | None]) -> None:
    found = proof(table, FACTS)
    taken = {branch(table, at) for at in SAMPLES[::13]}
    assert found.status in ("proved", "gap")
    if found.status == "proved":
        assert None not in taken
    else:
        assert branch(table, filled(FACTS, {**GRID[0], **found.example})) is None
        assert branch(table, filled(FACTS, {**GRID[-1], **found.example})) is None
    assert found.taken >= taken - {None}


@often
@given(tables)
def test_each_branch_said_to_be_taken_has_a_witness(table: dict[str, str | None]) -> None:
    """Its witness is what the branches before it leave, with all impossible but what it asks for."""
    found = proof(table, FACTS)
    names = list(table)
    for name in found.taken:
        before = {other: table[other] for other in names[: names.index(name)]}
        wanted = tree(str(table[name]))
        given_it = prove([Case(n, tree(str(w))) for n, w in before.items()], FACTS, (Not(wanted, 0),))
        assert given_it.status == "gap"
        at = filled(FACTS, {**GRID[0], **given_it.example})
        assert true(wanted, at)
        assert branch(before, at) is None


@often
@given(tables, conditions)
def test_what_is_impossible_is_never_an_example(table: dict[str, str | None], statement: str) -> None:
    found = proof(table, FACTS, statement)
    left = [at for at in SAMPLES[::31] if not true(tree(statement), at)]
    taken = {branch(table, at) for at in left}
    assert found.taken >= taken - {None}
    if found.status == "gap":
        at = filled(FACTS, {**GRID[0], **found.example})
        assert branch(table, at) is None
        assert not true(tree(statement), at)
    else:
        assert None not in taken


@often
@given(tables)
def test_what_falls_into_otherwise_does(table: dict[str, str | None]) -> None:
    found = proof({**table, "rest": None}, FACTS)
    assert found.status == "proved"
    assert (found.falls_to_otherwise is not None) == ("rest" in found.taken) == (proof(table, FACTS).status == "gap")
    if found.falls_to_otherwise is not None:
        assert branch(table, filled(FACTS, {**GRID[0], **found.falls_to_otherwise})) is None


MANY = Facts({"a": 1.0, "b": 2.5}, {"p": ("red", "green", "blue"), "t": ("on", "off")}, {}, many=frozenset({"p", "x"}))
ONE_OF_MANY = [{"x": x, "p": p} for x in (0.0, 1.0, 2.0, 2.5, 3.0) for p in MANY.choices["p"]]
ALL_TOGETHER = (
    list(combinations_with_replacement(ONE_OF_MANY, 2)) + list(combinations_with_replacement(ONE_OF_MANY, 3))[::5]
)

of_one = st.sampled_from(
    [
        "p is red",
        "p in (green, blue)",
        "x > a",
        "x <= b",
        "p is blue and x < b",
        "p is not green or x >= a",
        "x > a and t is on",
    ]
)
of_all = st.builds("{}{}({})".format, st.sampled_from(["", "not "]), st.sampled_from(["any", "all"]), of_one)
whole = st.one_of(of_all, of_all, st.builds("({} and {})".format, of_all, st.sampled_from(["t is on", "t is off"])))


def met(when: str, members: tuple[dict[str, float | str], ...], shared: dict[str, float | str]) -> bool:
    """`when` with each any(...) and all(...) in it worked out first."""
    for function, combine in (("any", any), ("all", all)):
        while (start := when.find(f"{function}(")) >= 0:
            depth, end = 1, start + 4
            while depth:
                depth += {"(": 1, ")": -1}.get(when[end], 0)
                end += 1
            inner = tree(when[start + 4 : end - 1])
            holds = combine(true(inner, {**MANY.known, **shared, **one}) for one in members)  # type: ignore[dict-item]
            when = f"{when[:start]}{'one < two' if holds else 'two < one'}{when[end:]}"
    return true(tree(when), {**shared, "one": 1.0, "two": 2.0})


@often
@given(st.lists(whole, min_size=1, max_size=4))
def test_no_gap_is_missed_among_many(whens: list[str]) -> None:
    found = proof({f"b{n}": when for n, when in enumerate(whens)}, MANY)
    taken = set()
    for members in ALL_TOGETHER[::3]:
        for t in MANY.choices["t"]:
            taken.add(next((f"b{n}" for n, when in enumerate(whens) if met(when, members, {"t": t})), None))
    assert found.taken >= taken - {None}
    if found.status == "proved":
        assert None not in taken
