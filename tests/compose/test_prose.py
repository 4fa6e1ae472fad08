"""An author's text: emphasis, names filled in, the first sentence."""

from hypothesis import example, given
from hypothesis import strategies as st
from markdown_it import MarkdownIt

from procgen.compose.prose import holes, prose, sentence_and_rest
from procgen.model.card import Prose, Run, plain

FIGURE = Run("3.50\u202fmm", figure=True)


def with_figure(name: str) -> Prose:
    return (FIGURE,)


def of(text: str) -> Prose:
    return prose(text, with_figure)


def test_a_hole_is_replaced_by_what_stands_for_its_name() -> None:
    assert of("Set to {gap}, then lock.") == (Run("Set to "), FIGURE, Run(", then lock."))
    assert of("{a}{b}") == (FIGURE, FIGURE)
    assert list(holes("from {cam_bearing.journal} to {gap}")) == [("cam_bearing.journal", 6), ("gap", 31)]


def test_emphasis() -> None:
    assert of("Do *not* force it.") == (Run("Do "), Run("not", emphasis=True), Run(" force it."))
    assert of("**Stop** here.") == (Run("Stop", strong=True), Run(" here."))
    assert of("**at {gap}**")[1] == Run("3.50\u202fmm", strong=True, figure=True)


def test_only_emphasis_is_markup() -> None:
    for text in ("# Head", "- item", "<b>bold</b>", "[link](http://x)", "`code`", "a | b", "2 * 3 * 4", "&amp;"):
        assert of(text) == (Run(text),)
    assert plain(of(r"2 \*not\* 3")) == "2 *not* 3"


@given(st.text(st.sampled_from("*_<>&`[]() ab{}\\")))
def test_nothing_that_fills_a_hole_becomes_markup(content: str) -> None:
    found = prose("before {x} after", lambda name: (Run(content, figure=True),))
    assert found == (Run("before "), Run(content, figure=True), Run(" after"))


def test_names_with_underscores_are_not_emphasis() -> None:
    seen: list[str] = []
    prose("{a_b} and {c_d}", lambda name: (Run(seen.append(name) or name),))  # type: ignore[func-returns-value]
    assert seen == ["a_b", "c_d"]


def test_lines_of_a_text_run_on() -> None:
    assert plain(of("Measure it.\nWipe it.")) == "Measure it. Wipe it."


def test_the_first_sentence() -> None:
    first, rest = sentence_and_rest(of("Hone it. Stop at {gap}. Wash."))
    assert (plain(first), plain(rest)) == ("Hone it.", "Stop at 3.50\u202fmm. Wash.")
    assert sentence_and_rest(of("Hone it")) == ((Run("Hone it"),), ())
    assert plain(sentence_and_rest(of("Is it worn? Then bore."))[0]) == "Is it worn?"


def test_a_point_inside_a_number_or_name_ends_no_sentence() -> None:
    first, rest = sentence_and_rest((Run("Set to "), Run("3. "), Run("x", figure=True)))
    assert plain(first) == "Set to 3."  # written by an author: a sentence's end
    assert plain(rest) == "x"
    first, rest = sentence_and_rest((Run("Set to "), Run("3. 5", figure=True), Run(" now. Go.")))
    assert (plain(first), plain(rest)) == ("Set to 3. 5 now.", "Go.")
    assert plain(sentence_and_rest(of("See v1.2 of it. Go."))[0]) == "See v1.2 of it."


def test_a_sentence_may_end_within_emphasis() -> None:
    first, rest = sentence_and_rest(of("*Stop.* Go on."))
    assert (first, rest) == ((Run("Stop.", emphasis=True),), (Run("Go on."),))


@given(st.text("ab _*\\{}é°.1-&<`[]~", max_size=16))
@example("a_b and {c_d}")
@example("_a_")
@example("1_000 °_a_°")
def test_a_text_without_markup_is_what_markdown_makes_of_it(text: str) -> None:
    reader = MarkdownIt("zero", {"html": False}).enable(["emphasis", "escape"])
    (line,) = reader.parseInline(text.strip())
    said = "".join(token.content for token in line.children or ())
    assert plain(prose(text, lambda name: (Run(f"{{{name}}}"),))) == said
