"""The empty form: plain text that prints on one page, and a page for the browser to print."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import zip_longest

from witnessmark.exchange.decision_form.fields import SECTIONS, Field, Section
from witnessmark.exchange.environment import environment
from witnessmark.scoring.matrix882 import PROBABILITY, SEVERITY

WIDTH = 78
GAP = "  "
MOST_LINES = 62
"""An A4 page of 297 mm at 6 lines to the inch, less half an inch above and below (60 to 64)."""

_NOTES = "Write after the colons, on as many lines as you need. Some may stay blank."
_HOW_BAD = "1 death or lasting disability, 2 a lasting injury, 3 days off work, 4 no day lost"
"""MIL-STD-882E (2012), Table I, shortened so that it fits the page; the site has it whole."""


@dataclass(frozen=True)
class _Row:
    """One field as it stands on the page, with what is filled in already."""

    field: Field
    given: str


def form_as_text(museum: str, *, given: Mapping[str, str]) -> str:
    """The form as plain text; `given` are answers already known, by the field's name."""
    lines = [f"ONE DECISION - {museum}"[:WIDTH], *_cut(_NOTES)]
    for section in SECTIONS:
        lines += ["", section.heading.upper()]
        lines += [line for row in _pairs(section, given) for line in row]
    return "\n".join([*lines, *_legend()]) + "\n"


def _pairs(section: Section, given: Mapping[str, str]) -> Iterator[list[str]]:
    """The lines of a section: a field, and the one beside it where there is one."""
    for field, beside in zip_longest(section.fields, section.fields[1:]):
        if field.beside:
            continue
        if beside is None or not beside.beside:
            yield [_blank(field, given, WIDTH)]
        else:
            half = (WIDTH - len(GAP)) // 2
            yield [_blank(field, given, half) + GAP + _blank(beside, given, half)]


def _blank(field: Field, given: Mapping[str, str], width: int) -> str:
    how = f" ({field.how})" if field.how else ""
    start = f"{field.label}{how}: "
    answer = given.get(field.key, "")
    return (start + answer).ljust(width) if answer else start + "_" * (width - len(start))


def _legend() -> Iterator[str]:
    often = ", ".join(f"{sign} {words[0].lower()}" for sign, words in PROBABILITY.items())
    yield ""
    yield from _cut(f"A grade, such as 2C, is how bad: {_HOW_BAD}; and how likely: {often}.")


def _cut(text: str) -> Iterator[str]:
    while len(text) > WIDTH:
        at = text.rfind(" ", 0, WIDTH)
        yield text[:at]
        text = text[at + 1 :]
    yield text


def form_as_html(museum: str, *, given: Mapping[str, str]) -> str:
    """The form as one HTML page that prints on one A4 sheet; nothing is loaded from elsewhere."""
    sections = [
        (section.heading, [_Row(field, given.get(field.key, "")) for field in section.fields])
        for section in SECTIONS
    ]
    return (
        environment()
        .get_template("decision-form.html")
        .render(
            museum=museum,
            sections=sections,
            notes=_NOTES,
            severity=[(number, words[1]) for number, words in SEVERITY.items()],
            probability=[(sign, words[0].lower()) for sign, words in PROBABILITY.items()],
        )
    )
