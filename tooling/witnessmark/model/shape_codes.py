"""What a fault of shape is called, and what puts it right."""

from __future__ import annotations

CODES: dict[str, tuple[str, str, str]] = {
    "WM072": (
        "A needed field is missing",
        "Readers and checks count on this field being there.",
        "Add `{name}`.",
    ),
    "WM073": (
        "A field is blank",
        "A blank says neither yes nor no; unknown is an answer, blank is not.",
        "Write the answer, or take the field out if it may be left out.",
    ),
    "WM012": (
        "A field has a name that is not known here",
        "Unknown fields are refused so that nothing is lost by a slip of the pen.",
        "Use one of: {known}.",
    ),
    "WM074": (
        "A value is of another kind than the field takes",
        "A value of the wrong kind cannot be read without guessing, and the tool does not guess.",
        "{fix}",
    ),
    "WM075": (
        "A word is not in the closed list",
        "Closed words keep records comparable over decades and changes of staff.",
        "Use one of: {known}.",
    ),
    "WM076": (
        "A date is not a day of the calendar",
        "Dates decide which policy, machine state and role-holders a record is read with.",
        "Write the day as YYYY-MM-DD, for example 2024-02-29.",
    ),
    "WM077": (
        "A score is off the scale",
        "Every score is read on one scale, 0 to 4, with 4 best.",
        "Write a whole number from 0, the worst, to 4, the best.",
    ),
    "WM078": (
        "A name, label or reference is not written in the agreed form",
        "Names stand in addresses and file names for decades, so they keep to plain characters.",
        "{fix}",
    ),
    "WM079": (
        "A range does not rise",
        "low, likely and high say how sure a judgement is, so they rise in this order.",
        "Put low, likely and high in rising order.",
    ),
    "WM069": (
        "Something needed is missing beside this field",
        "One field without the other leaves the reader guessing.",
        "{fix}",
    ),
}
