"""The files a new museum begins with: sound at once, each figure with a word on what it does."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable
from types import MappingProxyType
from typing import Final

from jinja2 import Environment, PackageLoader, StrictUndefined

from witnessmark.exchange.schema import schema_files
from witnessmark.model.block_style import word

HOSTS: Final[Mapping[str, Mapping[str, str]]] = MappingProxyType(
    {
        "github": {
            "github.yml": ".github/workflows/witnessmark.yml",
            "CODEOWNERS": ".github/CODEOWNERS",
        },
        "gitlab": {"gitlab.yml": ".gitlab-ci.yml", "CODEOWNERS": ".gitlab/CODEOWNERS"},
        "other": {"generic.sh": "ci/witnessmark.sh", "CODEOWNERS": "CODEOWNERS"},
    }
)
"""By where the files will be kept: each shipped workflow file, and where that host looks for it."""

_WRITTEN: Final = (
    "README.md",
    "mkdocs.yml",
    "decisions/museum.yml",
    "decisions/people.yml",
    "decisions/stores.yml",
)
_COPIED: Final = (
    "site_src/index.md",
    "site_src/theme.css",
    "site_src/overrides/main.html",
    "site_src/overrides/404.html",
)
_YEARS_TO_REVIEW: Final = 1  # common practice, no source: the first figures are a first guess


@dataclass(frozen=True, kw_only=True)
class NewMuseum:
    """What is asked of somebody who begins a museum."""

    name: str
    place: str
    time_zone: str
    currency: str
    host: str
    day: date

    @property
    def policy(self) -> str:
        """The id of the first policy, its year and month."""
        return f"{self.day:%Y-%m}"


def museum_files(given: NewMuseum) -> dict[str, str]:
    """The text of every file by its path below the new folder, sorted."""
    return dict(sorted(_files(given)))


def _files(given: NewMuseum) -> Iterator[tuple[str, str]]:
    for path in _WRITTEN:
        yield path, _rendered(path, given)
    yield f"decisions/policy/{given.policy}.yml", _rendered("decisions/policy.yml", given)
    yield ".gitignore", _text(_starting() / "gitignore")
    for path in _COPIED:
        yield path, _text(_starting().joinpath(path))
    for name, text in schema_files().items():
        yield f"decisions/schema/{name}", text
    shipped = {**HOSTS[given.host], "pre-commit-config.yaml": ".pre-commit-config.yaml"}
    for name, path in shipped.items():
        yield path, _in_its_place(_text(files("witnessmark.exchange") / "workflows" / name))


def _rendered(path: str, given: NewMuseum) -> str:
    return _environment().get_template(path).render(
        name=given.name,
        place=given.place,
        time_zone=given.time_zone,
        currency=given.currency,
        day=given.day.isoformat(),
        policy=given.policy,
        review=_review(given.day).isoformat(),
    )  # fmt: skip


def _review(day: date) -> date:
    """The first day of the same month, a year on."""
    return date(day.year + _YEARS_TO_REVIEW, day.month, 1)


@cache
def _environment() -> Environment:
    """Plain text, so nothing is escaped; YAML values go through `word`. Cached: it compiles."""
    found = Environment(  # noqa: S701  no HTML is made here
        loader=PackageLoader("witnessmark.exchange", "starting"),
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        auto_reload=False,
    )
    found.filters["word"] = word
    return found


def _starting() -> Traversable:
    return files("witnessmark.exchange") / "starting"


def _text(file: Traversable) -> str:
    return file.read_text(encoding="utf-8")


def _in_its_place(text: str) -> str:
    """A shipped file without the line that says where to copy it."""
    return "".join(
        line for line in text.splitlines(keepends=True) if not line.startswith("# Copy ")
    )
