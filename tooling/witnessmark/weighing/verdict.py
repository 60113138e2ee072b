"""The word for how sure a result is, and the sentence that says what kept it from a surer one."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from witnessmark.weighing.weighting import Weighting
from witnessmark.weighing.words import VerdictWord


@dataclass(frozen=True, slots=True)
class Verdict:
    """A verdict, the reason for it in a sentence, and how many options were weighed."""

    word: VerdictWord
    because: str
    weighed: int


@dataclass(frozen=True, slots=True)
class Lead:
    """What speaks for a sole winner.

    `share` is how much of the policy's ranges it wins (of all weights, where a policy gives no
    ranges), `throughout` whether that leaves nothing out, and `least_steps` the fewest whole
    steps of one score that would unseat it, None where none can.
    """

    winner: str
    share: Fraction | None
    throughout: bool
    chance: Fraction
    least_steps: int | None


def verdict_without_weighing(options_left: tuple[str, ...]) -> Verdict | None:
    """Give the verdict where there is nothing to weigh, otherwise None."""
    if not options_left:
        return Verdict(
            VerdictWord.NONE_LEFT, "Every option was set aside or could not be scored.", 0
        )
    if len(options_left) == 1:
        because = f"Only {options_left[0]} is left, so nothing was weighed against it."
        return Verdict(VerdictWord.ONLY_ONE_LEFT, because, 1)
    return None


def verdict_on_tie(winners: tuple[str, ...], *, weighed: int) -> Verdict:
    """Give the verdict where several options have the highest value."""
    names = f"{', '.join(winners[:-1])} and {winners[-1]}"
    because = f"{names} have exactly the same value at the policy's weights."
    return Verdict(VerdictWord.TIED, because, weighed)


def verdict_on_lead(lead: Lead, *, weighting: Weighting, weighed: int) -> Verdict:
    """Give the verdict on a sole winner: firm, holds or close."""
    doubts = _doubts(lead, weighting=weighting)
    chance = f"its chance of being the best is {in_a_hundred(lead.chance)}"
    if lead.chance < weighting.holds_chance:
        wanted = in_a_hundred(weighting.holds_chance)
        because = f"{lead.winner} is ahead, but {chance}, and the policy asks for {wanted}."
        return Verdict(VerdictWord.CLOSE, because, weighed)
    if doubts:
        because = f"{lead.winner} is ahead, but {'; '.join(doubts)}."
        return Verdict(VerdictWord.HOLDS, because, weighed)
    because = (
        f"{lead.winner} is best at every weight the policy allows, {chance}, and no one-step"
        " change of a score unseats it."
    )
    return Verdict(VerdictWord.FIRM, because, weighed)


def _doubts(lead: Lead, *, weighting: Weighting) -> list[str]:
    """Give each condition of firm that fails, as the end of a sentence."""
    doubts = []
    if not lead.throughout:
        region = "the policy's ranges" if weighting.ranges else "all weights (no ranges are given)"
        share = in_a_hundred(lead.share) if lead.share else "no more than the edge"
        doubts.append(f"it is best on {share} of {region}, not throughout")
    if lead.chance < weighting.firm_chance:
        chance, wanted = in_a_hundred(lead.chance), in_a_hundred(weighting.firm_chance)
        doubts.append(f"its chance of being the best is {chance}, and firm asks for {wanted}")
    if lead.least_steps == 1:
        doubts.append("one score changed by one step would make another option win")
    return doubts


def in_a_hundred(share: Fraction) -> str:
    """Give a share in words, never rounded to nothing or to everything.

    >>> in_a_hundred(Fraction(100, 117)), in_a_hundred(Fraction(1, 900)), in_a_hundred(Fraction(1))
    ('85 in 100', 'under 1 in 100', '100 in 100')
    """
    hundreds = share * 100
    if 0 < hundreds < 1:
        return "under 1 in 100"
    if 99 < hundreds < 100:  # noqa: PLR2004 - the word hundred is the unit here
        return "over 99 in 100"
    # Halves go up, as a reader expects.
    return f"{int(hundreds + Fraction(1, 2))} in 100"
