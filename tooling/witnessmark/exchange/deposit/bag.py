"""A BagIt bag: content under data/, and the lists by which anybody can tell that it is whole.

Source: RFC 8493, The BagIt File Packaging Format (V1.0), 2018: 2.1.1 (bagit.txt), 2.1.3 and 2.4
(manifests, sha512), 2.2.1 (tag manifest), 2.2.2 (bag-info.txt), 2.1.3 (percent-encoding of paths).
"""

from __future__ import annotations

import hashlib
from collections.abc import Mapping

DECLARATION = "bagit.txt"
INFO = "bag-info.txt"
MANIFEST = "manifest-sha512.txt"
TAG_MANIFEST = "tagmanifest-sha512.txt"
PAYLOAD = "data/"

_DECLARED = "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n"
_ESCAPES = (("%", "%25"), ("\n", "%0A"), ("\r", "%0D"))


def bag_of(
    payload: Mapping[str, bytes], *, info: Mapping[str, str], tags: Mapping[str, bytes]
) -> dict[str, bytes]:
    """Every file of the bag by its path in it; `payload` by its path below data/.

    `tags` are files beside data/, such as one to read first.
    """
    content = {f"{PAYLOAD}{path}": raw for path, raw in payload.items()}
    size = sum(map(len, content.values()))
    told = {**info, "Payload-Oxum": f"{size}.{len(content)}"}
    around = {
        **tags,
        DECLARATION: _DECLARED.encode(),
        INFO: _info(told),
        MANIFEST: manifest_of(content),
    }
    return dict(sorted({**content, **around, TAG_MANIFEST: manifest_of(around)}.items()))


def _info(told: Mapping[str, str]) -> bytes:
    """One line a label; whatever breaks a line is a space."""
    return "".join(f"{label}: {' '.join(text.split())}\n" for label, text in told.items()).encode()


def manifest_of(files: Mapping[str, bytes]) -> bytes:
    """A manifest that `sha512sum -c` reads too: digest, two spaces, path."""
    lines = (f"{sha512(raw)}  {escaped(path)}\n" for path, raw in sorted(files.items()))
    return "".join(lines).encode()


def sha512(content: bytes) -> str:
    """The digest as manifests write it."""
    return hashlib.sha512(content).hexdigest()


def escaped(path: str) -> str:
    """A path as a manifest writes it.

    >>> escaped("100% wool")
    '100%25 wool'
    """
    for sign, code in _ESCAPES:
        path = path.replace(sign, code)
    return path


def info_in(bag: Mapping[str, bytes]) -> dict[str, str]:
    """What bag-info.txt says, by label; empty where there is none."""
    lines = bag.get(INFO, b"").decode("utf-8", "replace").splitlines()
    pairs = (line.partition(": ") for line in lines if ": " in line)
    return {label: text for label, _, text in pairs}


def damaged(bag: Mapping[str, bytes]) -> tuple[str, ...]:
    """Every path that the manifests name otherwise than it lies here, or that they do not name."""
    listed: dict[str, str] = {}
    for name in (MANIFEST, TAG_MANIFEST):
        for line in bag.get(name, b"").decode("utf-8", "replace").splitlines():
            digest, _, path = line.partition(" ")
            listed[path.strip()] = digest
    here = {escaped(path): sha512(raw) for path, raw in bag.items() if path != TAG_MANIFEST}
    return tuple(sorted(path for path in {*listed, *here} if listed.get(path) != here.get(path)))
