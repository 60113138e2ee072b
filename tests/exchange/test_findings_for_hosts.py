"""What a check found, in the formats of hosts: the published fields, worst first, one line each."""

from __future__ import annotations

import hashlib
import json
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest
from sarif_pydantic import Sarif  # type: ignore[import-untyped]

from building import DECISION, on_disk
from calling import Called, call
from witnessmark.exchange.findings_hosts import (
    findings_as_markdown,
    findings_for_github,
    findings_for_gitlab,
    fingerprint,
)
from witnessmark.exchange.findings_junit import findings_as_junit
from witnessmark.exchange.findings_sarif import findings_as_sarif, utf16_column
from witnessmark.model.diagnostics import Diagnostic, Level
from witnessmark.rules.checked import Checked


def finding(
    *, code: str = "WM001", level: Level = Level.ERROR, line: int = 3, column: int = 1,
    message: str = "Something is wrong.", field: str = "title", record: str | None = "2024-001",
) -> Diagnostic:  # fmt: skip
    file = "museum/winch/2024-001-drum-bush.yml"
    return Diagnostic(code, level, file, line, column, record, field, message, "Why.", "Fix it.")


def checked(*found: Diagnostic) -> Checked:
    return Checked(1, found, ())


MIXED = checked(
    finding(code="WM003", level=Level.NOTE),
    finding(code="WM002", level=Level.WARNING),
    finding(code="WM001", level=Level.ERROR),
)


@pytest.fixture(scope="module")
def museum(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A museum with faults of each level."""
    where = tmp_path_factory.mktemp("faulted")
    return on_disk(where, changes={DECISION: {"options.1.steps.0.label": "?", "about": ["a/b"]}})


def check(museum: Path, form: str) -> Called:
    return call("check", str(museum), "--format", form)


def test_the_exit_code_is_the_same_in_every_format(museum: Path) -> None:
    forms = ("text", "json", "md", "github", "gitlab", "sarif", "junit")
    assert [1] * len(forms) == [check(museum, form).code for form in forms]


def test_sarif_is_taken_by_a_reader_of_somebody_else(museum: Path) -> None:
    # sarif-pydantic reads the classes of the OASIS schema and refuses what they do not have.
    told = check(museum, "sarif")
    run = Sarif.model_validate_json(told.out).runs[0]
    expected = len(check(museum, "json").json["diagnostics"])
    assert expected == len(run.results or [])


def test_the_reader_of_sarif_refuses_a_planted_fault() -> None:
    faulted = findings_as_sarif(MIXED, texts={})
    faulted["runs"][0]["results"][0]["level"] = "fatal"
    with pytest.raises(ValueError, match="level"):
        Sarif.model_validate(faulted)


def test_sarif_columns_are_counted_in_utf16_units() -> None:
    # Unicode Standard, 3.9, D91: a character beyond U+FFFF is two 16-bit units.
    line = "what: \U0001f527 here"
    assert 9 == utf16_column(["", "", line], finding(column=8))
    region = findings_as_sarif(checked(finding(column=8)), texts={finding().file: f"\n\n{line}\n"})[
        "runs"
    ][0]["results"][0]["locations"][0]["physicalLocation"]["region"]
    assert {"startLine": 3, "startColumn": 9} == region


def test_a_fingerprint_is_of_code_record_and_field_and_not_of_the_line() -> None:
    expected = hashlib.sha256(b"WM001\x002024-001\x00title").hexdigest()
    assert expected == fingerprint(finding(line=3)) == fingerprint(finding(line=30))


def test_sarif_says_what_is_new_against_the_base() -> None:
    known = {fingerprint(finding(code="WM001"))}
    results = findings_as_sarif(MIXED, texts={}, known=known)["runs"][0]["results"]
    assert ["unchanged", "new", "new"] == [result["baselineState"] for result in results]


def test_gitlab_has_the_fields_its_documentation_lists() -> None:
    # GitLab Docs, "Code Quality", report format (read in a mirror of the help pages): description,
    # check_name, fingerprint, severity, location.path, location.lines.begin; severities info,
    # minor, major, critical, blocker.
    rows = findings_for_gitlab(MIXED)
    assert {"description", "check_name", "fingerprint", "severity", "location"} == set(rows[0])
    assert {"path", "lines"} == set(rows[0]["location"])
    assert ["critical", "minor", "info"] == [row["severity"] for row in rows]


def test_gitlab_drops_equal_fingerprints_so_none_are_equal() -> None:
    rows = findings_for_gitlab(checked(finding(line=3), finding(line=9), finding(line=12)))
    assert 3 == len({row["fingerprint"] for row in rows})


def test_github_shows_ten_of_a_level_the_last_of_which_counts_the_rest() -> None:
    told = findings_for_github(checked(*(finding(line=n) for n in range(1, 26)))).splitlines()
    assert 10 == len(told)
    assert "::error title=Witnessmark::+16 more; the whole list is in the step summary." == told[-1]


def test_github_shows_the_worst_first() -> None:
    told = findings_for_github(MIXED).splitlines()
    assert ["error", "warning", "notice"] == [line.split(" ")[0].strip(":") for line in told]


def test_github_gets_no_command_from_a_record() -> None:
    hostile = "x\n::stop-commands::y\r\n::error::z %0A::set-output name=a::b"
    told = findings_for_github(checked(finding(message=hostile)))
    assert 1 == len(told.splitlines())
    assert "%250A" in told


def test_junit_has_one_failed_test_a_record_and_code_and_passed_ones_for_the_rest() -> None:
    # Elements and attributes as GitLab Docs ("Unit test reports": testsuite name, testcase
    # classname, name, file, failure) and the Jenkins JUnit plugin read them; from memory.
    root = ET.fromstring(findings_as_junit(MIXED, records=["museum/other.yml", finding().file]))  # noqa: S314  our own text
    cases = root.findall("./testsuite/testcase")
    failed = [case.get("name") for case in cases if case.find("failure") is not None]
    assert (["WM001", "WM002"], 4) == (failed, len(cases))
    assert ("4", "2") == (root.get("tests"), root.get("failures"))


def test_junit_of_any_text_is_well_formed() -> None:
    hostile = "]]> <a> & \x00\x01\x0b \ufffe \ud800 'x' \"y\""
    ET.fromstring(findings_as_junit(checked(finding(message=hostile)), records=[]))  # noqa: S314  our own text


def test_markdown_keeps_its_table_whatever_a_message_holds() -> None:
    told = findings_as_markdown(checked(finding(message="a | b\n| c | @team")))
    (row,) = [line for line in told.splitlines() if line.startswith("| error")]
    assert 6 == row.replace("\\|", "").count("|")
    assert "@team" not in told


def test_nothing_found_is_said_in_every_format(tmp_path: Path) -> None:
    nothing = checked()
    assert "nothing found" in findings_as_markdown(nothing)
    assert [] == findings_for_gitlab(nothing)
    assert "" == findings_for_github(nothing)
    run = Sarif.model_validate_json(json.dumps(findings_as_sarif(nothing, texts={}))).runs[0]
    assert [] == run.results
