"""The page that says where the rules come from, and how well each source is known."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from witnessmark.publish.public import PublicMuseum
from witnessmark.publish.public_rule import PublicRule
from witnessmark.publish.views import Section, View
from witnessmark.rules.rule import Confidence, Source, SourceStanding

_ASIDE = re.compile(r"\s*\([^()]*\)$")
_NO_TEXT = frozenset({Confidence.COMMON_PRACTICE, Confidence.OWN_JUDGEMENT})


@dataclass(frozen=True, slots=True, kw_only=True)
class TextCount:
    """One text, the editions cited, how many rules cite it, and how it is known."""

    text: str
    editions: tuple[str, ...]
    rules: tuple[PublicRule, ...]
    known: tuple[Confidence, ...]
    is_superseded: bool


Cited = tuple[PublicRule, Source]


def sources_view(museum: PublicMuseum) -> View:
    """Rules counted by the text they rest on and by how well it is known."""
    rules = museum.rules
    cited = [(rule, source) for rule in rules for source in rule.sources]
    return View(
        path="where-our-rules-come-from/index.html",
        title="Where our rules come from",
        description="Which texts our rules rest on, and how well we know each of them.",
        lead="sources/lead.html",
        sections=tuple(
            Section(id=name, title=title, template=f"sources/{name}.html")
            for name, title in (
                ("texts", "By text"),
                ("known", "How well we know them"),
                ("memory", "Only from memory"),
                ("practice", "No text behind them"),
                ("superseded", "Older editions"),
            )
        ),
        values={
            "rules_count": len(rules),
            "citations": len(cited),
            "texts": count_texts(cited),
            "practice_texts": count_texts(cited, is_text=False),
            "known": _by_confidence(cited),
            "memory": _of(cited, Confidence.FROM_MEMORY),
            "only_memory": _only(rules, {Confidence.FROM_MEMORY}),
            "no_text": _only(rules, _NO_TEXT),
            "superseded": [row for row in cited if row[1].standing is not SourceStanding.CURRENT],
        },
    )


def bare_text(text: str) -> str:
    """A source's name without what a rule says of it in brackets at the end.

    >>> bare_text("Burra Charter (as little as possible)")
    'Burra Charter'
    """
    return _ASIDE.sub("", text)


def count_texts(cited: Iterable[Cited], *, is_text: bool = True) -> list[TextCount]:
    """The texts that rules rest on, the one most rules cite first."""
    groups: dict[str, list[Cited]] = {}
    for rule, source in cited:
        if (source.confidence not in _NO_TEXT) is is_text:
            groups.setdefault(bare_text(source.text), []).append((rule, source))
    counted = [_count(text, rows) for text, rows in groups.items()]
    return sorted(counted, key=lambda one: (-len(one.rules), one.text))


def _count(text: str, rows: Sequence[Cited]) -> TextCount:
    sources = [source for _, source in rows]
    seen = {source.confidence for source in sources}
    return TextCount(
        text=text,
        editions=tuple(sorted({source.edition for source in sources if source.edition})),
        rules=tuple({rule.id: rule for rule, _ in rows}.values()),
        known=tuple(word for word in Confidence if word in seen),
        is_superseded=all(source.standing is not SourceStanding.CURRENT for source in sources),
    )


def _by_confidence(cited: Sequence[Cited]) -> list[tuple[Confidence, int, int]]:
    """For each word: how many citations are known so, and how many rules have one."""
    rows = ((word, _of(cited, word)) for word in Confidence)
    return [(word, len(found), len({rule.id for rule, _ in found})) for word, found in rows]


def _of(cited: Iterable[Cited], confidence: Confidence) -> list[Cited]:
    return [(rule, source) for rule, source in cited if source.confidence is confidence]


def _only(rules: Iterable[PublicRule], words: Iterable[Confidence]) -> list[PublicRule]:
    """The rules all of whose sources are known only so."""
    allowed = set(words)
    return [rule for rule in rules if {s.confidence for s in rule.sources} <= allowed]
