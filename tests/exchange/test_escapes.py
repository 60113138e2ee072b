"""Texts from records cannot become markup, mentions, commands or broken XML, in any format."""

from __future__ import annotations

import re
from dataclasses import fields, is_dataclass, replace
from enum import Enum
from html.parser import HTMLParser
from typing import Any
from xml.etree import ElementTree as ET

import markdown as python_markdown  # type: ignore[import-untyped]
import pytest
from hypothesis import given
from hypothesis import strategies as st

from building import BASE, DECISION, changed, plainly
from reviewing import review
from witnessmark.exchange.escapes import (
    github_data,
    github_property,
    markdown,
    one_line,
    xml_text,
)
from witnessmark.exchange.review import Review
from witnessmark.exchange.review.markdown import render_section
from witnessmark.exchange.review.page import render_page
from witnessmark.exchange.review.sections import sections_of

CANARY = "CANARY"
HOSTILE = (
    "@museum/team and #123 and !45",
    "| a | b |\n| --- | --- |",
    "# A heading",
    "\n\n## A heading after a break",
    "```\nfence",
    "~~~\nfence",
    "<details><summary>x</summary>",
    "<img src=x onerror=alert(1)>",
    "</td></tr></table><script>alert(1)</script>",
    "<!-- a comment",
    "[a link](javascript:alert(1))",
    "![a picture](https://example.org/tracker.png)",
    "https://example.org/phish www.example.org",
    "- a list",
    "1. a list",
    "> a quote",
    "---",
    "===",
    "**bold** __bold__ *i* _i_ ~~gone~~",
    "$$x^2$$ and $x$",
    "&lt;b&gt; &#64;team",
    "\\`code\\` `code`",
    "\x1b[2J\x07\u202e\u200b\u2028",
    "::error::x",
    "person@example.org",
)
# What GitHub Docs ("Basic writing and formatting syntax") and GitLab Docs ("GitLab Flavored
# Markdown", references) turn into links: a sign straight before a word or a number.
REFERENCES = re.compile(r"(?<![\w&;])[@#!$%~^](?=[\w\"])|\w@\w")


class Seen(HTMLParser):
    """The tags and the text of a page."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.tags: list[str] = []
        self.text: list[str] = []

    def handle_starttag(self, tag: str, attrs: Any) -> None:
        del attrs
        self.tags.append(tag)

    def handle_data(self, data: str) -> None:
        self.text.append(data)


def seen(page: str) -> Seen:
    parser = Seen()
    parser.feed(page)
    parser.close()
    return parser


def _rendered(text: str) -> Seen:
    """Through a Markdown program of somebody else (Python-Markdown, with tables and fences)."""
    return seen(python_markdown.markdown(text, extensions=["tables", "fenced_code"]))


@pytest.mark.parametrize("text", HOSTILE)
@pytest.mark.parametrize("frame", ["{}", "- {}", "| a |\n| --- |\n| {} |", "**lead** {}"])
def test_markdown_of_a_hostile_text_has_the_tags_of_a_plain_one(text: str, frame: str) -> None:
    plain = _rendered(frame.format("x"))
    assert plain.tags == _rendered(frame.format(markdown(text))).tags


@pytest.mark.parametrize("text", HOSTILE)
def test_no_sign_that_a_host_makes_a_link_of_stands_before_a_word(text: str) -> None:
    shown = "".join(_rendered(markdown(text)).text)
    assert [] == REFERENCES.findall(shown)
    assert not re.search(r"https?:/|www\.", shown)


@given(st.text())
def test_a_text_is_always_one_line(text: str) -> None:
    assert len(one_line(text).splitlines()) <= 1


@given(st.text())
def test_markdown_holds_no_bare_markup(text: str) -> None:
    safe = markdown(text)
    assert "<" not in safe
    assert not re.search(r"(?<!\\)(\\\\)*[`|*_\[\]~]", safe)


@given(st.text())
def test_a_workflow_command_stays_one_command(text: str) -> None:
    # GitHub Docs, "Workflow commands": a command is a line; data ends with it, a property at , or :
    assert len(f"::error file=a::{github_data(text)}".splitlines()) == 1
    assert not set(",:\r\n") & set(github_property(text))


@given(st.text(st.characters(codec="utf-8")))
def test_any_text_is_well_formed_xml(text: str) -> None:
    element = ET.Element("a")
    element.text = xml_text(text)
    ET.fromstring(ET.tostring(element))  # noqa: S314  our own text


def _hostile_everywhere(text: str) -> dict[str, Any]:
    """The decision with a hostile text in every field that takes prose."""
    options = plainly(BASE[DECISION])["options"]
    changes: dict[str, Any] = {
        "title": text, "question": text, "aim.what": text, "choice.because": text,
        "choice.gives_up": text, "hazards.0.what": text, "hazards.1.what": text,
        "choice.dissent": [{"who": text, "what": text, "answer": text}],
        "losses": [{"what": text, "recorded_by": ["photograph"]}], "note": text,
        "sources": [{"what": text}],
    }  # fmt: skip
    for number in range(len(options)):
        changes |= {f"options.{number}.title": text, f"options.{number}.why_not": text}
    changes |= {
        "options.0.judged.use": {"likely": 1, "because": text},
        "options.1.steps.1.material": text,
        "options.1.answers.drops": {"after": "1C", "because": text,
                                    "controls": [{"order": "device", "what": text}]},
    }  # fmt: skip
    return changes


def _in_place(value: Any, text: str) -> Any:
    """The same value with another text wherever the canary stands."""
    if isinstance(value, str) and not isinstance(value, Enum):
        return value.replace(CANARY, text)
    if isinstance(value, tuple):
        return tuple(_in_place(member, text) for member in value)
    if is_dataclass(value) and not isinstance(value, type):
        inner = {f.name: _in_place(getattr(value, f.name), text) for f in fields(value)}
        return replace(value, **inner)
    return value


@pytest.fixture(scope="module")
def canaried() -> Review:
    """A review of a record with a canary in every field that takes prose, and of a new one."""
    fresh = changed(BASE[DECISION], {**_hostile_everywhere(CANARY), "id": "2024-002"})
    return review({DECISION: _hostile_everywhere(CANARY)}, also={"winch/2024-002-x.yml": fresh})


@pytest.mark.parametrize("text", HOSTILE)
def test_a_hostile_record_changes_nothing_of_the_shape_of_a_review(
    canaried: Review, text: str
) -> None:
    sections = sections_of(canaried)
    plain = "\n\n".join(render_section(_in_place(one, "x")) for one in sections)
    hostile = "\n\n".join(render_section(_in_place(one, text)) for one in sections)
    assert plain.count("x") > 20
    assert _rendered(plain).tags == _rendered(hostile).tags


@pytest.mark.parametrize("text", HOSTILE)
def test_a_hostile_record_brings_no_element_into_the_page_of_a_review(
    canaried: Review, text: str
) -> None:
    page = seen(render_page(_in_place(canaried, text)))
    assert {"script", "img", "iframe", "a", "details", "b"} & set(page.tags) == set()


def test_the_page_of_a_review_asks_for_nothing_from_elsewhere() -> None:
    page = render_page(review({DECISION: {"options.1.answers.drops.after": "1C"}}))
    assert "default-src 'none'" in page
    assert not re.search(r"(src|href|url)\s*[=(]", page)
