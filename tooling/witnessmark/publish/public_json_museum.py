"""A museum as public data: what it goes by, and where the rest is."""

from __future__ import annotations

from collections.abc import Mapping

from witnessmark.publish.public import PublicMuseum
from witnessmark.publish.public_json_values import Data, plain, rows, without
from witnessmark.publish.public_policy import PublicPolicy
from witnessmark.publish.public_rule import PublicRule


def museum_data(museum: PublicMuseum) -> dict[str, Data]:
    """The museum, with every machine and decision by id, its rules, policies and roles."""
    return {
        "name": museum.name,
        "place": museum.place,
        "web": museum.web,
        "about": museum.about,
        "machines": [machine.id for machine in museum.machines],
        "decisions": [decision.id for decision in museum.decisions],
        "withheld": plain(museum.withheld),
        "rules": [_rule(rule) for rule in museum.rules],
        "policies": [_policy(policy) for policy in museum.policies],
        "roles": plain(museum.roles),
    }


def _rule(rule: PublicRule) -> Mapping[str, Data]:
    """A rule without its cases, which stand on its page."""
    own = without(rule, "cases", "waived_in", "explained_in")
    return own | {
        "waived_in": rows(rule.waived_in, "decision", "because"),
        "explained_in": rows(rule.explained_in, "decision", "because"),
    }


def _policy(policy: PublicPolicy) -> Mapping[str, Data]:
    own = without(policy, "weights", "fabric", "undo", "elicited", "rules_off", "held_as_must")
    return own | {
        "weights": [
            {"kept": plain(kept), "criteria": plain(weights)} for kept, weights in policy.weights
        ],
        "fabric": rows(policy.fabric, "treatment", "made_to_last", "made_to_wear"),
        "undo": rows(policy.undo, "do", "level"),
        "elicited": [
            without(asked, "points")
            | {"points": rows(asked.points, "criterion", "points", "weight")}
            for asked in policy.elicited
        ],
        "rules_off": rows(policy.rules_off, "rule", "because"),
        "held_as_must": rows(policy.held_as_must, "rule", "because"),
    }
