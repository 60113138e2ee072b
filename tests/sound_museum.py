"""The small museum of the tests, so complete that a check finds nothing and it can be published."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Final

from building import BASE, DECISION, DECISION_ID, FINDINGS, MACHINE, Changes, changed, on_disk
from calling import call_here
from keeping import READY

SOUND: Final[Changes] = {
    MACHINE: {
        "kept.0.decided": "Minutes of 2015-01",
        "kept.0.look_again": "2030-01-01",
        "kept.0.shows": "How a load was raised by hand",
        "assemblies.0.parts.4.made_to_known_from": "The handbook",
    },
    FINDINGS: {"findings.0.cause": "Nobody knows"},
    DECISION: {**READY, "options.1.steps.0.care": "Oiled as it came off"},
}
TEXTS: Final[Mapping[str, str]] = {
    **BASE,
    **{file: changed(BASE[file], changes) for file, changes in SOUND.items()},
}
"""Every file of it by its path, as text; block style, one value a line."""


def sound(where: Path, *, changes: Changes | None = None) -> Path:
    """The museum on disk, with some things other; gives its folder."""
    both = {
        file: {**SOUND.get(file, {}), **(changes or {}).get(file, {})}
        for file in {*SOUND, *(changes or {})}
    }
    return on_disk(where, changes=both)


def signed(where: Path, *, changes: Changes | None = None) -> Path:
    """The museum with its decision marked public and signed by two."""
    decision = {"publish": True, **(changes or {}).get(DECISION, {})}
    museum = sound(where, changes={**(changes or {}), DECISION: decision})
    for person, role in (("curator", "collections"), ("engineer", "engineering")):
        called = call_here(
            "sign", DECISION_ID, "--by", person, "--role", role, "--date", "2024-03-02",
            "--museum", str(museum),
        )  # fmt: skip
        assert 0 == called.code, called.err
    return museum
