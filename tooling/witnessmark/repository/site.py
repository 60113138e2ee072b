"""Writing a site: built beside the old one, then swapped in, so that a failure changes nothing.

The single pages are not forced to the disk, as a record is: a site can always be built again.
"""

from __future__ import annotations

import os
import shutil
import stat
import tempfile
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass
from pathlib import Path, PurePosixPath

from witnessmark.errors import RefusedError, WitnessmarkError
from witnessmark.repository.locking import held, is_in_use, marked_in_use
from witnessmark.repository.swapping import ASIDE, put_in_place

MARKER = ".witnessmark-site"
"""A file that says: this folder is one of ours and may be replaced."""

MOST_PICTURE_BYTES = 20 * 1024 * 1024
_PICTURES = frozenset({".svg", ".png", ".jpg", ".jpeg", ".webp"})
_NEW = "-new-"
_READABLE = 0o755  # a temporary folder is private; a site is read by a web server


@dataclass(frozen=True, slots=True)
class Rewritten:
    """What a new site has of the old one: files written, files that stayed, files that went."""

    written: int
    kept: int
    gone: int


def write_site(pages: Mapping[str, str | bytes], target: Path) -> Rewritten:
    """Put these files, by their path in the site, in place of the target folder.

    A file that holds what the old site's held is the old one, under its old date, so that whatever
    copies the site to its host copies only what changed.

    Raises:
        RefusedError: the folder is not one of ours, or a path leads out of it.
        WitnessmarkError: the disk would not take the files; the old site stands.

    """
    refuse_outside(pages)
    with built_beside(target) as fresh:
        for name in sorted(pages):
            content = pages[name]
            raw = content if isinstance(content, bytes) else content.encode()
            path = fresh / name
            path.parent.mkdir(parents=True, exist_ok=True)
            if not _holds(target / name, raw) or not _linked(target / name, path):
                path.write_bytes(raw)
        return _compared(fresh, target)


def keep_unchanged(fresh: Path, target: Path) -> Rewritten:
    """Put the old site's files in place of new ones that hold the same, in a folder just built."""
    for path in sorted(fresh.rglob("*")):
        old = target / path.relative_to(fresh)
        if path.is_file() and _holds(old, path.read_bytes()):
            beside = path.with_name(f"{path.name}.kept")
            if _linked(old, beside):
                beside.replace(path)
    return _compared(fresh, target)


def _holds(old: Path, content: bytes) -> bool:
    """True for an ordinary file that holds just this."""
    try:
        status = old.lstat()
        is_like = stat.S_ISREG(status.st_mode) and status.st_size == len(content)
        return is_like and old.read_bytes() == content
    except OSError:
        return False


def _linked(old: Path, path: Path) -> bool:
    """Give a file a second name; False on disks that cannot, such as many memory sticks."""
    try:
        os.link(old, path)
    except OSError:
        return False
    return True


def _compared(fresh: Path, target: Path) -> Rewritten:
    """Count the files of a site about to stand where another stands, by what they are on disk."""
    new, old = _files_of(fresh), _files_of(target)
    kept = sum(1 for name, file in new.items() if old.get(name) == file)
    return Rewritten(len(new) - kept, kept, len(old.keys() - new.keys()))


def _files_of(folder: Path) -> dict[str, tuple[int, int]]:
    """Device and number of each file, by its path; our marker is none of the site's."""
    files = (path for path in folder.rglob("*") if path.name != MARKER)
    found = ((path.relative_to(folder).as_posix(), path.lstat()) for path in files)
    return {
        name: (told.st_dev, told.st_ino) for name, told in found if not stat.S_ISDIR(told.st_mode)
    }


def _is_site(folder: Path) -> bool:
    return (folder / MARKER).is_file()


@contextmanager
def built_beside(
    target: Path, *, is_ours: Callable[[Path], bool] = _is_site, what: str = "site"
) -> Iterator[Path]:
    """A fresh folder to build in, put in place of the target only when all went well.

    `is_ours` tells whether a folder may be replaced; one that it does not know gets our marker.

    Raises:
        RefusedError: the target is not one of ours.
        WitnessmarkError: the disk would not take the files; the old site stands.

    """
    _refuse_strange(target, is_ours)
    with ExitStack() as afterwards:
        try:
            fresh = _begun(target, afterwards)
            yield fresh
            fresh.chmod(_READABLE)
            if not is_ours(fresh):
                (fresh / MARKER).write_bytes(b"")
            with held(target.parent):
                _refuse_strange(target, is_ours)
                put_in_place(fresh, target)
        except OSError as error:
            raise _cannot(target, error, what) from error


def _begun(target: Path, afterwards: ExitStack) -> Path:
    """A fresh folder beside the target, known to be in use, and taken away afterwards."""
    target.parent.mkdir(parents=True, exist_ok=True)
    with held(target.parent):
        _clear_left_behind(target)
        fresh = Path(tempfile.mkdtemp(prefix=f".{target.name}{_NEW}", dir=target.parent))
        afterwards.callback(shutil.rmtree, fresh, ignore_errors=True)
        afterwards.enter_context(marked_in_use(fresh))
    return fresh


def _clear_left_behind(target: Path) -> None:
    """Take away what killed runs left beside the target, and bring back what they had set aside."""
    for path in sorted(target.parent.iterdir()):
        if not path.name.startswith(f".{target.name}{_NEW}") or path.is_symlink():
            continue
        if path.name.endswith(ASIDE) and not target.exists():
            path.rename(target)
        elif path.name.endswith(ASIDE) or not is_in_use(path):
            shutil.rmtree(path, ignore_errors=True)


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


def _refuse_strange(target: Path, is_ours: Callable[[Path], bool]) -> None:
    if target.is_symlink():
        raise RefusedError(f"{target} is a link.", remedy="Name the folder itself.")
    if not target.exists():
        return
    if not target.is_dir():
        raise RefusedError(f"{target} is a file.", remedy="Name a folder.")
    if any(target.iterdir()) and not is_ours(target):
        raise RefusedError(
            f"{target} holds files that this program did not write, so it is not replaced.",
            remedy="Name an empty folder, or one that does not exist yet.",
        )


def refuse_outside(pages: Mapping[str, object]) -> None:
    """Refuse paths that lead out of the folder they are meant for."""
    for name in pages:
        path = PurePosixPath(name)
        if path.is_absolute() or ".." in path.parts or "\\" in name or not path.parts:
            raise RefusedError(
                f"The page '{name}' would lie outside the site.",
                remedy="This is a fault of the program; please report it.",
            )


def fill(
    folder: Path, pages: Mapping[str, str] | Mapping[str, bytes] | Mapping[str, str | bytes]
) -> None:
    """Write files by their path below a folder."""
    for name, content in sorted(pages.items()):
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content if isinstance(content, bytes) else content.encode())


def _cannot(target: Path, error: OSError, what: str) -> WitnessmarkError:
    reason = error.strerror or os.strerror(error.errno or 0)
    return WitnessmarkError(
        f"The {what} could not be written to {target}: {reason}. What was there stands as it was.",
        remedy="Look at the space and the rights of the disk, then try again.",
    )
