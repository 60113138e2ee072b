"""Deposits as the tests look at them, and the lines that README-FIRST.txt tells to type."""

from __future__ import annotations

import shutil
import subprocess
from dataclasses import dataclass
from pathlib import Path

from calling import call
from keeping import Kept

FROZEN = Path(__file__).parent / "frozen" / "2026"
SHELL = "    $ "
COREUTILS = "cat cut head ls mkdir sha256sum sha512sum sort tail tr wc"


@dataclass(frozen=True)
class Made:
    """A deposit as a folder, and the museum it was made from."""

    folder: Path
    kept: Kept

    @property
    def data(self) -> Path:
        return self.folder / "data"

    def text(self, name: str) -> str:
        return (self.folder / name).read_text(encoding="utf-8")


def made(kept: Kept, where: Path, *words: str) -> Made:
    """A deposit of a museum, as the program writes it."""
    called = call("deposit", str(kept.museum), "--out", str(where), *words)
    assert 0 == called.code, called.err
    return Made(where, kept)


def lines_to_type(readme: str) -> list[str]:
    """What the reader is told to type, in order."""
    lines = readme.splitlines()
    return [line.removeprefix(SHELL) for line in lines if line.startswith(SHELL)]


def bare_machine(where: Path, *tools: str) -> dict[str, str]:
    """The environment of a machine that has these tools and no others, Python least of all."""
    where.mkdir(parents=True)
    for tool in tools:
        found = shutil.which(tool)
        assert found, tool
        (where / tool).symlink_to(found)
    assert shutil.which("python3", path=str(where)) is None
    return {"PATH": str(where), "HOME": str(where), "GIT_CONFIG_NOSYSTEM": "1"}


def typed(line: str, *, folder: Path, env: dict[str, str]) -> subprocess.CompletedProcess[str]:
    """One line at the terminal of a bare machine, in a folder."""
    shell = f"{env['PATH']}/sh"
    return subprocess.run(
        [shell, "-euc", line], cwd=folder, env=env, capture_output=True, text=True, check=False
    )
