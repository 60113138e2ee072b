"""Copies of pictures are kept by what they were made from, and a damaged one is made again."""

from __future__ import annotations

from pathlib import Path

import pytest

from witnessmark.repository.photos import Copy
from witnessmark.repository.picture_store import PictureStore


class Maker:
    """Makes two copies of a picture, and counts how often it was asked."""

    def __init__(self) -> None:
        self.asked = 0

    def __call__(self, name: str, content: bytes) -> tuple[Copy, ...]:
        self.asked += 1
        stem = name.removesuffix(".png")
        return tuple(
            Copy.of(f"{stem}-png-{width}.png", width, width // 2, content + str(width).encode())
            for width in (480, 960)
        )


def kept(folder: Path, make: Maker, *, name: str = "m/a.png") -> list[tuple[str, int, int, bytes]]:
    copies = PictureStore(folder).copies(name, b"picture", make=make)
    return [(copy.name, copy.width, copy.height, copy.content) for copy in copies]


WANTED = [
    ("m/a-png-480.png", 480, 240, b"picture480"),
    ("m/a-png-960.png", 960, 480, b"picture960"),
]


@pytest.fixture
def make() -> Maker:
    return Maker()


def test_copies_are_made_once_and_then_found(tmp_path: Path, make: Maker) -> None:
    folder = tmp_path / "pictures"
    assert (WANTED, WANTED, 1) == (kept(folder, make), kept(folder, make), make.asked)


def test_the_same_picture_under_another_name_is_not_made_again(tmp_path: Path, make: Maker) -> None:
    folder = tmp_path / "pictures"
    kept(folder, make)
    names = [name for name, *_ in kept(folder, make, name="n/b.png")]
    assert (["n/b-png-480.png", "n/b-png-960.png"], 1) == (names, make.asked)


def test_the_same_bytes_under_another_ending_are_another_picture(
    tmp_path: Path, make: Maker
) -> None:
    folder = tmp_path / "pictures"
    kept(folder, make)
    kept(folder, make, name="m/a.jpg")
    assert 2 == make.asked


@pytest.mark.parametrize("damage", [b"", b"picture48", b"something else"])
def test_a_damaged_copy_is_made_again(tmp_path: Path, make: Maker, damage: bytes) -> None:
    folder = tmp_path / "pictures"
    kept(folder, make)
    [narrow] = folder.glob("*-480.png")
    narrow.write_bytes(damage)
    assert WANTED == kept(folder, make)


def test_a_list_of_copies_that_is_damaged_counts_as_none(tmp_path: Path, make: Maker) -> None:
    folder = tmp_path / "pictures"
    kept(folder, make)
    [listed] = folder.glob("*.json")
    listed.write_bytes(listed.read_bytes().replace(b"480", b"481"))
    assert (WANTED, 2) == (kept(folder, make), make.asked)


def test_a_folder_that_others_may_write_in_is_not_trusted(tmp_path: Path, make: Maker) -> None:
    folder = tmp_path / "pictures"
    kept(folder, make)
    folder.chmod(0o777)
    assert (WANTED, 2) == (kept(folder, make), make.asked)


def test_a_folder_that_is_a_link_is_not_trusted(tmp_path: Path, make: Maker) -> None:
    (tmp_path / "real").mkdir()
    (tmp_path / "pictures").symlink_to(tmp_path / "real")
    kept(tmp_path / "pictures", make)
    assert [] == list((tmp_path / "real").iterdir())


def test_copies_that_a_run_did_not_ask_for_are_forgotten(tmp_path: Path, make: Maker) -> None:
    folder = tmp_path / "pictures"
    kept(folder, make)
    store = PictureStore(folder)
    store.copies("m/b.png", b"another", make=make)
    store.forget_others()
    assert 3 == len(list(folder.iterdir()))
    kept(folder, make)
    assert 3 == make.asked
