"""What the public may see across decisions: like cases, other policies, and how alike we judge."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from witnessmark.weighing.agreement.alpha import Metric
from witnessmark.weighing.agreement.kappa import Slip


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicPrecedent:
    """An earlier published decision that is near, or that this one names.

    `likeness` runs from 0 to 1, None where nothing could be compared; `coverage` is the share of
    what is compared that both records hold. `how` is what this decision makes of it.
    """

    decision: str
    title: str
    machine_name: str
    chosen: str
    likeness: Fraction | None
    coverage: Fraction
    word: str
    alike_in: tuple[str, ...]
    how: str
    because: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicReplay:
    """One past decision under another policy: each option by its letter and title.

    `then` and `now` are all options that lead; None where nothing could be weighed.
    """

    decision: str
    title: str
    machine_name: str
    policy: str
    chosen: str
    then: tuple[str, ...] | None
    now: tuple[str, ...] | None

    @property
    def is_changed(self) -> bool:
        """True when other options lead under the other policy."""
        return self.then != self.now


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicReplays:
    """Every published decision of another policy, weighed anew under this one, in order of id."""

    policy: str
    title: str | None
    decisions: tuple[PublicReplay, ...]

    @property
    def changed(self) -> tuple[PublicReplay, ...]:
        """The decisions that other options would lead."""
        return tuple(found for found in self.decisions if found.is_changed)

    @property
    def unchanged(self) -> tuple[PublicReplay, ...]:
        """The decisions that come out the same."""
        return tuple(found for found in self.decisions if not found.is_changed)


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicLikeness:
    """How alike people judged the same values, in figures that name nobody.

    `too_few` says so where the figures rest on too little; then nothing else should be read from
    them. None stands for a figure that has no meaning here.
    """

    decisions: int
    units: int
    ratings: int
    raters: int
    raw: Fraction | None
    alpha: tuple[tuple[Metric, Fraction | None], ...]
    kappa: tuple[tuple[Slip, Fraction | None], ...]
    interval: tuple[Fraction, Fraction] | None
    method: str | None
    too_few: str | None
    cautions: tuple[str, ...]
