"""`python -m procgen`."""

import gc

from procgen.cli import main


def run() -> int:
    """The exit code."""
    code = main()
    gc.freeze()  # all of it goes with the process: Python need not look through it first
    return code


if __name__ == "__main__":
    raise SystemExit(run())
