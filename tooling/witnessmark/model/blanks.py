"""What a draft leaves blank: no fault yet, but a note that says what is wanted there."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Final

from pydantic import BaseModel

from witnessmark.model.diagnostics import Diagnostic, Level
from witnessmark.model.remains import Path
from witnessmark.model.shape_faults import models_at
from witnessmark.model.words import Aspect, State

BLANK: Final = "WM073"
"""The code of a blank field."""

_NOTE = re.compile(
    r"(?:Public|Private)\. (?P<what>.+?)(?:; (?P<who>[^;]+))?\. Example: (?P<example>.+)"
)
_WHY: Final = "A draft may wait for it. From for-review on, a blank is an error."
_FIX: Final = "Write the answer after the colon; if it does not apply, take the field out."


def is_draft(data: object, model: type[BaseModel]) -> bool:
    """True for a record that is still being written."""
    if "state" not in model.model_fields or not isinstance(data, dict):
        return False
    return bool(data.get("state") == State.DRAFT.value)


def to_be_filled(blank: Diagnostic, model: type[BaseModel]) -> Diagnostic:
    """A blank of a draft as a note that says what the field means, with an example."""
    name = str(blank.path[-1]) if blank.path else ""
    found = _NOTE.fullmatch(_note(model, blank.path) or "")
    message = f"`{name}` is still blank."
    if found is not None:
        who = f"; {found['who']} fills it in" if found["who"] else ""
        message += f" {found['what']}{who}, as in: {found['example'].rstrip('.')}."
    return replace(blank, level=Level.NOTE, message=message, why=_WHY, fix=_FIX)


def _note(model: type[BaseModel], path: Path) -> str | None:
    """The note of a field, or of what holds it where its name is of the museum's own choosing."""
    # Read late: only a draft with blanks needs the notes, and every check pays for an import.
    from witnessmark.model.field_notes import PUBLIC, note_of

    *above, name = path
    if name in {aspect.value for aspect in Aspect}:
        definition = Aspect.named(str(name)).definition.rstrip(".")
        return f"{PUBLIC}{definition}; the curator. Example: {_EXAMPLES[above[-1:] == ['judged']]}"
    for leaf in models_at(model, tuple(above)):
        try:
            return note_of(leaf, str(name))
        except KeyError:
            continue
    return _note(model, tuple(above)) if len(above) > 1 else None


_EXAMPLES: Final = {
    True: "likely: 3 and because: It slews, but it knocks",
    False: "It stays as it was, for this reason; or take it out here and judge it under judged",
}
