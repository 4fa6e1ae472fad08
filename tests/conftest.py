"""What a person may lack (a browser, a PDF checker) lets a test be skipped; where CI is set, nothing may be."""

import os
from collections.abc import Generator

import pytest


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport(
    item: pytest.Item, call: pytest.CallInfo[None]
) -> Generator[None, pytest.TestReport, pytest.TestReport]:
    report = yield
    if report.skipped and os.environ.get("CI"):
        report.outcome = "failed"
        report.longrepr = f"skipped, and in CI nothing may be: {report.longrepr}"
    return report
