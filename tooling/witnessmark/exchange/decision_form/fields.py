"""What stands on the form: its sections, its fields, and a word on how each is filled."""

from __future__ import annotations

import re
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

QUESTION, LEFT, CHOICE = "question", "left", "choice"
OPTIONS: Final = ("option 1", "option 2")
"""The two options that have room on the page; more may be typed below one another."""


@dataclass(frozen=True)
class Field:
    """One field: the name in the program, the words on the page, and how it is filled.

    `beside` where it stands on one line with the field before it.
    """

    key: str
    label: str
    how: str = ""
    beside: bool = False


@dataclass(frozen=True)
class Section:
    """One part of the page, with its heading."""

    key: str
    heading: str
    fields: tuple[Field, ...]


_RISKS: Final = (
    Field("work_risk", "At work then", "grade, or none"),
    Field("after_risk", "Afterwards then", "grade, or none", beside=True),
    Field("safe_by", "Made safe by"),
)
_TRUE: Final = (
    Field("levels", "How true, five numbers", "0-4 for form, use, technique, setting, spirit"),
    Field("levels_because", "Why those numbers"),
)
_OPTION: Final = (
    Field("kind", "Kind", "repair, renew like for like, service, modify ..."),
    Field("title", "What we would do"),
    Field("comes_off", "What comes off"),
    Field("kept_at", "Kept where", "store, shown, lost"),
    Field("label", "Label", beside=True),
    Field("goes_in", "What goes in"),
    *_RISKS,
    *_TRUE,
    Field("way_back", "Way back"),
    Field("hours", "Hours", "from - to"),
    Field("cost", "Cost", "from - to", beside=True),
    Field("why_not", "Why not, if not chosen"),
)
SECTIONS: Final = (
    Section(
        QUESTION,
        "The question",
        (
            Field("machine", "Machine"),
            Field("parts", "Part or parts", beside=True),
            Field("date", "Date"),
            Field("by", "Written by", "your role", beside=True),
            Field("found", "What was found"),
            Field("basis", "How it is known", "seen, measured, inferred, told"),
            Field("grade", "How pressing", "note, watch, act, stop"),
            Field("measured", "Measured", "with the unit"),
            Field("limit", "Limit", beside=True),
            Field("question", "What has to be decided"),
            Field("aim", "It should be able to"),
            Field("aim_because", "Wanted because"),
            Field("work_danger", "Danger while working"),
            Field("after_danger", "Danger afterwards"),
            Field("work_before", "Grade at work today", "as in 2C"),
            Field("after_before", "Grade afterwards today", "as in 2C", beside=True),
        ),
    ),
    Section(
        LEFT,
        "If it is left alone",
        (
            Field("becomes", "What becomes of it"),
            Field("undo", "Can be taken back", "4 all, 0 not"),
            _RISKS[1],
            *_TRUE,
            Field("why_not", "Why not, if not chosen"),
        ),
    ),
    *(Section(key, key.capitalize(), _OPTION) for key in OPTIONS),
    Section(
        CHOICE,
        "Our choice",
        (
            Field("option", "We choose", "left alone, option 1 or option 2"),
            Field("because", "Because"),
            Field("gives_up", "We give up"),
            Field("would_change_our_mind", "We would think again if"),
            Field("dissent", "Who disagreed"),
        ),
    ),
)


def fields_of(section: str) -> tuple[Field, ...]:
    """The fields of a section; options beyond the two on the page have the same ones."""
    found = next((one.fields for one in SECTIONS if one.key == section), None)
    return _OPTION if found is None else found


def partners() -> dict[str, str]:
    """The label that may stand further along on the line of another, by that other one."""
    found = {}
    for section in SECTIONS:
        for before, field in pairwise(section.fields):
            if field.beside:
                found[plain(before.label)] = field.label
    return found


def label_of(section: str, key: str) -> str:
    """The words that stand on the page for a field."""
    return next(field.label for field in fields_of(section) if field.key == key)


def plain(text: str) -> str:
    """A label or heading in small letters, without marks and without what is in brackets."""
    without = re.sub(r"\([^)]*\)?", " ", text)
    return " ".join(re.findall(r"[a-z0-9]+", without.casefold()))
