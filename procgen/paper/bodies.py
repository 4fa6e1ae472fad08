"""A PDF as WeasyPrint writes it taken apart into objects that stay bytes, and such objects put into a PDF.

A deck has some twenty thousand objects, of which joining changes a hundred; to make each into a value and back again
takes several times as long as all else. So this reads nothing but what our own printer has written.
"""

from __future__ import annotations

import re
import struct
import zlib
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from hashlib import md5

_STREAM = re.compile(rb"\d+ 0 obj\n(<<.*?>>)\nstream\n", re.DOTALL)
TAG = b"<</Type /StructElem"
_LENGTH = re.compile(rb"/Length (\d+)")
_NUMBERED = re.compile(rb"\((?:[^()\\]|\\.)*\)|(\d+) 0 R\b|(/StructParents? )(\d+)", re.DOTALL)  # words are no numbers
_REFERENCE = re.compile(rb"(\d+) 0 R\b")
_FREE, _PLAIN, _PACKED = 0, 1, 2
_ROW = struct.Struct(">BIH").pack


class NotOurs(ValueError):
    """A PDF that is written in another way than the layout engine writes."""


@dataclass(frozen=True, slots=True)
class Body:
    """By number: objects, and streams with their dictionaries, compressed as they are. `trailer`: a dictionary."""

    objects: dict[int, bytes]
    streams: dict[int, tuple[bytes, bytes]]
    trailer: bytes

    def numbered(self, to: Callable[[int], int], marks: int) -> Body:
        """The same under other numbers, the keys of the tree of marks larger by `marks`."""
        names = {b"%d" % one: b"%d 0 R" % to(one) for one in (*self.objects, *self.streams)}

        def anew(found: re.Match[bytes]) -> bytes:
            old, key, mark = found.groups()
            if old is not None:
                return names[old]
            return found[0] if key is None else b"%b%d" % (key, int(mark) + marks)

        objects, plain = dict(self.objects), []
        for number, content in objects.items():
            if b"(" in content or b"/StructParent" in content:
                objects[number] = _NUMBERED.sub(anew, content)
            else:
                plain.append(number)
        parts = _REFERENCE.split(b"\n".join(map(objects.__getitem__, plain)))  # most of them, and all at once
        parts[1::2] = map(names.__getitem__, parts[1::2])
        objects.update(zip(plain, b"".join(parts).split(b"\n"), strict=True))
        return Body(
            {to(number): content for number, content in objects.items()},
            {to(number): (_NUMBERED.sub(anew, said), content) for number, (said, content) in self.streams.items()},
            _NUMBERED.sub(anew, self.trailer),
        )

    def reached(self, *texts: bytes) -> dict[int, None]:
        """Numbers of all that these lead to, and so on."""
        found: dict[int, None] = {}
        todo = list(texts)
        while todo:
            for reference in _NUMBERED.finditer(todo.pop()):
                one = int(reference[1] or -1)
                if one not in found and (one in self.objects or one in self.streams):
                    found[one] = None
                    todo.append(self.objects[one] if one in self.objects else self.streams[one][0])
        return found


def read(pdf: bytes, tags: bool = True) -> Body:
    """A whole PDF; without `tags`, what lies apart as such is left out.

    Raises:
        NotOurs: where it can't be read so.
    """
    try:
        trailer, rows = _stream(pdf, int(pdf[pdf.rindex(b"startxref") :].split()[1]))
        widths = list(map(int, re.findall(rb"\d+", within(rb"/W \[([\d ]+)\]", trailer))))
        packed: dict[int, bytes] = {}
        streams = {}
        for number, at in _rows(zlib.decompress(rows), widths):
            said, content = _stream(pdf, at)
            if said.startswith(b"<</Type /ObjStm"):
                packed |= _unpacked(said, zlib.decompress(content), tags)
            elif not said.startswith(b"<</Type /XRef"):
                streams[number] = said, content
    except (ValueError, IndexError, zlib.error) as fault:
        raise NotOurs(f"a PDF that is not as the layout engine writes it: {fault}") from fault
    return Body(packed, streams, trailer)


def _rows(table: bytes, widths: list[int]) -> Iterator[tuple[int, int]]:
    """Numbers of streams, and where each is."""
    first, second, _ = widths
    if first != 1:
        raise ValueError("kinds of objects in no one byte")
    for number, kind in enumerate(table[:: sum(widths)]):
        if kind == _PLAIN:
            at = number * sum(widths) + first
            yield number, int.from_bytes(table[at : at + second], "big")


def _stream(pdf: bytes, at: int) -> tuple[bytes, bytes]:
    found = _STREAM.match(pdf, at)
    if found is None:
        raise ValueError(f"no stream at {at}")
    return found[1], pdf[found.end() : found.end() + int(within(_LENGTH, found[1]))]


def _unpacked(said: bytes, content: bytes, tags: bool) -> dict[int, bytes]:
    first = int(within(rb"/First (\d+)", said))
    if not tags and content.startswith(TAG, first):
        return {}
    numbers = list(map(int, content[:first].split()))
    starts = [first + at for at in numbers[1::2]]
    ends = [start - 1 for start in starts[1:]] + [len(content)]
    return {number: content[a:b] for number, a, b in zip(numbers[::2], starts, ends, strict=True)}


def within(pattern: bytes | re.Pattern[bytes], text: bytes) -> bytes:
    """The one group of a pattern, in a dictionary.

    Raises:
        ValueError: where it is not there.
    """
    found = re.search(pattern, text)
    if found is None:
        raise ValueError(f"nothing says {pattern!r}")
    return found[1]


def target(key: bytes, dictionary: bytes) -> int:
    """Of the object that a key leads to.

    Raises:
        ValueError: where it is not there.
    """
    return int(within(rb"/%b (\d+) 0 R" % key, dictionary))


def targets(key: bytes, dictionary: bytes) -> list[int]:
    """Of the objects in the array that a key leads to.

    Raises:
        ValueError: where it is not there.
    """
    return [int(number) for number in within(rb"/%b \[([^]]*)\]" % key, dictionary).split(b" ")[::3]]


class Writer:
    """A PDF in the making. Same input, same bytes."""

    def __init__(self) -> None:
        self._written = bytearray(b"%PDF-1.7\n%\xe2\xe3\xcf\xd3\n")
        self._rows = {0: _ROW(_FREE, 0, 65535)}

    def stream(self, number: int, said: bytes, content: bytes) -> None:
        """`said`: its dictionary."""
        self._rows[number] = _ROW(_PLAIN, len(self._written), 0)
        self._written += b"%d 0 obj\n%b\nstream\n%b\nendstream\nendobj\n" % (number, said, content)

    def deflated(self, number: int, said: bytes, content: bytes) -> None:
        """A stream that is not compressed yet. `said`: what its dictionary says, without brackets."""
        content = zlib.compress(content)
        self.stream(number, b"<<%b/Filter /FlateDecode/Length %d>>" % (said, len(content)), content)

    def objects(self, number: int, objects: Mapping[int, bytes]) -> None:
        """In one stream of that number, which no reader reads but as a whole."""
        heads, at = [], 0
        for index, (one, content) in enumerate(objects.items()):
            self._rows[one] = _ROW(_PACKED, number, index)
            heads.append(b"%d %d" % (one, at))
            at += len(content) + 1
        head = b" ".join(heads) + b"\n"
        said = b"/Type /ObjStm/N %d/First %d" % (len(objects), len(head))
        self.deflated(number, said, head + b"\n".join(objects.values()))

    def end(self, number: int, root: int, info: int) -> bytes:
        """All of it. `number` is larger than all before; `root`, `info`: those of the catalogue and of the title."""
        name = md5(self._written, usedforsecurity=False).hexdigest().encode()
        at = len(self._written)
        self._rows[number] = _ROW(_PLAIN, at, 0)
        free = _ROW(_FREE, 0, 0)
        rows = b"".join([self._rows.get(one, free) for one in range(number + 1)])
        named = b"/Root %d 0 R/Info %d 0 R/ID [<%b><%b>]" % (root, info, name, name)
        self.deflated(number, b"/Type /XRef/W [1 4 2]/Size %d%b" % (number + 1, named), rows)
        return bytes(self._written + b"startxref\n%d\n%%%%EOF\n" % at)
