"""The page of exceptions: what rests on the day of the site, what has ended, and who allowed it."""

from __future__ import annotations

import re
from datetime import date
from html import unescape

import pytest

import canary_museum as canary
from rendered_site import DEMO, demo, pages
from witnessmark.model.library import assemble
from witnessmark.publish import public_museum, render
from witnessmark.publish.views_exceptions import exceptions_view
from witnessmark.repository.disk import read_museum
from witnessmark.rules.rulebook import RuleBook
from witnessmark.rules.rulebook_check import load_shipped

PAGE = "exceptions/index.html"


def words(markup: str) -> str:
    return re.sub(r"\s+", " ", unescape(re.sub(r"<[^>]*>", " ", markup)))


def page(day: date, *, change: tuple[str, str] | None = None) -> str:
    text = canary.DECISION.replace(*change) if change else canary.DECISION
    library = canary.library_with("crane/2024-003-canary.yml", text)
    return pages(dict(render(library, rulebook=RuleBook(()), as_of=day, skin="plain")))[PAGE]


def part(text: str, anchor: str) -> str:
    found = text.split(f'<h2 id="{anchor}">')
    return found[1].split("<h2 ")[0].split("</article>")[0] if len(found) > 1 else ""


@pytest.mark.parametrize(
    ("day", "where"),
    [
        (date(2024, 12, 31), ["waivers"]),
        (date(2025, 1, 1), ["waivers"]),
        (date(2025, 1, 2), ["ended"]),
    ],
)
def test_a_waiver_is_live_to_its_last_day_and_then_has_ended(day: date, where: list[str]) -> None:
    text = page(day)
    reason = canary.named_token("waiver_because")
    found = [name for name in ("waivers", "ended") if reason in part(text, name)]
    assert where == found
    assert ("which is past" in part(text, "ended")) is (where == ["ended"])


def test_a_waiver_shows_who_allowed_it_where_and_until_when() -> None:
    read = part(page(date(2024, 6, 1)), "waivers")
    assert "1 January 2025" in read
    assert canary.named_token("bob_public") in read
    assert 'href="../d/2024-003/index.html"' in read


def test_a_waiver_of_a_replaced_decision_is_not_live() -> None:
    change = ("state: done", "state: replaced\nreplaced_by: 2024-008")
    text = page(date(2024, 6, 1), change=change)
    assert canary.named_token("waiver_because") not in part(text, "waivers")
    assert "it no longer stands" in words(part(text, "ended"))


def test_explained_advice_accepted_risk_and_emergency_are_listed() -> None:
    text = page(date(2025, 6, 1))
    found = {
        "explained": "explained_because",
        "risks": "accepted_because",
        "emergencies": "emergency_because",
        "own": "own_title",
    }
    shown = {name: canary.named_token(token) in part(text, name) for name, token in found.items()}
    assert dict.fromkeys(found, True) == shown


def test_advice_switched_off_or_held_as_binding_is_listed_with_its_reason() -> None:
    text = page(date(2025, 6, 1))
    tokens = {"off": "rule_off_because", "held": "rule_held_because"}
    shown = {name: canary.named_token(token) in part(text, name) for name, token in tokens.items()}
    assert dict.fromkeys(tokens, True) == shown


def test_a_rule_switched_off_or_held_as_binding_says_so_on_its_page() -> None:
    site = pages(
        dict(
            render(canary.library(), rulebook=load_shipped(), as_of=date(2025, 6, 1), skin="plain")
        )
    )
    off = words(site["rules/undo-is-described/index.html"])
    held = words(site["rules/intervention-is-least/index.html"])
    assert f"Switched off {canary.named_token('rule_off_because')}" in off
    assert f"Held as must {canary.named_token('rule_held_because')}" in held
    assert "Weight Must." in held
    link = 'href="../rules/undo-is-described/index.html"'
    assert link in part(site[PAGE], "off")


def test_an_accepted_risk_that_has_run_out_stands_under_ended() -> None:
    risks = part(page(date(2026, 1, 2)), "risks")
    assert canary.named_token("accepted_because") in risks.split("<h3>Ended</h3>")[1]
    assert "No risk below the museum's floor is accepted now." in words(risks)


def test_an_exception_of_a_decision_that_is_not_published_stays_in_the_house() -> None:
    text = page(date(2024, 6, 1), change=("publish: true", "publish: false"))
    tokens = ("waiver_because", "explained_because", "accepted_because", "emergency_because")
    assert [] == [name for name in tokens if canary.named_token(name) in text]
    assert "None. Every must is kept in every published decision." in words(text)


def test_the_demo_museum_has_a_live_waiver() -> None:
    waivers = part(pages(demo())[PAGE], "waivers")
    assert 'href="../d/2025-006/index.html"' in waivers
    assert "1 June 2027" in waivers


@pytest.mark.parametrize(
    ("day", "where"), [(date(2027, 6, 1), ["waivers"]), (date(2027, 6, 2), ["ended"])]
)
def test_the_waiver_of_the_demo_is_caught_once_its_last_day_is_past(
    day: date, where: list[str]
) -> None:
    library = assemble(read_museum(DEMO))
    text = pages(dict(render(library, rulebook=RuleBook(()), as_of=day, skin="plain")))[PAGE]
    link = 'href="../d/2025-006/index.html"'
    assert where == [name for name in ("waivers", "ended") if link in part(text, name)]


def test_every_exception_of_a_decision_is_on_the_page() -> None:
    library = canary.library()
    museum = public_museum(library, RuleBook(()), as_of=date(2024, 6, 1))
    values = exceptions_view(museum).values
    live, ended = values["live"], values["ended"]
    assert isinstance(live, list)
    assert isinstance(ended, list)
    assert sum(len(d.waived) for d in museum.decisions) == len(live) + len(ended)
