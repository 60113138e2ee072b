"""A museum under git with a branch that changes ten records, for the budget of `review`."""

from __future__ import annotations

import os
import re
import subprocess
from pathlib import Path

CHANGED = 10
_LEVEL = re.compile(r"likely: 3\b")
_DAY = "2026-01-05T10:00:00+00:00"


def make_branch(museum: Path) -> Path:
    """Put the museum on main, and a branch with ten records changed on top; gives the clone."""
    top = museum.parent
    if not (top / ".git").exists():
        commit_all(museum)
    _git(top, "checkout", "-q", "-b", "topic")
    records = sorted(museum.glob("*/20*-*.yml"))
    changed = [path for path in records if _LEVEL.search(path.read_text(encoding="utf-8"))]
    for path in changed[:CHANGED]:
        text = path.read_text(encoding="utf-8")
        path.write_text(_LEVEL.sub("likely: 2", text, count=1), encoding="utf-8")
    _git(top, "commit", "-q", "-a", "-m", "ten records")
    return top


def commit_all(museum: Path) -> None:
    """Put the museum on main, as one commit."""
    top = museum.parent
    _git(top, "init", "-q", "-b", "main")
    _git(top, "add", museum.name)
    _git(top, "commit", "-q", "-m", "as it was")


def _git(top: Path, *words: str) -> None:
    # Else git tidies up in the background, in a folder that is about to be taken away.
    words = ("-c", "gc.auto=0", "-c", "maintenance.auto=false", *words)
    env = {"PATH": os.environ["PATH"], "HOME": str(top), "GIT_CONFIG_NOSYSTEM": "1"}
    for side in ("AUTHOR", "COMMITTER"):
        env |= {f"GIT_{side}_NAME": "Bench", f"GIT_{side}_EMAIL": "bench@example.org"}
        env |= {f"GIT_{side}_DATE": _DAY}
    subprocess.run(["git", *words], cwd=top, env=env, check=True, capture_output=True)
