"""Rules on the site: their families, their cases, where they were kept, and what they rest on."""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import replace
from html import unescape

import pytest

import canary_museum as canary
from rendered_site import AS_OF, DEMO, demo, pages, site_of
from witnessmark.model.library import Folder, Library, assemble
from witnessmark.publish import public_museum, render_pages
from witnessmark.publish.views_rulebook import MOST_LISTED
from witnessmark.publish.views_sources import bare_text
from witnessmark.repository.disk import read_museum
from witnessmark.rules.cases import complaints
from witnessmark.rules.families import FAMILIES
from witnessmark.rules.own_rules import own_rules_of
from witnessmark.rules.rule import CaseVerdict, Confidence, Rule
from witnessmark.rules.rulebook import RuleBook
from witnessmark.rules.rulebook_check import load_shipped

RULES = load_shipped().rules
LIBRARY = assemble(read_museum(DEMO))
EVERY = (*RULES, *(rule for name in LIBRARY.policies for rule in own_rules_of(LIBRARY, name).rules))
"""The rules of the book and those of the demo museum itself, which stand in one policy."""
OWN = "rules/title-is-long-enough/index.html"


def words(markup: str) -> str:
    return re.sub(r"\s+", " ", unescape(re.sub(r"<[^>]*>", " ", markup)))


def page_of(rule: Rule) -> str:
    return pages(demo())[f"rules/{rule.id}/index.html"]


def part(page: str, anchor: str) -> str:
    return (
        page.split(f'<h2 id="{anchor}">')[1]
        .split("<h2 ", maxsplit=1)[0]
        .split("</article>", maxsplit=1)[0]
    )


def canary_page(path: str, *, change: tuple[str, str] = ("", "")) -> str:
    text = canary.DECISION.replace(*change) if change[0] else canary.DECISION
    return pages(site_of(canary.library_with("crane/2024-003-canary.yml", text)))[path]


def test_every_family_with_rules_stands_in_the_list_with_its_introduction() -> None:
    page = pages(demo())["rules/index.html"]
    used = [family for family in FAMILIES if any(rule.family == family.id for rule in RULES)]
    assert used
    read = words(page)
    assert [] == [f.id for f in used if f'id="family-{f.id}"' not in page]
    assert [] == [f.id for f in used if f.introduction not in read]


def test_every_rule_is_listed_once() -> None:
    page = pages(demo())["rules/index.html"]
    counts = Counter(re.findall(r'href="\.\./rules/([a-z0-9-]+)/index\.html"', page))
    assert {rule.id: 1 for rule in RULES} == {rule.id: counts[rule.id] for rule in RULES}


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)
def test_a_rules_page_answers_every_question(rule: Rule) -> None:
    page = page_of(rule)
    read = words(page)
    anchors = ("why", "sources", "applies", "passes", "faulted", "remedy", "rest", "decisions")
    assert [] == [name for name in anchors if f'<h2 id="{name}">' not in page]
    texts = [rule.title, rule.why, rule.remedy, *(source.text for source in rule.sources)]
    assert [] == [text for text in texts if re.sub(r"\s+", " ", text) not in read]


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)
def test_the_faulted_lines_and_no_others_are_marked(rule: Rule) -> None:
    marked = re.findall(r"<mark>(.*?)</mark>", page_of(rule))
    wanted = [case.record.splitlines()[n - 1] for case in rule.cases for n in sorted({*case.lines})]
    assert wanted == [unescape(line) for line in marked]


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)
def test_a_faulted_case_shows_what_the_rule_says_of_it(rule: Rule) -> None:
    read = words(part(page_of(rule), "faulted"))
    faulted = [case for case in rule.cases if case.verdict is CaseVerdict.FAULTED]
    said = [text for case in faulted for _, text in complaints(case.record, rule=rule)]
    assert said
    assert [] == [text for text in said if re.sub(r"\s+", " ", text).strip() not in read]


def test_a_rule_that_may_never_rest_says_so() -> None:
    never = [rule for rule in RULES if rule.level.value == "must" and not rule.waivable]
    assert never
    told = {rule.id: "Nobody may let this rule rest." in page_of(rule) for rule in RULES}
    assert {rule.id for rule in never} == {name for name, says in told.items() if says}


def test_a_waived_rule_shows_the_decision_and_the_reason() -> None:
    rule = next(rule for rule in RULES if rule.id == "new-part-is-marked-and-dated")
    here = part(page_of(rule), "decisions")
    assert 'href="../../d/2025-006/index.html"' in here
    assert "The lifting inspector asks for pins without any punch" in words(here)


def test_a_museums_own_rule_has_a_page_that_says_whose_it_is() -> None:
    page = canary_page(OWN)
    names = ("own_title", "own_why", "own_remedy", "own_source", "own_passes", "own_faulted")
    assert [True] * 6 == [canary.named_token(name) in page for name in names]
    assert "This museum, in its policy 2020-01." in words(page)
    assert "The title is short." in words(part(page, "faulted"))


def test_an_own_rule_and_a_decision_name_each_other() -> None:
    kept = canary_page("d/2024-003/index.html")
    assert f'href="../../{OWN}"' in part(kept, "rules")
    broken = ("title: $title", "title: Pins")
    page = canary_page("d/2024-003/index.html", change=broken)
    assert "Not kept, and no reason is written down" in part(page, "rules")
    assert "2024-003" in part(canary_page(OWN, change=broken), "decisions").split("Kept in")[0]


def test_a_policys_own_rule_is_asked_only_of_decisions_under_it() -> None:
    later = canary.POLICY.replace("valid_from: 2020-01-01", "valid_from: 2025-01-01")
    bare = later.split("own_rules:")[0] + "review: 2027-01-01\n"
    files = {"policy/2025-01.yml": bare}
    library = museum_with(files)
    page = pages(site_of(library))[OWN]
    assert 'href="../../d/2024-003/index.html"' in part(page, "decisions")
    other = canary.DECISION.replace("policy: 2020-01", "policy: 2025-01")
    page = pages(site_of(museum_with({**files, "crane/2024-003-canary.yml": other})))[OWN]
    assert 'href="../../d/2024-003/index.html"' not in part(page, "decisions")


def museum_with(more: dict[str, str]) -> Library:
    found = {name: canary.fill(text).encode() for name, text in (canary.files() | more).items()}
    return assemble(Folder("museum", found, frozenset(canary.pictures())))


def test_the_texts_page_counts_every_citation_once() -> None:
    page = pages(demo())["where-our-rules-come-from/index.html"]
    rows = re.findall(r"<li><strong>(.*?)<br>\s*(\d+) rules?,", page, re.DOTALL)
    told = {words(name).strip(): int(count) for name, count in rows}
    counted: dict[str, set[str]] = {}
    for rule in EVERY:
        for source in rule.sources:
            if source.confidence not in {Confidence.COMMON_PRACTICE, Confidence.OWN_JUDGEMENT}:
                counted.setdefault(bare_text(source.text), set()).add(rule.id)
    found = {text: max(n for name, n in told.items() if name.startswith(text)) for text in counted}
    assert {text: len(rules) for text, rules in counted.items()} == found
    whole = f"{len(EVERY)} rules stand on {sum(len(rule.sources) for rule in EVERY)} citations."
    assert whole in words(page)


def test_the_texts_page_counts_each_way_of_knowing() -> None:
    page = part(pages(demo())["where-our-rules-come-from/index.html"], "known")
    for confidence in Confidence:
        cited = [s for rule in EVERY for s in rule.sources if s.confidence is confidence]
        rules = [r for r in EVERY if any(s.confidence is confidence for s in r.sources)]
        name = confidence.value.replace("-", " ").capitalize()
        row = f"<td>{len(cited)}</td><td>{len(rules)}</td>"
        assert (name, row in page.split(f"{name}. ")[1].split("</tr>")[0]) == (name, True)


def test_what_was_only_from_memory_is_listed() -> None:
    page = words(part(pages(demo())["where-our-rules-come-from/index.html"], "memory"))
    remembered = [s for r in EVERY for s in r.sources if s.confidence is Confidence.FROM_MEMORY]
    assert [] == [s.cited for s in remembered if s.cited not in page]
    read = [s for r in EVERY for s in r.sources if s.confidence is Confidence.READ_IN_SOURCE]
    assert not [
        s.cited for s in read if s.cited in page and s.cited not in {r.cited for r in remembered}
    ]


def test_a_machine_that_breaks_a_should_is_named_on_the_rules_page() -> None:
    museum = public_museum(LIBRARY, load_shipped(), as_of=AS_OF)
    told = {rule.id: (rule.met_by, rule.broken_by) for rule in museum.rules}
    for name, (met, broken) in told.items():
        page = part(pages(demo())[f"rules/{name}/index.html"], "decisions")
        links = set(re.findall(r'href="\.\./\.\./m/([a-z0-9-]+)/', page))
        assert (name, {*met, *broken}) == (name, links)
    assert any(met for met, _ in told.values())


def test_a_withheld_finding_tells_nothing_of_its_machine() -> None:
    rule = next(rule for rule in RULES if rule.scope.value == "finding")
    book = RuleBook((rule,))
    hidden = canary.FINDINGS.replace("    public: true\n", "")
    library = canary.library_with("crane/findings.yml", hidden)
    (shown, *_) = public_museum(library, book, as_of=AS_OF).rules
    assert (shown.id, (), ()) == (rule.id, shown.met_by, shown.broken_by)


def test_a_rule_kept_by_very_many_decisions_lists_the_newest_and_counts_the_rest() -> None:
    museum = public_museum(LIBRARY, load_shipped(), as_of=AS_OF)
    rule = next(rule for rule in museum.rules if len(rule.met_in) > 1)
    ids = rule.met_in * MOST_LISTED
    crowded = replace(museum, rules=(replace(rule, met_in=ids),))
    page = next(
        p for p in render_pages(crowded, skin="plain") if p.path == f"rules/{rule.id}/index.html"
    )
    here = part(str(page.body), "decisions")
    assert f"Kept in {len(ids)} decisions" in here
    assert MOST_LISTED == here.split("Kept in")[1].count('<a href="../../d/')
    assert f"and {len(ids) - MOST_LISTED} earlier ones." in here
