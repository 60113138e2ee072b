"""How many git processes the history of a museum takes, counted by a git that counts itself."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

from bench.branch import commit_all
from bench.line import Line

MOST = 5
_READ = """
import sys
from pathlib import Path
from zoneinfo import ZoneInfo
from witnessmark.repository.past import read_past
past = read_past(Path(sys.argv[1]), zone=ZoneInfo("UTC"))
assert past.history.last
"""


def git_line(museum: Path) -> Line:
    """Processes started while the whole history is read."""
    commit_all(museum)
    counter = museum.parent / "counter"
    counter.mkdir()
    real, count = shutil.which("git"), counter / "count"
    (counter / "git").write_text(f'#!/bin/sh\necho >> "{count}"\nexec "{real}" "$@"\n')
    (counter / "git").chmod(0o755)
    path = f"{counter}{os.pathsep}{os.environ['PATH']}"
    env = {**os.environ, "PATH": path, "GIT_PYTHON_GIT_EXECUTABLE": str(counter / "git")}
    command = [sys.executable, "-c", _READ, str(museum)]
    subprocess.run(command, check=True, env=env)
    started = len(count.read_text(encoding="utf-8").splitlines())
    records = len(list(museum.glob("*/*.yml")))
    return Line(f"git processes for the history of {records} files", started, None, MOST, "")
