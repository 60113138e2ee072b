"""Sitting at the terminal: the program asks, and somebody answers line by line."""

from __future__ import annotations

import contextlib
import os
import pty
import subprocess
import sys
from collections.abc import Callable, Sequence
from pathlib import Path

from calling import Called


def talk(*words: str, answers: Sequence[str], cwd: Path | None = None) -> Called:
    """The program with a terminal to read from; the answers are typed one after the other."""
    ours, theirs = pty.openpty()
    try:
        os.write(ours, "".join(f"{answer}\n" for answer in answers).encode())
        done = subprocess.run(
            [sys.executable, "-m", "witnessmark", *words],
            cwd=cwd, stdin=theirs, capture_output=True, text=True, check=False, timeout=60,
        )  # fmt: skip
    finally:
        os.close(ours)
        os.close(theirs)
    assert "Traceback" not in done.stderr + done.stdout
    return Called(done.returncode, done.stdout, done.stderr)


def asked_meanwhile(
    *words: str, asks: str, meanwhile: Callable[[], object], cwd: Path | None = None
) -> Called:
    """The program at a terminal: once it asks, something happens, and then somebody says yes.

    What it prints and what it asks come over the one terminal, as `out`.
    """
    ours, theirs = pty.openpty()
    command = [sys.executable, "-m", "witnessmark", *words]
    with subprocess.Popen(command, cwd=cwd, stdin=theirs, stdout=theirs, stderr=theirs) as running:
        os.close(theirs)
        said = b""
        while asks.encode() not in said:
            said += os.read(ours, 4096)
        meanwhile()
        os.write(ours, b"y\n")
        with contextlib.suppress(OSError):  # the terminal ends with the program
            while more := os.read(ours, 4096):
                said += more
        code = running.wait(timeout=60)
    os.close(ours)
    told = said.decode().replace("\r\n", "\n")
    assert "Traceback" not in told
    return Called(code, told, "")
