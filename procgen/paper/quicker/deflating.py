"""A PDF's streams deflated beside all else that is done for it: faces while tags and fonts are made, for deflating
leaves Python's lock alone; and what another card or an edit leaves as it was, as letters of a font, not again.

pydyf squeezes as tight as can be, which takes twice as long as zlib's own way for a fiftieth of the size. We go zlib's
own way, and have pydyf go it for what it still does by itself.
"""

from __future__ import annotations

import zlib
from collections.abc import Sequence
from concurrent.futures import Future, ThreadPoolExecutor
from functools import lru_cache
from types import TracebackType
from typing import Any

import pydyf
from pydyf import Stream, _to_bytes

_KEPT = 48  # streams


class Deflating:
    """`with Deflating(document.pages) as deflating:` around the writing of one document, which calls `finish` before it
    puts everything together."""

    def __init__(self, pages: Sequence[Any]) -> None:
        self._pages = pages
        self._begun: dict[int, Future[bytes]] = {}

    def __enter__(self) -> Deflating:
        self._beside = ThreadPoolExecutor(1)  # ended with the document: no process is forked while there is a thread
        for page in self._pages:
            page.paint = self._then_deflated(page.paint)
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, at: TracebackType | None) -> None:
        for page in self._pages:
            del page.paint
        self._beside.shutdown()

    def finish(self, pdf: Any) -> None:
        for thing in pdf.objects:
            if isinstance(thing, Stream) and thing.compress:
                begun = self._begun.get(id(thing))
                content = begun.result() if begun is not None else _deflated(_joined(thing))
                thing.stream, thing.compress = [content], False
                thing.extra["Filter"] = "/FlateDecode"

    def _then_deflated(self, paint: Any) -> Any:
        def painted(stream: Any, scale: float = 1) -> None:
            paint(stream, scale)
            self._begun[id(stream)] = self._beside.submit(_deflated, _joined(stream))

        return painted


def _joined(stream: Any) -> bytes:
    return b"\n".join(map(_to_bytes, stream.stream))


@lru_cache(maxsize=_KEPT)
def _deflated(content: bytes) -> bytes:
    deflate = zlib.compressobj()
    return deflate.compress(content) + deflate.flush()


class _Zlib:
    """zlib, as far as pydyf asks for it."""

    compress = staticmethod(zlib.compress)

    @staticmethod
    def compressobj(level: int) -> Any:
        return zlib.compressobj()


def squeeze_less() -> None:
    """For this process."""
    pydyf.zlib = _Zlib
