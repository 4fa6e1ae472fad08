"""A file as data that still knows where each part of it stands."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import field
from typing import TypeAlias

from procgen.files.problems import Place
from procgen.files.text import Text
from procgen.values import dataclass

Data: TypeAlias = "dict[str, Data] | list[Data] | str | Number | None"
"""What a file holds: maps with keys of text, lists, texts, numbers, and None for what is not yet known."""

Path: TypeAlias = tuple[str | int, ...]
"""Keys and list positions from the root."""


class Number(float):
    """A number that keeps its source text: 0.0010 is printed as written."""

    __slots__ = ("text",)
    text: str

    def __new__(cls, text: str) -> Number:
        number = super().__new__(cls, text)
        number.text = text
        return number

    def __reduce__(self) -> tuple[type[Number], tuple[str]]:
        return Number, (self.text,)


@dataclass(frozen=True, slots=True)
class Node:
    """One value with its place. `raw` is a scalar as it stands in the file; `keys` the places of a map's keys."""

    data: Data
    place: Place
    raw: str = ""
    keys: Mapping[str, Place] = field(default_factory=dict)
    children: Mapping[str | int, Node] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Document:
    """One file. `path` is as shown to people; `faulty` are the paths that reading has already complained of."""

    path: str
    node: Node
    faulty: frozenset[Path] = frozenset()

    @property
    def data(self) -> Data:
        return self.node.data

    def root(self) -> Cursor:
        return Cursor(self, (), self.node)

    def at(self, path: Path) -> Cursor:
        """The cursor at a path. KeyError where the file has nothing there."""
        cursor = self.root()
        for key in path:
            cursor = cursor[key]
        return cursor


@dataclass(frozen=True, slots=True)
class Cursor:
    """A pointer into a document: the value there and its place."""

    doc: Document
    path: Path
    node: Node

    @property
    def value(self) -> Data:
        return self.node.data

    @property
    def place(self) -> Place:
        return self.node.place

    @property
    def is_map(self) -> bool:
        return isinstance(self.node.data, dict)

    @property
    def is_list(self) -> bool:
        return isinstance(self.node.data, list)

    @property
    def is_empty(self) -> bool:
        """Whether nothing is written there: not yet known."""
        return self.node.data is None

    def key_place(self, key: str) -> Place:
        """The place of a key of this map; the map's own place for a key that it has not."""
        return self.node.keys.get(key, self.node.place)

    def __getitem__(self, key: str | int) -> Cursor:
        return Cursor(self.doc, (*self.path, key), self.node.children[key])

    def get(self, key: str | int) -> Cursor | None:
        """The cursor at a key, also where its value is empty; None where there is no such key."""
        return self[key] if key in self.node.children else None

    def known(self, key: str | int) -> Cursor | None:
        """The cursor at a key; None also where its value is empty."""
        found = self.get(key)
        return None if found is None or found.is_empty else found

    def __contains__(self, key: object) -> bool:
        return key in self.node.children

    def __len__(self) -> int:
        return len(self.node.children)

    def __bool__(self) -> bool:
        return True

    def items(self) -> Iterator[tuple[str, Cursor]]:
        """The keys of a map with their cursors, in the file's order; nothing for any other value."""
        if isinstance(self.node.data, dict):
            for key in self.node.children:
                yield str(key), self[key]

    def __iter__(self) -> Iterator[Cursor]:
        """The entries of a list; nothing for any other value."""
        if isinstance(self.node.data, list):
            for key in self.node.children:
                yield self[key]

    def text(self) -> Text:
        """A text, or a number as written; an empty value is the text "". TypeError for a map or a list."""
        data = self.node.data
        if isinstance(data, (dict, list)):
            raise TypeError(f"{self.place}: no text")
        value = data.text if isinstance(data, Number) else data or ""
        return Text(value, self.node.place, self.node.raw)

    def number(self) -> Number:
        """A number. TypeError for anything else."""
        if not isinstance(self.node.data, Number):
            raise TypeError(f"{self.place}: no number")
        return self.node.data
