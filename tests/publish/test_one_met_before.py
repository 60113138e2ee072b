"""A preview finds the same earlier decisions as the site, which compares every pair."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from bench.many import make_museum
from rendered_site import AS_OF, DEMO
from witnessmark.model.library import Library, assemble
from witnessmark.publish.allow import public_museum, published_ids
from witnessmark.publish.one_met_before import met_before
from witnessmark.publish.public_across import PublicPrecedent
from witnessmark.repository.disk import read_museum
from witnessmark.rules.rulebook import RuleBook
from witnessmark.weighing.case import Case, work_out
from witnessmark.weighing.precedents import earlier_agreed, portrait_of, precedents

NEAR = 2 / 3  # from this likeness on the site shows an earlier decision that is not named


@pytest.fixture(scope="module", params=["demo", "many"])
def library(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Library:
    folder = DEMO
    if request.param == "many":
        folder = make_museum(tmp_path_factory.mktemp("many"), decisions=48)
    return assemble(read_museum(folder))


def cases(library: Library) -> Iterator[Case]:
    for _, entry in sorted(library.by_id.items()):
        if entry.value is not None:
            yield work_out(entry.value, entry.machine, library)


def met(case: Case, library: Library) -> tuple[PublicPrecedent, ...]:
    return met_before(case, library, published=published_ids(library))


def test_a_preview_shows_the_rows_of_the_site(library: Library) -> None:
    site = public_museum(library, RuleBook(()), as_of=AS_OF)
    expected = {decision.id: decision.met_before for decision in site.decisions}
    found = {case.decision.id: met(case, library) for case in cases(library)}
    assert any(expected.values())
    assert expected == {name: found[name] for name in expected}


def test_a_draft_is_compared_with_every_published_decision_of_before(library: Library) -> None:
    published = published_ids(library)
    for case in (case for case in cases(library) if case.decision.id not in published):
        past = {
            one.id: portrait_of(work_out(one.value, one.machine, library))
            for one in earlier_agreed(case.decision, library)
            if one.value is not None and one.id in published
        }
        every = precedents(portrait_of(case), past=past)
        near = [one.decision for one in every if (one.likeness.similarity or 0) >= NEAR][:3]
        assert set(near) <= {row.decision for row in met(case, library)}
