"""One file instead of a folder: a tar of a deposit, the same bytes for the same content."""

from __future__ import annotations

import io
import tarfile
from collections.abc import Mapping
from datetime import UTC, date, datetime

_MODE = 0o644


def tar_of(files: Mapping[str, bytes], *, top: str, day: date) -> bytes:
    """A tar with every file below one folder, in the order of names, owned by nobody.

    Source: IEEE Std 1003.1-2001, pax interchange format, which any tar since reads.
    """
    written = io.BytesIO()
    moment = int(datetime(day.year, day.month, day.day, tzinfo=UTC).timestamp())
    with tarfile.open(fileobj=written, mode="w", format=tarfile.PAX_FORMAT) as tar:
        for path, content in sorted(files.items()):
            entry = tarfile.TarInfo(f"{top}/{path}")
            entry.size, entry.mtime, entry.mode = len(content), moment, _MODE
            tar.addfile(entry, io.BytesIO(content))
    return written.getvalue()


def files_in_tar(content: bytes) -> dict[str, bytes]:
    """Every ordinary file of a tar by its path below the one folder that holds them.

    Raises:
        tarfile.TarError: it is no tar.
    """
    found: dict[str, bytes] = {}
    with tarfile.open(fileobj=io.BytesIO(content), mode="r:") as tar:
        for entry in tar:
            held = tar.extractfile(entry) if entry.isreg() else None
            if held is not None:
                found[entry.name.partition("/")[2]] = held.read()
    return found
