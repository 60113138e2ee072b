"""The README's tour is real: every command in it prints what stands below it."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[1]
BLOCK = re.compile(r"^```console\n(.*?)^```$", re.MULTILINE | re.DOTALL)


def tour() -> list[tuple[str, str]]:
    """Each command of the README's tour with the output printed below it."""
    steps = []
    for block in BLOCK.findall((ROOT / "README.md").read_text(encoding="utf-8")):
        for part in re.split(r"^\$ ", block, flags=re.MULTILINE)[1:]:
            command, _, output = part.partition("\n")
            steps.append((command, output))
    return steps


def run_tour(place: Path) -> list[tuple[str, str]]:
    """The same commands with what they really print, in a repository of its own."""
    shutil.copytree(ROOT / "decisions", place / "decisions")
    who = {
        f"GIT_{side}_{key}": f"tour{'@example.org' * (key == 'EMAIL')}"
        for side in ("AUTHOR", "COMMITTER")
        for key in ("NAME", "EMAIL")
    }
    env = {**os.environ, **who, "HOME": str(place), "GIT_CONFIG_NOSYSTEM": "1"}
    env["PATH"] = f"{Path(sys.executable).parent}:{env['PATH']}"
    for words in (["init", "-q"], ["add", "."], ["commit", "-qm", "tour"]):
        subprocess.run(["git", *words], cwd=place, env=env, check=True, capture_output=True)
    found = []
    for command, _ in tour():
        shell = "true" if command.startswith("export ") else command
        done = subprocess.run(
            ["bash", "-c", shell], cwd=place, env=env, capture_output=True, text=True, check=False
        )
        found.append((command, done.stdout))
    return found


def test_every_command_of_the_tour_prints_what_the_readme_says(tmp_path: Path) -> None:
    assert run_tour(tmp_path) == tour()


def test_the_job_stands_in_one_paragraph_at_the_top() -> None:
    first = (ROOT / "README.md").read_text(encoding="utf-8").split("\n\n")[1]
    assert first.startswith("Witnessmark is for museums")
