"""Looking at a museum's pictures for the verbs that report or publish."""

from __future__ import annotations

from dataclasses import replace

from witnessmark.cli.opening import Opened
from witnessmark.model.diagnostics import in_order
from witnessmark.repository.picture_faults import picture_faults
from witnessmark.repository.site import read_pictures
from witnessmark.rules.checked import Checked


def with_pictures(checked: Checked, opened: Opened, *, under: str = "") -> Checked:
    """What was found, with what is wrong with the pictures that records under a path show."""
    pictures = read_pictures(opened.folder, opened.library.names)
    found = picture_faults(opened.library, pictures, under=under)
    return replace(checked, diagnostics=tuple(in_order([*checked.diagnostics, *found])))
