"""A museum read whole: which file is what, look-ups by name, and faults that stop nothing."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from building import (
    BASE,
    DECISION,
    DECISION_ID,
    FINDINGS,
    MACHINE,
    MUSEUM,
    PEOPLE,
    POLICY,
    ROOT,
    STORES,
    decision_in,
    done,
    folder,
    museum,
    on_disk,
)
from witnessmark.model.diagnostics import Diagnostic, Level
from witnessmark.model.library import Folder, Library, assemble
from witnessmark.model.shape import Shaped
from witnessmark.repository.disk import read_museum

WORK = done("2023-001", steps="- {do: clean, part: drum/bush}")


def problems(library: Library) -> list[tuple[str, str]]:
    return [(problem.code, problem.file) for problem in library.problems]


def all_diagnostics(library: Library) -> list[Diagnostic]:
    files: list[Shaped[Any] | None] = [library.museum, library.people_file, library.stores_file]
    files += [*library.policy_files.values(), *library.machine_files.values()]
    files += [*library.finding_files.values(), *(one.shaped for one in library.decisions)]
    return [d for shaped in files if shaped for d in shaped.diagnostics]


def test_the_base_museum_is_sound() -> None:
    library = museum()
    assert library.problems == ()
    assert [] == all_diagnostics(library)


def test_every_kind_of_file_is_found_by_its_name() -> None:
    library = museum()
    assert ["2023-04"] == list(library.policies)
    assert ["sister", "winch"] == list(library.machines)
    assert [DECISION_ID] == list(library.by_id)
    assert {"curator", "engineer", "safety-officer", "trustee", "fitter"} == set(library.people)
    assert ["bushes"] == list(library.lots)
    assert library.museum.value is not None


def test_a_folder_on_disk_is_read_like_one_in_memory(tmp_path: Path) -> None:
    library = assemble(read_museum(on_disk(tmp_path)))
    assert ROOT == library.root
    assert decision_in(museum()) == decision_in(library)
    assert [] == all_diagnostics(library)


def test_files_are_named_below_the_folder_s_parent() -> None:
    assert f"{ROOT}/{DECISION}" == museum().by_id[DECISION_ID].file


def test_a_decision_s_machine_is_its_folder() -> None:
    assert "winch" == museum().by_id[DECISION_ID].machine


@pytest.mark.parametrize("name", ["2023-001.yml", "2023-001-a.yaml", "2023-001-a-b-c.yml"])
def test_a_decision_is_known_by_the_start_of_its_file_name(name: str) -> None:
    library = museum(also={f"winch/{name}": WORK})
    assert "2023-001" == library.by_id["2023-001"].named


@pytest.mark.parametrize(
    "name", ["winch/23-001.yml", "winch/notes.yml", "2023-001.yml", "winch/more/2023-001.yml"]
)
def test_a_file_no_reader_looks_for_is_a_warning(name: str) -> None:
    library = museum(also={name: WORK})
    assert [("WM092", f"{ROOT}/{name}")] == problems(library)
    assert Level.WARNING is library.problems[0].level


@pytest.mark.parametrize("file", [PEOPLE, STORES])
def test_a_missing_register_is_told_and_the_rest_is_read(file: str) -> None:
    library = museum(without=(file,))
    assert [("WM091", f"{ROOT}/{file}")] == problems(library)
    assert [DECISION_ID] == list(library.by_id)


def test_a_missing_museum_file_is_told_and_the_rest_is_read() -> None:
    library = museum(without=(MUSEUM,))
    assert library.museum.value is None
    assert library.museum.diagnostics
    assert [DECISION_ID] == list(library.by_id)


def test_a_decision_without_a_machine_file_is_told() -> None:
    assert [("WM091", f"{ROOT}/{DECISION}")] == problems(museum(without=(MACHINE,)))


def test_a_file_that_was_refused_is_told_with_its_reason() -> None:
    base = folder(without=(FINDINGS,))
    reason = ("This is a link, and links are not followed.", "Put the file itself here.")
    library = assemble(Folder(base.name, base.files, refused={FINDINGS: reason}))
    (problem,) = library.problems
    assert ("WM090", f"{ROOT}/{FINDINGS}") == (problem.code, problem.file)
    assert reason == (problem.message, problem.fix)


@pytest.mark.parametrize("file", sorted(BASE))
@pytest.mark.parametrize("text", ["", "- a\n", "witnessmark: [\n", "\0", "name: x\n"])
def test_a_file_that_cannot_be_read_stops_nothing(file: str, text: str) -> None:
    library = museum(also={file: text})
    assert all_diagnostics(library)
    assert {f"{ROOT}/{file}"} == {d.file for d in all_diagnostics(library)}


def test_where_two_files_claim_one_id_the_first_is_the_one() -> None:
    library = museum(also={"winch/2024-001-a.yml": BASE[DECISION], DECISION: BASE[DECISION]})
    assert f"{ROOT}/winch/2024-001-a.yml" == library.by_id[DECISION_ID].file
    assert 2 == len(library.decisions)


def test_a_record_that_cannot_be_read_is_known_by_its_file_name() -> None:
    library = museum(also={DECISION: "- nothing\n"})
    assert library.by_id[DECISION_ID].value is None


def test_findings_are_found_by_machine_and_id() -> None:
    library = museum()
    found = library.finding("winch", "f-001")
    assert found is not None
    assert "The bush is worn past its limit" == found.what
    assert library.finding("sister", "f-001") is None
    assert (found,) == library.findings_of("winch")
    assert library.findings_of("sister") == ()


def test_the_decisions_of_a_machine_come_by_id() -> None:
    library = museum(also={"winch/2023-001-a.yml": WORK, "winch/2025-001-a.yml": WORK})
    assert ["2023-001", "2023-001", DECISION_ID] == [d.id for d in library.decisions_of("winch")]
    assert [] == list(library.decisions_of("sister"))


@pytest.mark.parametrize(
    ("opened", "expected"),
    [
        ("2023-03-31", None),
        ("2023-04-01", "2023-04"),
        ("2025-01-31", "2023-04"),
        ("2025-02-01", "2025-02"),
        ("2026-01-01", "2025-02"),
    ],
)
def test_the_policy_is_the_newest_valid_on_the_day_a_decision_was_opened(
    opened: str, expected: str | None
) -> None:
    later = BASE[POLICY].replace("2023-04-01", "2025-02-01")
    library = museum(also={"policy/2025-02.yml": later}, changes={DECISION: {"opened": opened}})
    assert expected == library.policy_valid(decision_in(library))


def test_a_library_equals_only_itself() -> None:
    assert museum() != museum()
