"""Which score decides between the option that leads and one that is as good on the other two."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from witnessmark.publish.shown_names import listed
from witnessmark.scoring.score import one_decimal
from witnessmark.weighing.case import Case, bare_options
from witnessmark.weighing.option import CRITERIA, Option

_ON_OTHERS = len(CRITERIA) - 1


def what_decides(case: Case, *, names: Mapping[str, str]) -> str | None:
    """The one score that puts the leader before its nearest such rival; None where none does.

    A rival that is level or ahead on two of the three scores makes a visitor ask why it did not
    lead. One that is ahead somewhere comes first; of several the one worth most is named.
    """
    if case.weighing is None or len(case.winners) != 1:
        return None
    worth = {o.id: o.value for o in case.weighing.options if o.share_all is not None}
    running = [option for option in bare_options(case.scores) if worth.get(option.id) is not None]
    leader = next(option for option in running if option.id == case.winners[0])
    rivals = [option for option in running if len(_behind(option, leader)) == 1]
    if not rivals:
        return None
    first = [option for option in rivals if _behind(leader, option)] or rivals
    nearest = max(first, key=lambda option: worth[option.id] or Fraction(0))
    return _said(nearest, leader, names)


def _behind(option: Option, leader: Option) -> list[int]:
    """The places of the scores on which an option is behind, at the likely levels."""
    pairs = zip(option.scores, leader.scores, strict=True)
    return [place for place, (own, best) in enumerate(pairs) if own.likely < best.likely]


def _said(rival: Option, leader: Option, names: Mapping[str, str]) -> str:
    (place,) = _behind(rival, leader)
    first, second = names[leader.id], names[rival.id]
    held, wanted = (one_decimal(o.scores[place].likely) for o in (rival, leader))
    return (
        f"Between {first} and {second}, {CRITERIA[place]} decides: {second} is "
        f"{listed(_others(rival, leader, place))}, but has {held} on {CRITERIA[place]} against "
        f"{wanted}."
    )


def _others(rival: Option, leader: Option, place: int) -> Iterator[str]:
    """How a rival does on the two scores that speak for it or leave the matter open."""
    ahead, level = [], []
    for other, criterion in enumerate(CRITERIA):
        own, best = rival.scores[other].likely, leader.scores[other].likely
        if other == place:
            continue
        if own == best:
            level.append(criterion)
        else:
            shown = (one_decimal(own), one_decimal(best))
            more = f" ({shown[0]} against {shown[1]})" if shown[0] != shown[1] else ", just"
            ahead.append(f"{criterion}{more}")
    if ahead:
        yield f"ahead on {listed(ahead)}"
    if level:
        both = "both " if len(level) == _ON_OTHERS else ""
        yield f"level on {both}{listed(level)}"
