"""What is due about the museum as a whole: its policy, and stock nobody has decided on."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from witnessmark.model.library import Library
from witnessmark.model.words import Purpose
from witnessmark.rules.due_kinds import Due, DueKind


def due_of_policies(library: Library, *, on: date) -> Iterator[Due]:
    """The review of the policy that is in force on a day."""
    valid = [(p.valid_from, name) for name, p in library.policies.items() if p.valid_from <= on]
    for since, name in sorted(valid)[-1:]:
        review = library.policies[name].review
        if review:
            says = f"Look again at the policy of {since}, its weights, floors and waivers."
            file = library.policy_files[name].document.file
            yield Due(
                kind=DueKind.POLICY,
                day=review,
                name=name,
                says=says,
                file=file,
                path=("review",),
                written=since,
            )


def due_of_stock(library: Library) -> Iterator[Due]:
    """Lots for which nobody has decided what they are for, due since they were counted."""
    stores = library.stores_file.value if library.stores_file else None
    for index, lot in enumerate(stores.lots if stores else ()):
        if stores and library.stores_file and lot.purpose is Purpose.UNDECIDED:
            says = f"Nobody has decided what this lot is for: {lot.what}."
            file = library.stores_file.document.file
            yield Due(
                kind=DueKind.UNDECIDED,
                day=stores.as_of,
                name=lot.id,
                says=says,
                file=file,
                path=("lots", index),
                written=stores.as_of,
            )
