"""Record checks: a policy's weights are those of the people who were asked."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from witnessmark.model.diagnostics import Diagnostic, Level
from witnessmark.model.library import Library
from witnessmark.model.policy import Elicited, Pairs, Policy
from witnessmark.model.remains import Path
from witnessmark.model.spelling import hint
from witnessmark.model.words import Criterion, Kept
from witnessmark.rules.report import Report
from witnessmark.weighing.elicited import FIRST_SWING, consistency_of, reach_of, weights_of_swings
from witnessmark.weighing.option import Weights

_NOUGHT = Fraction(0)


def check_elicitation(library: Library) -> Iterator[Diagnostic]:
    """Swing answers are whole, and weights and ranges are inside what they said, or say why not."""
    for shaped in library.policy_files.values():
        if shaped.value is not None:
            report = Report(shaped)
            found = _of_policy(shaped.value, library, report)
            # Where a piece was dropped for a fault of shape, only that fault is told.
            yield from (each for each in found if not report.is_follow_on(each))


def _of_policy(policy: Policy, library: Library, report: Report) -> Iterator[Diagnostic]:
    yield from _answers(policy, library, report)
    for kept in policy.weights:
        yield from _agreed(policy, kept, report)
        yield from _left_out(policy, kept, report)


def _answers(policy: Policy, library: Library, report: Report) -> Iterator[Diagnostic]:
    for index, asked in enumerate(policy.elicited):
        path: Path = ("elicited", index)
        if asked.swings:
            yield from _swings(asked, (*path, "swings"), report)
            if library.people and asked.who not in library.people:
                meant = hint(asked.who, sorted(library.people))
                message = f'"{asked.who}" is not in the register of people.{meant}'
                yield report.at((*path, "who"), "WM032", message)
        if asked.pairs:
            yield from _pairs(asked.pairs, (*path, "pairs"), report)


def _swings(asked: Elicited, path: Path, report: Report) -> Iterator[Diagnostic]:
    missing = [criterion.value for criterion in Criterion if criterion not in asked.swings]
    if missing:
        message = f"{asked.who} gave no points to {' and '.join(missing)}; 0 is an answer too."
        yield report.at(path, "WM097", message, key=True)
    elif max(asked.swings.values()) != FIRST_SWING:
        message = f"{asked.who} gave {FIRST_SWING} points to none; the one lifted first has them."
        yield report.at(path, "WM097", message, key=True)


def _pairs(pairs: Pairs, path: Path, report: Report) -> Iterator[Diagnostic]:
    given = (
        pairs.authenticity_to_safety,
        pairs.authenticity_to_reversibility,
        pairs.safety_to_reversibility,
    )
    if min(given) <= 0:
        message = "Compared in pairs, one criterion matters more than 0 times as much as another."
        yield report.at(path, "WM097", message, key=True)
        return
    first, second, third = map(float, given)
    found = consistency_of(first_second=first, first_third=second, second_third=third)
    if not found.holds:
        message = (
            f"The answers in pairs do not hang together: their ratio is {found.ratio:.2f}, and 0.1"
            " is the most that is commonly allowed."
        )
        yield report.at(path, "WM097", message, level=Level.WARNING, key=True)


def _weights_of(policy: Policy, kept: Kept) -> Mapping[int, Weights]:
    """The weights of each person who gave whole swings for a way of keeping, by place in the list.

    Answers with a slip are left out here; the slip is said where it stands.
    """
    return {
        index: weights_of_swings(_in_order(asked))
        for index, asked in enumerate(policy.elicited)
        if set(asked.swings) == set(Criterion) and max(asked.swings.values()) == FIRST_SWING
        if not asked.kept_as or kept in asked.kept_as
    }


def _in_order(asked: Elicited) -> Weights:
    first, second, third = (asked.swings[criterion] for criterion in Criterion)
    return first, second, third


def _agreed(policy: Policy, kept: Kept, report: Report) -> Iterator[Diagnostic]:
    """Each agreed weight lies between the least and the greatest that people gave."""
    people = _weights_of(policy, kept)
    if not people:
        return
    reach = reach_of(people.values())
    for criterion, (least, greatest) in zip(Criterion, reach, strict=True):
        weight = policy.weights[kept].get(criterion, _NOUGHT)
        if not least <= weight <= greatest:
            message = (
                f"{kept.value}: the weight of {criterion.value} is {_shown(weight)}, and the people"
                f" asked gave from {_shown(least)} to {_shown(greatest)}."
            )
            # A criterion left out of the weights has no line of its own.
            path: Path = ("weights", kept.value)
            if criterion in policy.weights[kept]:
                path = (*path, criterion.value)
            yield report.at(path, "WM097", message, key=True)


def _left_out(policy: Policy, kept: Kept, report: Report) -> Iterator[Diagnostic]:
    """Each person's weights lie in the policy's ranges, or it is said why they do not."""
    ranges = policy.ranges.get(kept, {})
    for index, weights in _weights_of(policy, kept).items():
        asked = policy.elicited[index]
        for criterion, weight in zip(Criterion, weights, strict=True):
            least, greatest = ranges.get(criterion, (_NOUGHT, Fraction(1)))
            if not least <= weight <= greatest and asked.because is None:
                message = (
                    f"{kept.value}: {asked.who} gives {criterion.value} {_shown(weight)}, outside"
                    f" its range of {_shown(least)} to {_shown(greatest)}, and no because says why."
                )
                path: Path = ("elicited", index, "swings", criterion.value)
                yield report.at(path, "WM097", message, key=True)


def _shown(weight: Fraction) -> str:
    """A weight to three decimals at most."""
    return f"{float(weight):.3f}".rstrip("0").rstrip(".")
