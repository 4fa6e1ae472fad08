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


@contextmanager
def frozen() -> Iterator[None]:
    """Within it nothing that was there before is looked through: of a large workshop that takes a tenth of a second."""
    was_frozen = gc.get_freeze_count() > 0  # then somebody has it stay so
    gc.freeze()
    try:
        yield
    finally:
        if not was_frozen:
            gc.unfreeze()
