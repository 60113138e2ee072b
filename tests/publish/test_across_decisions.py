"""What only shows across decisions: precedents, other policies, and how alike people judge.

Likeness itself, replay and the figures of agreement are checked against others' numbers in
tests/weighing; here, what of them reaches a page, and that it is public.
"""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date
from fractions import Fraction
from functools import cache
from html import unescape

import pytest
from hypothesis import given
from hypothesis import strategies as st

import canary_museum as canary
from rendered_site import DEMO, NO_RULES, demo, pages, site_of
from witnessmark.model.library import Library, assemble
from witnessmark.publish.allow import public_museum
from witnessmark.publish.likely_near import LikelyNear
from witnessmark.publish.public import PublicMuseum
from witnessmark.publish.public_across import PublicLikeness
from witnessmark.publish.shown_likeness import public_likeness, without_names
from witnessmark.publish.shown_precedents import NEAR
from witnessmark.repository.disk import read_museum
from witnessmark.weighing.agreement import Rating, Ratings, agreement_of
from witnessmark.weighing.option import CRITERIA
from witnessmark.weighing.precedents import FEATURES, Portrait, likeness_of

F = Fraction
DAY = date(2026, 9, 15)
words = st.frozensets(st.sampled_from(["bush", "pin", "bolt", "shaft"]), max_size=3)
portraits = st.fixed_dictionaries(
    {
        "kinds of option": st.none() | words,
        "way of keeping": st.none() | st.sampled_from(["running", "reserve"]),
        "part": st.none() | words,
        "material": st.none() | words,
        **{name: st.none() | st.integers(0, 12).map(lambda n: F(n, 3)) for name in CRITERIA},
    }
)


def shown(library: Library) -> PublicMuseum:
    return public_museum(library, NO_RULES, as_of=DAY)


@cache
def the_demo() -> PublicMuseum:
    return shown(assemble(read_museum(DEMO)))


def demo_with(name: str, text: str) -> Library:
    folder = read_museum(DEMO)
    return assemble(replace(folder, files={**folder.files, name: text.encode()}))


@given(portraits, portraits)
def test_what_is_near_exactly_is_never_lost_to_the_quick_look(
    one: Portrait, other: Portrait
) -> None:
    seen = LikelyNear(FEATURES)
    seen.add("2024-001", other)
    exact = likeness_of(one, other, features=FEATURES).similarity
    if exact is not None and exact >= NEAR:
        assert ["2024-001"] == seen.near(one, at_least=NEAR, most=3)
    if exact is None or exact < NEAR - F(1, 1000):
        assert [] == seen.near(one, at_least=NEAR, most=3)


def test_only_earlier_decisions_are_precedents() -> None:
    opened = {d.id: (d.opened, d.id) for d in the_demo().decisions}
    pairs = [(d.id, p.decision) for d in the_demo().decisions for p in d.met_before]
    assert pairs
    assert [] == [pair for pair in pairs if opened[pair[1]] >= opened[pair[0]]]


def test_only_published_decisions_are_precedents() -> None:
    museum = the_demo()
    published = {decision.id for decision in museum.decisions}
    assert {p.decision for d in museum.decisions for p in d.met_before} <= published


def test_a_decision_that_is_named_is_shown_however_far_it_is() -> None:
    page = pages(demo())["d/2024-003/index.html"]
    part = page.split('<h2 id="met-before">')[1].split("</section>")[0]
    far = part.split("d/2023-004/index.html")[1]
    assert "Little alike" in far
    assert "This decision departs from it. There a bush worn past its limit" in far


def test_a_precedent_says_how_alike_it_is_and_how_much_was_compared() -> None:
    for decision in the_demo().decisions:
        page = unescape(pages(demo())[f"d/{decision.id}/index.html"])
        linked = page.split('<h2 id="met-before">')[1].split("</section>")[0]
        part = re.sub(r'<a class="wm-term"[^>]*>(.*?)</a>', r"\1", linked)
        told = re.findall(r"<strong>[A-Z][a-z, ]+: (\d+) in 100\.</strong>", part)
        wanted = [int((p.likeness or F(0)) * 100 + F(1, 2)) for p in decision.met_before]
        assert wanted == [int(number) for number in told]
        assert len(wanted) == part.count("known for both") + part.count("Known for both")
        assert [True] * len(wanted) == [
            f"Chosen then: {p.chosen}" in part for p in decision.met_before
        ]


def test_a_private_decision_is_no_precedent() -> None:
    # The canary's 2024-003 follows 2024-006, which is not public.
    decision = shown(canary.library()).decision("2024-003")
    assert decision
    assert "2024-006" not in {p.decision for p in decision.met_before}


def test_a_policy_that_weighs_only_authenticity_is_shown_to_change_what_leads() -> None:
    # By the map of 2022-001, option C leads in the corner where authenticity counts alone.
    text = (DEMO / "policy" / "2022-01.yml").read_text(encoding="utf-8")
    weights = "running: {authenticity: 0.97, safety: 0.02, reversibility: 0.01}"
    other = text.replace(
        "running: {authenticity: 0.35, safety: 0.40, reversibility: 0.25}", weights
    )
    other = re.sub(r"  running: \{authenticity: \[.*\n", "", other)
    other = other.replace("valid_from: 2022-01-01", "valid_from: 2021-01-01")
    library = demo_with("policy/2021-01.yml", other)
    found = {r.policy: r for r in shown(library).replays}["2021-01"]
    row = next(r for r in found.decisions if r.decision == "2022-001")
    assert (["B"], ["C"]) == ([n[0] for n in row.then or ()], [n[0] for n in row.now or ()])
    page = str(site_of(library)["other-policies/index.html"])
    part = page.split('<h2 id="policy-2021-01">')[1].split("</section>", maxsplit=1)[0]
    changed = part.split("<details>")[0]
    assert set(re.findall(r"d/([0-9-]+)/", changed)) == {r.decision for r in found.changed}
    assert "2022-001" in changed


def test_each_policy_weighs_all_published_decisions_of_the_others_anew() -> None:
    museum = the_demo()
    for found in museum.replays:
        wanted = [d.id for d in museum.decisions if d.policy != found.policy]
        assert wanted == [row.decision for row in found.decisions]
    assert {p.id for p in museum.policies} == {r.policy for r in museum.replays}


def ratings(decisions: int, raters: tuple[str, ...] = ("ztannq", "ztbobq")) -> PublicLikeness:
    """Two units a decision: on the first people agree, on the second they are a step apart."""
    return without_names(
        agreement_of(
            Ratings.of(
                Rating(f"{n}/{unit}", rater, F(n % 4 + unit * place), f"2024-{n:03}")
                for n in range(decisions)
                for unit in (0, 1)
                for place, rater in enumerate(raters)
            )
        )
    )


def test_under_ten_decisions_it_is_too_few_to_say() -> None:
    assert ratings(9).too_few
    assert ratings(10).too_few is None


def test_half_of_the_comparisons_are_equal() -> None:
    found = ratings(12)
    assert (F(1, 2), 24, 48, 12) == (found.raw, found.units, found.ratings, found.decisions)


@pytest.mark.parametrize(("raters", "kappas"), [(("a", "b"), 3), (("a", "b", "c"), 0)])
def test_kappa_is_given_for_two_people_only(raters: tuple[str, ...], kappas: int) -> None:
    assert kappas == len(ratings(12, raters).kappa)


def test_who_judged_is_counted_and_never_named() -> None:
    assert 2 == ratings(12).raters
    assert not re.search("zt[a-z]+q", repr(ratings(12)))


def test_second_judgements_of_a_private_record_do_not_count() -> None:
    assert public_likeness(canary.library(), published={"2024-003"}) is not None
    assert public_likeness(canary.library(), published={"2024-008"}) is None


def test_the_page_says_too_few_where_one_decision_was_judged_twice() -> None:
    page = str(site_of(canary.library())["how-alike-we-judge/index.html"])
    assert "Too few to say: 1 decision judged by more than one person, and it takes 10." in page


def test_the_page_shows_the_figures_of_the_public_model() -> None:
    page = unescape(pages(demo())["how-alike-we-judge/index.html"])
    found = the_demo().likeness
    assert found
    rows = dict(re.findall(r'<th scope="row">([^<]+)</th><td>([^<]+)</td>', page))
    assert (str(found.decisions), str(found.units)) == (rows["Decisions"], rows["Values"])
    for metric, alpha in found.alpha:
        told = float(rows[f"Alpha, {metric.value}"].replace("\N{MINUS SIGN}", "-"))
        assert pytest.approx(float(alpha or 0), abs=0.005001) == told


def test_of_decisions_alike_in_all_that_is_compared_the_first_by_name_are_enough() -> None:
    seen = LikelyNear(FEATURES)
    portrait: Portrait = {"kinds of option": frozenset({"repair"})}
    for name in ("2024-004", "2024-001", "2024-003", "2024-002"):
        seen.add(name, portrait)
    assert ["2024-001", "2024-002", "2024-003"] == seen.near(portrait, at_least=NEAR, most=3)
