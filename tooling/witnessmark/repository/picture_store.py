"""Copies of pictures kept between runs, so that each picture is made ready once in its life.

A copy is known by what it was made from and by what made it, never by a name or a time, and what is
read back is held against its digest: a damaged or foreign copy is made again. So a museum of many
photos stands on the disk and not in memory, and the next site shrinks only the new ones.
"""

from __future__ import annotations

import hashlib
import json
import os
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cache
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path, PurePosixPath

from witnessmark.errors import WitnessmarkError
from witnessmark.repository.kept_file import program_digest, read_kept, write_kept
from witnessmark.repository.photos import Copy, copy_name
from witnessmark.repository.writing import replace_bytes

Make = Callable[[str, bytes], tuple[Copy, ...]]
"""Makes the copies of a picture from its name and content."""

_MAKERS = ("pillow", "resvg-py")
_OPEN_TO_OTHERS = 0o022


@dataclass(frozen=True, slots=True)
class _Kept:
    """One copy as the list of a picture names it; no suffix where it is the original itself."""

    suffix: str
    width: int
    height: int
    digest: str

    def name_for(self, original: str) -> str:
        """What the copy is called beside an original."""
        return copy_name(original, self.width, suffix=self.suffix) if self.suffix else original


class PictureStore:
    """Copies in one folder, which belongs to one museum and one user."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._used: set[str] = set()

    def copies(self, name: str, content: bytes, *, make: Make) -> tuple[Copy, ...]:
        """The copies of a picture, those that are kept and can be trusted, else made now."""
        key = _key(name, content)
        self._used.add(key)
        listed = self._listed(key)
        if not listed:
            made = make(name, content)
            listed = self._keep(key, name, made)
            if not listed:
                return made
        return tuple(self._copy(key, name, one, lambda: make(name, content)) for one in listed)

    def forget_others(self) -> None:
        """Take away the copies of pictures that this run did not ask for."""
        if not self._is_ours():
            return
        for path in self._folder.iterdir():
            if path.name[:64] not in self._used:
                path.unlink(missing_ok=True)

    def _copy(
        self, key: str, original: str, kept: _Kept, make_again: Callable[[], tuple[Copy, ...]]
    ) -> Copy:
        path = self._path(key, kept)

        def read() -> bytes:
            try:
                found = path.read_bytes()
            except OSError:
                found = b""
            if hashlib.sha256(found).hexdigest() == kept.digest:
                return found
            return next(c.content for c in make_again() if c.width == kept.width)

        return Copy(kept.name_for(original), kept.width, kept.height, read)

    def _listed(self, key: str) -> tuple[_Kept, ...]:
        if not self._is_ours():
            return ()
        body = read_kept(self._folder / f"{key}.json")
        return tuple(_Kept(*row) for row in json.loads(body)) if body else ()

    def _keep(self, key: str, name: str, made: tuple[Copy, ...]) -> tuple[_Kept, ...]:
        """Write the copies, then the list that names them; nothing where the disk refuses."""
        try:
            self._folder.mkdir(mode=0o700, parents=True, exist_ok=True)
            if not self._is_ours():
                return ()
            listed = tuple(self._write(key, name, made))
        except (OSError, WitnessmarkError):
            return ()
        rows = [[k.suffix, k.width, k.height, k.digest] for k in listed]
        write_kept(self._folder / f"{key}.json", json.dumps(rows).encode())
        return listed

    def _write(self, key: str, name: str, made: tuple[Copy, ...]) -> Iterator[_Kept]:
        for copy in made:
            content = copy.content
            suffix = "" if copy.name == name else PurePosixPath(copy.name).suffix
            digest = hashlib.sha256(content).hexdigest()
            kept = _Kept(suffix, copy.width, copy.height, digest)
            replace_bytes(self._path(key, kept), content)
            yield kept

    def _path(self, key: str, kept: _Kept) -> Path:
        return self._folder / f"{key}-{kept.width}{kept.suffix}"

    def _is_ours(self) -> bool:
        """True for a folder of our own that nobody else may write in."""
        try:
            status = self._folder.lstat()
        except OSError:
            return False
        is_own = not hasattr(os, "getuid") or status.st_uid == os.getuid()
        return self._folder.is_dir() and is_own and not status.st_mode & _OPEN_TO_OTHERS


def _key(name: str, content: bytes) -> str:
    """A digest of what a picture is and of all that makes its copies."""
    told = f"{PurePosixPath(name).suffix}\n{_makers()}\n".encode()
    return hashlib.sha256(told + content).hexdigest()


@cache
def _makers() -> str:
    return "\n".join([program_digest(), *(f"{name} {_version(name)}" for name in _MAKERS)])


def _version(name: str) -> str:
    try:
        return version(name)
    except PackageNotFoundError:
        return "none"
