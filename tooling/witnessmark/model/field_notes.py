"""What each field of a museum's files means, for editors and readers: text beside the models.

A note stands under the model and the field as written (`KeptFrom.from`). It begins with the word
Public or Private, then says what the field means, who fills it, and gives one example. Public means
that the site shows the text, or the public name of what an id stands for, once its record is shown.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from pydantic import BaseModel

from witnessmark.model.field_notes_decision import DECISION_NOTES
from witnessmark.model.field_notes_machine import MACHINE_NOTES
from witnessmark.model.field_notes_museum import MUSEUM_NOTES
from witnessmark.model.field_notes_options import OPTION_NOTES

PUBLIC, PRIVATE = "Public. ", "Private. "


def _read(block: str) -> dict[str, str]:
    """The notes of a block: a name at the left edge begins one, lines set in go on with it."""
    found: dict[str, str] = {}
    name = ""
    for line in filter(str.strip, block.splitlines()):
        if not line.startswith(" "):
            name, _, line = line.partition(" ")  # noqa: PLW2901  the rest of the line is its text
            if name in found:
                raise ValueError(f"two notes for {name}")
            found[name] = ""
        found[name] = f"{found[name]} {line.strip()}".strip()
    return found


NOTES: Mapping[str, str] = MappingProxyType(
    _read(f"{MUSEUM_NOTES}{MACHINE_NOTES}{DECISION_NOTES}{OPTION_NOTES}")
)
"""Every note by the dotted name of its field."""

CHOICES: Mapping[str, Mapping[object, str]] = MappingProxyType(
    {
        "Museum.units": {
            "metric": "Metres, kilograms and newtons first.",
            "imperial": "Feet, inches and pounds first.",
        },
        "can_be_made": {
            True: "Somebody can still make it to the old shape and material.",
            False: "The pattern, the skill or the material is gone.",
            "unknown": "Nobody has found out yet.",
        },
        "Choice.dissent": {"none raised": "Everybody was asked and nobody disagreed."},
        "Decision.interests": {"none declared": "Everybody was asked and nobody gains or loses."},
        "Decision.losses": {"none": "No evidence goes."},
        "Decision.publish": {
            True: "The record is shown once it is agreed.",
            False: "The record stays in the house.",
        },
    }
)
"""What the words of lists without names of their own mean, by dotted name or by field."""


def note_of(model: type[BaseModel], written: str) -> str:
    """The note of a field, its own or that of the model it comes from.

    Raises:
        KeyError: nobody has written one.
    """
    names = (f"{one.__name__}.{written}" for one in model.__mro__)
    return NOTES[next((name for name in names if name in NOTES), written)]


def is_public(note: str) -> bool:
    """True when the site shows what stands in this field."""
    return note.startswith(PUBLIC)
