"""Templates are compiled once and kept beside themselves, and what was kept is never another template's."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest
from jinja2 import DictLoader, Environment, FileSystemLoader, nodes
from jinja2.nodes import Impossible

from procgen.files.home import resources
from procgen.files.templating import Compiled, environment

TEMPLATES = sorted(
    path.relative_to(resources("templates")).as_posix()
    for path in resources("templates").rglob("*")
    if path.suffix in {".html", ".svg", ".css"}
)


@pytest.fixture(autouse=True)
def _may_write(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "dont_write_bytecode", False)
    (tmp_path / "our").mkdir()
    (tmp_path / "kept").mkdir()


@pytest.fixture
def compiled(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The sources that Jinja compiled."""
    sources: list[str] = []
    compile = Environment.compile

    def noted(self: Environment, source: str, *rest: object, **more: object) -> object:
        sources.append(source)
        return compile(self, source, *rest, **more)  # type: ignore[call-overload]

    monkeypatch.setattr(Environment, "compile", noted)
    return sources


def _shown(folder: Path, name: str = "a.html", *, home: Path | None = None, trim: bool = False) -> str:
    found = Environment(
        loader=FileSystemLoader(str(folder)),
        trim_blocks=trim,
        bytecode_cache=Compiled(home or folder, folder.parent / "kept", "trim" if trim else "as-is"),
    )
    return found.get_template(name).render(it=1)


def test_a_template_is_compiled_once(tmp_path: Path, compiled: list[str]) -> None:
    (tmp_path / "our/a.html").write_text("one {{ it }}")
    assert [_shown(tmp_path / "our"), _shown(tmp_path / "our")] == ["one 1", "one 1"]
    assert compiled == ["one {{ it }}"]


def test_a_changed_template_is_compiled_again(tmp_path: Path) -> None:
    (tmp_path / "our/a.html").write_text("one {{ it }}")
    _shown(tmp_path / "our")
    (tmp_path / "our/a.html").write_text("two {{ it }}")
    assert _shown(tmp_path / "our") == "two 1"


def test_what_is_compiled_one_way_is_not_used_for_another(tmp_path: Path) -> None:
    (tmp_path / "our/a.html").write_text("{% if it %}\nyes{% endif %}")
    assert [_shown(tmp_path / "our"), _shown(tmp_path / "our", trim=True), _shown(tmp_path / "our")] == [
        "\nyes",
        "yes",
        "\nyes",
    ]


@pytest.mark.parametrize("content", [b"", b"not compiled", b"cut"])
def test_what_is_damaged_is_compiled_again(tmp_path: Path, content: bytes, compiled: list[str]) -> None:
    (tmp_path / "our/a.html").write_text("one {{ it }}")
    _shown(tmp_path / "our")
    (kept,) = (tmp_path / "kept").iterdir()
    kept.write_bytes(kept.read_bytes()[:-20] if content == b"cut" else content)
    assert _shown(tmp_path / "our") == "one 1"
    assert len(compiled) == 2


def test_nothing_is_kept_of_templates_elsewhere(tmp_path: Path) -> None:
    (tmp_path / "our/a.html").write_text("own {{ it }}")
    assert _shown(tmp_path / "our", home=tmp_path) == "own 1"
    assert list((tmp_path / "kept").iterdir()) == []


def test_nothing_is_kept_where_python_may_not_write(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "our/a.html").write_text("one {{ it }}")
    monkeypatch.setattr(sys, "dont_write_bytecode", True)
    assert _shown(tmp_path / "our") == "one 1"
    monkeypatch.setattr(sys, "dont_write_bytecode", False)
    (tmp_path / "kept").rmdir()
    assert _shown(tmp_path / "our") == "one 1"
    assert not (tmp_path / "kept").exists()


@pytest.mark.parametrize("name", TEMPLATES)
def test_no_word_of_ours_is_worked_out_while_compiling(name: str) -> None:
    """Jinja applies filters to constants as it compiles; that would stay when the filter's code changes."""
    found = environment([resources("templates")])
    found.filters = _Any()
    tree = found.parse((resources("templates") / name).read_text("utf-8"))
    for one in tree.find_all(nodes.Filter):
        with pytest.raises(Impossible):
            one.as_const(nodes.EvalContext(found, name))


def test_a_filter_on_a_constant_is_seen() -> None:
    found = Environment(loader=DictLoader({}))
    found.filters = _Any()
    (one,) = found.parse("{{ 'x'|tidy }}").find_all(nodes.Filter)
    assert one.as_const(nodes.EvalContext(found, "")) == ""


class _Any(dict[str, object]):
    """Has a filter of any name."""

    def get(self, key: str, default: object = None) -> object:
        return lambda *given: ""
