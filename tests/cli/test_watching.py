"""`check --watch`: only what is new and what is mended, after each change; no waiting in tests."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from collections.abc import Callable, Iterator
from itertools import islice
from pathlib import Path

from building import BASE, DECISION, on_disk
from calling import call
from witnessmark.cli.check import texts_of
from witnessmark.cli.opening import open_museum
from witnessmark.cli.watching import Look, watch
from witnessmark.repository.changes import changes
from witnessmark.rules.check import check
from witnessmark.rules.rulebook_check import load_shipped

SLIPPED = BASE[DECISION].replace("misses_aim", "mises_aim")


def watched(root: Path, steps: Iterator[object]) -> tuple[int, list[str]]:
    """The exit code, and what was said at the start and after each step."""
    said: list[str] = []

    def look() -> Look:
        library = open_museum(root).library
        return Look(check(library, rulebook=load_shipped()), texts_of(library))

    code = watch(look, steps, say=said.append, most=20)
    return code, said


def writing(root: Path, *texts: str) -> Iterator[object]:
    """A change for each text, written before it is noticed."""
    for text in texts:
        (root / DECISION).write_text(text, encoding="utf-8")
        yield DECISION


def test_a_new_finding_is_printed_and_a_mended_one_is_named(tmp_path: Path) -> None:
    root = on_disk(tmp_path)
    code, said = watched(root, writing(root, SLIPPED, BASE[DECISION]))
    told = "\n".join(said)
    assert 'error WM012: There is no field called "mises_aim" here.' in told
    assert "mended  museum/winch/2024-001-drum-bush.yml: WM012:" in told
    assert " 0 new, " in said[-1]
    assert not said[-1].endswith(" 0 mended.")
    assert code == watched(root, iter(()))[0]


def test_what_only_moved_down_a_line_is_not_said_again(tmp_path: Path) -> None:
    root = on_disk(tmp_path, also={DECISION: SLIPPED})
    _, said = watched(root, writing(root, f"# a remark\n{SLIPPED}"))
    assert said[-1].endswith("0 new, 0 mended.")
    assert [] == [text for text in said[:-1] if "moved" in text]


def test_a_museum_that_cannot_be_read_for_a_while_does_not_end_it(tmp_path: Path) -> None:
    root = on_disk(tmp_path)

    def steps() -> Iterator[object]:
        (root / "museum.yml").rename(root / "aside")
        yield 1
        (root / "aside").rename(root / "museum.yml")
        yield 2

    _, said = watched(root, steps())
    assert 1 == sum("Could not check" in text for text in said)
    assert said[-1].endswith("0 new, 0 mended.")


def test_ctrl_c_ends_it_with_the_last_exit_code(tmp_path: Path) -> None:
    root = on_disk(tmp_path, also={DECISION: SLIPPED})

    def steps() -> Iterator[object]:
        raise KeyboardInterrupt
        yield

    code, said = watched(root, steps())
    assert (1, "\nStopped watching.") == (code, said[-1])


def test_ctrl_c_in_a_terminal_leaves_no_traceback(tmp_path: Path) -> None:
    root = on_disk(tmp_path)
    command = [sys.executable, "-m", "witnessmark", "check", str(root), "--watch"]
    with subprocess.Popen(
        command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    ) as run:
        assert run.stdout is not None
        while "Watching; Ctrl-C ends it." not in run.stdout.readline():
            assert None is run.poll()
        os.kill(run.pid, signal.SIGINT)
        out, err = run.communicate()
    assert ("\nStopped watching.\n", "") == (out, err)


def test_a_change_is_noticed_by_size_or_time_and_named(tmp_path: Path) -> None:
    root = on_disk(tmp_path)
    edits: Iterator[Callable[[], object]] = iter(
        [
            lambda: None,
            lambda: (root / DECISION).write_text(SLIPPED, encoding="utf-8"),
            lambda: (root / "winch" / ".hidden").write_text("x", encoding="utf-8"),
            (root / "people.yml").unlink,
        ]
    )
    seen = list(islice(changes(root, wait=lambda _: next(edits)()), 2))
    assert [frozenset({DECISION}), frozenset({"people.yml"})] == seen


def test_watching_prints_text_only(tmp_path: Path) -> None:
    called = call("check", str(on_disk(tmp_path)), "--watch", "--format", "json")
    assert 2 == called.code
    assert "--watch prints text only" in called.err


def test_advice_never_changes_the_exit_code(demo: Path) -> None:
    plain, advised = call("check", str(demo)), call("check", str(demo), "--advice")
    assert plain.code == advised.code == 0
    assert "WM058" in advised.out
    assert "WM058" not in plain.out
