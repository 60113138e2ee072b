"""The pages of the rules: the list by family, and one page a rule."""

from __future__ import annotations

from collections.abc import Iterator

from witnessmark.publish.public import PublicMuseum
from witnessmark.publish.public_rule import PublicFamily, PublicRule
from witnessmark.publish.views import Section, View
from witnessmark.rules.families import FAMILIES

MOST_LISTED = 60  # decisions that kept a rule, the newest; more would outweigh the page
OWN_TITLE = "Rules of our own"
OWN_INTRODUCTION = (
    "This museum asks these of itself, beyond the rule book. They stand in its policy."
)


def rules_view(museum: PublicMuseum) -> View:
    """The list of rules by family."""
    return View(
        path="rules/index.html",
        title="Our rules",
        description=f"The rules that decisions of {museum.name} are checked against.",
        lead="rules/list.html",
        values={"families": list(families_of(museum))},
    )


def families_of(museum: PublicMuseum) -> Iterator[PublicFamily]:
    """The families of the book that have rules, in its order; then the museum's own rules."""
    book = [rule for rule in museum.rules if not rule.is_own]
    for family in FAMILIES:
        rules = tuple(rule for rule in book if rule.family == family.id)
        if rules:
            yield PublicFamily(
                id=family.id, title=family.title, introduction=family.introduction, rules=rules
            )
    known = {family.id for family in FAMILIES}
    for name in sorted({rule.family for rule in book} - known):
        rules = tuple(rule for rule in book if rule.family == name)
        title = name.replace("-", " ").capitalize()
        yield PublicFamily(id=name, title=title, introduction="", rules=rules)
    own = tuple(rule for rule in museum.rules if rule.is_own)
    if own:
        yield PublicFamily(id="own", title=OWN_TITLE, introduction=OWN_INTRODUCTION, rules=own)


def rule_view(rule: PublicRule, museum: PublicMuseum) -> View:
    """One rule."""
    return View(
        path=f"rules/{rule.id}/index.html",
        title=rule.title,
        description=rule.why[:300],
        lead="rules/lead.html",
        sections=tuple(_sections(rule)),
        values={
            "rule": rule,
            "family": next(f for f in families_of(museum) if rule in f.rules),
            "most_listed": MOST_LISTED,
            "policy": museum.policies[0] if museum.policies else None,
        },
    )


def _sections(rule: PublicRule) -> Iterator[Section]:
    for name, title, is_there in (
        ("why", "Why we have it", True),
        ("sources", "Where it comes from", True),
        ("applies", "When it applies", True),
        ("passes", "What passes", bool(rule.passing)),
        ("faulted", "What is faulted", bool(rule.faulted)),
        ("remedy", "How to put it right", True),
        ("rest", "May it rest?", True),
        ("decisions", "In this museum", True),
    ):
        if is_there:
            yield Section(id=name, title=title, template=f"rules/{name}.html")
