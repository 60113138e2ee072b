"""A ranking that flips: who leads now, which change did it, and at which score it flips back."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property

from witnessmark.errors import WitnessmarkError
from witnessmark.model.words import Criterion
from witnessmark.scoring.matrix882 import cell_words
from witnessmark.scoring.score import one_decimal
from witnessmark.weighing.case import Case, accepted_option, bare_options, weighting_of
from witnessmark.weighing.changes.change import Change, Kind
from witnessmark.weighing.floors import below_a_floor
from witnessmark.weighing.leading import who_leads
from witnessmark.weighing.option import Option, Range
from witnessmark.weighing.weighting import Weighting

_STEP = {
    Criterion.AUTHENTICITY: Fraction(1, 10),
    Criterion.SAFETY: Fraction(1),
    Criterion.REVERSIBILITY: Fraction(1),
}
"""How finely the score of flipping back is looked for: as finely as it is shown."""

_SAFETY = list(Criterion).index(Criterion.SAFETY)


@dataclass(frozen=True)
class Standing:
    """What decides who leads: bare scores, who is shut out, whose risk is accepted, the weights."""

    options: Mapping[str, Option]
    shut: frozenset[str]
    accepted: str | None
    weighting: Weighting

    @cached_property
    def under(self) -> Mapping[str, str]:
        """Options below a floor and not accepted, each with the reason."""
        found = below_a_floor(self.options.values(), floors=self.weighting.floors)
        return {
            name: why
            for name, why in found.items()
            if name != self.accepted or self.options[name].likelies[1] == 0
        }

    @property
    def leaders(self) -> tuple[str, ...]:
        """The option or options that lead; none where nobody is left."""
        aside = self.shut | set(self.under)
        running = [option for name, option in self.options.items() if name not in aside]
        return who_leads(running, weighting=self.weighting).winner if running else ()

    def with_score(self, option: str, place: int, level: Fraction) -> Standing:
        """The same with one likely score at another level."""
        scores = list(self.options[option].scores)
        scores[place] = Range.certain(level)
        first, second, third = scores
        changed = Option(option, (first, second, third))
        return replace(self, options={**self.options, option: changed})


def standing_of(case: Case) -> Standing | None:
    """What decides who leads in a case; None while it cannot be weighed."""
    if case.ground is None:
        return None
    try:
        weighting = weighting_of(case.ground.policy, case.ground.kept)
    except WitnessmarkError:
        return None
    options = {option.id: option for option in bare_options(case.scores)}
    shut = {o.id for o in case.decision.options if o.ruled_out or o.misses_aim}
    return Standing(options, frozenset(shut), accepted_option(case.decision), weighting)


def ranking_changes(before: Case, after: Case) -> Iterator[Change]:
    """The flip of a decision's ranking, if its leader is no longer the same."""
    was, now = before.winners, after.winners
    if was == now:
        return
    record = after.decision.id
    titles = {
        option.id: option.title for case in (before, after) for option in case.decision.options
    }
    if not was:
        says = f"{_named(now)} leads; before, nothing did."
        yield Change.of(Kind.RANKING, record, "ranking", says, after=_named(now))
        return
    old, new = standing_of(before), standing_of(after)
    causes = tuple(_causes(before, after, old, new, was)) if old and new else ()
    yield Change.of(
        Kind.FLIP, record, "ranking", f"{_now(now, titles)}; it was {_titled(was, titles)}.",
        before=_named(was), after=_named(now), remarks=causes,
    )  # fmt: skip


def _titled(names: tuple[str, ...], titles: Mapping[str, str]) -> str:
    return " and ".join(f'{name} ("{titles.get(name, "")}")' for name in names)


def _now(now: tuple[str, ...], titles: Mapping[str, str]) -> str:
    if not now:
        return "Nothing leads any more"
    return f"{_titled(now, titles)} now {'lead together' if len(now) > 1 else 'leads'}"


def _named(names: tuple[str, ...]) -> str:
    return " and ".join(names)


def _causes(
    before: Case, after: Case, old: Standing, new: Standing, was: tuple[str, ...]
) -> Iterator[str]:
    """Each single change that, taken back, brings the old leader back; else all of them."""
    moved = list(_moved(old, new))
    told = 0
    for name, place in moved:
        level = old.options[name].likelies[place]
        if new.with_score(name, place, level).leaders == was:
            told += 1
            why = _cells(before, after, name) if place == _SAFETY else ""
            yield _cause(old, new, at=(name, place), was=was, why=why)
    if replace(new, weighting=old.weighting).leaders == was:
        told += 1
        yield "Cause: the policy's weights, floors or values of levels changed."
    if replace(new, shut=old.shut, accepted=old.accepted).leaders == was and (
        (old.shut, old.accepted) != (new.shut, new.accepted)
    ):
        told += 1
        yield f"Cause: another list of options set aside ({_shut(old, new)})."
    if not told:
        enough = list(_enough(moved, old, new, was))
        if enough:
            yield f"Cause: each of these alone is enough: {'; '.join(enough)}."
        else:
            yield f"Cause: several changes together ({'; '.join(_all(moved, old, new))})."


def _enough(
    moved: list[tuple[str, int]], old: Standing, new: Standing, was: tuple[str, ...]
) -> Iterator[str]:
    """The changes that each unseat the old leader without any of the others."""
    for name, place in moved:
        if old.with_score(name, place, new.options[name].likelies[place]).leaders != was:
            yield f"{list(Criterion)[place].value} of {name} {_arrow(old, new, name, place)}"
    if replace(old, weighting=new.weighting).leaders != was:
        yield "other weights, floors or values of levels"


def _moved(old: Standing, new: Standing) -> Iterator[tuple[str, int]]:
    for name in sorted(old.options.keys() & new.options.keys()):
        levels = zip(old.options[name].likelies, new.options[name].likelies, strict=True)
        yield from ((name, place) for place, (a, b) in enumerate(levels) if a != b)


def _shut(old: Standing, new: Standing) -> str:
    out = [f"{name} no longer" for name in sorted(old.shut - new.shut)]
    return ", ".join([*out, *(f"{name} newly" for name in sorted(new.shut - old.shut))])


def _all(moved: list[tuple[str, int]], old: Standing, new: Standing) -> Iterator[str]:
    for name, place in moved:
        yield f"{list(Criterion)[place].value} of {name} {_arrow(old, new, name, place)}"
    for name in sorted(new.options.keys() - old.options.keys()):
        yield f"{name} is new or newly scored"
    for name in sorted(old.options.keys() - new.options.keys()):
        yield f"{name} is gone or no longer scored"
    if old.weighting != new.weighting:
        yield "other weights, floors or values of levels"
    if old.shut != new.shut:
        yield f"set aside: {_shut(old, new)}"


def _arrow(old: Standing, new: Standing, name: str, place: int) -> str:
    first, second = old.options[name].likelies[place], new.options[name].likelies[place]
    return f"{one_decimal(first)} to {one_decimal(second)}"


def _cause(
    old: Standing, new: Standing, *, at: tuple[str, int], was: tuple[str, ...], why: str
) -> str:
    name, place = at
    criterion = list(Criterion)[place]
    floor = f" It is set aside: {new.under[name]}." if name in new.under else ""
    said = f"Cause: {criterion.value} of {name} {_arrow(old, new, name, place)}{why}.{floor}"
    back = flips_back_at(old, new, at=at, was=was)
    if back is None:
        return said
    side = "more" if back > new.options[name].likelies[place] else "less"
    return f"{said} Flips back if {criterion.value} of {name} is {one_decimal(back)} or {side}."


def flips_back_at(
    old: Standing, new: Standing, *, at: tuple[str, int], was: tuple[str, ...]
) -> Fraction | None:
    """The level nearest to today's at which the old leader leads again, in shown steps."""
    name, place = at
    level, target = new.options[name].likelies[place], old.options[name].likelies[place]
    step = _STEP[list(Criterion)[place]]
    up = target > level
    # Start on the scale's own marks, so that what is shown is what was tried.
    here = (level / step).__floor__() * step if up else -((-level / step).__floor__()) * step
    while (here < target) if up else (here > target):
        here = min(here + step, target) if up else max(here - step, target)
        if new.with_score(name, place, here).leaders == was:
            return here
    return None


def _cells(before: Case, after: Case, option: str) -> str:
    """The cells of the hazards that changed under an option, as the reason for its safety."""
    was = {r.hazard: r for r in before.scores[option].safety.residuals}
    found = []
    for residual in after.scores[option].safety.residuals:
        first = was.get(residual.hazard)
        if first and first.after != residual.after:
            now = cell_words(residual.after) if residual.after else "none"
            found.append(f"hazard {residual.hazard} {first.after or 'none'} to {now}")
    return f" ({'; '.join(found)})" if found else ""
