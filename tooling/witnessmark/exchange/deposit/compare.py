"""An earlier deposit held against the records of today: what is new, changed and gone."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from witnessmark.exchange.deposit.bag import PAYLOAD, damaged, info_in
from witnessmark.exchange.deposit.kit import Sort
from witnessmark.model.differences import Difference, differences, settled
from witnessmark.model.files import DECISION_FILE
from witnessmark.model.judgement import plain
from witnessmark.model.source import read

_RECORDS = f"{PAYLOAD}records/"
_BESIDE = frozenset({"agreed", "reckoned"})
"""What is told by its own means: seals apart, and figures that follow from the rest."""


@dataclass(frozen=True)
class Old:
    """A deposit as it was found, every file by its path in the bag."""

    files: Mapping[str, bytes]

    @property
    def info(self) -> Mapping[str, str]:
        """What its bag-info.txt says."""
        return info_in(self.files)

    @property
    def sort(self) -> Sort | None:
        """Which deposit it is; None where it is none of ours."""
        said = self.info.get("Deposit-Sort")
        return Sort(said) if said in set(Sort) else None

    @property
    def records(self) -> dict[str, bytes]:
        """Its records by path below records/."""
        found = self.files.items()
        return {p.removeprefix(_RECORDS): raw for p, raw in found if p.startswith(_RECORDS)}


@dataclass(frozen=True)
class Changed:
    """One decision whose record is another, and where; `differences` may be empty for remarks."""

    id: str
    title: str
    differences: tuple[Difference, ...]


@dataclass(frozen=True)
class SealGone:
    """A seal that no longer matches: that of the old deposit, that of today, and what is wrong."""

    decision: str
    role: str
    then: str | None
    now: str | None
    says: str


@dataclass(frozen=True)
class Compared:
    """All that differs; decisions by id and title, other records by path."""

    new: tuple[tuple[str, str], ...]
    changed: tuple[Changed, ...]
    gone: tuple[tuple[str, str], ...]
    seals: tuple[SealGone, ...]
    others: tuple[tuple[str, str], ...]
    damaged: tuple[str, ...]

    @property
    def needs_a_person(self) -> bool:
        """True when a decision is gone, a seal does not match, or the old deposit is damaged."""
        return bool(self.gone or self.seals or self.damaged)


@dataclass(frozen=True)
class _Record:
    """A decision as it lies in a deposit."""

    id: str
    raw: bytes
    data: Any

    @property
    def title(self) -> str:
        withheld = self._of("publish")
        kept_back = isinstance(withheld, dict) and "withheld" in withheld
        return str(self._of("title") or ("withheld" if kept_back else "it has no title"))

    @property
    def seals(self) -> dict[str, str]:
        agreed = self._of("agreed")
        rows = [a for a in agreed if isinstance(a, dict)] if isinstance(agreed, list) else []
        return {str(row.get("role")): str(row.get("seal")) for row in rows}

    def _of(self, name: str) -> Any:  # noqa: ANN401  whatever stands there
        return self.data.get(name) if isinstance(self.data, dict) else None


def compare_deposits(
    old: Old, records: Mapping[str, bytes], *, unfit: Collection[tuple[str, str]]
) -> Compared:
    """What differs between an old deposit and the records a new one of its sort would hold.

    `unfit` are the agreements of today, by decision and role, whose seal the judgement does not
    fit.
    """
    then, now = _decisions(old.records), _decisions(records)
    return Compared(
        new=tuple((name, now[name].title) for name in sorted(now.keys() - then.keys())),
        changed=tuple(_changed(then, now)),
        gone=tuple((name, then[name].title) for name in sorted(then.keys() - now.keys())),
        seals=tuple(_seals(then, now, unfit)),
        others=tuple(_others(old.records, records)),
        damaged=damaged(old.files),
    )


def _decisions(records: Mapping[str, bytes]) -> dict[str, _Record]:
    found = {}
    for path, raw in sorted(records.items()):
        if match := DECISION_FILE.fullmatch(path):
            name = match["id"]
            found[name] = _Record(name, raw, plain(read(path, raw).data))
    return found


def _changed(then: Mapping[str, _Record], now: Mapping[str, _Record]) -> Iterator[Changed]:
    for name in sorted(then.keys() & now.keys()):
        before, after = then[name], now[name]
        if before.raw == after.raw:
            continue
        told = differences(settled(_told(before.data)), settled(_told(after.data)))
        yield Changed(name, after.title, tuple(told))


def _told(data: Any) -> Any:  # noqa: ANN401  plain data
    if not isinstance(data, dict):
        return data
    return {name: value for name, value in data.items() if name not in _BESIDE}


def _seals(
    then: Mapping[str, _Record], now: Mapping[str, _Record], unfit: Collection[tuple[str, str]]
) -> Iterator[SealGone]:
    for name, after in now.items():
        before = then[name].seals if name in then else {}
        for role in sorted({*before, *after.seals}):
            was, is_now = before.get(role), after.seals.get(role)
            if (name, role) in unfit:
                says = "The judgement of today does not fit the seal in the record."
                yield SealGone(name, role, was, is_now, says)
            elif was is not None and is_now is None:
                yield SealGone(name, role, was, None, "The agreement is no longer in the record.")
            elif was not in (None, is_now):
                yield SealGone(name, role, was, is_now, "The record bears another seal.")


def _others(then: Mapping[str, bytes], now: Mapping[str, bytes]) -> Iterator[tuple[str, str]]:
    for path in sorted({*then, *now}):
        if DECISION_FILE.fullmatch(path) or then.get(path) == now.get(path):
            continue
        yield path, "new" if path not in then else "gone" if path not in now else "changed"
