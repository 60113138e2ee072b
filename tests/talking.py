"""Sitting at the terminal: the program asks, and somebody answers line by line."""

from __future__ import annotations

import os
import pty
import subprocess
import sys
from collections.abc import Sequence
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
