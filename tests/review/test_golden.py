"""Three prepared reviews, kept whole: a new record, changed scores, a changed policy.

With WITNESSMARK_GOLDEN=write in the environment the files are written anew; read what changed.
"""

from __future__ import annotations

import os
from pathlib import Path
from typing import Any

import pytest

from building import BASE, DECISION, FINDINGS, GONE, POLICY, changed
from reviewing import agreed, few_rules, review
from witnessmark.exchange.review import Review
from witnessmark.exchange.review.markdown import MARKER, MOST_CHARACTERS, render_markdown

GOLDEN = Path(__file__).parent / "golden"
FIRST_BLOCK = 25

SECOND = changed(
    BASE[DECISION],
    {
        "id": "2024-002",
        "title": "Why we sleeve the shaft of the drum instead of turning it down",
        "question": "The shaft is scored where the bush ran dry. What should be done with it?",
        "about": ["drum/shaft"],
        "findings": GONE,
        "worksheets": GONE,
        "judged_by.by": "fitter",
        "choice.option": "sleeve",
        "choice.because": "The metal that is left stays whole below the sleeve",
        "choice.gives_up": "The scored face cannot be seen any more",
        "options": [
            {
                "id": "leave",
                "kind": "leave-as-found",
                "title": "Leave the scored shaft",
                "consequences": [
                    {"part": "drum/shaft", "becomes": "cut", "undo": 1, "because": "Grit stays"}
                ],
                "answers": {"drops": {"after": "2D"}, "lifting": {"none": "Nothing is lifted"}},
                "judged": {"use": {"likely": 3, "because": "It turns, and it squeals"}},
                "unaffected": {"form": "As it was", "setting": "In its shed",
                               "spirit": "As it was"},
                "why_not": "The new bush would be cut within a season.",
            },
            {
                "id": "sleeve",
                "kind": "repair",
                "title": "Shrink a thin sleeve over the scored length",
                "steps": [
                    {"do": "sleeve", "part": "drum/shaft", "undo": 4,
                     "because": "It is shrunk on dry and comes off with heat"},
                ],
                "answers": {"drops": {"after": "2E", "because": "The face is round again"}},
                "judged": {
                    "form": {"likely": 3, "because": "The joint of the sleeve can be seen"},
                    "technique": {"low": 1, "likely": 2, "high": 3, "because": "A later trade"},
                },
                "unaffected": {"use": "Lifts as built", "setting": "In its shed",
                               "spirit": "As it was"},
                "way_back": "Warm it and draw it off.",
            },
        ],
    },
)  # fmt: skip

AGREED: dict[str, Any] = {
    "state": "agreed",
    "options.2.misses_aim": GONE,
    "choice.dissent": [
        {"who": "fitter", "what": "A shim would do for ten years", "answer": "It would creep"}
    ],
    "options.2.answers.drops": {"after": "2E", "because": "The padlock is on the brake"},
    "options.2.judged.use": {"likely": 0, "because": "It shows a winch and not what it does"},
}
WORSE: dict[str, Any] = {
    "options.1.answers.drops": {"after": "2D", "because": "The clearance is as built again"},
    "options.1.judged.technique": {"likely": 4, "because": "Scraped by hand"},
    "options.1.judged.form.likely": 2,
    "options.1.steps.0.fate": "lost",
    "options.0.why_not": "The shaft would be cut in the end, and the barrel after it.",
    "choice.dissent": "none raised",
    "findings": ["f-001", "f-002"],
    "publish": True,
}
FOUND = {
    "id": "f-002", "date": "2024-02-15", "by": "engineer", "part": "drum/bush", "basis": "seen",
    "what": "The old bush is cracked at the oil hole", "grade": "act",
}  # fmt: skip
AS_AGREED = agreed(changed(BASE[DECISION], AGREED), file=DECISION)
WEIGHTS: dict[str, object] = {"authenticity": "1/10", "safety": "3/5", "reversibility": "3/10"}
RANGES: dict[str, object] = {
    "authenticity": [0, "1/2"],
    "safety": ["3/10", "4/5"],
    "reversibility": [0, "1/2"],
}


def new_record() -> Review:
    return review(also={"winch/2024-002-shaft.yml": SECOND}, rules=few_rules())


def scores_changed() -> Review:
    return review(
        {FINDINGS: {"findings.1": FOUND}},
        also={DECISION: changed(AS_AGREED, WORSE)},
        also_before={DECISION: AS_AGREED},
        rules=few_rules(),
    )


def policy_changed() -> Review:
    rescored = {"options.2.judged.use.likely": 2}
    return review(
        {POLICY: {"weights.running": WEIGHTS, "ranges.running": RANGES}},
        also={DECISION: changed(AS_AGREED, rescored)},
        also_before={DECISION: AS_AGREED},
        rules=few_rules(),
    )


REVIEWS = {
    "new-record": new_record,
    "scores-changed": scores_changed,
    "policy-changed": policy_changed,
}


@pytest.mark.parametrize("name", REVIEWS)
def test_a_prepared_review_reads_as_it_did(name: str) -> None:
    told = render_markdown(REVIEWS[name]())
    path = GOLDEN / f"{name}.md"
    if os.environ.get("WITNESSMARK_GOLDEN") == "write":
        path.write_text(told, encoding="utf-8")
    assert path.read_text(encoding="utf-8") == told


@pytest.mark.parametrize("name", REVIEWS)
def test_what_must_not_be_missed_fits_25_lines(name: str) -> None:
    first = render_markdown(REVIEWS[name]()).split("\n## ")[1]
    assert FIRST_BLOCK >= len(first.splitlines())


def test_however_much_changed_the_first_block_fits_25_lines() -> None:
    many = {
        f"winch/2024-{n:03d}-x.yml": changed(BASE[DECISION], {"id": f"2024-{n:03d}"})
        for n in range(2, 40)
    }
    told = render_markdown(review(also_before=many, without=tuple(many), rules=few_rules()))
    assert FIRST_BLOCK >= len(told.split("\n## ")[1].splitlines())
    assert "more, each under its record below" in told


def test_a_comment_stays_below_what_a_host_takes_and_is_cut_between_sections() -> None:
    many = {
        f"winch/2024-{n:03d}-x.yml": changed(SECOND, {"id": f"2024-{n:03d}"}) for n in range(3, 40)
    }
    told = render_markdown(review(also=many, rules=few_rules()))
    assert MOST_CHARACTERS >= len(told)
    assert told.startswith(MARKER)
    assert "sections left out here" in told.splitlines()[-1]
    cells = {line.count("|") for line in told.splitlines() if line.startswith("| leave |")}
    assert cells <= {3, 4, 8}
