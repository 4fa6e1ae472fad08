"""Measuring, never part of the tests: `python -m tests.bench`."""
