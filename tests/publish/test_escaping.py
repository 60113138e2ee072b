"""Record text is shown as typed: never as markup, never as a template."""

from __future__ import annotations

import json
import re
from functools import cache

import pytest

import canary_museum as canary
from rendered_site import Markup, pages, site_of
from witnessmark.publish import Skin

HOSTILE = "x\"><b>{{ 7*7 }}{% raw %}</b></script><!--&amp;'"
DATA = re.compile(r'<script type="application/ld\+json">(.*?)</script>', re.DOTALL)
IDS = frozenset(
    {"ann", "bob", "place", "lot", "assembly", "sheet", "hazard", "label", "label_two"}
    | {"museum_web", "source_id"}
)
"""Names, labels and addresses take no such signs; the shape of a record refuses them."""


def hostile(name: str) -> str:
    """A text that would break out of any markup, written so that YAML takes it as text."""
    if name in IDS:
        return canary.named_token(name)
    quoted = HOSTILE.replace('"', '\\"')
    return f'"{canary.named_token(name)} {quoted}"'


@cache
def hostile_pages(skin: Skin) -> dict[str, str]:
    return pages(site_of(canary.library(hostile), skin=skin, pictures=canary.pictures()))


@pytest.mark.parametrize("skin", ["plain", "themed"])
def test_no_text_of_a_record_becomes_an_element(skin: Skin) -> None:
    texts = hostile_pages(skin)
    assert [] == [p for p, text in texts.items() if "b" in {t for t, _ in Markup(text).elements}]


@pytest.mark.parametrize("skin", ["plain", "themed"])
def test_no_text_of_a_record_runs_as_a_template(skin: Skin) -> None:
    text = "".join(hostile_pages(skin).values())
    assert ("{{ 7*7 }}{% raw %}" in text, "49{" in text) == (True, False)


@pytest.mark.parametrize("skin", ["plain", "themed"])
def test_every_hostile_text_is_shown_as_typed(skin: Skin) -> None:
    page = hostile_pages(skin)["d/2024-003/index.html"]
    typed = "x&#34;&gt;&lt;b&gt;{{ 7*7 }}{% raw %}&lt;/b&gt;&lt;/script&gt;&lt;!--&amp;amp;&#39;"
    assert page.count(typed) > 60


@pytest.mark.parametrize("skin", ["plain", "themed"])
def test_every_element_is_closed_in_its_order(skin: Skin) -> None:
    crossed = {path: Markup(text).crossed for path, text in hostile_pages(skin).items()}
    assert {} == {path: tags for path, tags in crossed.items() if tags}


def test_the_data_in_a_page_is_read_back_as_typed() -> None:
    facts = json.loads(DATA.findall(hostile_pages("plain")["d/2024-003/index.html"])[0])
    assert facts["headline"].endswith(HOSTILE)


def test_no_page_holds_a_script_that_runs_a_style_or_a_handler() -> None:
    for text in hostile_pages("plain").values():
        for tag, given in Markup(text).elements:
            assert tag not in {"style", "iframe", "object"}
            assert tag != "script" or given == {"type": "application/ld+json"}
            assert not [name for name in given if name == "style" or name.startswith("on")]


def test_an_address_that_could_run_is_no_link() -> None:
    museum = canary.MUSEUM.replace("https://example.org/$museum_web/", '"javascript:alert(1)"')
    site = site_of(canary.library_with("museum.yml", museum))
    assert not [path for path, text in site.items() if "javascript:" in str(text)]
