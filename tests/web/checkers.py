"""The page checkers from npm, installed once by version and digest into an ignored folder; all at once, since several
test processes may come for them."""

from __future__ import annotations

import shutil
import subprocess
from contextlib import suppress
from hashlib import blake2b
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

LOCK = Path(__file__).parent / "npm"
FOLDER = Path(__file__).resolve().parents[2] / ".cache" / "page-checkers"


def installed() -> Path:
    """Where the packages are; skips the test where npm is lacking or the registry can't be reached."""
    lock = (LOCK / "package-lock.json").read_bytes()
    there, npm = FOLDER / blake2b(lock, digest_size=8).hexdigest(), shutil.which("npm")
    if there.is_dir():
        return there / "node_modules"
    if npm is None:
        pytest.skip("no npm on this machine")
    FOLDER.mkdir(parents=True, exist_ok=True)
    with TemporaryDirectory(dir=FOLDER) as beside:
        made = Path(beside) / "made"
        made.mkdir()
        for name in ("package.json", "package-lock.json"):
            shutil.copy(LOCK / name, made)
        words = [npm, "ci", "--ignore-scripts", "--no-audit", "--no-fund", "--loglevel=error"]
        done = subprocess.run(words, cwd=made, capture_output=True, text=True, check=False)
        if done.returncode:
            pytest.skip(f"npm could not install the page checkers: {done.stderr[-300:]}")
        with suppress(OSError):  # another process was first
            made.rename(there)
    return there / "node_modules"
