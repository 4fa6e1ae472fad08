"""The small schemas that these tests bring along."""

from __future__ import annotations

from pathlib import Path

import pytest

from procgen.files.schemas import Schemas


@pytest.fixture(scope="session")
def schemas() -> Schemas:
    return Schemas(Path(__file__).parent / "schemas")
