"""The verb `fix`: shown first, written only when told to, and never in an agreed record."""

from __future__ import annotations

import stat
from pathlib import Path

from building import BASE, DECISION, on_disk
from calling import call
from talking import asked_meanwhile

SLIPPED = BASE[DECISION].replace("opened: 2024-02-11", "opened: 11 Feb 2024")


def test_what_would_change_is_shown_and_nothing_is_written(tmp_path: Path) -> None:
    root = on_disk(tmp_path, also={DECISION: SLIPPED})
    called = call("fix", str(root))
    assert 1 == called.code
    assert "-opened: 11 Feb 2024\n+opened: 2024-02-11\n" in called.out
    assert "Add --yes to write." in called.out
    assert SLIPPED == (root / DECISION).read_text(encoding="utf-8")


def test_it_writes_with_yes_and_keeps_rights_and_the_mark_at_the_start(tmp_path: Path) -> None:
    root = on_disk(tmp_path)
    file = root / DECISION
    file.write_text(SLIPPED, encoding="utf-8-sig")
    file.chmod(0o640)
    called = call("fix", "2024-001", "--museum", str(root), "--yes")
    assert (0, 0o640) == (called.code, stat.S_IMODE(file.stat().st_mode))
    assert ("\ufeff" + BASE[DECISION]).encode() == file.read_bytes()
    assert [] == [path.name for path in file.parent.iterdir() if path.name.startswith(".")]


def test_a_change_saved_while_it_asks_is_never_written_over(tmp_path: Path) -> None:
    root = on_disk(tmp_path, also={DECISION: SLIPPED})
    theirs = SLIPPED + "# saved in an editor meanwhile\n"

    def save() -> None:
        (root / DECISION).write_text(theirs, encoding="utf-8")

    called = asked_meanwhile("fix", str(root), asks="Write 1 mend", meanwhile=save)
    assert (1, theirs) == (called.code, (root / DECISION).read_text(encoding="utf-8"))
    assert "was changed by somebody else while this ran" in " ".join(called.out.split())


def test_only_slips_of_the_code_asked_for_are_mended(tmp_path: Path) -> None:
    root = on_disk(tmp_path, also={DECISION: SLIPPED.replace("misses_aim", "mises_aim")})
    called = call("fix", str(root), "--yes", "--code", "WM012")
    assert 0 == called.code
    assert SLIPPED == (root / DECISION).read_text(encoding="utf-8")


def test_an_agreement_shows_that_a_word_was_meant_otherwise(demo: Path) -> None:
    # The log said note; stup is nearest to stop, and the seals that cover the log say otherwise.
    file = demo / "crash-tender" / "findings.yml"
    text = file.read_text(encoding="utf-8").replace("grade: note", "grade: stup")
    file.write_text(text, encoding="utf-8")
    called = call("fix", str(demo), "--yes")
    assert text == file.read_text(encoding="utf-8")
    assert "crash-tender/findings.yml is left alone." in " ".join(called.out.split())


def test_a_sound_museum_needs_nothing(demo: Path) -> None:
    called = call("fix", str(demo))
    assert (0, "Nothing here can be put right in one way only.\n") == (called.code, called.out)


def test_a_code_that_is_not_mended_is_refused_with_those_that_are(tmp_path: Path) -> None:
    called = call("fix", str(on_disk(tmp_path)), "--code", "WM999")
    assert 2 == called.code
    assert "WM012" in called.err
