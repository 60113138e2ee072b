"""A decision worked out: worksheets, scores and weighing, from the record to the verdict."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from witnessmark.errors import WitnessmarkError
from witnessmark.model.decision import Decision
from witnessmark.model.library import Library
from witnessmark.model.options import Option as WrittenOption
from witnessmark.model.policy import Policy
from witnessmark.model.words import Criterion, Kept
from witnessmark.scoring.risk import SheetVerdict
from witnessmark.scoring.score import Score
from witnessmark.scoring.scores import Ground, OptionScores, ground_of, score_decision
from witnessmark.scoring.sheets import Reckoned, reckon_sheets
from witnessmark.weighing.floors import below_a_floor
from witnessmark.weighing.option import Option, Range
from witnessmark.weighing.weigh import Weighing, weigh
from witnessmark.weighing.weighting import EVEN_STEPS, Weighting

NOTHING_ASIDE: Mapping[str, tuple[str, ...]] = {}


@dataclass(frozen=True)
class Case:
    """One decision with everything reckoned from it.

    `ground`, `scores` and `weighing` are empty or None while machine or policy cannot be read.
    `aside` gives, per option set aside, every reason.
    """

    decision: Decision
    machine_id: str
    sheets: tuple[Reckoned, ...]
    ground: Ground | None
    scores: Mapping[str, OptionScores]
    aside: Mapping[str, tuple[str, ...]]
    weighing: Weighing | None

    @property
    def winners(self) -> tuple[str, ...]:
        """The option or options with the highest value; none while nothing can be weighed."""
        return (self.weighing.winner or ()) if self.weighing else ()


def work_out(decision: Decision, machine_id: str, library: Library) -> Case:
    """Reckon a decision from its record and the museum around it."""
    scored = score_out(decision, machine_id, library)
    ground, scores = scored.ground, scored.scores
    if ground is None:
        return scored
    bare = bare_options(scores)
    try:
        weighting = _weighting(library, decision.policy, ground.kept)
    except WitnessmarkError:
        return scored
    aside = _set_aside(decision, bare, weighting)
    weighing = weigh(
        bare,
        weighting=weighting,
        set_aside={name: "; ".join(why) for name, why in aside.items()},
        not_scored=sorted(scores.keys() - {option.id for option in bare}),
    )
    return Case(decision, machine_id, scored.sheets, ground, scores, aside, weighing)


def score_out(decision: Decision, machine_id: str, library: Library) -> Case:
    """Reckon the scores of a decision and leave them unweighed."""
    sheets = reckon_sheets(decision)
    ground = ground_of(decision, machine_id, library)
    if ground is None:
        return Case(decision, machine_id, sheets, None, {}, NOTHING_ASIDE, None)
    verdicts: tuple[SheetVerdict, ...] = tuple(sheet.verdict for sheet in sheets)
    scores = score_decision(decision, ground=ground, library=library, sheets=verdicts)
    return Case(decision, machine_id, sheets, ground, scores, NOTHING_ASIDE, None)


def bare_options(scores: Mapping[str, OptionScores]) -> list[Option]:
    """The options with all three scores as bare numbers; one with a score missing is left out."""
    return [option for each in scores.values() if (option := _bare(each)) is not None]


def _bare(scores: OptionScores) -> Option | None:
    """The three ranges as bare numbers, or None while one of them is withheld."""
    ranges = []
    for criterion in Criterion:
        score = scores.criteria[criterion]
        if not isinstance(score, Score):
            return None
        ranges.append(Range(score.low, score.likely, score.high))
    first, second, third = ranges
    return Option(scores.id, (first, second, third))


@lru_cache(maxsize=64)
def _weighting(library: Library, policy: str, kept: Kept) -> Weighting:
    """A policy's numbers, looked through once for all decisions that were taken under it."""
    return weighting_of(library.policies[policy], kept)


def weighting_of(policy: Policy, kept: Kept) -> Weighting:
    """A policy's numbers for one way of keeping.

    Raises:
        WitnessmarkError: the policy has no weights for it, or they do not hold together.
    """
    weights = policy.weights.get(kept)
    if weights is None:
        raise WitnessmarkError(
            f"The policy has no weights for machines kept {kept.value}.",
            remedy="Add them under weights.",
        )
    ranges, floors = policy.ranges.get(kept), policy.floors.get(kept, {})
    nought, one = Fraction(0), Fraction(1)
    a, s, r = (weights.get(criterion, nought) for criterion in Criterion)
    bounds = None
    if ranges is not None:
        low, mid, high = (ranges.get(criterion, (nought, one)) for criterion in Criterion)
        bounds = (low, mid, high)
    fa, fs, fr = (floors.get(criterion) for criterion in Criterion)
    return Weighting(
        weights=(a, s, r),
        ranges=bounds,
        floors=(fa, fs, fr),
        level_values=EVEN_STEPS if policy.level_values == EVEN_STEPS else policy.level_values,
        firm_chance=policy.verdict.firm_chance,
        holds_chance=policy.verdict.holds_chance,
    )


def _set_aside(
    decision: Decision, options: list[Option], weighting: Weighting
) -> Mapping[str, tuple[str, ...]]:
    under = below_a_floor(options, floors=weighting.floors)
    accepted = accepted_option(decision)
    scored = {option.id: option for option in options}
    reasons = {}
    for option in decision.options:
        why = list(_shut_out(option))
        if option.id in under and not _is_accepted(scored[option.id], accepted):
            why.append(under[option.id])
        if why:
            reasons[option.id] = tuple(why)
    return reasons


def accepted_option(decision: Decision) -> str | None:
    """The option whose low safety somebody accepts for a time."""
    if decision.accepted_risk is None:
        return None
    chosen = decision.choice.option if decision.choice else None
    return decision.accepted_risk.option or chosen


def _is_accepted(option: Option, accepted: str | None) -> bool:
    """A risk can be accepted below the floor, never where it is High (safety 0)."""
    return option.id == accepted and option.scores[1].likely > 0


def _shut_out(option: WrittenOption) -> list[str]:
    why = []
    if option.ruled_out:
        why.append(f"ruled out by {option.ruled_out.by.value}: {option.ruled_out.because}")
    if option.misses_aim:
        why.append(f"misses the aim: {option.misses_aim}")
    return why
