"""Advice on plain language: notes for whoever is still writing, never a fault.

Only records that can still be changed are read: the sentences of an agreed one are sealed, and
advice on them would tempt people to break the seal.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import NamedTuple

from witnessmark.model.build import Path, Plain
from witnessmark.model.diagnostics import Diagnostic, Level
from witnessmark.model.library import Library
from witnessmark.model.words import State
from witnessmark.rules.report import Report
from witnessmark.rules.workshop_words import unexplained

MOST_WORDS = 30
"""Words in a sentence; our own limit, from the advice (from memory) to stay under 25."""
MOST_SENTENCES = 3
"""Sentences in a paragraph: the style guide of the United Kingdom's Office for National
Statistics (style.ons.gov.uk, read in 2026)."""

LONG_SENTENCE, LONG_PARAGRAPH, BARE_LIKELIHOOD, WORKSHOP_WORD = "WM051", "WM058", "WM059", "WM084"
STILL_WRITTEN = frozenset({State.DRAFT, State.FOR_REVIEW})
PROSE = frozenset(
    {
        "title", "question", "because", "what", "gives_up", "would_change_our_mind", "why_not",
        "way_back", "later_cost", "answer", "none", "misses_aim", "not_scored", "departures",
        "departs_from_ranking", "departs_from_policy", "unaffected", "not_applicable",
    }
)  # fmt: skip
"""Fields of a decision that hold sentences for the public."""
IN_THE_HOUSE = frozenset({"sources", "consent", "heard", "interests", "worksheets", "reckoned"})

_SENTENCE_END = re.compile(r"(?<=[.!?])[\"')\u201d\u2019]*\s+(?=[\"'(\u201c\u2018]*[A-Z])")
_SHORT_FORM = re.compile(
    r"\b(?:e\.g|i\.e|etc|approx|no|nos|fig|vol|st|dr|mr|mrs|ms)\.$", re.IGNORECASE
)
_WORD = re.compile(r"[^\W_]+(?:[-'\u2019./][^\W_]+)*")
# "Likely" and its kin read differently to each reader unless the number stands beside them:
# Wintle and others, PLOS ONE 14 (2019); Budescu and others, 2014 (its summary was read).
_LIKELIHOOD = re.compile(
    r"\b(?:(?:un|most |very |highly )?likely|probably|(?:im)?probable|possibly"
    r"|almost certain(?:ly)?|in all likelihood|chances are)\b",
    re.IGNORECASE,
)
_NUMBER = re.compile(
    r"[0-9%]|\b(?:one|two|three|four|five|six|seven|eight|nine|ten|twenty|fifty|hundred|thousand)\b"
    r"|\bhalf\b",
    re.IGNORECASE,
)


class Advice(NamedTuple):
    """One note on a text: its code and what it says."""

    code: str
    message: str


def advice(library: Library) -> Iterator[Diagnostic]:
    """Notes on every record still being written, and on public findings that nothing rests on."""
    for entry in library.decisions:
        value = entry.value
        if value and entry.shaped.whole and value.state in STILL_WRITTEN and not value.agreed:
            report = Report(entry.shaped, entry.id)
            yield from _notes(report, entry.shaped.document.data)
    for machine, log in sorted(library.finding_files.items()):
        rested_on = {
            name
            for decision in library.decisions_of(machine)
            if decision.agreed
            for name in decision.findings
        }
        for number, finding in enumerate(log.value.findings if log.value and log.whole else ()):
            if finding.public and finding.id not in rested_on:
                for note in advise(finding.what):
                    yield _at(Report(log), ("findings", number, "what"), note)


def _notes(report: Report, data: Plain) -> Iterator[Diagnostic]:
    explained: set[str] = set()
    for path, text in _prose(data, (), is_prose=False):
        for note in advise(text):
            yield _at(report, path, note)
        for word in unexplained(text):
            if word not in explained:
                explained.add(word)
                message = f'"{word}" is a word of the workshop and is not explained here.'
                yield _at(report, path, Advice(WORKSHOP_WORD, message))


def _at(report: Report, path: Path, note: Advice) -> Diagnostic:
    return report.at(path, note.code, note.message, level=Level.NOTE)


def _prose(data: Plain, path: Path, *, is_prose: bool) -> Iterator[tuple[Path, str]]:
    """Every public sentence of a record with its path, in the order written."""
    if isinstance(data, dict):
        for name, value in data.items():
            if path or name not in IN_THE_HOUSE:
                yield from _prose(value, (*path, name), is_prose=_holds(name, is_prose, path))
    elif isinstance(data, list):
        for number, value in enumerate(data):
            yield from _prose(value, (*path, number), is_prose=is_prose)
    elif is_prose and isinstance(data, str):
        yield path, data


def _holds(name: str, is_prose: bool, path: Path) -> bool:  # noqa: FBT001  one step of a walk
    """True where a field holds prose: by its name, or as one aspect of a group of prose."""
    is_aspect = is_prose and bool(path) and path[-1] in {"unaffected", "not_applicable"}
    return name in PROSE or is_aspect


def advise(text: str) -> Iterator[Advice]:
    """What would make one text plainer: shorter sentences and paragraphs, numbers by likelihoods.

    >>> [note.code for note in advise("It will probably hold. It holds in 9 of 10, probably.")]
    ['WM059']
    """
    for paragraph in filter(None, re.split(r"\n+", text.strip())):
        found = list(sentences(paragraph))
        if len(found) > MOST_SENTENCES:
            message = f"{len(found)} sentences stand in one paragraph: {_start(paragraph)}"
            yield Advice(LONG_PARAGRAPH, message)
        for sentence in found:
            words = len(_WORD.findall(sentence))
            if words > MOST_WORDS:
                yield Advice(LONG_SENTENCE, f"A sentence has {words} words: {_start(sentence)}")
            likely = _LIKELIHOOD.search(sentence)
            if likely and not _NUMBER.search(sentence):
                message = f'"{likely[0]}" stands without a number: {_start(sentence)}'
                yield Advice(BARE_LIKELIHOOD, message)


def sentences(paragraph: str) -> Iterator[str]:
    """The sentences of a paragraph; short forms such as "no." and decimals end none.

    >>> list(sentences("It is 0.74 mm (see no. 3). Is that much? Yes."))
    ['It is 0.74 mm (see no. 3).', 'Is that much?', 'Yes.']
    """
    start = 0
    for match in _SENTENCE_END.finditer(paragraph):
        before = paragraph[start : match.start()]
        if not _SHORT_FORM.search(before):
            yield paragraph[start : match.end()].strip()
            start = match.end()
    if paragraph[start:].strip():
        yield paragraph[start:].strip()


def _start(text: str) -> str:
    words = " ".join(text.split()[:8])
    return f'"{words} ..."' if len(text.split()) > 8 else f'"{words}"'  # noqa: PLR2004  enough to find
