"""Real git repositories for tests: fixed people and days, nothing of the machine's own settings."""

from __future__ import annotations

import os
import shutil
import subprocess
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from building import DECISION, NOTHING, Changes, on_disk
from calling import DEMO

DAY = "2024-05-01T10:00:00+00:00"

READY: Mapping[str, object] = {
    "interests": "none declared",
    "options.1.steps.1.made_by": "Museum workshop",
    "options.1.steps.1.drawing": "TB-D-1",
}
"""What the decision of the small museum lacks to be agreed under the shipped rules."""


@dataclass(frozen=True)
class Kept:
    """A museum folder in a git repository."""

    museum: Path

    @property
    def top(self) -> Path:
        return self.museum.parent

    def git(self, *words: str, who: str = "A Fitter", day: str = DAY) -> str:
        person = {"NAME": who, "EMAIL": "fitter@example.org", "DATE": day}
        env = {
            f"GIT_{side}_{key}": value
            for side in ("AUTHOR", "COMMITTER")
            for key, value in person.items()
        }
        env |= {"HOME": str(self.top), "GIT_CONFIG_NOSYSTEM": "1", "PATH": os.environ["PATH"]}
        done = subprocess.run(
            ["git", *words], cwd=self.top, env=env, check=True, capture_output=True, text=True
        )
        return done.stdout.strip()

    def commit(self, message: str = "a change", *, who: str = "A Fitter", day: str = DAY) -> str:
        self.git("add", "-A")
        self.git("commit", "-q", "--allow-empty", "-m", message, who=who, day=day)
        return self.git("rev-parse", "HEAD")

    def branch(self, name: str) -> None:
        self.git("checkout", "-q", "-b", name)

    def change(self, file: str, before: str, after: str) -> None:
        path = self.museum / file
        text = path.read_text(encoding="utf-8")
        assert before in text, before
        path.write_text(text.replace(before, after, 1), encoding="utf-8")


def keep(museum: Path) -> Kept:
    """Put a museum folder under git, with one commit on main."""
    kept = Kept(museum)
    kept.git("init", "-q", "-b", "main")
    kept.commit("as it was")
    return kept


def kept_museum(where: Path, *, changes: Changes = NOTHING) -> Kept:
    """The small museum of the tests under git."""
    where.mkdir(parents=True, exist_ok=True)
    ready = {DECISION: {**READY, **changes.get(DECISION, {})}}
    return keep(on_disk(where, changes={**changes, **ready}))


def kept_demo(where: Path) -> Kept:
    """A copy of the demo museum under git."""
    where.mkdir(parents=True, exist_ok=True)
    return keep(Path(shutil.copytree(DEMO, where / "decisions")))
