"""The page checkers from npm, installed once by version and digest into an ignored folder."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import pytest

LOCK = Path(__file__).parent / "npm"
FOLDER = Path(__file__).resolve().parents[2] / ".cache" / "page-checkers"


def installed() -> Path:
    """Where the packages are; skips the test where npm is lacking or the registry can't be reached."""
    packages, npm = FOLDER / "node_modules", shutil.which("npm")
    lock = (LOCK / "package-lock.json").read_bytes()
    noted = FOLDER / "installed.json"
    if noted.is_file() and noted.read_bytes() == lock:
        return packages
    if npm is None:
        pytest.skip("no npm on this machine")
    FOLDER.mkdir(parents=True, exist_ok=True)
    for name in ("package.json", "package-lock.json"):
        shutil.copy(LOCK / name, FOLDER / name)
    words = [npm, "ci", "--ignore-scripts", "--no-audit", "--no-fund", "--loglevel=error"]
    done = subprocess.run(words, cwd=FOLDER, capture_output=True, text=True, check=False)
    if done.returncode:
        pytest.skip(f"npm could not install the page checkers: {done.stderr[-300:]}")
    noted.write_bytes(lock)
    return packages
