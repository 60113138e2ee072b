"""Reviews of the small museum of the tests, without git: two folders as values, compared."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

from building import GONE, NOTHING, Changes, changed, folder, museum
from witnessmark.exchange.review import Review, Side, review_of, side_of, sides_of
from witnessmark.model.library import Folder
from witnessmark.repository.versions import Version
from witnessmark.rules.rulebook import RuleBook
from witnessmark.rules.rulebook_check import load_shipped
from witnessmark.weighing.case import work_out
from witnessmark.weighing.seals import seals_of


def on_top(before: Mapping[str, object], after: Mapping[str, object]) -> Mapping[str, object]:
    """Both changes; what the first puts in and the second takes out is not there at all."""
    gone = {path for path, value in after.items() if value is GONE and path in before}
    return {path: value for path, value in {**before, **after}.items() if path not in gone}


@cache
def rulebook() -> RuleBook:
    return load_shipped()


@cache
def few_rules() -> RuleBook:
    """Some rules that have been there from the start, so that golden files outlive new ones."""
    kept = {"WM104", "WM130", "WM132", "WM150", "WM151", "WM160"}
    return RuleBook(tuple(rule for rule in load_shipped().rules if rule.code in kept))


def side(files: Folder, *, label: str, rules: RuleBook | None = None) -> Side:
    return side_of(Version(label, files), rulebook=rules or rulebook(), allowed_signers=None)


def review(
    changes: Changes = NOTHING,
    *,
    before: Changes = NOTHING,
    also: dict[str, str] | None = None,
    also_before: dict[str, str] | None = None,
    without: tuple[str, ...] = (),
    rules: RuleBook | None = None,
) -> Review:
    """What changed from the base museum with `before` to the same with `changes` on top."""
    merged = {file: on_top(before.get(file, {}), changes.get(file, {})) for file in
              {*before, *changes}}  # fmt: skip
    there = also_before or {}
    old = folder(changes=before, also=there)
    new = folder(changes=merged, also={**there, **(also or {})}, without=without)
    return review_of(*both(old, new, rules=rules))


def both(base: Folder, head: Folder, *, rules: RuleBook | None = None) -> tuple[Side, Side]:
    """Two museums as `review` reads them, what they have alike once."""
    versions = Version("base", base), Version("head", head)
    return sides_of(*versions, rulebook=rules or rulebook(), allowed_signers=None)


def agreed(text: str, *, file: str) -> str:
    """A decision of the small museum with two agreements whose seals hold."""
    library = museum(also={file: changed(text, {"agreed": _signatures("-", "-")})})
    entry = next(entry for entry in library.decisions if entry.file.endswith(file))
    record = entry.shaped.document.data
    assert entry.value is not None
    assert isinstance(record, dict)
    seals = seals_of(work_out(entry.value, entry.machine, library), library, record)
    assert seals is not None
    return changed(text, {"agreed": _signatures(*seals)})


def _signatures(seal: str, words: str) -> list[dict[str, str]]:
    both = {"date": "2024-03-02", "seal": seal, "words": words}
    return [
        {"role": "collections", "by": "curator", **both},
        {"role": "engineering", "by": "engineer", **both},
    ]


def kinds(found: Review) -> set[str]:
    return {change.kind.value for change in found.changes}


def needing(found: Review) -> set[str]:
    return {change.kind.value for change in found.needs}
