"""witnessmark check: every record against the shapes, the arithmetic and the rules."""

from __future__ import annotations

import json
import sys
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from witnessmark.cli.check_part import PartParam
from witnessmark.cli.findings_text import render_findings
from witnessmark.cli.opening import AS_OF, find_path, open_museum
from witnessmark.cli.printing import plural, tally
from witnessmark.errors import UnknownNameError
from witnessmark.repository.asking import WHOLE, Answer, Part, Request, check_museum
from witnessmark.repository.kept_file import memory_of
from witnessmark.rules.checked import Checked

if TYPE_CHECKING:
    from witnessmark.model.library import Library
    from witnessmark.model.shape import Shaped

MOST_SHOWN = 20


@click.command("check")
@click.argument("paths", nargs=-1, metavar="[PATH]")
@click.option(
    "--format",
    "form",
    type=click.Choice(["text", "json", "md", "github", "gitlab", "sarif", "junit"]),
    default="text",
    show_default=True,
    help="How to print what is found.",
)
@click.option(
    "--most",
    type=click.IntRange(min=0),
    default=MOST_SHOWN,
    show_default=True,
    help="Messages printed as text at the most; 0 for all.",
)
@click.option(
    "--watch", "with_watch", is_flag=True, help="Check again at each change; Ctrl-C ends."
)
@click.option("--advice", "with_advice", is_flag=True, help="Also print notes on plain language.")
@click.option("--due", "with_due", is_flag=True, help="Also warn of what is due by the day.")
@click.option(
    "--pictures", "with_looks", is_flag=True, help="Also look into the photos, as publish does."
)
@click.option(
    "--history", "with_past", is_flag=True, help="Also warn of what git knows was public once."
)
@AS_OF
@click.option(
    "--jobs",
    type=click.IntRange(min=1),
    metavar="N",
    help="Processes that share the work.  [default: one a core where there is enough of it]",
)
@click.option("--no-cache", is_flag=True, help="Work everything out; remember nothing.")
@click.option("--shard", type=PartParam(), metavar="K/N", help="Check the K-th of N parts.")
@click.option("--merge", is_flag=True, help="Put together the JSON of all parts; PATHs name it.")
def command(
    paths: tuple[str, ...],
    form: str,
    most: int,
    jobs: int | None,
    shard: Part | None,
    *,
    with_watch: bool,
    with_advice: bool,
    with_due: bool,
    with_past: bool,
    with_looks: bool,
    as_of: date | str | None,
    no_cache: bool,
    merge: bool,
) -> None:
    r"""Check a museum, a machine's folder or one record.

    PATH is a museum folder, a machine folder or a record (default: decisions); the whole museum is
    read, and what lies under PATH is reported. No record fails because time has passed, unless
    --due asks for it.

    github prints workflow commands, gitlab a Code Quality report, sarif, junit and md what most
    hosts and editors read; all of them the gravest first.

    What was found is remembered outside the museum, in the user's cache folder, and used again only
    where nothing it rests on has changed.

    Exit code: 0 nothing found, 1 an error or a warning, 2 could not run.

    \b
    Example:
      witnessmark check decisions/quay-crane
      witnessmark check --shard 1/2 --format json > 1.json
      witnessmark check --merge 1.json 2.json
    """
    if merge:
        from witnessmark.cli.check_parts import merged

        _print(form, merged(paths), {}, most=most)
    asked = _Asked(
        *find_path(_only(paths)),
        jobs=jobs,
        part=shard,
        keeps=not no_cache,
        # Only --due asks for the day; without it --as-of stands so that scripts may give it.
        due=as_of if with_due else None,
        beside=_beside(due=with_due, past=with_past, pictures=with_looks, advice=with_advice),
    )
    if with_watch and form != "text":
        raise click.UsageError("--watch prints text only; leave --format out.")
    if with_watch:
        sys.exit(_watch(asked, most=most))
    _print(form, asked.look(), _Texts(asked.folder), most=most, part=shard)


def _beside(**asked: bool) -> frozenset[str]:
    return frozenset(name for name, is_asked in asked.items() if is_asked)


@dataclass(frozen=True)
class _Asked:
    """What is asked of each check: where, how, and what is told beside the faults."""

    folder: Path
    under: str
    jobs: int | None
    part: Part | None
    keeps: bool
    due: date | str | None
    beside: frozenset[str]

    def look(self) -> Answer:
        """What is found in the museum as it is now."""
        memory = memory_of(self.folder) if self.keeps else None
        whole = Request(self.folder, self.under, memory, self.jobs, self.part or WHOLE)
        answer = check_museum(whole)
        if not self.beside and not _has_mendable(answer):
            return answer
        from witnessmark.cli.check_beside import told_beside

        opened = open_museum(self.folder)
        told = told_beside(
            answer.checked, opened, under=self.under, beside=self.beside, day=self.due
        )
        return replace(answer, checked=told)


def _has_mendable(answer: Answer) -> bool:
    """True where `fix` may have a word to say, for which the whole museum has to be read."""
    if not answer.checked.diagnostics:
        return False
    from witnessmark.model.corrections import MENDABLE

    return any(one.code in MENDABLE for one in answer.checked.diagnostics)


def _watch(asked: _Asked, *, most: int) -> int:
    from witnessmark.cli.watching import Look, watch
    from witnessmark.repository.changes import changes

    def look() -> Look:
        return Look(asked.look().checked, _Texts(asked.folder))

    return watch(look, changes(asked.folder), say=click.echo, most=most)


def _only(paths: tuple[str, ...]) -> str:
    if len(paths) > 1:
        raise UnknownNameError(
            "Several paths are named.", remedy="Name one; a museum folder holds all its machines."
        )
    return paths[0] if paths else "decisions"


def _print(
    form: str, answer: Answer, texts: Mapping[str, str], *, most: int, part: Part | None = None
) -> None:
    """Print what was found, and end with the exit code that says whether there was anything."""
    if form == "text":
        print_found(answer.checked, texts, most=most)
    else:
        click.echo(_for_programs(form, answer, texts, part), nl=False)
    sys.exit(answer.checked.exit_code)


def _for_programs(form: str, answer: Answer, texts: Mapping[str, str], part: Part | None) -> str:
    """What was found in one of the formats that programs read; each is imported for itself."""
    checked = answer.checked
    if form == "json":
        from witnessmark.exchange.findings_json import findings_as_json

        told = findings_as_json(checked) | (_as_part(answer, part) if part else {})
        return json.dumps(told, indent=2, ensure_ascii=False) + "\n"
    if form == "junit":
        from witnessmark.exchange.findings_junit import findings_as_junit

        return findings_as_junit(checked, records=answer.records)
    if form == "sarif":
        from witnessmark.exchange.findings_sarif import findings_as_sarif

        sarif = findings_as_sarif(checked, texts=texts)
        return json.dumps(sarif, indent=2, ensure_ascii=False) + "\n"
    return _for_hosts(form, checked)


def _for_hosts(form: str, checked: Checked) -> str:
    from witnessmark.exchange import findings_hosts

    if form == "github":
        return findings_hosts.findings_for_github(checked)
    if form == "md":
        return findings_hosts.findings_as_markdown(checked)
    found = findings_hosts.findings_for_gitlab(checked)
    return json.dumps(found, indent=2, ensure_ascii=False) + "\n"


def _as_part(answer: Answer, part: Part) -> dict[str, Any]:
    """What the JSON of a part says beside its findings, so that parts are not mixed up."""
    return {
        "shard": f"{part.number}/{part.of}",
        "museum": answer.museum,
        "files": list(answer.records),
    }


class _Texts(Mapping[str, str]):
    """The text of the files that something is found in, read when it is quoted."""

    def __init__(self, museum: Path) -> None:
        self._top = museum.parent

    def __getitem__(self, file: str) -> str:
        from witnessmark.model.hygiene import decode
        from witnessmark.model.source import MOST_BYTES

        path = self._top / file
        if path.is_symlink() or not path.is_file():  # a pipe would never end
            raise KeyError(file)
        try:
            return decode(path.read_bytes(), limit=MOST_BYTES).written
        except OSError:
            raise KeyError(file) from None

    def __iter__(self) -> Iterator[str]:
        return iter(())

    def __len__(self) -> int:
        return 0


def print_text(checked: Checked, library: Library, *, most: int) -> None:
    """Print findings by file, the gravest first, then the count."""
    print_found(checked, texts_of(library), most=most)


def print_found(checked: Checked, texts: Mapping[str, str], *, most: int) -> None:
    """The same, with the text of each file by the name findings use."""
    for block in render_findings(checked.diagnostics, texts, most=most):
        click.echo(block)
    found = ", ".join(tally(checked.diagnostics)) or "nothing found"
    click.echo(f"{plural(checked.records, 'record')} read: {found}.")


def texts_of(library: Library) -> Mapping[str, str]:
    """The text of every file by the name diagnostics use."""
    shaped: list[Shaped[Any] | None] = [library.museum, library.people_file, library.stores_file]
    shaped += [*library.policy_files.values(), *library.machine_files.values()]
    shaped += [*library.finding_files.values(), *(entry.shaped for entry in library.decisions)]
    return {one.document.file: one.document.text for one in shaped if one}
