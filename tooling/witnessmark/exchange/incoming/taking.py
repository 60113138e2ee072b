"""What becomes of every row: where it goes, or why it is left out; nothing is written here."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from witnessmark.errors import RefusedError
from witnessmark.exchange.incoming.cells import LeftOutError
from witnessmark.exchange.incoming.column_map import ColumnMap, mapped
from witnessmark.exchange.incoming.table import Row, Table
from witnessmark.model.diagnostics import Diagnostic, Level
from witnessmark.model.library import Folder, Library, assemble
from witnessmark.model.remains import Path
from witnessmark.rules.check import check
from witnessmark.rules.correcting import SEALS
from witnessmark.rules.rulebook import RuleBook

BLANKS = frozenset({"WM072", "WM073"})
"""What a draft may still lack; each blank is named instead."""


@dataclass(frozen=True)
class Placed:
    """Where a row goes: a file below the museum, a path in it, and what to call it.

    `is_into_old` is true where it joins a group that was there, on which an agreement may rest.
    """

    file: str
    path: Path
    told: str
    blanks: tuple[str, ...] = ()
    is_into_old: bool = False

    @property
    def folder(self) -> str:
        """The machine's folder."""
        return self.file.partition("/")[0]


@dataclass(frozen=True)
class Account:
    """One row's account: where it goes, or the reason why it is left out."""

    number: int
    placed: Placed | None
    reason: str = ""


@dataclass(frozen=True)
class Taken:
    """The account of every row, the files as they would be, and what a check says of them."""

    rows: tuple[Account, ...]
    texts: Mapping[str, str]
    warned: tuple[Diagnostic, ...] = ()


@dataclass
class Bench:
    """The files as they become while row after row is laid in; `library` stays as it was."""

    library: Library
    found: ColumnMap
    source: str
    texts: dict[str, str] = field(default_factory=dict)


Lay = Callable[[Bench, Row, Mapping[str, str]], Placed]
"""Lays one row's fields into a bench and says where it went, or raises LeftOutError."""


def take(
    folder: Folder, table: Table, found: ColumnMap, *, lay: Lay, source: str, rulebook: RuleBook
) -> Taken:
    """Every row laid in, less those a check would then find an error in; those say why."""
    library = assemble(folder)
    before = {_key(one) for one in check(library, rulebook=rulebook).diagnostics}
    faults: dict[int, str] = {row.number: row.fault for row in table.rows if row.fault}
    for _ in range(len(table.rows) + 1):
        bench = Bench(library, found, source)
        rows = [_account(bench, row, lay, faults) for row in table.rows]
        new = _new_findings(folder, bench, before, rulebook)
        wrong = {
            account.number: f"{one.code}: {one.message} {one.fix}"
            for account in reversed(rows)
            for one in new
            if one.level is Level.ERROR and one.code not in BLANKS and _is_in(one, account, library)
        }
        wrong.update(_breaking(rows, new, library))
        if not wrong:
            said = (one for one in new if one.counts and one.code not in BLANKS)
            return Taken(tuple(rows), bench.texts, tuple(said))
        faults.update(wrong)
    return Taken((), {})


def _breaking(rows: list[Account], new: list[Diagnostic], library: Library) -> dict[int, str]:
    """Rows that join a group on which an agreement rests, where one would no longer stand."""
    void = {
        one.file.removeprefix(f"{library.root}/").partition("/")[0]
        for one in new
        if one.code in SEALS
    }
    return {
        row.number: "An agreement rests on this group as it is listed; nothing is added to it."
        for row in rows
        if row.placed and row.placed.is_into_old and row.placed.folder in void
    }


def _account(bench: Bench, row: Row, lay: Lay, faults: Mapping[int, str]) -> Account:
    if row.number in faults:
        return Account(row.number, None, faults[row.number])
    try:
        return Account(row.number, lay(bench, row, mapped(row, bench.found)))
    except LeftOutError as reason:
        return Account(row.number, None, str(reason))
    except RefusedError as refusal:
        return Account(row.number, None, str(refusal))


def _new_findings(
    folder: Folder, bench: Bench, before: set[tuple[str, ...]], rulebook: RuleBook
) -> list[Diagnostic]:
    files = {**folder.files, **{name: text.encode() for name, text in bench.texts.items()}}
    after = assemble(Folder(folder.name, files, folder.names, folder.refused))
    found = check(after, rulebook=rulebook).diagnostics
    return [one for one in found if _key(one) not in before]


def _key(one: Diagnostic) -> tuple[str, ...]:
    return one.file, one.code, one.field, one.message


def _is_in(one: Diagnostic, account: Account, library: Library) -> bool:
    placed = account.placed
    if placed is None or one.file != f"{library.root}/{placed.file}":
        return False
    return one.path[: len(placed.path)] == placed.path
