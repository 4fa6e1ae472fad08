"""Procedures for engine rebuilding, from YAML to printed cards and a site."""

__version__ = "0.1.0"  # a literal: asking the installed metadata costs more than `--help` itself
