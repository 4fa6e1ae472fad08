"""Work in a process of its own comes back, with what went wrong in it, and never outlives its use."""

from __future__ import annotations

import os
import signal
import time
from pathlib import Path

import pytest

from procgen.make import apart
from procgen.make.apart import Apart


def test_it_is_done_meanwhile_and_elsewhere() -> None:
    with Apart(os.getpid) as one:
        assert one.result() != os.getpid()


@pytest.mark.parametrize("forks", [True, False])
def test_else_it_is_done_when_asked_for(monkeypatch: pytest.MonkeyPatch, forks: bool) -> None:
    monkeypatch.setattr(apart, "FORKS", forks)
    with Apart(os.getpid, begin=not forks) as one:
        assert one.result() == os.getpid()


def test_a_fault_comes_back() -> None:
    with Apart(lambda: 1 / 0) as one, pytest.raises(ZeroDivisionError):
        one.result()


def test_a_death_is_told() -> None:
    with (
        Apart(lambda: os.kill(os.getpid(), signal.SIGKILL)) as one,
        pytest.raises(RuntimeError, match="ended by SIGKILL"),
    ):
        one.result()


def test_leaving_ends_it(tmp_path: Path) -> None:
    def late() -> None:
        time.sleep(5)
        (tmp_path / "late").touch()

    begun = time.monotonic()
    with Apart(late):
        pass
    assert time.monotonic() - begun < 4
    assert not (tmp_path / "late").exists()
