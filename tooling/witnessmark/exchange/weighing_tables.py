"""The figures of a weighing as small tables for a terminal, and what would change the result."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from witnessmark.exchange.text_table import folded, render_table
from witnessmark.scoring.score import one_decimal
from witnessmark.weighing.case import Case, bare_options, weighting_of
from witnessmark.weighing.option import CRITERIA
from witnessmark.weighing.outcome import Weighed
from witnessmark.weighing.stress import Stressed, best_worst_scores, stress_levels
from witnessmark.weighing.verdict import in_a_hundred
from witnessmark.weighing.weigh import Weighing

NUMBERS = frozenset({1, 2, 3, 4, 5})
ASIDE = "  "


def figures_of_options(case: Case) -> Iterator[str]:
    """Value, shares, chance, regret and standing of every option, the highest value first.

    Columns: the option's id, value, share of the policy's ranges, share of all weights, chance of
    being best, greatest regret, standing. Shares and chances are in 100.
    """
    if case.weighing is None:
        return
    heading = ["option", "value", "policy", "all", "chance", "regret", "standing"]
    ranked = sorted(case.weighing.options, key=_by_value)
    yield from render_table(heading, [_figures(one) for one in ranked], numbers=NUMBERS)
    yield from folded(
        "value: at the policy's weights. policy, all: in how many of 100 weightings that it allows,"
        " or of all there are, the option leads. chance: in 100, of being best, given the doubt in"
        " the scores. regret: the most value lost by it at any weighting the policy allows.",
        indent=ASIDE,
    )


def _by_value(option: Weighed) -> tuple[bool, Fraction, str]:
    """Options out of the running come last, though they may have a value."""
    return option.share_all is None, -(option.value or Fraction(0)), option.id


def _figures(option: Weighed) -> list[str]:
    return [
        option.id,
        "" if option.value is None else one_decimal(option.value),
        _hundredths(option.share_policy),
        _hundredths(option.share_all),
        _hundredths(option.chance_best),
        "" if option.regret is None else one_decimal(option.regret),
        _standing(option),
    ]


def _standing(option: Weighed) -> str:
    if option.dominated_by:
        # One that is as good throughout is enough; a long row of names would not fit the line.
        first, *others = option.dominated_by
        more = f" and {len(others)} more" if others else ""
        return f"{option.standing.value}; {first}{more} as good throughout"
    if option.tied_with:
        return f"{option.standing.value}, the same as {', '.join(option.tied_with)}"
    return option.standing.value


def _hundredths(share: Fraction | None) -> str:
    return "" if share is None else in_a_hundred(share).removesuffix(" in 100")


def what_would_change_it(case: Case) -> Iterator[str]:
    """Each weight's room, the smallest changes of a score, and the tests of the levels."""
    weighing = case.weighing
    if weighing is None:
        return
    yield from _stability(case, weighing)
    yield from _flips(weighing)
    yield from _levels(case, weighing)
    yield from _lifted(weighing)
    for caution in weighing.cautions:
        yield from ["", *folded(caution)]


def _is_contest(weighing: Weighing) -> bool:
    return sum(option.share_all is not None for option in weighing.options) > 1


def _stability(case: Case, weighing: Weighing) -> Iterator[str]:
    if weighing.stability is None or case.ground is None or not _is_contest(weighing):
        return
    weights = weighting_of(case.ground.policy, case.ground.kept).weights
    if weights is None:
        return
    yield ""
    yield "The result stays while one weight alone, the others in proportion, counts for"
    rows = [
        [criterion, _part(low), "to", _part(high), f"(now {_part(now)})"]
        for criterion, now, (low, high) in zip(CRITERIA, weights, weighing.stability, strict=True)
    ]
    yield from (f"{ASIDE}{line}" for line in render_table([""] * 5, rows)[1:])


def _part(weight: Fraction) -> str:
    """A weight to two decimals; one that lies off nought or one is never rounded to it."""
    shown = round(weight, 2)
    if shown in {0, 1} and shown != weight:
        return "under 0.01" if shown == 0 else "over 0.99"
    return f"{float(shown):.2f}"


def _flips(weighing: Weighing) -> Iterator[str]:
    if not weighing.flips:
        return
    yield ""
    yield "The smallest changes of one score after which another option leads:"
    rows = [
        [flip.option, flip.criterion, one_decimal(flip.before), "to", one_decimal(flip.after)]
        for flip in weighing.flips
    ]
    yield from (f"{ASIDE}{line}" for line in render_table([""] * 5, rows)[1:])


def _levels(case: Case, weighing: Weighing) -> Iterator[str]:
    """Whether the result leans on what the steps between levels are worth, or on trading at all."""
    if not weighing.winner or not _is_contest(weighing):
        return
    yield ""
    yield "Who leads if the steps between levels are worth something else:"
    rows = [[one.steps.in_words, _named(one.winner or ())] for one in stressed_of(case)]
    yield from (f"{ASIDE}{line}" for line in render_table(["", ""], rows)[1:])
    yield from folded(f"By its worst score alone, nothing traded: {_named(strongest_of(case))}.")
    yield from _order(weighing)


def _order(weighing: Weighing) -> Iterator[str]:
    """Which rivals cannot pass a leader by the order of the levels alone, and which could."""
    for winner in weighing.winner or ():
        behind = [t.rival for t in weighing.order_tests if t.winner == winner and t.holds]
        if behind:
            never = f"{_named(behind)} cannot pass {winner}"
            yield from folded(f"Whatever the steps are worth, {never}.")
    for test in weighing.order_tests:
        if test.level is not None:
            yield from folded(
                f"{test.rival} would pass {test.winner} if reaching level"
                f" {one_decimal(test.level)} were worth enough: it does so on"
                f" {_weight(test.rival_reaches)} of the weight, {test.winner} on"
                f" {_weight(test.winner_reaches)}."
            )


def _weight(reached: Fraction | None) -> str:
    return _part(reached or Fraction(0))


def _lifted(weighing: Weighing) -> Iterator[str]:
    if weighing.if_lifted:
        yield ""
    for lifted in weighing.if_lifted:
        verb = "would lead" if len(lifted.winners) == 1 else "would lead together"
        yield from folded(f"Were {lifted.option} not set aside, {_named(lifted.winners)} {verb}.")


def _named(names: tuple[str, ...] | list[str]) -> str:
    return " and ".join([", ".join(names[:-1]), names[-1]]) if len(names) > 1 else "".join(names)


def stressed_of(case: Case) -> tuple[Stressed, ...]:
    """How the options come out with other worths of the levels; nothing without a policy."""
    if case.weighing is None or case.ground is None:
        return ()
    weighting = weighting_of(case.ground.policy, case.ground.kept)
    return stress_levels(bare_options(case.scores), weighting=weighting, set_aside=case.aside)


def strongest_of(case: Case) -> tuple[str, ...]:
    """The options whose worst score is the best, those set aside left out."""
    if case.weighing is None:
        return ()
    return best_worst_scores(bare_options(case.scores), set_aside=case.aside)
