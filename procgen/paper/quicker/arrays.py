"""WeasyPrint names an array type of its own for every number of glyphs that it subsets a font to, and cffi parses each
name as C, which takes longer than the subsetting. Said without its length, which is that of the values, it is one type.
"""

from __future__ import annotations

import re
from typing import Any

from weasyprint.pdf import fonts

_LENGTH = re.compile(r"\[\d+\]$")


class Arrays:
    """cffi's FFI, but for the names of types that are made with their values."""

    def __init__(self, ffi: Any) -> None:
        self._ffi = ffi

    def new(self, kind: str, *values: Any) -> Any:
        return self._ffi.new(_LENGTH.sub("[]", kind) if values else kind, *values)

    def __getattr__(self, name: str) -> Any:
        return getattr(self._ffi, name)


def name_arrays_once() -> None:
    """For this process."""
    if not isinstance(fonts.ffi, Arrays):
        fonts.ffi = Arrays(fonts.ffi)
