"""The site holds together: addresses, links, weight, words and the same bytes each time."""

from __future__ import annotations

import re
from itertools import pairwise
from pathlib import Path

import pytest

import canary_museum as canary
from rendered_site import AS_OF, DEMO, Markup, demo, inner_links, pages, site_of
from witnessmark.model.library import assemble
from witnessmark.model.words import CLOSED_WORDS
from witnessmark.publish import Skin, static_files
from witnessmark.repository.disk import read_museum
from witnessmark.rules.own_rules import own_rules_of
from witnessmark.rules.rulebook_check import load_shipped
from witnessmark.worksheets import built_names

SKINS: tuple[Skin, ...] = ("plain", "themed")
LISTS = (
    *("", "about/", "decisions/", "exceptions/", "glossary/", "how-alike-we-judge/"),
    *("a-z/", "changes/", "disagreements/", "due/", "parts/", "search/", "stock/"),
    *(
        "how-this-is-kept/",
        "how-we-score/",
        "machines/",
        "other-policies/",
        "rules/",
        "where-our-rules-come-from/",
        "worksheets/",
    ),
)
MOST_BYTES = 150_000  # a decision page without pictures; the budget of the design, section 10


@pytest.mark.parametrize("skin", SKINS)
def test_every_link_leads_to_a_page_and_to_its_place_there(skin: Skin) -> None:
    site = demo(skin)
    markup = {path: Markup(text) for path, text in pages(site).items()}
    anchors = {path: set(found.all("id")) for path, found in markup.items()}
    lost = []
    for path, found in markup.items():
        for target, fragment in inner_links(path, found):
            if target not in site or (fragment and fragment not in anchors.get(target, set())):
                lost.append((path, target, fragment))
    assert [] == lost


def test_plain_links_name_the_file_so_that_they_open_from_disk() -> None:
    texts = {path: text for path, text in pages(demo()).items() if path != "404.html"}
    hrefs = {href for text in texts.values() for href in Markup(text).all("href")}
    inner = {href.partition("#")[0] for href in hrefs if not href.startswith("http")}
    assert set() == {href for href in inner if href and href.endswith("/")}


@pytest.mark.parametrize("skin", SKINS)
def test_every_anchor_is_there_once(skin: Skin) -> None:
    for path, text in pages(demo(skin)).items():
        ids = list(Markup(text).all("id"))
        assert (path, sorted(set(ids))) == (path, sorted(ids))


@pytest.mark.parametrize("skin", SKINS)
def test_addresses_hold_ids_and_no_titles(skin: Skin) -> None:
    site = pages(demo(skin))
    library = assemble(read_museum(DEMO))
    kept = {f"m/{name}/index.html" for name in library.machines}
    own = [rule for name in library.policies for rule in own_rules_of(library, name).rules]
    kept |= {f"rules/{rule.id}/index.html" for rule in (*load_shipped().rules, *own)}
    kept |= {f"worksheets/{name}/index.html" for name in built_names()}
    kept |= {f"{name}index.html" for name in LISTS}
    kept |= {"404.html"}
    decisions = {path for path in site if path.startswith("d/")}
    assert decisions
    assert all(re.fullmatch(r"d/[0-9]{4}-[0-9]{3}/index\.html", path) for path in decisions)
    assert kept == set(site) - decisions


def test_no_page_is_too_heavy() -> None:
    sheet = len(static_files()["assets/witnessmark.css"])
    weights = {path: len(text.encode()) + sheet for path, text in pages(demo()).items()}
    assert {} == {path: weight for path, weight in weights.items() if weight > MOST_BYTES}


def test_the_same_records_give_the_same_bytes() -> None:
    first = site_of(canary.library(), pictures=canary.pictures())
    assert first == site_of(canary.library(), pictures=canary.pictures())


def test_a_site_made_on_another_day_differs_only_by_what_the_day_changes() -> None:
    page = pages(site_of(canary.library()))["d/2024-003/index.html"]
    assert f'<time datetime="{AS_OF.isoformat()}">' in page


def test_every_closed_word_stands_in_the_glossary() -> None:
    page = pages(demo())["glossary/index.html"]
    anchors = set(Markup(page).all("id"))
    wanted = {f"{words.__name__.lower()}-{word.value}" for words in CLOSED_WORDS for word in words}
    assert set() == wanted - anchors


def test_headings_step_down_one_at_a_time() -> None:
    for path, text in pages(demo()).items():
        levels = [int(tag[1]) for tag, _ in Markup(text).elements if re.fullmatch("h[1-6]", tag)]
        assert (path, levels.count(1)) == (path, 1)
        assert not [b for a, b in pairwise(levels) if b > a + 1], path


def test_a_replaced_decision_says_so_before_anything_else() -> None:
    page = pages(site_of(canary.library()))["d/2024-005/index.html"]
    banner, title = page.index("no longer stands"), page.index("<h1>")
    assert banner < title
    assert '<a href="../../d/2024-003/index.html">2024-003</a>' in page


def test_a_successor_that_is_not_published_is_not_linked() -> None:
    other = canary.other(("2024-005", "replaced", "true", "replaced_by: 2024-006"))
    library = canary.library_with("crane/2024-005-other.yml", other)
    page = pages(site_of(library))["d/2024-005/index.html"]
    assert ("2024-006" in page, "A later decision stands in its place" in page) == (False, True)


def test_options_all_answer_the_same_questions() -> None:
    page = pages(site_of(canary.library()))["d/2024-003/index.html"]
    cards = page.split('<section class="wm-option')[1:]
    asked = ("What it is", "What stays", "What goes or changes", "Can it be undone?", "How safe?")
    assert [[True] * 5] * 3 == [[f"<dt>{name}</dt>" in card for name in asked] for card in cards]


def test_a_paragraph_starts_at_each_blank_line() -> None:
    text = canary.DECISION.replace("gives_up: $gives_up", 'gives_up: "One.\\n\\nTwo.\\n \\nThree."')
    library = canary.library_with("crane/2024-003-canary.yml", text)
    page = pages(site_of(library))["d/2024-003/index.html"]
    assert "<p>One.</p>\n<p>Two.</p>\n<p>Three.</p>" in page


def test_templates_are_the_only_place_for_markup() -> None:
    here = Path(static_files.__code__.co_filename).parent
    found = [
        path.name
        for path in sorted(here.rglob("*.py"))
        if re.search(r"[\"'].*<(p|div|a|svg|span|li|table)[ >]", path.read_text(encoding="utf-8"))
    ]
    assert [] == found


def test_a_rule_and_a_decision_tell_the_same_of_each_other() -> None:
    site = pages(demo())
    link = re.compile(r'href="../../(d|rules)/([a-z0-9-]+)/index\.html"')
    told: dict[str, set[tuple[str, str]]] = {"d": set(), "rules": set()}
    for path, text in site.items():
        kind, _, name = path.removesuffix("/index.html").partition("/")
        if kind == "d" and 'id="rules"' in text:
            part = text.split('<h2 id="rules">')[1].split("<h2 ")[0]
            told["d"] |= {(name, other) for to, other in link.findall(part) if to == "rules"}
        if kind == "rules" and name:
            part = text.split('<h2 id="decisions">')[-1].split("</article>")[0]
            told["rules"] |= {(other, name) for to, other in link.findall(part) if to == "d"}
    assert told["d"]
    assert told["d"] == told["rules"]


def test_a_rule_says_how_well_its_source_is_known() -> None:
    site = pages(demo())
    for rule in load_shipped().rules:
        page = site[f"rules/{rule.id}/index.html"]
        for source in rule.sources:
            confidence = source.confidence.replace("-", " ")
            assert f"{confidence[:1].upper()}{confidence[1:]}: " in page
