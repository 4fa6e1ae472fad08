"""Work is done once each, and what goes wrong is told with the piece it went wrong on."""

import gc
import os
import signal
from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path
from time import monotonic, sleep
from typing import Any, TypeVar

import pytest

from procgen.make import pool
from procgen.make.pool import Failed, Workers

T = TypeVar("T")


def double(number: int) -> int:
    if number == 3:
        raise ValueError("no threes")
    if number == 5:
        os.kill(os.getpid(), signal.SIGKILL)
    return 2 * number


def start() -> Callable[[int], int]:
    return double


def run(hands: Workers[T, Any], items: Sequence[T], kin: Callable[[T], str] = lambda item: "") -> list[tuple[T, Any]]:
    """Each with what came of it, in the order in which it came."""
    found: list[tuple[T, Any]] = []
    for item in items:
        hands.put(item, partial(_note, found, item), kin(item))
    hands.finish()
    assert sorted(map(str, items)) == sorted(str(item) for item, _ in found)
    return found


def _note(found: list[tuple[T, Any]], item: T, come: Any) -> None:
    found.append((item, come))


def done(items: list[int], workers: int) -> dict[int, int | Failed]:
    with Workers(start, workers) as hands:
        return dict(run(hands, items))


@pytest.mark.parametrize("workers", [1, 2, 7])
def test_everything_is_done(workers: int) -> None:
    assert done([1, 2, 4, 6, 8], workers) == {1: 2, 2: 4, 4: 8, 6: 12, 8: 16}


def test_what_was_there_before_is_not_looked_through_after_each_piece() -> None:
    gc.unfreeze()
    with Workers(lambda: lambda _: gc.get_freeze_count(), 1) as hands:
        assert all(count for _, count in run(hands, range(8)))
    assert gc.get_freeze_count() == 0
    gc.freeze()  # as one does that stays from build to build
    with Workers(start, 1) as hands:
        run(hands, [1, 2, 4])
    assert gc.get_freeze_count()
    gc.unfreeze()


@pytest.mark.parametrize("workers", [1, 2])
def test_a_fault_is_told_with_its_piece(workers: int) -> None:
    found = done([1, 2, 3, 4, 6], workers)
    assert found[3] == Failed("ValueError: no threes")
    assert [found[one] for one in (1, 2, 4, 6)] == [2, 4, 8, 12]


@pytest.mark.parametrize("workers", [2, 3])
@pytest.mark.parametrize("items", [[5, 1, 2, 4, 6], [1, 2, 5, 4], [1, 2, 4, 5], [5, 2, 1, 4, 6], [5, 5, 5, 1, 2]])
def test_a_worker_that_dies_takes_nobody_with_it(workers: int, items: list[int]) -> None:
    with Workers(start, workers) as hands:
        found = run(hands, items)
    deaths = []
    for item, result in found:
        if item == 5:
            assert isinstance(result, Failed)
            deaths.append(result.why)
        else:
            assert result == 2 * item
    told = "its worker process was ended by SIGKILL"
    assert told in deaths
    assert set(deaths) <= {told, "its worker process ended"}  # nobody learns more where whoever forked it went first


@pytest.mark.parametrize(("code", "words"), [(None, "ended"), (3, "ended with code 3"), (-9, "was ended by SIGKILL")])
def test_an_ending_in_words(code: int | None, words: str) -> None:
    assert pool.ending(code) == words


def test_the_end_of_a_forked_worker_is_told_with_its_code() -> None:
    """Both workers work at once, and each ends with a code: that of the one that the other forked is told too."""

    def leave(number: int) -> None:
        sleep(0.2 * number)  # the forked one first, or the other
        os._exit(number)

    for items in ([1, 3], [3, 1]):
        with Workers(lambda: leave, 2) as hands:
            hands.begin(2)
            found = dict(run(hands, items))
        assert found[1] == Failed("its worker process ended with code 1")


def test_without_fork(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(pool, "FORKS", False)
    assert done([1, 2, 3, 4, 6, 7, 8, 9], 2)[9] == 18


class _Who:
    """Gives the process that did the work, after a moment, so that all take part."""

    def __call__(self, item: str) -> tuple[str, int]:
        sleep(0.02)
        return item, os.getpid()


@pytest.mark.parametrize("early", [0, 2])
def test_a_worker_goes_on_with_what_is_alike(early: int) -> None:
    items = [f"{card}-{family}" for family in range(4) for card in ("bore", "hone", "wash", "line")]
    with Workers(_Who, 2) as hands:
        hands.begin(early)
        done = [result for _, result in run(hands, items, lambda item: item.partition("-")[0])]
    who: dict[str, set[int]] = {}
    for result in done:
        assert not isinstance(result, pool.Failed)
        item, process = result
        who.setdefault(item.partition("-")[0], set()).add(process)
    assert sorted(item for item, _ in done) == sorted(items)
    assert sum(len(processes) for processes in who.values()) <= 5  # 4 kinds, and the last may be shared


def test_workers_stay_from_one_run_to_the_next() -> None:
    with Workers(_Who, 2) as hands:
        hands.begin(2)
        runs = [[result for _, result in run(hands, ["a"] * 8)] for _ in range(3)]
    processes = {result[1] for run in runs for result in run if not isinstance(result, Failed)}
    assert len(processes) == 2
    assert os.getpid() not in processes


def test_what_takes_long_is_got_ready_once(tmp_path: Path) -> None:
    """Where there is fork, by the first worker for all; and none of them outlives the build."""
    note = tmp_path / "started"

    def start() -> _Who:
        with note.open("a") as file:
            file.write("started\n")
        return _Who()

    with Workers(start, 3) as hands:
        hands.begin(3)
        processes = {result[1] for _, result in run(hands, ["a"] * 12)}
    assert len(processes) == 3
    assert note.read_text() == "started\n"
    deadline = monotonic() + 60
    while any(map(_is_running, processes)) and monotonic() < deadline:
        sleep(0.01)
    assert not any(map(_is_running, processes))


def _is_running(process: int) -> bool:
    try:
        return Path(f"/proc/{process}/stat").read_text().rpartition(")")[2].split()[0] != "Z"
    except OSError:
        return False


def no_start() -> Callable[[int], int]:
    raise FileNotFoundError("nothing to work with")


@pytest.mark.parametrize("workers", [1, 2])
def test_what_keeps_a_worker_from_beginning_is_raised(workers: int) -> None:
    with Workers(no_start, workers) as hands, pytest.raises(FileNotFoundError, match="nothing to work with"):
        run(hands, [1, 2, 3, 4])


@pytest.mark.parametrize("first", [2, 3, 5])
def test_workers_get_ready_meanwhile(first: int) -> None:
    """Nothing of that is told, not even that it failed or that a worker died of it."""
    with Workers(start, 2) as hands:
        hands.begin(2, is_readied=True)
        hands.get_ready(first)
        found = dict(run(hands, [1, 2, 4, 6, 8]))
        hands.get_ready(first)
        few = dict(run(hands, [7]))
    assert found == {1: 2, 2: 4, 4: 8, 6: 12, 8: 16}
    assert few == {7: 14}


@pytest.mark.parametrize("workers", [1, 2])
def test_what_comes_of_one_may_ask_for_more(workers: int) -> None:
    """As a deck is joined once its last card is there."""
    found: list[int | Failed] = []

    def come(result: int | Failed) -> None:
        found.append(result)
        hands.put(100, found.append)

    with Workers(start, workers) as hands:
        for item in (1, 2, 4, 6):
            hands.put(item, come)
        hands.finish()
    assert sorted(map(str, found)) == sorted(["2", "4", "8", "12", *["200"] * 4])


def test_work_begins_while_more_is_put() -> None:
    """Workers that are there are given work at once, and look takes what they have done without waiting for all."""
    found: list[int | Failed] = []
    with Workers(start, 2) as hands:
        hands.begin(2)
        hands.put(1, found.append)
        deadline = monotonic() + 60
        while not found and monotonic() < deadline:
            hands.look()
        assert found == [2]


@pytest.mark.skipif(not pool.FORKS, reason="no process is forked here")
def test_what_the_first_gets_ready_is_shared_by_those_that_it_forks() -> None:
    ready: list[int] = []

    def work(item: int) -> tuple[int, list[int]]:
        if item == 0:
            ready.append(os.getpid())
        sleep(0.05)  # so that each has something to do
        return os.getpid(), ready

    with Workers(lambda: work, 3) as hands:
        hands.begin(3, is_readied=True)
        hands.get_ready(0)
        found = [come for _, come in run(hands, range(1, 9))]
    first = found[0][1][0]
    assert {tuple(who) for _, who in found} == {(first,)}
    assert len({process for process, _ in found}) == 3
