"""Killed, interrupted, out of space, read-only or twice at once: what was there stays whole.

Each run is a process of its own that ends at a write boundary, as if the machine had died there;
afterwards the same words are said again, and finish the job.
"""

from __future__ import annotations

import os
import random
import shutil
import subprocess
import sys
from collections.abc import Mapping
from pathlib import Path

import pytest

import interrupted
from building import DECISION, FINDINGS
from calling import Called, call_here
from conftest import SOAK
from sound_museum import signed, sound
from witnessmark.errors import RefusedError, WitnessmarkError
from witnessmark.repository.writing import replace_text

PROGRAM = Path(interrupted.__file__)
SIGN = ("sign", "2024-001", "--by", "curator", "--role", "collections", "--date", "2024-03-02",
        "--museum")  # fmt: skip
FINDING = ("finding", "winch", "--by", "fitter", "--basis", "seen", "--grade", "watch",
           "--what", "It drips", "--as-of", "2026-01-01", "--museum")  # fmt: skip
SLIP = ("date: '2024-01-10'", "date: 10 January 2024")
MENDED = "date: 2024-01-10"
KILLS = 200


def started(
    *words: str, action: str = "kill", at: str = "any", number: int = 0, limit: int = 0
) -> subprocess.Popen[str]:
    command = [sys.executable, str(PROGRAM), action, at, str(number), str(limit), *words]
    return subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)


def ended(process: subprocess.Popen[str]) -> Called:
    out, err = process.communicate(timeout=120)
    assert "Traceback" not in out + err, err
    return Called(process.returncode, out, err)


def run(
    *words: str, action: str = "kill", at: str = "any", number: int = 0, limit: int = 0
) -> Called:
    return ended(started(*words, action=action, at=at, number=number, limit=limit))


def publishing(museum: Path, site: Path) -> tuple[str, ...]:
    return ("publish", str(museum), "--skin", "plain", "--as-of", "2026-01-01", "--out", str(site))


def contents(folder: Path) -> Mapping[str, bytes]:
    """Every file below a folder, the hidden ones too."""
    files = (path for path in sorted(folder.rglob("*")) if path.is_file())
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in files}


class Site:
    """A museum with an old site, and what the site is to become."""

    def __init__(self, where: Path) -> None:
        self.where, self.site = where, where / "site"
        self.museum = signed(where)
        self.words = publishing(self.museum, self.site)
        assert 0 == call_here(*self.words).code
        self.old = contents(self.site)
        path = self.museum / "museum.yml"
        path.write_text(
            path.read_text(encoding="utf-8").replace("Upstairs", "Downstairs"), encoding="utf-8"
        )
        assert 0 == call_here(*publishing(self.museum, where / "other")).code
        self.new = contents(where / "other")
        shutil.rmtree(where / "other")

    def again(self) -> None:
        """The same words once more finish the job and leave nothing behind."""
        called = call_here(*self.words)
        assert (0, True) == (called.code, self.new == contents(self.site)), called.err
        assert ["museum", "site"] == sorted(path.name for path in self.where.iterdir())


@pytest.fixture(scope="module")
def template(tmp_path_factory: pytest.TempPathFactory) -> Site:
    return Site(tmp_path_factory.mktemp("published"))


@pytest.fixture
def site(template: Site, tmp_path: Path) -> Site:
    """A copy of the published museum, for one test to break."""
    mine = Site.__new__(Site)
    mine.where = Path(shutil.copytree(template.where, tmp_path / "here", dirs_exist_ok=True))
    shutil.rmtree(mine.where / "site")
    mine.museum, mine.site = mine.where / "museum", mine.where / "site"
    mine.words = publishing(mine.museum, mine.site)
    mine.old, mine.new = template.old, template.new
    for name, content in mine.old.items():
        path = mine.site / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content)
    return mine


@pytest.mark.parametrize(
    ("at", "number"), [("mkdir", 1), ("write", 7), ("chmod", 1), ("exchange", 1), ("unlink", 3)]
)
def test_a_publish_that_is_killed_leaves_a_whole_site_and_the_next_run_finishes(
    site: Site, at: str, number: int
) -> None:
    assert interrupted.KILLED == run(*site.words, at=at, number=number).code
    assert contents(site.site) == (site.new if at == "unlink" else site.old)
    site.again()


def test_a_kill_between_two_renames_leaves_the_old_site_aside_and_it_is_brought_back(
    site: Site,
) -> None:
    called = run(*site.words, action="two-renames", at="rename", number=2)
    [aside] = [path for path in site.where.iterdir() if path.name.endswith("-old")]
    assert (interrupted.KILLED, site.old) == (called.code, contents(aside))
    refused = run(*site.words, limit=100)
    assert (2, site.old) == (refused.code, contents(site.site))
    site.again()


@pytest.mark.parametrize("number", [2, 40])
def test_63_a_publish_that_is_interrupted_leaves_the_old_site(site: Site, number: int) -> None:
    called = run(*site.words, action="interrupt", at="write", number=number)
    assert (2, "Stopped.") == (called.code, called.err.strip().splitlines()[-1])
    assert contents(site.site) == site.old
    assert ["museum", "site"] == sorted(path.name for path in site.where.iterdir())
    site.again()


def test_63_a_full_disk_leaves_the_old_site_and_says_so(site: Site) -> None:
    called = run(*site.words, limit=2000)
    assert 2 == called.code
    assert "could not be written" in called.err
    assert "stands as it was" in called.err
    assert contents(site.site) == site.old
    assert ["museum", "site"] == sorted(path.name for path in site.where.iterdir())
    site.again()


@pytest.mark.parametrize("at", ["fsync", "chmod", "replace"])
def test_a_sign_that_is_killed_leaves_the_old_record_and_the_next_run_signs(
    at: str, tmp_path: Path
) -> None:
    museum = sound(tmp_path)
    before = contents(museum)
    assert interrupted.KILLED == run(*SIGN, str(museum), at=at, number=1).code
    assert before[DECISION] == (museum / DECISION).read_bytes()
    assert 0 == call_here(*SIGN, str(museum)).code
    assert set(before) == set(contents(museum))
    assert b"by: curator, date: 2024-03-02" in (museum / DECISION).read_bytes()


def test_a_sign_that_is_killed_after_the_move_has_signed(tmp_path: Path) -> None:
    museum = sound(tmp_path)
    assert interrupted.KILLED == run(*SIGN, str(museum), at="fsync", number=2).code
    called = call_here(*SIGN, str(museum))
    assert (1, True) == (called.code, "has signed this record already" in called.err)


@pytest.mark.parametrize("at", ["fsync", "replace"])
def test_a_fix_that_is_killed_leaves_the_old_log_and_the_next_run_mends_it(
    at: str, tmp_path: Path
) -> None:
    museum, words = with_slip(tmp_path)
    before = contents(museum)
    assert interrupted.KILLED == run(*words, at=at, number=1).code
    assert before[FINDINGS] == (museum / FINDINGS).read_bytes()
    assert 0 == call_here(*words).code
    assert set(before) == set(contents(museum))
    assert MENDED.encode() in (museum / FINDINGS).read_bytes()


@pytest.mark.parametrize("at", ["fsync", "replace"])
def test_a_finding_that_is_killed_leaves_the_old_log_and_the_next_run_writes_it(
    at: str, tmp_path: Path
) -> None:
    museum = sound(tmp_path)
    before = contents(museum)
    assert interrupted.KILLED == run(*FINDING, str(museum), at=at, number=1).code
    assert before[FINDINGS] == (museum / FINDINGS).read_bytes()
    assert 0 == call_here(*FINDING, str(museum)).code
    assert set(before) == set(contents(museum))
    assert b"f-002" in (museum / FINDINGS).read_bytes()


def with_slip(where: Path) -> tuple[Path, tuple[str, ...]]:
    """A museum with a day that is spelt otherwise in a log, and what mends it."""
    where.mkdir(exist_ok=True)
    museum = sound(where)
    log = (museum / FINDINGS).read_text(encoding="utf-8")
    assert SLIP[0] in log
    (museum / FINDINGS).write_text(log.replace(*SLIP), encoding="utf-8")
    return museum, ("fix", str(museum / FINDINGS), "--yes", "--museum", str(museum))


def test_what_a_killed_run_left_is_no_file_of_the_museum(tmp_path: Path) -> None:
    museum = sound(tmp_path)
    run(*SIGN, str(museum), at="replace", number=1)
    assert 1 == sum(name.endswith(".witnessmark-new") for name in contents(museum))
    called = call_here("check", str(museum))
    assert (0, "1 record read") == (called.code, called.out.splitlines()[-1][:13])


@pytest.mark.parametrize("words", [SIGN, FINDING], ids=["sign", "finding"])
def test_63_a_full_disk_leaves_a_record_as_it_was_and_says_so(
    words: tuple[str, ...], tmp_path: Path
) -> None:
    museum = sound(tmp_path)
    before = contents(museum)
    called = run(*words, str(museum), limit=200)
    assert (2, before) == (called.code, contents(museum))
    assert "could not be written" in called.err
    assert "The old file is untouched" in called.err
    assert 0 == call_here(*words, str(museum)).code


def bound_by_rights() -> list[str]:
    """How to start a process to which rights apply; root is let through everywhere else."""
    if os.geteuid() != 0:
        return []
    tool = shutil.which("setpriv")
    if tool is None:
        pytest.skip("root is bound by no rights, and setpriv (util-linux) is not installed")
    return [tool, "--bounding-set", "-dac_override,-dac_read_search"]


@pytest.mark.parametrize("what", ["file", "folder"])
def test_63_what_is_read_only_is_not_written_and_that_is_said(what: str, tmp_path: Path) -> None:
    museum = sound(tmp_path)
    locked = museum / DECISION if what == "file" else (museum / DECISION).parent
    before = contents(museum)
    locked.chmod(0o444 if what == "file" else 0o555)
    done = subprocess.run(
        [*bound_by_rights(), sys.executable, "-m", "witnessmark", *SIGN, str(museum)],
        capture_output=True,
        text=True,
        check=False,
    )
    locked.chmod(0o755)
    assert (2, before) == (done.returncode, contents(museum)), done.stderr
    assert "could not be written" in done.stderr


def test_a_file_that_is_a_link_is_not_written_through(tmp_path: Path) -> None:
    (tmp_path / "real.yml").write_text("mine", encoding="utf-8")
    (tmp_path / "link.yml").symlink_to(tmp_path / "real.yml")
    with pytest.raises(RefusedError, match="is a link"):
        replace_text(tmp_path / "link.yml", "yours")
    assert "mine" == (tmp_path / "real.yml").read_text(encoding="utf-8")


def test_a_schema_folder_that_is_a_link_is_not_written_through(tmp_path: Path) -> None:
    museum = sound(tmp_path)
    (tmp_path / "outside").mkdir()
    (museum / "schema").symlink_to(tmp_path / "outside")
    called = call_here("schema", "--museum", str(museum))
    assert (1, []) == (called.code, list((tmp_path / "outside").iterdir()))


@pytest.mark.parametrize("mode", [0o600, 0o664, 0o640])
def test_a_file_keeps_its_rights(mode: int, tmp_path: Path) -> None:
    path = tmp_path / "a.yml"
    path.write_text("old", encoding="utf-8")
    path.chmod(mode)
    replace_text(path, "new", was="old")
    assert ("new", mode) == (path.read_text(encoding="utf-8"), path.stat().st_mode & 0o7777)


def test_a_folder_that_is_not_there_is_told(tmp_path: Path) -> None:
    with pytest.raises(WitnessmarkError, match="could not be written: No such file"):
        replace_text(tmp_path / "nowhere" / "a.yml", "x")


def test_a_change_made_since_the_file_was_read_is_never_overwritten(tmp_path: Path) -> None:
    path = tmp_path / "a.yml"
    path.write_text("theirs", encoding="utf-8")
    with pytest.raises(RefusedError, match="changed by somebody else"):
        replace_text(path, "mine", was="as I read it")
    assert "theirs" == path.read_text(encoding="utf-8")


def test_a_file_made_since_none_was_there_is_never_overwritten(tmp_path: Path) -> None:
    path = tmp_path / "a.yml"
    path.write_text("theirs", encoding="utf-8")
    with pytest.raises(RefusedError, match="changed by somebody else"):
        replace_text(path, "mine", was=None)


def test_of_two_who_sign_at_once_no_signature_is_lost(tmp_path: Path) -> None:
    museum = sound(tmp_path)
    people = {"curator": "collections", "engineer": "engineering", "safety-officer": "safety"}
    running = {
        person: started(
            "sign", "2024-001", "--by", person, "--role", role, "--date", "2024-03-02",
            "--museum", str(museum),
        )
        for person, role in people.items()
    }  # fmt: skip
    called = {person: ended(process) for person, process in running.items()}
    text = (museum / DECISION).read_text(encoding="utf-8")
    signed_by = {person for person, one in called.items() if one.code == 0}
    assert signed_by == {person for person in people if f"by: {person}, date: 2024-03-02" in text}
    assert signed_by
    refused = [one.err for one in called.values() if one.code]
    assert [] == [err for err in refused if "changed by somebody else" not in err]


def test_of_two_who_publish_at_once_one_whole_site_stands(site: Site) -> None:
    running = [started(*site.words) for _ in range(3)]
    assert [0, 0, 0] == [ended(process).code for process in running]
    site.again()


@pytest.mark.skipif(not SOAK, reason="the long sweep: make soak")
@pytest.mark.parametrize("share", range(10))
def test_random_kills_leave_no_half_file_no_lost_record_and_no_stale_lock(
    template: Site, tmp_path: Path, share: int
) -> None:
    chance = random.Random(share)  # noqa: S311  a seeded choice of places
    for number in range(KILLS // 10):
        where = tmp_path / str(number)
        verb = chance.choice(["publish", "sign", "finding", "fix"])
        if verb == "publish":
            _kill_a_publish(template, where, chance)
        elif verb == "fix":
            _kill_a_fix(where, chance)
        else:
            _kill_a_record(SIGN if verb == "sign" else FINDING, where, chance)
        shutil.rmtree(where)


def _kill_a_publish(template: Site, where: Path, chance: random.Random) -> None:
    shutil.copytree(template.museum, where / "museum")
    for name, content in template.old.items():
        path = where / "site" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content)
    words = publishing(where / "museum", where / "site")
    action = chance.choice(["kill", "two-renames"])
    run(*words, action=action, number=chance.randrange(1, 1200))
    found = [path for path in where.iterdir() if path.name.endswith("-old")] or [where / "site"]
    standing = where / "site" if (where / "site").exists() else found[0]
    assert contents(standing) in (template.old, template.new)
    assert 0 == call_here(*words).code
    assert template.new == contents(where / "site")
    assert ["museum", "site"] == sorted(path.name for path in where.iterdir())


def _kill_a_record(words: tuple[str, ...], where: Path, chance: random.Random) -> None:
    where.mkdir()
    museum = sound(where)
    file = DECISION if words is SIGN else FINDINGS
    before = contents(museum)
    number = chance.randrange(1, 8)
    run(*words, str(museum), number=number)
    first = (museum / file).read_bytes()
    called = call_here(*words, str(museum))
    after = (museum / file).read_bytes()
    assert set(before) == set(contents(museum))
    assert called.code == 0 or (first == after and "has signed" in called.err)
    assert after.startswith(before[file][:100])
    assert after != before[file]


def _kill_a_fix(where: Path, chance: random.Random) -> None:
    museum, words = with_slip(where)
    before = contents(museum)
    run(*words, number=chance.randrange(1, 8))
    wanted = before[FINDINGS].replace(SLIP[1].encode(), MENDED.encode())
    assert (museum / FINDINGS).read_bytes() in (before[FINDINGS], wanted)
    assert 0 == call_here(*words).code
    assert {**before, FINDINGS: wanted} == contents(museum)
