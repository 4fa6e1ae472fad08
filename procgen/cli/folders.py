"""Where things are kept on this machine. Imports next to nothing: `make` asks before it has anything to do."""

from __future__ import annotations

import os


def cache() -> str:
    """For what can be made again: $PROCGEN_CACHE, else the user's own cache folder."""
    given = os.environ.get("PROCGEN_CACHE")
    if given:
        return given
    return os.path.join(os.environ.get("XDG_CACHE_HOME") or os.path.expanduser("~/.cache"), "procgen")
