"""The guides that come with the program, in plain words, by name."""

from __future__ import annotations

from importlib.resources import files
from importlib.resources.abc import Traversable

_ENDING = ".md"


def guides() -> dict[str, str]:
    """The title of each guide by its name, in the order of the names."""
    found = (file for file in _folder().iterdir() if file.name.endswith(_ENDING))
    return {
        file.name.removesuffix(_ENDING): _title(file)
        for file in sorted(found, key=lambda file: file.name)
    }


def guide(name: str) -> str:
    """The whole text of a guide that `guides` names, as it was written."""
    return _folder().joinpath(name + _ENDING).read_text(encoding="utf-8").rstrip("\n")


def _folder() -> Traversable:
    return files("witnessmark") / "guides"


def _title(file: Traversable) -> str:
    return file.read_text(encoding="utf-8").partition("\n")[0].removeprefix("# ")
