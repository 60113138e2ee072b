"""A bag as RFC 8493 has it, held against the bagit library and sha512sum."""

from __future__ import annotations

import subprocess
from datetime import date
from pathlib import Path

import bagit
import pytest

from witnessmark.exchange.deposit.bag import bag_of, damaged, info_in
from witnessmark.exchange.deposit.tar import files_in_tar, tar_of

PAYLOAD = {
    "records/a.yml": b"a: 1\n",
    "site/all wool.html": b"<p>",
    "\N{LATIN SMALL LETTER U WITH DIAERESIS}.txt": b"",
}
INFO = {"Source-Organization": "A museum\nof two lines", "Bagging-Date": "2026-01-01"}


def bag() -> dict[str, bytes]:
    return bag_of(PAYLOAD, info=INFO, tags={"README-FIRST.txt": b"read me\n"})


def laid(files: dict[str, bytes], folder: Path) -> Path:
    for name, content in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content)
    return folder


def test_the_bagit_library_finds_the_bag_valid(tmp_path: Path) -> None:
    # Library of Congress, bagit 1.9: validates 1.0 bags, fixity included.
    found = bagit.Bag(str(laid(bag(), tmp_path)))
    assert found.validate()
    assert ((1, 0), ["sha512"]) == (found.version_info, found.algorithms)


def test_the_bagit_library_finds_a_changed_file(tmp_path: Path) -> None:
    folder = laid(bag(), tmp_path)
    (folder / "data/records/a.yml").write_bytes(b"a: 2\n")
    with pytest.raises(bagit.BagValidationError):
        bagit.Bag(str(folder)).validate()


def test_the_size_and_number_of_files_are_told() -> None:
    # RFC 8493, 2.2.2: OctetCount.StreamCount.
    assert "8.3" == info_in(bag())["Payload-Oxum"]


def test_a_break_in_a_name_breaks_no_line_of_the_information() -> None:
    assert "A museum of two lines" == info_in(bag())["Source-Organization"]


def test_a_percent_sign_in_a_path_is_written_as_its_code() -> None:
    # RFC 8493, 2.1.3; bagit 1.9 does not read that code, so `deposit` refuses such names.
    made = bag_of({"100%.txt": b""}, info=INFO, tags={})
    assert b"  data/100%25.txt\n" in made["manifest-sha512.txt"]


def test_sha512sum_takes_the_manifests(tmp_path: Path) -> None:
    folder = laid(bag(), tmp_path)
    for manifest in ("manifest-sha512.txt", "tagmanifest-sha512.txt"):
        done = subprocess.run(
            ["sha512sum", "-c", "--quiet", "--strict", manifest], cwd=folder, check=False
        )
        assert 0 == done.returncode


def test_a_whole_bag_is_not_called_damaged() -> None:
    assert () == damaged(bag())


@pytest.mark.parametrize("name", sorted(bag()))
def test_each_changed_file_is_called_damaged(name: str) -> None:
    files = bag()
    files[name] += b"x"
    assert damaged(files)


def test_a_file_that_is_gone_or_came_later_is_called_damaged() -> None:
    files = bag()
    del files["data/records/a.yml"]
    files["data/records/b.yml"] = b""
    assert ("data/records/a.yml", "data/records/b.yml") == damaged(files)


def test_a_tar_gives_back_its_files_and_always_the_same_bytes() -> None:
    made = [tar_of(bag(), top="deposit", day=date(2026, 1, 1)) for _ in range(2)]
    assert (made[0], bag()) == (made[1], files_in_tar(made[0]))


def test_tar_itself_unpacks_the_tar(tmp_path: Path) -> None:
    tar = tmp_path / "d.tar"
    tar.write_bytes(tar_of(bag(), top="deposit", day=date(2026, 1, 1)))
    subprocess.run(["tar", "-xf", "d.tar"], cwd=tmp_path, check=True)
    found = {
        p.relative_to(tmp_path / "deposit").as_posix(): p.read_bytes()
        for p in (tmp_path / "deposit").rglob("*")
        if p.is_file()
    }
    assert bag() == found
