"""The pages of how we score, and of the closed words."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from witnessmark.model.options import Option
from witnessmark.model.policy import FabricPolicy, FabricRow, FabricTable
from witnessmark.model.position import Pieces
from witnessmark.model.words import CLOSED_WORDS, MadeTo, Origin
from witnessmark.publish.anchors import (
    ASPECT_ANCHORS,
    RISK_MEANS,
    SAFETY_ANCHORS,
    UNDO_ANCHORS,
)
from witnessmark.publish.figures.weighing_table import PLAINLY
from witnessmark.publish.first_use import anchor_of
from witnessmark.publish.public import PublicMuseum
from witnessmark.publish.public_policy import PublicPolicy
from witnessmark.publish.shown_precedents import NEAR, VERY_NEAR
from witnessmark.publish.trade_words import TRADE_WORDS
from witnessmark.publish.views import Section, View
from witnessmark.rules.rule import Confidence, RuleLevel, SourceStanding
from witnessmark.scoring.fabric import Fabric, reckon_fabric
from witnessmark.scoring.matrix882 import PROBABILITY, SEVERITY, risk_level
from witnessmark.weighing.precedents import FEATURES
from witnessmark.weighing.words import Standing, VerdictWord
from witnessmark.worksheets.verdict import Verdict

Words = list[tuple[str, str, list[tuple[str, str]]]]


def scoring_view(museum: PublicMuseum) -> View:
    """How options are scored: the levels, the weights, the tables, with a worked example."""
    newest = museum.policies[0] if museum.policies else None
    return View(
        path="how-we-score/index.html",
        title="How we score",
        description="What each score means, what we weigh, and how the numbers come from facts.",
        lead="scoring/lead.html",
        sections=tuple(
            Section(id=name, title=title, template=f"scoring/{name}.html")
            for name, title, is_there in (
                ("levels", "What the levels mean", True),
                ("weights", "What we weigh", newest is not None),
                ("risk", "Safety: the risk that is left", True),
                ("undo", "Reversibility: how far it can be undone", newest is not None),
                ("metal", "Original material, with an example", newest is not None),
                ("verdicts", "How sure a result is", True),
                ("likeness", "How we compare decisions", True),
            )
            if is_there
        ),
        values={
            "policy": newest,
            "older": museum.policies[1:],
            "aspects": list(ASPECT_ANCHORS.items()),
            "undo_levels": UNDO_ANCHORS,
            "safety_levels": [f"{SAFETY_ANCHORS[n]} {RISK_MEANS[n]}".strip() for n in range(5)],
            "severities": list(SEVERITY.items()),
            "risks": [
                (letter, words, [risk_level(f"{n}{letter}").value for n in SEVERITY])
                for letter, words in PROBABILITY.items()
            ],
            "verdicts": list(VerdictWord),
            "standings": [(word, PLAINLY[word]) for word in Standing],
            "features": FEATURES,
            "near": (NEAR, VERY_NEAR),
            "examples": _examples(newest) if newest else [],
        },
        has_contents=True,
    )


def _examples(policy: PublicPolicy) -> list[tuple[int, Fabric]]:
    """One bush renewed alike and kept: alone in its assembly, and beside three other parts."""
    return [(places, _bush_renewed(policy, places)) for places in (1, 4)]


def _bush_renewed(policy: PublicPolicy, places: int) -> Fabric:
    names = ("Bush", "Housing", "Journal", "Cap")[:places]
    scope = {f"example/{name.lower()}": (_piece(name),) for name in names}
    option = Option.model_validate(
        {
            "id": "example",
            "kind": "renew-like-for-like",
            "title": "A new bush",
            "steps": [
                {"do": "remove", "part": "example/bush", "fate": "stored"},
                {"do": "fit-new", "part": "example/bush", "like": "same"},
            ],
        }
    )
    undo = dict.fromkeys(range(2), 3)
    return reckon_fabric(option, scope=scope, policy=_fabric_policy(policy), undo_of=undo)


def _piece(name: str) -> Pieces:
    made_to = MadeTo.WEAR if name == "Bush" else MadeTo.LAST
    return Pieces(count=1, name=name, origin=Origin.AS_BUILT, made_to=made_to, can_be_made=True)


def _fabric_policy(policy: PublicPolicy) -> FabricPolicy:
    names = FabricTable.model_fields
    rows = {
        name: FabricRow(last=last, wear=wear)
        for name, (_, last, wear) in zip(names, policy.fabric, strict=True)
    }
    return FabricPolicy(worst=Fraction(policy.worst), table=FabricTable(**rows))


def _trade_words() -> list[tuple[str, str, str]]:
    """Words of the workshop with where they stand on the page and what they mean."""
    return [(anchor_of(word), word, meaning) for word, meaning in TRADE_WORDS.items()]


def glossary_view(museum: PublicMuseum) -> View:
    """Every closed word with its meaning, from the lists that the records are checked against."""
    return View(
        path="glossary/index.html",
        title="Words we use",
        description=f"The words of the decision record of {museum.name}, each with its meaning.",
        lead="lists/glossary.html",
        values={"trade": _trade_words(), "lists": _lists()},
    )


def _lists() -> Words:
    closed: tuple[Any, ...] = (
        *CLOSED_WORDS,
        Standing,
        VerdictWord,
        RuleLevel,
        SourceStanding,
        Confidence,
    )
    lists = [
        (
            words.__name__,
            (words.__doc__ or "").partition("\n")[0],
            [(word.value, word.definition) for word in words],
        )
        for words in closed
    ]
    sheets = [
        (verdict.word, f"{verdict.value[:1].upper()}{verdict.value[1:]}.") for verdict in Verdict
    ]
    return [*lists, ("SheetVerdict", "How a worksheet's result stands to its limit.", sheets)]
