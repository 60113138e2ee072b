"""The seal of a worked-out decision, and the figures `sign` writes beside it."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from typing import Any

from witnessmark.model.judgement import Facts, digest, judgement_of, plain, seal_of, words_seal_of
from witnessmark.model.library import Library
from witnessmark.model.prose import words_of
from witnessmark.model.words import Do
from witnessmark.scoring.score import Score, Scored
from witnessmark.weighing.case import Case


def facts_of(case: Case, library: Library) -> Facts | None:
    """What the judgement takes from machine, findings, stock and policy; None without a ground."""
    ground = case.ground
    if ground is None:
        return None
    decision = case.decision
    found = [library.finding(case.machine_id, name) for name in decision.findings]
    drawn = {
        step.source
        for option in decision.options
        for step in option.steps
        if step.do is Do.FIT_OLD_STOCK
    }
    return Facts(
        machine=case.machine_id,
        kept=ground.kept.value,
        carried_by=ground.machine.significance.carried_by,
        scope=ground.scope,
        findings=[finding for finding in found if finding],
        lots=[library.lots[lot] for lot in sorted(filter(None, drawn)) if lot in library.lots],
        policy=ground.policy_id,
        policy_digest=_policy_digest(library, ground.policy_id),
    )


@lru_cache(maxsize=64)
def _policy_digest(library: Library, policy: str) -> str:
    """The digest of a policy as written, which every judgement under it rests on."""
    return digest(plain(library.policy_files[policy].document.data))


def seals_of(case: Case, library: Library, record: Mapping[str, Any]) -> tuple[str, str] | None:
    """The seal of the judgement and the digest of the words; None without a ground.

    `record` is the record's data as written, for the words.
    """
    facts = facts_of(case, library)
    if facts is None:
        return None
    return seal_of(judgement_of(case.decision, facts)), words_seal_of(words_of(record))


def reckoned_of(case: Case, *, program: str) -> dict[str, Any]:
    """The figures of a decision as `reckoned` keeps them: exact, as text."""
    options = {name: _row(case, name) for name in case.scores}
    verdict = case.weighing.verdict if case.weighing else None
    return {
        "program": program,
        "options": options,
        "winner": list(case.winners),
        "verdict": verdict.word.value if verdict else "none",
        "worksheets": {
            sheet.used.id: (sheet.verdict.verdict or "none") if sheet.run else "not reckoned"
            for sheet in case.sheets
        },
    }


def _row(case: Case, name: str) -> dict[str, Any]:
    row: dict[str, Any] = {
        criterion.value: _range(score) for criterion, score in case.scores[name].criteria.items()
    }
    value = case.weighing.value_of(name) if case.weighing else None
    return row | {"value": "none" if value is None else str(value)}


def _range(score: Scored) -> list[str] | str:
    if isinstance(score, Score):
        return [str(score.low), str(score.likely), str(score.high)]
    return "withheld"
