"""One weighing from end to end: who wins, how the others stand, and what would change it."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from types import MappingProxyType
from typing import Final

from witnessmark.errors import WitnessmarkError
from witnessmark.weighing.chance import chances_of_being_best
from witnessmark.weighing.field import Entrant, Field, line_up
from witnessmark.weighing.flips import Flip, smallest_flips
from witnessmark.weighing.nearest import Nearest, nearest_weights
from witnessmark.weighing.option import Option
from witnessmark.weighing.ordinal import OrderTest, order_tests
from witnessmark.weighing.outcome import Lifted, Weighed
from witnessmark.weighing.partition import Partition, dominators, partition_of, standing_of
from witnessmark.weighing.policy_region import bounds_never_reached, policy_region
from witnessmark.weighing.ranks import rank_acceptabilities
from witnessmark.weighing.regret import greatest_regrets
from witnessmark.weighing.simplex import ALL_WEIGHTS, Point, point_of
from witnessmark.weighing.stability import Interval, stability_intervals
from witnessmark.weighing.verdict import (
    Lead,
    Verdict,
    verdict_on_lead,
    verdict_on_tie,
    verdict_without_weighing,
)
from witnessmark.weighing.weighting import Weighting
from witnessmark.weighing.words import Standing

_NOBODY: Final[Mapping[str, str]] = MappingProxyType({})


@dataclass(frozen=True)
class _Scales:
    """What every figure is read from: the field, the policy, and the regions divided once."""

    field: Field
    weighting: Weighting

    @cached_property
    def at(self) -> Point | None:
        """Give the policy's weights as a point."""
        return None if self.weighting.weights is None else point_of(self.weighting.weights)

    @cached_property
    def winners(self) -> tuple[str, ...]:
        """Give the options with the highest value; none without weights."""
        return () if self.at is None else self.field.winners(self.at)

    @cached_property
    def all_weights(self) -> Partition:
        """Give all weights, divided among the options that lead there."""
        return partition_of(self.field, domain=ALL_WEIGHTS)

    @cached_property
    def policy(self) -> Partition | None:
        """Give the policy's ranges, divided in the same way."""
        ranges = self.weighting.ranges
        return None if ranges is None else partition_of(self.field, domain=policy_region(ranges))

    @cached_property
    def chances(self) -> Mapping[str, Fraction]:
        """Give each option's chance of being best; none without weights."""
        return {} if self.at is None else chances_of_being_best(self.field, at=self.at)

    @property
    def policy_or_all(self) -> Partition:
        """Give the divided policy region, or that of all weights where no ranges are given."""
        return self.policy or self.all_weights


@dataclass(frozen=True)
class Weighing:
    """Everything a weighing found; options are sorted by id.

    Without weights, what needs them is None or empty. `all_weights` and `policy` are the divided
    regions themselves, for drawing. Each figure is worked out when it is first asked for, since a
    check needs few of them; two weighings are equal when they weigh the same.
    """

    scales: _Scales
    aside: tuple[Option, ...]
    set_aside: Mapping[str, str]
    not_scored: tuple[str, ...]

    @property
    def winner(self) -> tuple[str, ...] | None:
        """Give every option with the highest value at the policy's weights."""
        return None if self.scales.at is None else self.scales.winners

    @property
    def all_weights(self) -> Partition:
        """Give all weights, divided among the options that lead there."""
        return self.scales.all_weights

    @property
    def policy(self) -> Partition | None:
        """Give the policy's ranges, divided in the same way."""
        return self.scales.policy

    @cached_property
    def options(self) -> tuple[Weighed, ...]:
        """Give how every option came out."""
        figures = [
            *_weighed(self.scales),
            *_weighed_aside(self.scales, self.aside, self.set_aside),
            *_unscored(self.not_scored, self.set_aside),
        ]
        return tuple(sorted(figures, key=lambda figure: figure.id))

    @cached_property
    def _flips(self) -> tuple[Flip, ...]:
        return smallest_flips(self.scales.field, weighting=self.scales.weighting)

    @property
    def flips(self) -> tuple[Flip, ...] | None:
        """Give the smallest changes of a score that change the winner."""
        return None if self.scales.at is None else self._flips

    @cached_property
    def verdict(self) -> Verdict | None:
        """Give how surely the winner leads, in a word."""
        return _verdict(self.scales, self._flips)

    @cached_property
    def stability(self) -> tuple[Interval, Interval, Interval] | None:
        """Give how far each weight may move before the winner changes."""
        return _stability(self.scales)

    @cached_property
    def if_lifted(self) -> tuple[Lifted, ...]:
        """Give, for each option set aside, who would win were it not."""
        return tuple(_lifted(self.scales, self.aside))

    @cached_property
    def order_tests(self) -> tuple[OrderTest, ...]:
        """Give each winner against each rival by the order of levels alone."""
        return order_tests(self.scales.field, weights=self.scales.weighting.weights)

    @cached_property
    def cautions(self) -> tuple[str, ...]:
        """Give what to beware of in the policy's numbers."""
        return tuple(_cautions(self.scales))

    def value_of(self, option: str) -> Fraction | None:
        """Give an option's value at the policy's weights; None where it has none."""
        at = self.scales.at
        for field in (self.scales.field, self._field_aside):
            for entrant in field.entrants:
                if entrant.id == option and at is not None:
                    return field.value(entrant, at=at)
        return None

    @cached_property
    def _field_aside(self) -> Field:
        return line_up(self.aside, weighting=self.scales.weighting)

    def of(self, option: str) -> Weighed:
        """Give how one option came out."""
        return next(weighed for weighed in self.options if weighed.id == option)


def weigh(
    options: Sequence[Option],
    *,
    weighting: Weighting,
    set_aside: Mapping[str, str] = _NOBODY,
    not_scored: Collection[str] = (),
) -> Weighing:
    """Weigh the options that are scored and not set aside.

    `set_aside` gives a reason for each option ruled out beforehand, `not_scored` names the options
    with a score missing; neither moves any figure of the others.

    Raises:
        WitnessmarkError: an option is named twice or not at all.

    """
    _refuse_muddled(options, set_aside, not_scored)
    running = [option for option in options if option.id not in set_aside]
    return Weighing(
        scales=_Scales(line_up(running, weighting=weighting), weighting),
        aside=tuple(option for option in options if option.id in set_aside),
        set_aside=set_aside,
        not_scored=tuple(not_scored),
    )


def _weighed(scales: _Scales) -> Iterator[Weighed]:
    """Give the figures of every option in the running."""
    field, policy = scales.field, scales.policy
    ranks = rank_acceptabilities(field, domain=ALL_WEIGHTS)
    regrets = {} if policy is None else greatest_regrets(field, domain=policy.domain)
    for entrant in field.entrants:
        name = entrant.id
        territory = scales.all_weights.of(name)
        dominated_by = dominators(entrant, field=field)
        yield Weighed(
            id=name,
            standing=standing_of(
                territory, is_winner=name in scales.winners, dominated_by=dominated_by
            ),
            value=None if scales.at is None else field.value(entrant, at=scales.at),
            dominated_by=dominated_by,
            tied_with=tuple(other for other in territory.members if other != name),
            share_all=territory.share,
            share_policy=None if policy is None else policy.of(name).share,
            central_weights=scales.policy_or_all.of(name).central_weights,
            chance_best=scales.chances.get(name),
            regret=regrets.get(name),
            ranks=ranks[name],
            nearest=_nearest(scales, entrant),
        )


def _nearest(scales: _Scales, entrant: Entrant) -> Nearest | None:
    region = scales.all_weights.of(entrant.id).region
    weights = scales.weighting.weights
    if weights is None or region.is_empty or entrant.id in scales.winners:
        return None
    return nearest_weights(region, start=weights)


def _weighed_aside(
    scales: _Scales, aside: Sequence[Option], reasons: Mapping[str, str]
) -> Iterator[Weighed]:
    """Give what is shown of the options set aside: their value, and why they are."""
    field = line_up(aside, weighting=scales.weighting)
    for entrant in field.entrants:
        yield Weighed(
            id=entrant.id,
            standing=Standing.SET_ASIDE,
            set_aside=reasons[entrant.id],
            value=None if scales.at is None else field.value(entrant, at=scales.at),
        )


def _unscored(not_scored: Collection[str], reasons: Mapping[str, str]) -> Iterator[Weighed]:
    for name in not_scored:
        yield Weighed(id=name, standing=Standing.NOT_SCORED, set_aside=reasons.get(name))


def _stability(scales: _Scales) -> tuple[Interval, Interval, Interval] | None:
    if scales.at is None or not scales.field.entrants:
        return None
    return stability_intervals(scales.field, at=scales.at)


def _verdict(scales: _Scales, flips: tuple[Flip, ...]) -> Verdict | None:
    left = tuple(entrant.id for entrant in scales.field.entrants)
    early = verdict_without_weighing(left)
    if early or scales.at is None:
        return early
    if len(scales.winners) > 1:
        return verdict_on_tie(scales.winners, weighed=len(left))
    (winner,) = scales.winners
    territory = scales.policy_or_all.of(winner)
    lead = Lead(
        winner=winner,
        share=territory.share,
        throughout=territory.region == scales.policy_or_all.domain,
        chance=scales.chances.get(winner) or Fraction(0),
        least_steps=min((flip.steps for flip in flips), default=None),
    )
    return verdict_on_lead(lead, weighting=scales.weighting, weighed=len(left))


def _lifted(scales: _Scales, aside: Sequence[Option]) -> Iterator[Lifted]:
    """Give, in order of id, what each exclusion costs; nothing where there are no weights."""
    if scales.at is None:
        return
    running = [entrant.option for entrant in scales.field.entrants]
    for option in sorted(aside, key=lambda option: option.id):
        field = line_up([*running, option], weighting=scales.weighting)
        yield Lifted(option.id, field.winners(scales.at))


def _cautions(scales: _Scales) -> Iterator[str]:
    weights, ranges = scales.weighting.weights, scales.weighting.ranges
    if ranges is not None and scales.policy is not None:
        yield from bounds_never_reached(ranges, region=scales.policy.domain)
    if weights is not None and ranges is not None:
        pairs = zip(weights, ranges, strict=True)
        if any(not least <= weight <= greatest for weight, (least, greatest) in pairs):
            yield "The policy's weights lie outside its own ranges."
    if weights is not None and 1 in weights:
        yield "One weight is the whole; moving it shares what it loses equally among the others."


def _refuse_muddled(
    options: Sequence[Option], set_aside: Mapping[str, str], not_scored: Collection[str]
) -> None:
    names = [option.id for option in options] + list(not_scored)
    for name in sorted(names):
        if names.count(name) > 1:
            raise WitnessmarkError(
                f"The option {name} stands twice.", remedy="Give every option a name of its own."
            )
    for name in sorted(set_aside):
        if name not in names:
            raise WitnessmarkError(
                f"{name} is set aside but is not one of the options.",
                remedy="Name an option, or leave it out.",
            )
