"""Detached signatures, made and checked by `ssh-keygen -Y` (OpenSSH 8.2 and later).

Source: OpenSSH ssh-keygen(1), "ALLOWED SIGNERS" and the options -Y sign and -Y verify.
"""

from __future__ import annotations

import os
import subprocess
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from witnessmark.errors import RefusedError, WitnessmarkError
from witnessmark.model.statement import NAMESPACE

_PATIENCE = 60  # seconds; a key with a passphrase asks for it on the terminal meanwhile


@dataclass(frozen=True)
class Verified:
    """Whether a signature fits a statement, a person and the list of keys, and why not."""

    fits: bool
    why: str = ""


def sign_statement(statement: bytes, *, key: Path) -> bytes:
    """The armoured signature of a statement.

    Raises:
        RefusedError: the key is not there or was not taken.
        WitnessmarkError: ssh-keygen is not installed.
    """
    if not key.is_file():
        raise RefusedError(f"There is no key at {key}.", remedy="Name a private key file.")
    with _files(statement=statement) as folder:
        done = _keygen("-q", "-Y", "sign", "-f", str(key), "-n", NAMESPACE, f"{folder}/statement")
        made = folder / "statement.sig"
        if done.returncode or not made.is_file():
            raise RefusedError(
                f"ssh-keygen did not sign with {key}: {_last_line(done.stderr)}",
                remedy="Name an SSH private key, such as ~/.ssh/id_ed25519, and its passphrase.",
            )
        return made.read_bytes()


def verify_statement(
    statement: bytes, *, signature: bytes, allowed: bytes, person: str, on: date
) -> Verified:
    """Whether this person's key, allowed on the day of agreement, made this signature.

    Raises:
        WitnessmarkError: ssh-keygen is not installed.
    """
    with _files(allowed=allowed, signature=signature) as folder:
        done = _keygen(
            "-Y", "verify", "-f", f"{folder}/allowed", "-I", person, "-n", NAMESPACE,
            "-O", f"verify-time={on:%Y%m%d}120000Z", "-s", f"{folder}/signature",
            given=statement,
        )  # fmt: skip
    if done.returncode == 0:
        return Verified(fits=True)
    return Verified(fits=False, why=_last_line(done.stderr or done.stdout))


def _keygen(*words: str, given: bytes = b"") -> subprocess.CompletedProcess[bytes]:
    try:
        return subprocess.run(  # noqa: S603  fixed words; names are checked ids and our own paths
            ["ssh-keygen", *words],  # noqa: S607  found on PATH, as git finds it
            input=given,
            capture_output=True,
            check=False,
            timeout=_PATIENCE,
            env={**os.environ, "LC_ALL": "C"},
        )
    except FileNotFoundError as missing:
        raise WitnessmarkError(
            "ssh-keygen is not installed, so signatures can be neither made nor checked.",
            remedy="Install the OpenSSH client, 8.2 or later.",
        ) from missing
    except subprocess.TimeoutExpired as late:
        raise WitnessmarkError(
            f"ssh-keygen gave no answer in {_PATIENCE} seconds.",
            remedy="Use a key whose passphrase an agent holds, or answer sooner.",
        ) from late


@contextmanager
def _files(**contents: bytes) -> Iterator[Path]:
    """A private folder with these files, gone afterwards."""
    with tempfile.TemporaryDirectory(prefix="witnessmark-") as name:
        folder = Path(name)
        for file, content in contents.items():
            (folder / file).write_bytes(content)
        yield folder


def _last_line(told: bytes) -> str:
    """What ssh-keygen said last, less the names of our own passing files."""
    lines = told.decode("utf-8", "replace").strip().splitlines()
    return lines[-1].split("/witnessmark-")[0].strip() if lines else "it gave no reason."
