"""How the figures of a decision came about, each answer said once for all options that share it."""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import TypeVar

from witnessmark.model.words import Aspect, Criterion, Phase
from witnessmark.publish.public_decision import PublicAnswer, PublicDecision, PublicOption
from witnessmark.publish.shown_names import listed

T = TypeVar("T", bound=Hashable)
_COUNTS = ("", "", "Both", "All three", "All four", "All five", "All six", "All seven", "All eight")
MOST_ON_A_CARD = 3
"""So many parts that stay are named on an option's card; more are counted and named below."""


@dataclass(frozen=True, slots=True)
class Reason:
    """One answer and which options give it; `level` is empty where the answer holds its own."""

    who: str
    level: str
    because: str
    by: str | None = None


@dataclass(frozen=True, slots=True)
class AspectReasons:
    """The reasons for the levels of one aspect; `reckoned` when nobody judged them."""

    aspect: Aspect
    weight: Fraction
    is_reckoned: bool
    reasons: tuple[Reason, ...]


@dataclass(frozen=True, slots=True)
class Left:
    """What is left of a hazard under some options, and what was done about it."""

    who: str
    after: str
    because: str | None
    controls: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class HazardRow:
    """One hazard: what was there before, and what each option leaves of it."""

    what: str
    when: Phase
    before: str
    left: tuple[Left, ...]


def alike(answers: Sequence[tuple[str, T]]) -> Iterator[tuple[str, T]]:
    """Each answer once, in the order of the first to give it, with the letters of all who give it.

    >>> list(alike([("A", 4), ("B", 2), ("C", 4)])), list(alike([("A", 4), ("B", 4)]))
    ([('A and C', 4), ('B', 2)], [('Both', 4)])
    """
    found: dict[T, list[str]] = {}
    for letter, answer in answers:
        found.setdefault(answer, []).append(letter)
    for answer, letters in found.items():
        is_every = len(letters) == len(answers) and len(letters) > 1
        yield (_every(letters) if is_every else listed(letters)), answer


def _every(letters: Sequence[str]) -> str:
    return _COUNTS[len(letters)] if len(letters) < len(_COUNTS) else f"All {len(letters)}"


def only_judge(decision: PublicDecision) -> str | None:
    """Who judged every judged level, where that is one and the same."""
    found = {row.by for option in decision.options for row in option.aspects if row.by}
    return found.pop() if len(found) == 1 else None


def reasons_of(decision: PublicDecision) -> Iterator[AspectReasons]:
    """The reasons for every aspect, in the order of the aspects."""
    judge = only_judge(decision)
    for place, first in enumerate(decision.options[0].aspects):
        rows = [(o.letter, o.aspects[place]) for o in decision.options]
        reckoned = all(row.how == "computed" for _, row in rows)
        answers: list[tuple[str, tuple[str, str, str | None]]] = []
        for letter, row in rows:
            level = row.score.text if row.score else "does not apply"
            how = "" if row.how in {"judged", "computed"} or row.score is None else f", {row.how}"
            facts = (row.score.withheld or row.score.facts[-1:]) if row.score else ()
            because = " ".join(facts) if reckoned and facts else row.because
            by = row.by if row.by != judge else None
            answers.append((letter, ("" if reckoned else f"{level}{how}", because, by)))
        reasons = tuple(Reason(who, *answer) for who, answer in alike(answers))
        yield AspectReasons(first.aspect, first.weight, reckoned, reasons)


def figures_of(decision: PublicDecision, criterion: Criterion) -> Iterator[tuple[str, str]]:
    """How each option's score on a criterion was reckoned, hazards left out."""
    answers = [(o.letter, tuple(_facts(o, criterion))) for o in decision.options]
    for who, facts in alike(answers):
        if facts:
            yield who, " ".join(facts)


def _facts(option: PublicOption, criterion: Criterion) -> Iterable[str]:
    """The facts behind a score; hazards are listed by themselves, so they are not said twice."""
    score = option.score(criterion)
    if score is None:
        return ()
    hazards = tuple(answer.what for answer in option.answers)
    facts = score.facts if score.is_given else score.withheld
    return (f for f in facts if criterion is not Criterion.SAFETY or not f.startswith(hazards))


def stays_under(decision: PublicDecision) -> Iterator[tuple[str, tuple[str, ...]]]:
    """Which options leave which parts as they are, where they are too many for some card.

    Each part stands once, with the letters of all the options that leave it.
    """
    if all(len(o.untouched) <= MOST_ON_A_CARD for o in decision.options):
        return
    found: dict[str, list[str]] = {}
    for option in decision.options:
        for part in option.untouched:
            found.setdefault(part, []).append(option.letter)
    together: dict[tuple[str, ...], list[str]] = {}
    for part, letters in found.items():
        together.setdefault(tuple(letters), []).append(part)
    every = [option.letter for option in decision.options]
    for who, parts in sorted(together.items(), key=lambda row: (-len(row[0]), row[0])):
        yield _all_but(every, who), tuple(parts)


def _all_but(every: Sequence[str], letters: Sequence[str]) -> str:
    """Letters in a row, or those that are missing where these are fewer.

    >>> _all_but("ABCD", "ABC"), _all_but("ABCD", "AB"), _all_but("ABCD", "ABCD")
    ('All but D', 'A and B', 'All four')
    """
    missing = [letter for letter in every if letter not in letters]
    if not missing:
        return _every(letters) if len(letters) > 1 else letters[0]
    return f"All but {listed(missing)}" if len(missing) < len(letters) else listed(letters)


def hazards_of(decision: PublicDecision) -> Iterator[HazardRow]:
    """Every hazard once, with what each option leaves of it; every option answers all of them."""
    for place, first in enumerate(decision.options[0].answers if decision.options else ()):
        answers = [(o.letter, _left(o.answers[place])) for o in decision.options]
        rows = tuple(Left(who, *answer) for who, answer in alike(answers))
        yield HazardRow(first.what, first.when, first.before, rows)


def _left(answer: PublicAnswer) -> tuple[str, str | None, tuple[tuple[str, str], ...]]:
    after = "as before" if answer.after == answer.before else _short(answer)
    return after, answer.because, answer.controls


def _short(answer: PublicAnswer) -> str:
    """What is left, the harm not said again where it is the same as before.

    Both texts have the shape of `cell_in_full`: level, harm after a colon, likelihood after a
    semicolon; what has another shape stays as it is.
    """
    level, _, rest = answer.after.partition(": ")
    harm, _, likely = rest.partition("; ")
    is_same = bool(likely) and f": {harm}; " in answer.before
    return f"{level}: the same harm, {likely}" if is_same else answer.after
