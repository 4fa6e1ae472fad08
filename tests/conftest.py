"""What a person may lack (a browser, a PDF checker) lets a test be skipped; where CI is set, nothing may be."""

import os
from collections.abc import Generator
from pathlib import Path

import pytest
from hypothesis import settings

settings.register_profile("any machine", settings(), deadline=None)  # limits of time are in processor time
settings.load_profile("any machine")


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport(
    item: pytest.Item, call: pytest.CallInfo[None]
) -> Generator[None, pytest.TestReport, pytest.TestReport]:
    report = yield
    if report.skipped and os.environ.get("CI"):
        report.outcome = "failed"
        report.longrepr = f"skipped, and in CI nothing may be: {report.longrepr}"
    return report


TOGETHER = ("web", "paper", "draw", "packets")
"""Folders whose tests share what is slow to make; begun first where several processes share the work."""


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """A folder in TOGETHER, or a file, goes to one process whole."""
    if config.getoption("dist", "no") != "loadgroup":
        return
    for item in items:
        item.add_marker(pytest.mark.xdist_group(_folder(item) if _folder(item) in TOGETHER else str(item.path)))
    items.sort(key=lambda item: _folder(item) not in TOGETHER)


def _folder(item: pytest.Item) -> str:
    return item.path.relative_to(Path(__file__).parent).parts[0]
