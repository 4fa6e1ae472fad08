"""`python -m procgen`."""

from procgen.cli import main

if __name__ == "__main__":
    raise SystemExit(main())
