"""A reader without our program, or Python, checks and reads a deposit by README-FIRST alone."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from depositing import COREUTILS, Made, bare_machine, lines_to_type, typed

# What the lines need beside coreutils: a shell, grep, git, and OpenSSH for a signature.
TOOLS = (*COREUTILS.split(), "sh", "grep", "git")


def unpacked(deposit: Made, where: Path) -> Path:
    return Path(shutil.copytree(deposit.folder, where / "somewhere" / "deposit"))


@pytest.fixture(params=["public", "sealed"])
def deposit(request: pytest.FixtureRequest) -> Made:
    found = request.getfixturevalue(request.param)
    assert isinstance(found, Made)
    return found


def test_every_line_that_it_tells_to_type_does_what_it_says(deposit: Made, tmp_path: Path) -> None:
    folder = unpacked(deposit, tmp_path)
    env = bare_machine(tmp_path / "bin", *TOOLS, "ssh-keygen")
    lines = lines_to_type((folder / "README-FIRST.txt").read_text(encoding="utf-8"))
    assert len(lines) >= 5
    for line in lines:
        done = typed(line, folder=folder, env=env)
        assert (line, 0) == (line, done.returncode), done.stderr


def test_a_changed_byte_is_found_by_the_first_line(deposit: Made, tmp_path: Path) -> None:
    folder = unpacked(deposit, tmp_path)
    (folder / "data/records/museum.yml").write_text("name: Another\n", encoding="utf-8")
    env = bare_machine(tmp_path / "bin", *TOOLS)
    first = lines_to_type(deposit.text("README-FIRST.txt"))[0]
    done = typed(first, folder=folder, env=env)
    assert (True, True) == (done.returncode != 0, "museum.yml: FAILED" in done.stdout)


def test_one_seal_is_checked_by_hand(sealed: Made, tmp_path: Path) -> None:
    env = bare_machine(tmp_path / "bin", *TOOLS)
    lines = lines_to_type(sealed.text("README-FIRST.txt"))
    both = next(line for line in lines if line.startswith('grep "wm1:$(sha256sum'))
    told = typed(both, folder=sealed.folder, env=env).stdout
    # Decision 2022-001 has three agreements.
    assert (3, True) == (told.count("wm1:195bee0b"), "role: safety" in told)


def test_a_judgement_that_was_changed_fits_no_seal(sealed: Made, tmp_path: Path) -> None:
    folder = unpacked(sealed, tmp_path)
    text = folder / "data/seals/2022-001.judgement.json"
    text.write_bytes(text.read_bytes().replace(b'"running"', b'"reserve"', 1))
    env = bare_machine(tmp_path / "bin", *TOOLS)
    lines = lines_to_type(sealed.text("README-FIRST.txt"))
    both = next(line for line in lines if line.startswith('grep "wm1:$(sha256sum'))
    every = next(line for line in lines if "judgements.sha256" in line)
    found = [typed(line, folder=folder, env=env).returncode for line in (both, every)]
    assert [1, 1] == found


def test_the_signature_is_checked_with_openssh_alone(sealed: Made, tmp_path: Path) -> None:
    env = bare_machine(tmp_path / "bin", *TOOLS, "ssh-keygen")
    lines = lines_to_type(sealed.text("README-FIRST.txt"))
    line = next(line for line in lines if line.startswith("ssh-keygen"))
    told = typed(line, folder=sealed.folder, env=env)
    assert (0, True) == (told.returncode, "Good" in told.stdout)


def test_a_signed_statement_that_was_changed_is_refused(sealed: Made, tmp_path: Path) -> None:
    folder = unpacked(sealed, tmp_path)
    statement = folder / "data/seals/2024-003-safety.statement.json"
    statement.write_bytes(statement.read_bytes().replace(b"2024-03-04", b"2024-03-05"))
    env = bare_machine(tmp_path / "bin", *TOOLS, "ssh-keygen")
    lines = lines_to_type(sealed.text("README-FIRST.txt"))
    line = next(line for line in lines if line.startswith("ssh-keygen"))
    assert 0 != typed(line, folder=folder, env=env).returncode


def test_git_gives_back_the_whole_history(sealed: Made, tmp_path: Path) -> None:
    folder = unpacked(sealed, tmp_path)
    env = bare_machine(tmp_path / "bin", *TOOLS)
    for line in lines_to_type(sealed.text("README-FIRST.txt"))[2:4]:
        done = typed(line, folder=folder, env=env)
        assert 0 == done.returncode
    told = typed("git -C ../history-read-back log --format=%H", folder=folder, env=env).stdout
    assert sealed.kept.git("log", "--format=%H") == told.strip()
    kept = folder.parent / "history-read-back" / "museum" / "stores.yml"
    assert (sealed.kept.museum / "stores.yml").read_bytes() == kept.read_bytes()


@pytest.mark.parametrize(
    ("file", "words"),
    [
        ("data/records/quay-crane/2024-003.yml", "What should carry the turning frame now?"),
        ("data/records/quay-crane/2024-003.yml", "two new drivers have passed out on the crane"),
        ("data/site/d/2024-003/index.html", "What should carry the turning frame now?"),
        ("data/site/d/2024-003/index.html", "two new drivers have passed out on the crane"),
    ],
)
def test_a_decision_is_read_from_question_to_outcome(public: Made, file: str, words: str) -> None:
    assert words in " ".join(public.text(file).split())


def test_no_readme_line_names_python_or_this_program(deposit: Made) -> None:
    lines = lines_to_type(deposit.text("README-FIRST.txt"))
    assert [] == [line for line in lines if "python" in line or line.startswith("witnessmark")]
