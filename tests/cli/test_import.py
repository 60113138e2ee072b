"""The verb `import`: a dry run first, an account of every row, and nothing overwritten."""

from __future__ import annotations

from pathlib import Path

import pytest

from building import FINDINGS, on_disk
from calling import Called, call
from talking import asked_meanwhile

HEAD = "machine,date,by,part,basis,what,grade\n"
ROWS = (
    "winch,2024-04-03,fitter,drum/bush,seen,It drips,watch\n"
    "winch,2024-04-04,fitter,drum/bsh,seen,It leaks,watch\n"
)


def bring(root: Path, text: str, *words: str, kind: str = "findings") -> Called:
    (root.parent / "list.csv").write_text(text, encoding="utf-8")
    return call("import", kind, str(root.parent / "list.csv"), "--museum", str(root), *words)


def test_a_dry_run_accounts_for_every_row_and_writes_nothing(tmp_path: Path) -> None:
    root = on_disk(tmp_path)
    before = (root / FINDINGS).read_bytes()
    called = bring(root, HEAD + ROWS)
    assert 1 == called.code
    assert "row 2    taken: winch f-002" in called.out
    assert "row 3    left out: WM030" in called.out
    assert "2 rows: 1 taken, 1 left out." in called.out
    assert before == (root / FINDINGS).read_bytes()


def test_with_yes_the_rows_that_can_be_taken_are_written(tmp_path: Path) -> None:
    root = on_disk(tmp_path)
    before = (root / FINDINGS).read_text(encoding="utf-8")
    called = bring(root, HEAD + ROWS, "--yes")
    assert (1, True) == (called.code, "museum/winch/findings.yml written." in called.out)
    after = (root / FINDINGS).read_text(encoding="utf-8")
    assert after.startswith(before)
    assert ("It drips" in after, "It leaks" in after) == (True, False)


def test_a_second_run_takes_nothing_twice(tmp_path: Path) -> None:
    root = on_disk(tmp_path)
    one = HEAD + ROWS.splitlines(keepends=True)[0]
    assert 0 == bring(root, one, "--yes").code
    again = bring(root, one, "--yes")
    assert 1 == again.code
    assert "f-002 says the same already" in again.out
    assert "Nothing to write." in again.out


def test_a_machine_that_is_new_gets_a_folder_with_its_blanks_to_fill(tmp_path: Path) -> None:
    root = on_disk(tmp_path)
    text = "machine,assembly,name,origin,made_to\nhoist,Drum,Drum shaft,as-built,last\n"
    assert 0 == bring(root, text, "--yes", kind="parts").code
    text = (root / "hoist" / "machine.yml").read_text(encoding="utf-8")
    assert "\nsignificance:\nassemblies:\n  - id: drum\n    name: Drum\n" in text


@pytest.mark.parametrize("kind", ["parts", "findings", "decisions"])
def test_an_example_can_be_brought_in_as_it_is_printed(
    demo: Path, tmp_path: Path, kind: str
) -> None:
    (tmp_path / "map.yml").write_text(call("import", kind, "--example", "map").out, "utf-8")
    listed = call("import", kind, "--example", "csv").out
    called = bring(demo, listed, "--map", str(tmp_path / "map.yml"), kind=kind)
    assert " 0 left out." in called.out
    both = call("import", kind, "--example").out
    assert f"# {kind}.csv\n{listed}" in both


def test_a_file_that_is_not_there_is_told_without_a_traceback(tmp_path: Path) -> None:
    called = call("import", "parts", "nowhere.csv", "--museum", str(on_disk(tmp_path)))
    assert 2 == called.code
    assert "nowhere.csv cannot be read" in called.err


def test_a_log_saved_while_it_asks_is_never_written_over(demo: Path, tmp_path: Path) -> None:
    for which, name in (("csv", "list.csv"), ("map", "map.yml")):
        text = call("import", "findings", "--example", which).out
        (tmp_path / name).write_text(text, encoding="utf-8")
    log = demo / "quay-crane" / "findings.yml"
    theirs = log.read_text(encoding="utf-8") + "# saved in an editor meanwhile\n"
    words = ("import", "findings", "list.csv", "--map", "map.yml", "--museum", str(demo))

    def save() -> None:
        log.write_text(theirs, encoding="utf-8")

    called = asked_meanwhile(*words, asks="Write 1 file", meanwhile=save, cwd=tmp_path)
    assert (1, theirs) == (called.code, log.read_text(encoding="utf-8"))
    assert "was changed by somebody else while this ran" in " ".join(called.out.split())
