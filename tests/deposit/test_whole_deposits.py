"""Whole deposits: valid, the same bytes on another day, kept apart, written whole or not at all."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import bagit
import pytest

from building import on_disk
from calling import call
from depositing import Made, made
from keeping import Kept, kept_museum
from rendered_site import Markup
from witnessmark.model.source import read


def below(folder: Path) -> dict[str, bytes]:
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file()
    }


@pytest.mark.parametrize("name", ["public", "sealed"])
def test_the_bagit_library_finds_it_valid(name: str, request: pytest.FixtureRequest) -> None:
    deposit: Made = request.getfixturevalue(name)
    assert bagit.Bag(str(deposit.folder)).validate()


def test_on_another_day_in_another_zone_it_has_the_same_bytes(
    public: Made, frozen: Kept, tmp_path: Path
) -> None:
    # Python's own clock is moved by a site hook of the child process, not by waiting.
    hook = tmp_path / "hook" / "sitecustomize.py"
    hook.parent.mkdir()
    hook.write_text("import time\nold = time.time\ntime.time = lambda: old() + 40 * 86400 * 365\n")
    env = {**os.environ, "TZ": "Asia/Tokyo", "SOURCE_DATE_EPOCH": "1"}
    env["PYTHONPATH"] = f"{hook.parent}{os.pathsep}{env.get('PYTHONPATH', '')}"
    words = ["deposit", str(frozen.museum), "--out", str(tmp_path / "again")]
    subprocess.run([sys.executable, "-m", "witnessmark", *words], env=env, check=True)
    assert below(public.folder) == below(tmp_path / "again")


def test_the_day_is_that_of_the_last_commit(public: Made) -> None:
    assert "Bagging-Date: 2026-06-01\n" in public.text("bag-info.txt")


def test_outside_git_the_day_is_the_newest_that_the_records_tell(tmp_path: Path) -> None:
    where = on_disk(tmp_path)
    called = call("deposit", str(where), "--sealed", "--out", str(tmp_path / "out"))
    assert 0 == called.code, called.err
    info = (tmp_path / "out/bag-info.txt").read_text(encoding="utf-8")
    # The options were judged on that day, the last that the small museum's records tell of.
    assert "Bagging-Date: 2024-02-20\n" in info


def test_the_sealed_one_holds_the_files_byte_for_byte(sealed: Made) -> None:
    assert below(sealed.kept.museum) == below(sealed.data / "records")


def test_the_sealed_one_warns(frozen: Kept, sealed: Made) -> None:
    assert "IT HOLDS PRIVATE FIELDS" in sealed.text("README-FIRST.txt")
    assert "Not for publication" in sealed.text("data/ro-crate-metadata.json")


def test_each_says_why_it_has_or_has_not_the_history(public: Made, sealed: Made) -> None:
    told = " ".join(public.text("README-FIRST.txt").split())
    assert "no git history in a public deposit, because earlier versions hold private" in told
    assert (False, True) == (
        (public.data / "history").exists(),
        (sealed.data / "history/history.bundle").is_file(),
    )


def test_neither_takes_the_place_of_the_other(public: Made, frozen: Kept) -> None:
    before = below(public.folder)
    called = call("deposit", str(frozen.museum), "--out", str(public.folder), "--sealed")
    assert (1, before) == (called.code, below(public.folder))
    assert "holds a public deposit" in called.err


def test_a_folder_of_somebody_else_is_left_alone(frozen: Kept, tmp_path: Path) -> None:
    (tmp_path / "letters.txt").write_text("mine")
    called = call("deposit", str(frozen.museum), "--out", str(tmp_path))
    assert (1, {"letters.txt": b"mine"}) == (called.code, below(tmp_path))


def test_a_place_within_the_museum_is_refused(frozen: Kept) -> None:
    called = call("deposit", str(frozen.museum), "--out", str(frozen.museum / "deposit"))
    assert (1, True) == (called.code, "within the museum's own folder" in called.err)


def test_a_public_deposit_is_not_made_of_records_with_errors(frozen: Kept, tmp_path: Path) -> None:
    wrong = tmp_path / "museum"
    subprocess.run(["cp", "-r", str(frozen.museum), str(wrong)], check=True)
    record = wrong / "quay-crane/2024-003-slewing-bushes.yml"
    text = record.read_text(encoding="utf-8")
    record.write_text(text.replace("state: done", "state: finished"), encoding="utf-8")
    called = call("deposit", str(wrong), "--out", str(tmp_path / "out"))
    assert (1, False) == (called.code, (tmp_path / "out").exists())


def test_every_public_copy_is_read_by_the_strict_reader(public: Made) -> None:
    copies = sorted((public.data / "records").rglob("*.yml"))
    assert copies
    for path in copies:
        document = read(path.name, path.read_bytes())
        assert [] == list(document.problems), path
        assert isinstance(document.data, dict)
        assert 1 == document.data["witnessmark_public_copy"]


def test_a_tar_holds_the_folder(tmp_path: Path) -> None:
    kept = kept_museum(tmp_path / "small")
    folder = made(kept, tmp_path / "public", "--sealed").folder
    made(kept, tmp_path / "other" / "public", "--sealed", "--tar")
    subprocess.run(["tar", "-xf", "public.tar"], cwd=tmp_path / "other", check=True)
    assert below(folder) == below(tmp_path / "other" / "public")


def test_changes_not_filed_are_told(tmp_path: Path) -> None:
    kept = kept_museum(tmp_path / "small")
    kept.change("museum.yml", "name: ", "name: Not filed. ")
    changed = made(kept, tmp_path / "out", "--sealed")
    assert "Deposit-Edited: some files held changes" in changed.text("bag-info.txt")


def test_a_name_that_no_list_of_files_can_hold_is_refused(tmp_path: Path) -> None:
    kept = kept_museum(tmp_path / "small")
    (kept.museum / "winch/100%.txt").write_text("all of it")
    called = call("deposit", str(kept.museum), "--sealed", "--out", str(tmp_path / "out"))
    assert (1, True) == (called.code, "100%.txt" in called.err)


def test_a_clone_without_its_whole_history_makes_no_sealed_deposit(
    frozen: Kept, tmp_path: Path
) -> None:
    frozen.git("clone", "-q", "--depth", "1", f"file://{frozen.top}", str(tmp_path / "short"))
    museum = str(tmp_path / "short" / "museum")
    called = call("deposit", museum, "--sealed", "--out", str(tmp_path / "out"))
    assert (2, True) == (called.code, "git fetch --unshallow" in called.err)


def test_a_tar_is_compared_like_a_folder(tmp_path: Path) -> None:
    kept = kept_museum(tmp_path / "small")
    made(kept, tmp_path / "old", "--sealed", "--tar")
    told = call("deposit", str(kept.museum), "--compare", str(tmp_path / "old.tar"))
    marks = ("new ", "changed ", "gone ", "file ", "damaged ")
    assert told.out.startswith("Held against the sealed deposit of 2024-05-01, commit ")
    assert [] == [line for line in told.out.splitlines() if line.startswith(marks)]


def test_the_day_can_be_given(tmp_path: Path) -> None:
    kept = kept_museum(tmp_path / "small")
    deposit = made(kept, tmp_path / "out", "--sealed", "--as-of", "2025-03-04")
    assert "Bagging-Date: 2025-03-04\n" in deposit.text("bag-info.txt")


@pytest.fixture
def without_printer(tmp_path: Path) -> dict[str, str]:
    """The environment of a machine on which WeasyPrint is not installed."""
    hook = tmp_path / "hook" / "sitecustomize.py"
    hook.parent.mkdir()
    hook.write_text("import sys\nsys.modules['weasyprint'] = None\n")
    path = f"{hook.parent}{os.pathsep}{os.environ.get('PYTHONPATH', '')}"
    return {**os.environ, "PYTHONPATH": path}


def test_without_a_printer_the_reading_copy_is_pages_and_one_line_says_so(
    frozen: Kept, tmp_path: Path, without_printer: dict[str, str]
) -> None:
    words = ["deposit", str(frozen.museum), "--out", str(tmp_path / "out")]
    done = subprocess.run(
        [sys.executable, "-m", "witnessmark", *words],
        env=without_printer,
        capture_output=True,
        text=True,
        check=True,
    )
    said = [line for line in done.stderr.splitlines() if "WeasyPrint" in line]
    assert (1, True) == (len(said), "reading-copy" in said[0])
    deposit = Made(tmp_path / "out", frozen)
    readings = {path.name for path in (deposit.data / "reading").iterdir()}
    assert {"contents.html", "2024-003.html"} <= readings
    assert all(name.endswith(".html") for name in readings)
    assert "one page of HTML a decision" in " ".join(deposit.text("README-FIRST.txt").split())
    # Pictures and links of the pages lie in the site beside them.
    page = Markup((deposit.data / "reading/2024-003.html").read_text(encoding="utf-8"))
    links = [*page.all("src"), *page.all("href")]
    inner = {link.partition("#")[0] for link in links if not link.startswith(("#", "http"))}
    assert inner
    assert [] == [link for link in sorted(inner) if not (deposit.data / "reading" / link).is_file()]
