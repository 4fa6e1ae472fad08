"""What the YAML parser could not read, said in plain words at its place."""

from __future__ import annotations

import re

import yaml

from procgen.files.problems import Place, Problem, Related, error

_QUOTE = "put quotes round the whole text"

# (the parser's words, libyaml's or the Python parser's; what is said; the mend)
_SENTENCES: tuple[tuple[str, str, str], ...] = (
    (
        "mapping values are not allowed",
        "a second `: ` stands here where a value was already begun",
        f"{_QUOTE}; or indent a new key level with its neighbours",
    ),
    ("(block )?sequence entries are not allowed", "a list's `- ` can't begin here", f"{_QUOTE}, or begin a new line"),
    ("mapping keys are not allowed", "a `? ` can't begin here", _QUOTE),
    (
        r"expected ',' or '\}'",
        "inside { } a comma or the closing } was expected here",
        f"close the }}, or {_QUOTE}",
    ),
    (
        r"expected ',' or '\]'",
        "inside [ ] a comma or the closing ] was expected here",
        f"close the ], or {_QUOTE}",
    ),
    (
        "unexpected end of stream",
        "the quotes opened here are never closed",
        "close them at the end of the text",
    ),
    (
        "unexpected document indicator",
        "the quotes opened here are never closed",
        "close them at the end of the text",
    ),
    (
        "unknown escape character",
        'a backslash inside " " begins an escape, and this is none',
        "use ' ' instead of \" \"",
    ),
    ("expected alphabetic or numeric character", "a text can't begin with this sign", _QUOTE),
    ("undefined alias", "this repeats an entry that is nowhere marked; aliases are not used here", _QUOTE),
    (
        "could not find expected ':'",
        "a key was begun here and has no colon",
        "write `key: value`, or indent the lines of a longer text",
    ),
    (
        r"expected key|expected <block end>|expected '-' indicator",
        "this does not line up with what stands above it",
        f"check the indents; after closing quotes or brackets nothing may follow, so {_QUOTE}",
    ),
    (
        "found unexpected ':'",
        "a space is missing after this colon",
        "inside { } it stands even where no value follows: {bore: , stroke: 84}",
    ),
    ("expected (the )?node content", "a value was expected here", "a text that begins with this sign needs quotes"),
    (
        "expected comment or line break|expected chomping or indentation",
        "after | or > the text begins on the next line",
        f"begin a new line, or {_QUOTE}",
    ),
    ("document start", "the file went to its end above; this stands after it", "take out the `...` or the `%` line"),
    ("tag handle|unexpected character|URI", "a tag (`!`) stands here; tags are not used", _QUOTE),
    ("directive", "a line that begins with % is not used here", "take it out, or put quotes round the text"),
)


_UNSPACED = re.compile(r"\s*(?P<key>[A-Za-z_][\w.-]*):(?P<value>(?=\u00a0)\s[^#]*|[^\s:/#][^#]*)")
_LONE = re.compile(r"(?<=[:,\[{] )[?-](?=\s*(?:[,\]}#]|$))|(?<=[\[{])[?-](?=\s*[,\]}])")
_ODD_INDENT = re.compile(r" *[^\S \n]")
_JOINED = re.compile(r" *-(?P<entry>[A-Za-z_][\w.-]*: .*)")
_NO_COLON = re.compile(r"(?P<indent> *)(?P<key>[A-Za-z_][\w.-]*) +(?P<value>[^:#]+)(?:#.*)?")
_ANEW = ("expected key", "expected <block end>")
"""The parser's words where a key can't stand: often the line above, or quotes, ended otherwise than meant."""


def syntax_problem(path: str, text: str, fault: yaml.YAMLError) -> Problem:
    """One problem of code `yaml` for what the parser raised."""
    if isinstance(fault, yaml.reader.ReaderError):
        return _bad_character(path, text)
    assert isinstance(fault, yaml.MarkedYAMLError)
    words = fault.problem or ""
    where = fault.problem_mark or fault.context_mark
    place = _place(path, text, where)
    index = where.index if where is not None else len(text)
    character = text[index : index + 1]
    if "nesting depth" in words:  # libyaml's own bound, far beyond ours
        return error("too-deep", "entries are nested far too deep", place, "check brackets and indents")
    if "cannot start any token" in words:
        return error("yaml", f"a text can't begin with `{character}`", place, _QUOTE)
    odd = _unknown(path, text, place) or _begun_oddly(path, text, place)
    if odd is not None:
        return odd
    if "node content" in words and character in (",", "}", "]"):
        return error("yaml", f"a value was expected here, not `{character}`", place, "take it away, or quote it")
    if any(one in words for one in ("mapping values", "find expected ':'", *_ANEW)):
        unspaced = _without_space(text, place)
        if unspaced is not None:
            line, key, value = unspaced
            return error("yaml", f"a space is missing after `{key}:`", Place(path, *line), f"write `{key}: {value}`")
        meant = _without_colon(path, text, place) or _long_quotes(path, text, index)
        if meant is not None:
            return meant
    for pattern, message, hint in _SENTENCES:
        if re.search(pattern, words):
            related: tuple[Related, ...] = ()
            if "never closed" in message or "begun here" in message:
                place = _place(path, text, fault.context_mark or where)
            elif fault.context_mark is not None and "inside" in message and fault.context_mark.index != index:
                related = (Related(_place(path, text, fault.context_mark), "opened here"),)
            return error("yaml", message, place, hint, related)
    return error("yaml", f"YAML can't be read on from here ({words})", place)


def _unknown(path: str, text: str, place: Place) -> Problem | None:
    """Where a lone ? or - stands for what is not known, in the line that stops making sense."""
    line = text.split("\n")[place.line - 1]
    found = _LONE.search(line)
    if found is None:
        return None
    hint = "leave it empty while it is not yet known; a text needs quotes"
    return error("yaml", f"a `{found[0]}` alone is no value", Place(path, place.line, found.start() + 1), hint)


def _without_space(text: str, place: Place) -> tuple[tuple[int, int], str, str] | None:
    """Line and column behind the colon, key and value, where this line or the one above is `key:value`: YAML takes it
    for a text, and only stumbles over what follows.
    """
    lines = text.split("\n")
    for number in (place.line, place.line - 1):
        if 1 <= number <= len(lines) and (found := _UNSPACED.match(lines[number - 1])):
            return (number, found.end("key") + 2), found["key"], found["value"].strip()
    return None


def _begun_oddly(path: str, text: str, place: Place) -> Problem | None:
    """Where this line, or the one above, is set in by a space that YAML does not count, or lacks one after its -."""
    lines = text.split("\n")
    for number in (place.line, place.line - 1):
        line = lines[number - 1] if 1 <= number <= len(lines) else ""
        if odd := _ODD_INDENT.match(line):
            message = "the line is set in by a no-break space, which YAML does not count"
            return error("yaml", message, Place(path, number, odd.end()), "delete it and type plain spaces")
        if joined := _JOINED.match(line):
            hint = f"write `- {joined['entry'].strip()}`"
            return error(
                "yaml", "a space is missing after the `-`", Place(path, number, joined.start("entry") + 1), hint
            )
    return None


def _without_colon(path: str, text: str, place: Place) -> Problem | None:
    """Where the line above is as far in, and says something without being a key and its value."""
    lines = text.split("\n")
    found = _NO_COLON.fullmatch(lines[place.line - 2].rstrip()) if place.line > 1 else None
    here = lines[min(place.line, len(lines)) - 1]
    if found is None or len(found["indent"]) != len(here) - len(here.lstrip()):
        return None
    key, value = found["key"], found["value"].strip()
    after = Place(path, place.line - 1, found.end("key") + 1)
    return error("yaml", f"a colon is missing after `{key}`", after, f"write `{key}: {value}`")


def _long_quotes(path: str, text: str, index: int) -> Problem | None:
    """Where quotes close right before this and were opened lines above."""
    quote = text[index - 1 : index]
    opened = text.rfind(quote, 0, index - 1) if quote in ("'", '"') else -1
    if opened < 0 or "\n" not in text[opened:index]:
        return None
    line = text.count("\n", 0, opened) + 1
    place = Place(path, line, opened - text.rfind("\n", 0, opened))
    until = line + text.count("\n", opened, index)
    return error(
        "yaml", f"the quotes opened here close only in line {until}", place, "close them at the end of the text"
    )


def _bad_character(path: str, text: str) -> Problem:
    """Readers refuse control characters before they parse; the first one is found again here."""
    found = yaml.reader.Reader.NON_PRINTABLE.search(text)
    index = found.start() if found else 0
    start = text.rfind("\n", 0, index) + 1
    place = Place(path, text.count("\n", 0, index) + 1, index - start + 1)
    code = f"U+{ord(text[index]):04X}" if found else ""
    return error("yaml", f"a control character ({code}) stands here", place, "delete it")


def _place(path: str, text: str, mark: yaml.Mark | None) -> Place:
    """A mark's place; the end of the last line with something on it where the file ended too soon."""
    if mark is None:
        return Place(path)
    if mark.index >= len(text):
        lines = text.rstrip().split("\n")
        return Place(path, len(lines), len(lines[-1]) + 1)
    return Place(path, mark.line + 1, mark.column + 1)
