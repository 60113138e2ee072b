"""A museum as it was in 2026 is read, found sound and deposited by every later version.

tests/frozen/2026/README.txt says what may change there and what never does.
"""

from __future__ import annotations

import json
from typing import Any

from calling import call
from depositing import FROZEN, Made
from witnessmark.model.library import assemble
from witnessmark.repository.disk import read_museum

MUSEUM = FROZEN / "museum"


def kept(name: str) -> Any:
    return json.loads((FROZEN / name).read_text(encoding="utf-8"))


def test_every_file_is_read_without_a_fault() -> None:
    library = assemble(read_museum(MUSEUM))
    shaped: list[Any] = [library.museum, library.people_file, library.stores_file]
    shaped += [*library.policy_files.values(), *library.machine_files.values()]
    shaped += [*library.finding_files.values(), *(entry.shaped for entry in library.decisions)]
    assert (20, []) == (len(shaped), [s for s in shaped if s is None or s.diagnostics])


def test_check_says_what_it_said_then() -> None:
    called = call("check", str(MUSEUM), "--format", "json")
    assert (0, kept("check.json")) == (called.code, called.json)


def test_every_agreement_still_holds() -> None:
    told = call("verify", "--museum", str(MUSEUM), "--format", "json").json
    then = [(row["id"], row["role"], row["by"], row["date"]) for row in kept("seals.json")]
    assert then == [(row["record"], row["role"], row["by"], row["date"]) for row in told]
    assert [True] * len(then) == [row["holds"] and row["words_hold"] for row in told]


def test_the_seals_in_the_records_are_those_of_then() -> None:
    library = assemble(read_museum(MUSEUM))
    now = [
        (entry.id, signature.role.value, signature.seal, signature.words)
        for entry in library.decisions
        for signature in (entry.value.agreed if entry.value else ())
    ]
    assert now == [(r["id"], r["role"], r["seal"], r["words"]) for r in kept("seals.json")]


def test_the_one_signature_still_verifies() -> None:
    told = call("verify", "2024-003", "--museum", str(MUSEUM), "--format", "json").json
    assert {"safety": "verifies"} == {r["role"]: r["signature"] for r in told if r["signature"]}


def test_both_deposits_hold_its_decisions(public: Made, sealed: Made) -> None:
    numbers = [
        sorted(path.stem[:8] for path in (made.data / "records").rglob("20[0-9][0-9]-[0-9]*.yml"))
        for made in (public, sealed)
    ]
    published = ["2022-001", "2023-002", "2023-004", "2024-003", "2025-002"]
    here = sorted([*published, "2026-001", "2026-002", "2026-004", "2026-007"])
    assert [published, here] == [[n for n in found if len(n) == 8] for found in numbers]
