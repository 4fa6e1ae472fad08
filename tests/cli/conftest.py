"""A small workshop to type commands in."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

SMALL = Path(__file__).parent.parent / "check" / "workshop"


@pytest.fixture
def workshop(tmp_path: Path) -> Path:
    """A copy that a test may edit."""
    root = tmp_path / "shop"
    shutil.copytree(SMALL, root)
    return root
