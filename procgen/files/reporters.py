"""Problems as text: for a person at a terminal, one to a line for an editor, JSON for a machine. Nothing is printed."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping

from procgen.files.problems import Place, Problem, Severity

JSON_FORMAT = "problems/1"
_WIDEST = 100
"""Characters of a source line that are quoted; a longer one is cut around the place."""


def as_text(problems: Iterable[Problem], sources: Mapping[str, str]) -> str:
    """Each problem with its source line and a caret, in the order given, and the count of them.

    `sources`: the text of each file by its shown path; a problem in any other file goes without its line.
    """
    found = list(problems)
    lines = {path: text.split("\n") for path, text in sources.items()}
    parts = ["\n".join(_paragraph(problem, lines)) for problem in found]
    return "\n\n".join([*parts, counted(found)]) + "\n"


def as_lines(problems: Iterable[Problem], *, related: bool = False) -> str:
    """`path:line:column: severity: message (hint) [code]`, one problem to a line, by place. `related`: places below."""
    lines = []
    for problem in _sorted(problems):
        lines += [_headline(problem), *(_related(problem) if related else ())]
    return "".join(f"{line}\n" for line in lines)


def as_json(problems: Iterable[Problem]) -> str:
    """A map with `format`, `counts` by severity and `problems` by place.

    Each problem has severity, code, message, hint, path, line, column, and related: a list of message, path, line,
    column. The names are published: they stay while `format` does.
    """
    found = _sorted(problems)
    listed = [
        {
            "severity": problem.severity.value,
            "code": problem.code,
            "message": problem.message,
            "hint": problem.hint,
            **_placed(problem.place),
            "related": [{"message": other.message, **_placed(other.place)} for other in problem.related],
        }
        for problem in found
    ]
    counts = {severity.value: sum(problem.severity is severity for problem in found) for severity in Severity}
    whole = {"format": JSON_FORMAT, "counts": counts, "problems": listed}
    return json.dumps(whole, ensure_ascii=False, indent=2) + "\n"


def counted(problems: Iterable[Problem]) -> str:
    """ "no problems", or "2 errors, 1 warning in 2 files"."""
    found = list(problems)
    numbers = [(sum(problem.severity is severity for problem in found), severity.value) for severity in Severity]
    words = ", ".join(f"{number} {word}{'' if number == 1 else 's'}" for number, word in numbers if number)
    files = len({problem.place.path for problem in found})
    return f"{words} in {files} file{'' if files == 1 else 's'}" if words else "no problems"


def _sorted(problems: Iterable[Problem]) -> list[Problem]:
    return sorted(problems, key=lambda problem: (problem.place, problem.code, problem.message))


def _headline(problem: Problem) -> str:
    hint = f" ({problem.hint})" if problem.hint else ""
    return f"{problem.place}: {problem.severity.value}: {problem.message}{hint} [{problem.code}]"


def _paragraph(problem: Problem, lines: Mapping[str, list[str]]) -> list[str]:
    paragraph = [f"{problem.place}: {problem.severity.value}: {problem.message} [{problem.code}]"]
    paragraph += _quoted(problem.place, lines)
    if problem.hint:
        paragraph.append(f"  mend: {problem.hint}")
    return [*paragraph, *_related(problem)]


def _related(problem: Problem) -> list[str]:
    return [f"  {other.place}: {other.message}" for other in problem.related]


def _quoted(place: Place, lines: Mapping[str, list[str]]) -> list[str]:
    source = lines.get(place.path, [])
    if not 1 <= place.line <= len(source) or not source[place.line - 1].strip():
        return []
    line = source[place.line - 1].replace("\t", " ").rstrip()
    column = place.column - 1
    if len(line) > _WIDEST:
        start = max(0, min(column - _WIDEST // 2, len(line) - _WIDEST))
        before, after = "…" if start else "", "…" if start + _WIDEST < len(line) else ""
        line, column = before + line[start : start + _WIDEST] + after, column - start + len(before)
    margin = f"{place.line:>6} | "
    return [margin + line, " " * (len(margin) - 2) + "| " + " " * column + "^"]


def _placed(place: Place) -> dict[str, str | int]:
    return {"path": place.path, "line": place.line, "column": place.column}
