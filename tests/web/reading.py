"""Reading a page as a browser would: the standard library's parser, with a tally of what stands open."""

from __future__ import annotations

from dataclasses import dataclass, field
from html.parser import HTMLParser

# HTML Living Standard, "Void elements".
VOID = frozenset(["area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source", "track", "wbr"])
INLINE = frozenset(["a", "b", "i", "u", "span", "wbr"])
SVG_EMPTY = frozenset({"path", "rect", "use", "line", "circle"})


@dataclass
class Element:
    tag: str
    attributes: dict[str, str]


@dataclass
class Page(HTMLParser):
    """Every element in order, the text that is shown, and what is wrong with the nesting."""

    elements: list[Element] = field(default_factory=list)
    open: list[str] = field(default_factory=list)
    words: list[str] = field(default_factory=list)
    faults: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        super().__init__(convert_charrefs=True)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        names = [name for name, _ in attrs]
        if len(set(names)) != len(names):
            self.faults.append(f"<{tag}> has an attribute twice")
        self.elements.append(Element(tag, {name: value or "" for name, value in attrs}))
        if tag not in INLINE:
            self.words.append(" ")
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag not in VOID | SVG_EMPTY:
            self.faults.append(f"<{tag}/> does not close")
        self.elements.append(Element(tag, {name: value or "" for name, value in attrs}))

    def handle_endtag(self, tag: str) -> None:
        if not self.open or self.open.pop() != tag:
            self.faults.append(f"</{tag}> at {self.getpos()} closes nothing")

    def handle_data(self, data: str) -> None:
        if "title" not in self.open[-1:]:
            self.words.append(data)

    @property
    def text(self) -> str:
        return squeezed("".join(self.words))

    def having(self, attribute: str) -> list[tuple[str, str]]:
        return [(e.tag, e.attributes[attribute]) for e in self.elements if attribute in e.attributes]


def squeezed(text: str) -> str:
    """All runs of spaces as one, narrow and unbreaking ones too; apostrophes alike, typed or typeset."""
    return " ".join(text.split()).replace("\u2019", "'")


def read(content: bytes) -> Page:
    page = Page()
    page.feed(content.decode())
    page.close()
    return page
