"""Reading YAML, strictly: data, places and source text in one pass over the parser's events."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING, NoReturn

import yaml

from procgen.files import scalars
from procgen.files.document import Data, Document, Node, Number, Path
from procgen.files.problems import Place, Problem, Related, error, warning
from procgen.files.stray import Strays
from procgen.files.syntax import syntax_problem

if TYPE_CHECKING:
    from yaml._yaml import Mark as CMark

    Mark = yaml.Mark | CMark | None  # what either parser marks a place with

MOST_BYTES = 2 * 1024 * 1024
MOST_NODES = 100_000
DEEPEST = 40

_LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
_CUT = re.compile(r" +#(?=\w)")
_MARK = re.compile(r'(?<![\d/])"')
_HIDDEN_BREAKS = re.compile("[\u0085\u2028\u2029]")


def read(path_shown: str, content: bytes, most: int = MOST_BYTES) -> tuple[Document | None, tuple[Problem, ...]]:
    """Read one file.

    Args:
        path_shown: how the file is called in problems.
        content: its bytes.
        most: of them that are read.

    Returns:
        The document, or None where it could not be read to its end; and every problem found, by place.
    """
    text, problems = _decoded(path_shown, content, most)
    if text is None:
        return None, problems
    reader = _Reader(path_shown, text)
    try:
        root = reader.root()
    except _Stop:
        root = None
    except yaml.YAMLError as fault:
        told = syntax_problem(path_shown, text, fault)  # what stands in its line may be no more than an echo
        reader.problems = [*(one for one in reader.problems if one.place.line != told.place.line), told]
        root = None
    found = tuple(sorted((*problems, *reader.problems), key=lambda problem: problem.place))
    return (Document(path_shown, root, frozenset(reader.faulty)) if root is not None else None), found


def _decoded(path: str, content: bytes, most: int) -> tuple[str | None, tuple[Problem, ...]]:
    """The text, or why there is none. Tabs outside indentation are told and read as spaces."""
    if len(content) > most:
        message = f"the file is {len(content) / 2**20:.1f} MiB; at most {most / 2**20:g} MiB are read"
        return None, (error("too-big", message, Place(path), "split the file"),)
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as fault:
        before = content[: fault.start]
        line = before.count(b"\n") + 1
        column = len(before[before.rfind(b"\n") + 1 :].decode("utf-8", "replace")) + 1
        message = f"byte {fault.start + 1} of the file (0x{content[fault.start]:02X}) is not UTF-8"
        hint = "save the file as UTF-8 (in the editor: Save with encoding)"
        return None, (error("not-utf-8", message, Place(path, line, column), hint),)
    hidden = _HIDDEN_BREAKS.search(text)
    if hidden:
        place = _place(path, text, hidden.start())
        message = f"a hidden line separator (U+{ord(hidden[0]):04X}) stands here"
        return None, (error("hidden-break", message, place, "delete it and type the line break again"),)
    tabs = [(number, line) for number, line in enumerate(text.split("\n"), 1) if "\t" in line]
    problems = tuple(
        error("tab", "a tab stands here", Place(path, number, line.index("\t") + 1), "use spaces; YAML indents by them")
        for number, line in tabs
    )
    if any(re.match(r" *\t", line) for _, line in tabs):
        return None, problems
    return text.replace("\t", " "), problems


def _place(path: str, text: str, index: int) -> Place:
    start = text.rfind("\n", 0, index) + 1
    return Place(path, text.count("\n", 0, index) + 1, index - start + 1)


class _Stop(Exception):
    """What was found makes reading on pointless."""


class _Reader:
    """Builds nodes from events. Depth is bounded, so that plain recursion may follow the nesting."""

    def __init__(self, path: str, text: str) -> None:
        self.path = path
        self.source = text
        self.problems: list[Problem] = []
        self.faulty: set[Path] = set()
        self.events: Iterator[yaml.Event] = yaml.parse(text, Loader=_LOADER)
        self.nodes = 0

    def root(self) -> Node:
        """The one document of the file."""
        next(self.events)  # stream start
        first = next(self.events)
        if isinstance(first, yaml.StreamEndEvent):
            self._stop("empty-file", "the file is empty", Place(self.path), "begin it with its `format`")
        node = self._node(next(self.events), ())
        next(self.events)  # document end
        after = next(self.events)
        if isinstance(after, yaml.DocumentStartEvent):
            place = self._at(after.start_mark)
            self._stop("second-document", "a second document begins here", place, "keep one document to a file: no ---")
        if node.data is None:
            self._stop("empty-file", "the file is empty", Place(self.path), "begin it with its `format`")
        return node

    def _node(self, event: yaml.Event, path: Path) -> Node:
        self.nodes += 1
        place = self._at(event.start_mark)
        if self.nodes > MOST_NODES:
            self._stop("too-much", f"the file holds more than {MOST_NODES} entries", place, "split the file")
        if len(path) > DEEPEST:
            self._stop("too-deep", f"entries are nested more than {DEEPEST} deep", place, "check brackets and indents")
        if isinstance(event, yaml.AliasEvent):
            return self._alias(event, place, path)
        self._no_extras(event, place)
        if isinstance(event, yaml.ScalarEvent):
            return self._scalar(event, place, path)
        if isinstance(event, yaml.SequenceStartEvent):
            return self._list(place, path)
        assert isinstance(event, yaml.MappingStartEvent)
        return self._map(event, place, path)

    def _scalar(self, event: yaml.ScalarEvent, place: Place, path: Path) -> Node:
        raw = self._raw(event)
        text: str = event.value
        data: Data = text
        if not event.style:
            self._look_round(event, raw)
            refused = scalars.refusal(text)
            if refused is not None:
                self._tell("look-alike", refused[0], place, refused[1])
                self.faulty.add(path)
            elif scalars.is_empty(text):
                data = None
            elif scalars.is_number(text):
                data = Number(text)
        return Node(data, place, raw)

    def _look_round(self, event: yaml.ScalarEvent, raw: str) -> None:
        """Warn of a text without quotes that a comment may have cut short, or that has half a pair of quotes."""
        begins, ends = _span(event).start, _span(event).stop
        cut = _CUT.match(self.source, ends)
        if cut is not None:
            hint = "put quotes round the whole text; a comment has a space after its #"
            self._warn("cut-short", "the text ends here: ` #` begins a comment", cut.end() - 1, hint)
        quote = _odd_quote(raw)
        if quote is not None:
            hint = "put quotes round the whole text, or leave this one out"
            self._warn("odd-quote", f"this `{raw[quote]}` has no partner", begins + quote, hint)

    def _list(self, place: Place, path: Path) -> Node:
        children: dict[str | int, Node] = {}
        while not isinstance(event := next(self.events), yaml.SequenceEndEvent):
            children[len(children)] = self._node(event, (*path, len(children)))
        return Node([child.data for child in children.values()], place, children=children)

    def _map(self, start: yaml.MappingStartEvent, place: Place, path: Path) -> Node:
        keys: dict[str, Place] = {}
        children: dict[str | int, Node] = {}
        strays = Strays(self.source) if start.flow_style else None
        while not isinstance(event := next(self.events), yaml.MappingEndEvent):
            key_place = self._at(event.start_mark)
            key = self._key(event, key_place, path)
            value = next(self.events)
            if strays is not None and self._is_stray(event, value):
                strays.add(_span(event), key_place)
                continue
            if strays is not None:
                self.problems += strays.told(self.faulty)
            again = key in keys
            inner = (*path, key or "")
            child = self._node(value, inner)
            if strays is not None:
                plain = isinstance(value, yaml.ScalarEvent) and not value.style
                strays.after(inner, _span(value) if plain else None)
            if key is None:
                continue
            if again:
                first = (Related(keys[key], "first written here"),)
                hint = "keep one of the two"
                self.problems.append(error("duplicate-key", f"`{key}` is written twice", key_place, hint, first))
                continue
            keys[key], children[key] = key_place, child
        if strays is not None:
            self.problems += strays.told(self.faulty)
        return Node({str(key): child.data for key, child in children.items()}, place, keys=keys, children=children)

    def _key(self, event: yaml.Event, place: Place, path: Path) -> str | None:
        """A key's text, always text; None for one that is told and left out."""
        if not isinstance(event, yaml.ScalarEvent):
            self._tell("odd-key", "a key was expected here: one word or text", place, "write `key: value`")
            self._node(event, (*path, ""))
            return None
        self._no_extras(event, place)
        if event.value == "<<" and not event.style:
            hint = "write the entries out here"
            self._tell("merge-key", "`<<` merges entries from elsewhere; it is not used here", place, hint)
            return None
        if not event.value:
            self._tell("odd-key", "a key was expected before the colon", place, "write `key: value`")
            return None
        return str(event.value)

    def _is_stray(self, key: yaml.Event, value: yaml.Event) -> bool:
        """Whether a comma inside { } has begun an entry that is no `key: value`."""
        if not (isinstance(key, yaml.ScalarEvent) and isinstance(value, yaml.ScalarEvent)):
            return False
        if key.style or not key.value or value.style or self._raw(value):
            return False
        return ":" not in self.source[_span(key).stop : _span(value).start]

    def _no_extras(self, event: yaml.Event, place: Place) -> None:
        anchor, tag = getattr(event, "anchor", None), getattr(event, "tag", None)
        if anchor is not None:
            hint = f'write the entry out where it is needed; a text that begins with & needs quotes: "&{anchor} …"'
            self._tell("anchor", f"`&{anchor}` marks an entry for use elsewhere", place, hint)
        if tag is not None:
            hint = "leave it out; a text that begins with ! needs quotes"
            self._tell("tag", "a tag (`!`) stands before this entry; tags are not used here", place, hint)

    def _alias(self, event: yaml.AliasEvent, place: Place, path: Path) -> Node:
        hint = f'write the entry out here; a text that begins with * needs quotes: "*{event.anchor} …"'
        self._tell("alias", f"`*{event.anchor}` repeats an entry from elsewhere", place, hint)
        self.faulty.add(path)
        return Node(None, place)

    def _raw(self, event: yaml.Event) -> str:
        return self.source[_span(event)]

    def _at(self, mark: Mark) -> Place:
        assert mark is not None  # every event of a parsed text has its marks
        return Place(self.path, mark.line + 1, mark.column + 1)

    def _tell(self, code: str, message: str, place: Place, hint: str) -> None:
        self.problems.append(error(code, message, place, hint))

    def _warn(self, code: str, message: str, index: int, hint: str) -> None:
        """Once a line: half a pair of quotes may have come apart at a comma."""
        place = _place(self.path, self.source, index)
        if all(told.code != code or told.place.line != place.line for told in self.problems[-1:]):
            self.problems.append(warning(code, message, place, hint))

    def _stop(self, code: str, message: str, place: Place, hint: str) -> NoReturn:
        self._tell(code, message, place, hint)
        raise _Stop


def _odd_quote(raw: str) -> int | None:
    """Where the last quote stands in a text that has half a pair of them; not the mark of inches after a number."""
    marks = [found.start() for found in _MARK.finditer(raw)]
    if len(marks) % 2:
        return marks[-1]
    return max(raw.rfind("“"), raw.rfind("”")) if raw.count("“") != raw.count("”") else None


def _span(event: yaml.Event) -> slice:
    """Where an event stands in the source."""
    assert event.start_mark is not None
    assert event.end_mark is not None
    return slice(event.start_mark.index, event.end_mark.index)
