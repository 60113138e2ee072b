"""The first use of a word of the workshop leads to what it means, and nothing else is touched."""

from __future__ import annotations

import re

from rendered_site import demo, pages
from witnessmark.publish.first_use import explain_first_uses
from witnessmark.publish.trade_words import TRADE_WORDS

WORDS = ("bush", "gas strut")


def explained(markup: str) -> str:
    return explain_first_uses(markup, WORDS, page="g/")


def test_only_the_first_use_is_a_link_and_a_plural_counts() -> None:
    expected = '<p>Two <a class="wm-term" href="g/#trade-bush">Bushes</a>, one bush.</p>'
    assert expected == explained("<p>Two Bushes, one bush.</p>")


def test_headings_links_tables_and_code_are_left_alone() -> None:
    left = (
        "<h2>Bush</h2><p><a href='x'>bush</a> <code>bush</code></p>"
        "<table><tr><td>bush</td></tr></table><ul><li>None</li></ul>"
    )
    assert left == explained(left)


def test_a_word_within_a_word_is_another_word() -> None:
    assert "<p>An ambush.</p>" == explained("<p>An ambush.</p>")


def test_the_longest_word_wins() -> None:
    assert explained("<p>A gas strut</p>").count("wm-term") == 1


def test_a_text_in_an_attribute_is_never_touched() -> None:
    left = '<p><img alt="a bush" src="b.png">Oil</p>'
    assert left == explained(left)


def test_every_such_link_of_the_demo_is_the_first_of_its_word_on_its_page() -> None:
    for text in pages(demo()).values():
        found = re.findall(r'class="wm-term" href="[^"#]*#([a-z-]+)"', text)
        assert len(set(found)) == len(found)
    assert "wm-term" in str(demo()["d/2024-003/index.html"])


def test_each_meaning_is_a_sentence() -> None:
    assert [] == [word for word, meaning in TRADE_WORDS.items() if not meaning.endswith(".")]
