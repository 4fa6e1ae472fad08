"""Where the package keeps what it brings along."""

from __future__ import annotations

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent.parent


def resources(kind: str) -> Path:
    """The folder "schemas", "templates" or "shared": inside an installed package, or beside it in a checkout.

    Raises:
        FileNotFoundError: where neither holds it.
    """
    for folder in (_PACKAGE / "_data" / kind, _PACKAGE.parent / kind):
        if folder.is_dir():
            return folder
    raise FileNotFoundError(f"procgen's own folder `{kind}` is missing; install procgen again")
