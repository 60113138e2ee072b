"""The verb `finding`: one more finding at the end of a log, and nothing else touched."""

from __future__ import annotations

import difflib
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from building import BASE, FINDINGS, on_disk, plainly
from calling import Called, call
from witnessmark.model.findings import Finding
from witnessmark.model.new_finding import Given, next_id, with_finding
from witnessmark.model.source import Document, read

DAY = "2024-06-01"
SEEN = ("--by", "fitter", "--basis", "seen", "--grade", "watch", "--what", "Oil drips: a lot, #2")


def add(root: Path, *words: str, machine: str = "winch") -> Called:
    return call("finding", machine, "--museum", str(root), "--as-of", DAY, *words)


def log(root: Path) -> Path:
    return root / FINDINGS


def test_a_finding_is_added_at_the_end_with_the_next_id(tmp_path: Path) -> None:
    root = on_disk(tmp_path)
    before = log(root).read_text(encoding="utf-8")
    called = add(root, *SEEN, "--part", "drum/bush")
    after = log(root).read_text(encoding="utf-8")
    assert (0, "museum/winch/findings.yml: f-002 written.") == (
        called.code, called.out.splitlines()[0],
    )  # fmt: skip
    assert after == before + (
        "  - id: f-002\n    date: 2024-06-01\n    by: fitter\n    part: drum/bush\n"
        "    basis: seen\n    what: >-\n      Oil drips: a lot, #2\n    grade: watch\n"
    )


def test_no_line_that_stood_there_is_touched(demo: Path) -> None:
    for machine in ("quay-crane", "dragline", "fire-pump", "sister-dragline"):
        file = demo / machine / "findings.yml"
        before = file.read_text(encoding="utf-8").splitlines(keepends=True)
        found = ("--by", "curator", "--basis", "seen", "--grade", "note", "--what", "All well")
        called = call("finding", machine, "--museum", str(demo), "--as-of", "demo", *found)
        assert 0 == called.code, called.err
        after = file.read_text(encoding="utf-8").splitlines(keepends=True)
        changes = {line[0] for line in difflib.ndiff(before, after)}
        assert {" ", "+"} == changes


def test_what_was_given_is_what_is_read(tmp_path: Path) -> None:
    root = on_disk(tmp_path)
    words = (
        "--part", "drum/bush", "--basis", "measured", "--measurement", "0.80 ± 0.01 mm",
        "--instrument", "gauge: old, no. 3 # bench", "--limit", "0.74 mm", "--limit-from", "no",
        "--cause", "Nobody knows", "--told-by", "012", "--put-off-until", "2024-12-01",
        "--put-off-because", "It waits: for winter", "--answers", "f-001", "--public",
        "--date", "2024-05-30", "--by", "fitter", "--grade", "act", "--what", "Worn",
    )  # fmt: skip
    called = add(root, *words)
    assert 0 == called.code, called.err
    assert {
        "id": "f-002", "date": "2024-05-30", "by": "fitter", "part": "drum/bush",
        "basis": "measured", "told_by": "012", "what": "Worn", "grade": "act",
        "measurement": "0.80 ± 0.01 mm", "instrument": "gauge: old, no. 3 # bench",
        "limit": "0.74 mm", "limit_from": "no", "cause": "Nobody knows",
        "put_off": {"until": "2024-12-01", "because": "It waits: for winter"},
        "answers": ["f-001"], "public": True,
    } == plainly(log(root).read_text(encoding="utf-8"))["findings"][1]  # fmt: skip


def test_the_log_is_begun_where_there_is_none(tmp_path: Path) -> None:
    root = on_disk(tmp_path)
    called = add(root, *SEEN, machine="sister")
    text = (root / "sister" / "findings.yml").read_text(encoding="utf-8")
    assert 0 == called.code
    assert text.startswith("# yaml-language-server: $schema=../schema/findings.schema.json\n")
    assert ["f-001"] == [found["id"] for found in plainly(text)["findings"]]
    assert 0o644 == (root / "sister" / "findings.yml").stat().st_mode & 0o777


@pytest.mark.parametrize("empty", ["findings: []\n", "findings:\n", ""])
def test_an_empty_log_is_begun(tmp_path: Path, empty: str) -> None:
    root = on_disk(tmp_path, also={FINDINGS: f"# a note\nwitnessmark: 1\n{empty}"})
    record = root / "winch" / "2024-001-drum-bush.yml"
    record.write_text(
        record.read_text(encoding="utf-8").replace("findings: [f-001]\n", ""), encoding="utf-8"
    )
    assert 0 == add(root, *SEEN).code
    text = log(root).read_text(encoding="utf-8")
    assert text.startswith("# a note\nwitnessmark: 1\nfindings:\n  - id: f-001\n")


def test_a_gap_in_the_numbers_is_never_filled() -> None:
    ids = ("f-001", "f-007", "f-003")
    found = [
        Finding.model_validate(
            {"id": name, "date": DAY, "by": "a", "basis": "seen", "what": "w", "grade": "note"}
        )
        for name in ids
    ]
    assert "f-008" == next_id(found)


def test_a_dry_run_shows_the_lines_and_writes_nothing(tmp_path: Path) -> None:
    root = on_disk(tmp_path)
    called = add(root, *SEEN, "--dry-run")
    assert (True, BASE[FINDINGS]) == ("id: f-002" in called.out, log(root).read_text("utf-8"))


REFUSED = {
    "no-such-part": (("--part", "drum/bsh"), 'Did you mean "drum/bush"?'),
    "no-such-finding": (("--answers", "f-009"), "no finding of winch"),
    "half-put-off": (("--put-off-until", "2024-12-01"), "--put-off-because"),
    "a-day-to-come": (("--date", "2024-06-02"), "the day it was found"),
    "blank": (("--what", "  "), "what"),
    "unseen": (("--instrument", "a\u202eb"), "instrument"),
    "no-unit": (("--measurement", "12 furlongs"), "WM071"),
}


@pytest.mark.parametrize("name", REFUSED)
def test_a_finding_that_check_would_fault_is_refused_and_nothing_written(
    tmp_path: Path, name: str
) -> None:
    words, told = REFUSED[name]
    root = on_disk(tmp_path)
    called = add(root, *SEEN, *words)
    assert (1, BASE[FINDINGS]) == (called.code, log(root).read_text(encoding="utf-8"))
    assert told in called.err


def test_somebody_who_is_not_in_the_register_is_refused(tmp_path: Path) -> None:
    called = add(on_disk(tmp_path), *SEEN, "--by", "fiter")
    assert (1, True) == (called.code, 'Did you mean "fitter"?' in called.err)


def test_a_machine_that_does_not_exist_is_told_so(tmp_path: Path) -> None:
    called = add(on_disk(tmp_path), *SEEN, machine="wnch")
    assert (2, True) == (called.code, 'Did you mean "winch"?' in called.err)


def test_a_log_with_faults_is_left_alone(tmp_path: Path) -> None:
    faulted = BASE[FINDINGS].replace("grade: act", "grade: soon")
    root = on_disk(tmp_path, also={FINDINGS: faulted})
    called = add(root, *SEEN)
    assert (1, faulted) == (called.code, log(root).read_text(encoding="utf-8"))


def test_a_log_in_one_line_is_refused_with_the_remedy(tmp_path: Path) -> None:
    text = (
        "witnessmark: 1\nfindings: [{id: f-001, date: 2024-01-10, by: fitter, basis: seen, "
        "what: Worn, grade: act}]\n"
    )
    root = on_disk(tmp_path, also={FINDINGS: text})
    called = add(root, *SEEN)
    assert (1, text) == (called.code, log(root).read_text(encoding="utf-8"))
    assert "one member a line" in called.err


def test_what_check_would_warn_of_is_told(tmp_path: Path) -> None:
    called = add(on_disk(tmp_path), *SEEN, "--basis", "measured")
    assert 0 == called.code
    assert "measured and gives no measurement" in " ".join(called.out.split())


def test_a_stop_is_told_to_hold_the_machine_and_never_as_a_certificate(tmp_path: Path) -> None:
    told = " ".join(add(on_disk(tmp_path), *SEEN, "--grade", "stop").out.split())
    assert "Does winch run on 2024-06-01? No, it stands." in told
    assert "f-002 is a stop of 2024-06-01, and nothing answers it." in told
    assert "never a certificate" in told


def test_a_finding_that_answers_a_stop_lets_go_of_the_machine(tmp_path: Path) -> None:
    root = on_disk(tmp_path, also={FINDINGS: BASE[FINDINGS].replace("act", "stop")})
    assert "No, it stands." in add(root, *SEEN).out
    assert "Nothing in the records holds it." in add(root, *SEEN, "--answers", "f-001").out


TEXTS = st.text("".join(map(chr, range(0x20, 0x7F))) + "äé±µ°", min_size=1).filter(str.strip)


def added(given: Given) -> Document:
    """The log with one more finding."""
    return with_finding(read("f.yml", BASE[FINDINGS].encode()), given, file="f.yml")


@given(what=TEXTS, instrument=TEXTS, because=TEXTS)
def test_any_text_is_read_as_it_was_given(what: str, instrument: str, because: str) -> None:
    given: Given = {
        "id": "f-002", "date": DAY, "by": "fitter", "basis": "seen", "what": what,
        "grade": "watch", "instrument": instrument, "put_off": {"until": DAY, "because": because},
    }  # fmt: skip
    document = added(given)
    assert document.text.startswith(BASE[FINDINGS])
    found = plainly(document.text)["findings"][1]
    texts = (found["what"], found["instrument"], found["put_off"]["because"])
    meant = (" ".join(what.split()), instrument, " ".join(because.split()))
    assert meant == texts


@pytest.mark.parametrize(
    "text", ["no", "12:30", "010", "- x", "a: b", "a #b", "{x}", "'", '"', "?"]
)
def test_no_word_of_a_text_is_taken_for_something_else(text: str) -> None:
    given: Given = {
        "id": "f-002", "date": DAY, "by": "fitter", "basis": "seen", "what": text,
        "grade": "watch", "instrument": text, "told_by": text,
    }  # fmt: skip
    document = added(given)
    found = plainly(document.text)["findings"][1]
    assert (text, text, text) == (found["what"], found["instrument"], found["told_by"])
