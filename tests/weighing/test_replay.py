"""Past decisions under another policy, and the traits of a decision, from a small museum.

The museum was made for this project. By hand, leaving the bush scores authenticity 4, safety 1 (2C
is a serious risk) and reversibility 4; renewing it scores safety 4 and at most 1 and 2 on the
others. So leaving is worth 1.6 to 3.2 or more where safety weighs 0.8, and 3.7 to 1.6 or less where
it weighs 0.1.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from witnessmark.errors import UnknownNameError
from witnessmark.model.library import Folder, Library, assemble
from witnessmark.weighing import Option, Range, Ranges, Weighting, Weights, weigh
from witnessmark.weighing.case import Case, work_out
from witnessmark.weighing.precedents import FEATURES, likeness_of, portrait_of
from witnessmark.weighing.replay import Replayed, replay, under_policy

F = Fraction

POLICY = """witnessmark: 1
valid_from: {day}
weights:
  running: {{authenticity: {a}, safety: {s}, reversibility: {r}}}
"""
MACHINE = """witnessmark: 1
as_of: 2020-01-01
name: The crane
what: A crane on rails.
kept:
  - {from: 2014-06-01, as: running}
significance:
  statement: It still lifts.
  state: As it left the quay.
  carried_by: {material: 1}
assemblies:
  - id: gear
    name: Slewing gear
    parts:
      - {id: bush, name: Bush of the post, origin: as-built, made_to: last, material: tin bronze}
      - {id: post, name: Post, origin: as-built, made_to: last, material: steel}
"""
DECISION = """witnessmark: 1
id: 2024-003
title: What should carry the jib
question: What should carry the jib now?
aim: {what: Slew a load, because: The crane is kept running}
about: [gear/bush]
policy: 2022-01
state: draft
opened: 2024-02-11
proposed_by: curator
hazards:
  - {id: seizure, what: The jib swings free, when: afterwards, who: [crew], before: 2C}
  - {id: pinch, what: A hand is caught, when: doing-the-work, who: [fitter], before: 3D}
options:
  - id: leave
    kind: leave-as-found
    title: Leave it
    consequences: {none: It wears no further while the crane rests.}
    answers: {seizure: {after: 2C}, pinch: {none: No work is done.}}
    unaffected: {form: Same, use: Same, technique: Same, setting: Same, spirit: Same}
  - id: rebush
    kind: renew-like-for-like
    title: A new bush
    steps:
      - {do: remove, part: gear/bush, fate: lost}
      - {do: fit-new, part: gear/bush, like: same}
    answers:
      seizure: {after: 2F, controls: [{order: eliminate, what: a sound bush}]}
      pinch: {after: 3F, controls: [{order: eliminate, what: a press}]}
    unaffected: {form: Same, use: Same, technique: Same, setting: Same, spirit: Same}
choice:
  option: rebush
  because: It is safer.
  gives_up: The old bush.
  would_change_our_mind: A find.
  dissent: none raised
"""


def museum() -> Library:
    texts = {
        "museum.yml": "witnessmark: 1\nname: A museum\n",
        "policy/2022-01.yml": POLICY.format(day="2022-01-01", a="0.10", s="0.80", r="0.10"),
        "policy/2025-01.yml": POLICY.format(day="2025-01-01", a="0.60", s="0.10", r="0.30"),
        "crane/machine.yml": MACHINE,
        "crane/2024-003-bush.yml": DECISION,
    }
    return assemble(Folder("decisions", {path: text.encode() for path, text in texts.items()}))


def worked_out(library: Library) -> Case:
    (entry,) = library.decisions
    assert entry.value is not None
    return work_out(entry.value, entry.machine, library)


def test_a_policy_that_weighs_otherwise_changes_who_leads() -> None:
    library = museum()
    found = replay([worked_out(library)], under=under_policy("2025-01", library=library))
    expected = (Replayed("2024-003", "crane", "rebush", ("rebush",), ("leave",)),)
    assert expected == found
    assert found[0].is_changed


def test_the_policy_a_decision_was_made_under_changes_nothing() -> None:
    library = museum()
    (found,) = replay([worked_out(library)], under=under_policy("2022-01", library=library))
    assert not found.is_changed


def test_replaying_leaves_the_case_itself_as_it_was() -> None:
    library = museum()
    case = worked_out(library)
    replay([case], under=under_policy("2025-01", library=library))
    assert (("rebush",), "2022-01") == (case.winners, case.decision.policy)


def test_an_unknown_policy_is_refused_with_those_there_are() -> None:
    with pytest.raises(UnknownNameError, match=r"called 2030-01\. Name one of 2022-01, 2025-01\."):
        under_policy("2030-01", library=museum())


def test_a_decision_that_cannot_be_weighed_now_has_no_winner_now() -> None:
    case = worked_out(museum())
    (found,) = replay([case], under=lambda then: replace(then, weighing=None))
    assert (("rebush",), None, True) == (found.then, found.now, found.is_changed)


def test_one_repair_comes_out_otherwise_on_a_machine_that_stands() -> None:
    # The figures are the project's own, worked by hand: keep is ahead of rebush under a safety
    # weight of 1/3, where standing machines have their weights.
    scores = {"rebush": (3, 3, 2), "rolling": (1, 4, 1), "shim": (3, 2, 3), "keep": (4, 1, 3)}
    options = [
        Option(name, (Range.certain(F(a)), Range.certain(F(s)), Range.certain(F(r))))
        for name, (a, s, r) in scores.items()
    ]
    ranges: Ranges = ((F(2, 5), F(7, 10)), (F(1, 10), F(3, 10)), (F(1, 5), F(2, 5)))
    running: Weights = (F(7, 20), F(2, 5), F(1, 4))
    standing: Weights = (F(1, 2), F(1, 5), F(3, 10))
    case = replace(
        worked_out(museum()), weighing=weigh(options, weighting=Weighting(weights=running))
    )
    other = weigh(options, weighting=Weighting(weights=standing, ranges=ranges))
    (found,) = replay([case], under=lambda then: replace(then, weighing=other))
    assert (("rebush",), ("keep",)) == (found.then, found.now)


def test_decisions_are_replayed_in_order_of_id() -> None:
    case = worked_out(museum())
    later = replace(case, decision=case.decision.model_copy(update={"id": "2025-001"}))
    found = replay([later, case], under=lambda then: then)
    expected = ["2024-003", "2025-001"]
    assert expected == [replayed.decision for replayed in found]


def test_the_traits_of_a_decision_are_read_from_its_record_and_its_machine() -> None:
    found = portrait_of(worked_out(museum()))
    expected = {
        "kinds of option": frozenset({"leave-as-found", "renew-like-for-like"}),
        "way of keeping": "running",
        "part": frozenset({"bush", "post"}),
        "material": frozenset({"tin", "bronze"}),
        "safety": F(4),
    }
    assert expected == {name: found[name] for name in expected}


def test_every_feature_has_a_trait_in_a_whole_record() -> None:
    portrait = portrait_of(worked_out(museum()))
    expected = (F(1), F(1))
    found = likeness_of(portrait, portrait, features=FEATURES)
    assert expected == (found.similarity, found.coverage)
