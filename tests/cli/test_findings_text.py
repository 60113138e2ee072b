"""What a check prints: by file, worst first, one message for one cause, at most so many."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from calling import Record, call
from witnessmark.cli.findings_text import messages, render_findings
from witnessmark.model.diagnostics import Diagnostic, Level


def finding(
    *,
    file: str = "m/a.yml",
    line: int = 1,
    level: Level = Level.ERROR,
    code: str = "WM030",
    message: str = "There is no such part.",
) -> Diagnostic:
    return Diagnostic(
        code=code,
        level=level,
        file=file,
        line=line,
        column=1,
        record=None,
        field="about",
        message=message,
        why=f"Why {code}.",
        fix=f"Fix {code}.",
    )


def printed(*found: Diagnostic, most: int = 20) -> str:
    return "\n".join(render_findings(found, {}, most=most))


def test_the_file_with_an_error_stands_before_one_with_warnings() -> None:
    text = printed(
        finding(file="m/a.yml", level=Level.WARNING),
        finding(file="m/b.yml", line=9),
        finding(file="m/c.yml", level=Level.NOTE),
    )
    assert ["m/b.yml", "m/a.yml", "m/c.yml"] == re.findall(r"^(m/\w\.yml): ", text, re.MULTILINE)


def test_every_file_is_named_once_with_its_own_counts() -> None:
    found = [finding(line=n, message=f"Slip {n}.") for n in (3, 5)]
    text = printed(*found, finding(level=Level.WARNING, code="WM110", message="Advice."))
    assert ["m/a.yml: 2 errors, 1 warning"] == re.findall(r"^m/.*", text, re.MULTILINE)


def test_within_a_file_the_gravest_comes_first_and_then_the_line() -> None:
    text = printed(
        finding(line=2, level=Level.NOTE, message="Note."),
        finding(line=40, message="Late."),
        finding(line=4, code="WM012", message="Early."),
        finding(line=1, level=Level.WARNING, message="Advice."),
    )
    assert ["Early.", "Late.", "Advice.", "Note."] == re.findall(r": (\w+\.)$", text, re.MULTILINE)


def test_the_same_words_at_three_lines_are_said_once_with_all_lines() -> None:
    text = printed(*(finding(line=line) for line in (11, 16, 20)))
    assert 1 == text.count("There is no such part.")
    assert "and at lines 16, 20" in text


def test_the_same_words_in_two_files_are_said_in_each() -> None:
    assert 2 == len(messages([finding(file="m/a.yml"), finding(file="m/b.yml")]))


def test_why_and_fix_are_said_once_for_messages_of_one_code() -> None:
    text = printed(*(finding(line=n, message=f"Slip {n}.") for n in range(1, 4)))
    assert (1, 1, 3) == (text.count("Why WM030."), text.count("Fix WM030."), text.count("Slip"))


def test_at_most_so_many_messages_are_shown_and_the_rest_is_counted() -> None:
    found = [finding(line=n, message=f"Slip {n}.") for n in range(1, 26)]
    text = printed(*found)
    assert 20 == text.count("Slip")
    assert "... and 5 more messages in 1 file; --most 0 shows all." in text
    assert 25 == printed(*found, most=0).count("Slip")


def test_notes_of_one_file_hide_no_error_of_another() -> None:
    notes = [finding(line=n, level=Level.NOTE, message=f"Note {n}.") for n in range(1, 30)]
    text = printed(finding(message="First."), *notes, finding(file="m/z.yml", message="Last."))
    assert (True, 18) == ("Last." in text, text.count("Note "))


def test_no_finding_is_lost_between_messages_and_findings() -> None:
    found = [
        finding(line=n % 7, message=f"Slip {n % 5}.", file=f"m/{n % 3}.yml") for n in range(60)
    ]
    assert sorted(found, key=repr) == sorted(
        (one for message in messages(found) for one in message.findings), key=repr
    )


def test_control_characters_in_a_file_name_are_spelt_out() -> None:
    assert "\x1b" not in printed(finding(file="m/\x1b[2J.yml"))


def test_a_slip_used_twice_is_one_message_at_both_lines(demo: Path, bushes: Record) -> None:
    bushes.change("slewing-gear/upper-bush", "slewing-gear/uper-bush", count=2)
    out = call("check", str(demo), "--most", "0").out
    rows = call("check", str(demo), "--format", "json").json["diagnostics"]
    same = [r for r in rows if r["code"] == "WM030" and "uper-bush" in r["message"]]
    assert len(same) > 1
    assert 1 == len(re.findall('no part "slewing-gear/uper-bush"', re.sub(r"\s+", " ", out)))


@pytest.mark.parametrize("most", ["1", "0"])
def test_the_last_line_counts_every_finding(demo: Path, bushes: Record, most: str) -> None:
    bushes.change("opened: 2024-02-11", "opened: 2024-02-30")
    rows = call("check", str(demo), "--format", "json").json["diagnostics"]
    last = call("check", str(demo), "--most", most).out.splitlines()[-1]
    errors = sum(row["level"] == "error" for row in rows)
    assert f"{errors} error{'s' if errors > 1 else ''}" in last
