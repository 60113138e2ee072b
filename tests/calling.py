"""Calling the program as a person would, and changing a record of the demo museum."""

from __future__ import annotations

import contextlib
import io
import json
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from unittest import mock

DEMO = Path(__file__).parents[1] / "decisions"


@dataclass(frozen=True)
class Called:
    """What one call of the program gave."""

    code: int
    out: str
    err: str

    @property
    def json(self) -> Any:
        return json.loads(self.out)


def call(*words: str, cwd: Path | None = None) -> Called:
    """The program in a process of its own, as a terminal would start it."""
    command = [sys.executable, "-m", "witnessmark", *words]
    done = subprocess.run(command, cwd=cwd, capture_output=True, text=True, check=False)
    assert "Traceback" not in done.stderr + done.stdout
    return Called(done.returncode, done.stdout, done.stderr)


def call_here(*words: str) -> Called:
    """The program as a terminal would start it, in this process, which is quicker.

    Whatever the program lets out of its hands comes out here too, so that a traceback fails a test.
    """
    from witnessmark.cli import main

    out, err, code = _stream(), _stream(), 0
    with (
        contextlib.redirect_stdout(out),
        contextlib.redirect_stderr(err),
        mock.patch.object(sys, "argv", ["witnessmark", *words]),
    ):
        try:
            main()
        except SystemExit as stop:
            code = stop.code if isinstance(stop.code, int) else int(stop.code is not None)
    return Called(code, _said(out), _said(err))


def _stream() -> io.TextIOWrapper:
    return io.TextIOWrapper(io.BytesIO(), encoding="utf-8", newline="")


def _said(stream: io.TextIOWrapper) -> str:
    stream.seek(0)
    return stream.read()


@dataclass
class Record:
    """One record's file, to be changed and asked about."""

    path: Path

    def change(self, before: str, after: str, *, count: int = 1) -> int:
        """Replace text that stands there; gives the line (from 1) of the first change."""
        text = self.path.read_text(encoding="utf-8")
        assert before in text, before
        self.path.write_text(text.replace(before, after, count), encoding="utf-8")
        return text[: text.index(before)].count("\n") + 1

    def line_of(self, words: str) -> int:
        """The line (from 1) where some words first stand."""
        text = self.path.read_text(encoding="utf-8")
        return text[: text.index(words)].count("\n") + 1
