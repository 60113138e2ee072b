"""A deposit from a kit: every file of the bag by its path, the same bytes for the same kit."""

from __future__ import annotations

from collections.abc import Mapping

from witnessmark.exchange.deposit.bag import bag_of
from witnessmark.exchange.deposit.crate import crate_files, description_of
from witnessmark.exchange.deposit.kit import Kit
from witnessmark.exchange.deposit.readme import NAME, readme_of
from witnessmark.exchange.deposit.seals import seal_files

BUNDLE = "history.bundle"
AGENT = "Witnessmark"


def deposit_files(kit: Kit, *, levels: Mapping[str, tuple[str, ...]]) -> dict[str, bytes]:
    """The bag; `levels` are the meanings of the levels 0 to 4, for the explanation."""
    readme = readme_of(kit, levels=levels)
    payload = {**_payload(kit), NAME: readme}
    payload |= crate_files(kit, payload)
    return bag_of(payload, info=_info(kit), tags={NAME: readme})


def _payload(kit: Kit) -> dict[str, bytes]:
    history = {} if kit.history is None else {BUNDLE: kit.history}
    folders: tuple[tuple[str, Mapping[str, bytes]], ...] = (
        ("records", kit.records),
        ("rulebook", kit.rulebook),
        ("schema", kit.schemas),
        ("site", kit.site),
        ("reading", kit.readings),
        ("tables", kit.tables),
        ("seals", seal_files(kit)),
        ("history", history),
    )
    return {f"{folder}/{path}": raw for folder, held in folders for path, raw in held.items()}


def _info(kit: Kit) -> dict[str, str]:
    """Source: RFC 8493, 2.2.2 for the labels; Deposit-Sort and the two after it are our own."""
    told = {
        "Source-Organization": kit.museum,
        "External-Description": description_of(kit),
        "Bagging-Date": kit.day.isoformat(),
        "Bag-Software-Agent": f"{AGENT} {kit.program}",
        "Deposit-Sort": kit.sort.value,
    }
    if kit.revision:
        told["Deposit-Revision"] = kit.revision
    if kit.is_edited:
        told["Deposit-Edited"] = "some files held changes that were not filed yet"
    return told
