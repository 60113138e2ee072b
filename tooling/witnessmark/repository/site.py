"""Writing a site: built beside the old one, then swapped in, so that a failure changes nothing."""

from __future__ import annotations

import os
import shutil
import tempfile
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path, PurePosixPath

from witnessmark.errors import RefusedError, WitnessmarkError

MARKER = ".witnessmark-site"
"""A file that says: this folder is one of ours and may be replaced."""

MOST_PICTURE_BYTES = 20 * 1024 * 1024
_PICTURES = frozenset({".svg", ".png", ".jpg", ".jpeg", ".webp"})
_READABLE = 0o755  # a temporary folder is private; a site is read by a web server


def write_site(pages: Mapping[str, str | bytes], target: Path) -> None:
    """Put these files, by their path in the site, in place of the target folder.

    Raises:
        RefusedError: the folder is not one of ours, or a path leads out of it.
        WitnessmarkError: the disk would not take the files; the old site stands.

    """
    _refuse_outside(pages)
    with built_beside(target) as fresh:
        _fill(fresh, pages)


@contextmanager
def built_beside(target: Path) -> Iterator[Path]:
    """A fresh folder to build in, put in place of the target only when all went well.

    Raises:
        RefusedError: the target is not one of ours.
        WitnessmarkError: the disk would not take the files; the old site stands.

    """
    _refuse_strange(target)
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        fresh = Path(tempfile.mkdtemp(prefix=f".{target.name}-new-", dir=target.parent))
    except OSError as error:
        raise _cannot(target, error) from error
    try:
        yield fresh
        fresh.chmod(_READABLE)
        (fresh / MARKER).write_bytes(b"")
        _swap(fresh, target)
    except OSError as error:
        raise _cannot(target, error) from error
    finally:
        shutil.rmtree(fresh, ignore_errors=True)


class PicturesOnDisk(Mapping[str, bytes]):
    """Pictures by their path below the museum folder, each read when it is asked for.

    So that a museum of many photos does not stand in memory at once. Of a file that is too large
    only as much is read as shows that it is.
    """

    def __init__(self, folder: Path, names: Iterable[str]) -> None:
        self._folder = folder
        self._names = frozenset(name for name in names if PurePosixPath(name).suffix in _PICTURES)

    def __getitem__(self, name: str) -> bytes:
        """The file's content, to one byte beyond what a picture may hold."""
        if name not in self._names:
            raise KeyError(name)
        try:
            with (self._folder / name).open("rb") as file:
                return file.read(MOST_PICTURE_BYTES + 1)
        except OSError as error:
            raise WitnessmarkError(
                f"{self._folder / name} cannot be read: {error.strerror}.",
                remedy="Give yourself the right to read it, or take it out of the record.",
            ) from error

    def __iter__(self) -> Iterator[str]:
        """The paths in order."""
        return iter(sorted(self._names))

    def __len__(self) -> int:
        """How many there are."""
        return len(self._names)


def read_pictures(folder: Path, names: Iterable[str]) -> Mapping[str, bytes]:
    """The drawings and photos of a museum folder, by their path in it."""
    return PicturesOnDisk(folder, names)


def _refuse_strange(target: Path) -> None:
    if target.is_symlink():
        raise RefusedError(f"{target} is a link.", remedy="Name the folder itself.")
    if not target.exists():
        return
    if not target.is_dir():
        raise RefusedError(f"{target} is a file.", remedy="Name a folder.")
    if any(target.iterdir()) and not (target / MARKER).is_file():
        raise RefusedError(
            f"{target} holds files that this program did not write, so it is not replaced.",
            remedy="Name an empty folder, or one that does not exist yet.",
        )


def _refuse_outside(pages: Mapping[str, str | bytes]) -> None:
    for name in pages:
        path = PurePosixPath(name)
        if path.is_absolute() or ".." in path.parts or "\\" in name or not path.parts:
            raise RefusedError(
                f"The page '{name}' would lie outside the site.",
                remedy="This is a fault of the program; please report it.",
            )


def _fill(folder: Path, pages: Mapping[str, str | bytes]) -> None:
    for name, content in sorted(pages.items()):
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content if isinstance(content, bytes) else content.encode())


def _swap(fresh: Path, target: Path) -> None:
    """Two renames; if the second fails, the first is taken back."""
    if not target.exists():
        fresh.rename(target)
        return
    old = fresh.with_name(f"{fresh.name}-old")
    target.rename(old)
    try:
        fresh.rename(target)
    except BaseException:
        old.rename(target)
        raise
    shutil.rmtree(old, ignore_errors=True)


def _cannot(target: Path, error: OSError) -> WitnessmarkError:
    reason = error.strerror or os.strerror(error.errno or 0)
    return WitnessmarkError(
        f"The site could not be written to {target}: {reason}. What was there stands as it was.",
        remedy="Look at the space and the rights of the disk, then publish again.",
    )
