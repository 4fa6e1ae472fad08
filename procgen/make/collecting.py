"""Python's looking for what nobody needs any more, put off where nearly all that is made is needed."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def uncollected() -> Iterator[None]:
    """Within it nothing is looked for. It would take a tenth of the time of importing, reading and checking."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()
