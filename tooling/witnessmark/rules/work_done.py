"""Work done over the museum: what it took against what was thought, and what came of it.

Counts and medians of a handful of jobs; nothing is inferred from them, and none of it is public.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from statistics import median

from witnessmark.model.decision import Decision, Outcome
from witnessmark.model.library import Library
from witnessmark.model.quantity import QuantityFault, convert, parse_quantity
from witnessmark.model.words import DoneBy, State, Word


class Against(Word):
    """How what happened lies to what was thought beforehand."""

    LESS = "less", "Less than the least that was thought."
    WITHIN = "within", "Between the least and the most that was thought."
    MORE = "more", "More than the most that was thought."


@dataclass(frozen=True)
class Taken:
    """What a job took of hours or money, and the least and the most that was thought."""

    done: Fraction
    least: Fraction
    most: Fraction

    @property
    def against(self) -> Against:
        """Where it lies to the range that was thought."""
        return _against(self.done, self.least, self.most)

    @property
    def ratio(self) -> Fraction | None:
        """What it took over the middle of the range; None where that is nothing."""
        middle = (self.least + self.most) / 2
        return self.done / middle if middle else None


@dataclass(frozen=True)
class SecondLook:
    """What a second look found, and how the measured size lies to what was expected."""

    day: date
    says: str
    measured: str | None
    expected: tuple[str, str] | None
    against: Against | None


@dataclass(frozen=True, kw_only=True)
class Job:
    """One piece of ended work, with the option it was done under.

    `done_by` is as written for the work, or else as the option had it; `hours` and `cost` are as
    done, and `hours_taken` and `cost_taken` hold them against the estimate where there is one.
    """

    decision: str
    machine: str
    title: str
    started: date
    ended: date
    done_by: DoneBy | None
    hours: Fraction | None
    cost: Fraction | None
    hours_taken: Taken | None
    cost_taken: Taken | None
    departures: tuple[str, ...]
    looks: tuple[SecondLook, ...]

    @property
    def days(self) -> int:
        """Days of the calendar from the first to the last, both counted."""
        return (self.ended - self.started).days + 1


@dataclass(frozen=True, kw_only=True)
class Side:
    """The jobs done in one place, together: how many, and how they lay to what was thought.

    `hours_ratio` and `cost_ratio` are medians of done over thought, of `hours_known` and
    `cost_known` jobs; None where there are none.
    """

    done_by: DoneBy
    jobs: int
    departed: int
    hours_known: int
    hours_over: int
    hours_ratio: Fraction | None
    cost_known: int
    cost_over: int
    cost_ratio: Fraction | None


class Tie(Word):
    """Why an earlier job has something to say to a decision."""

    FOLLOWED = "followed", "The decision follows it."
    DEPARTED = "departed-from", "The decision departs from it."
    REPLACED = "replaced", "The decision replaces it."
    SAME_PART = "same-part", "It was about the same part."


@dataclass(frozen=True)
class Lesson:
    """One earlier job with something to learn from: why it is named, and what happened there."""

    job: Job
    tie: Tie
    says: tuple[str, ...]


def jobs(library: Library) -> tuple[Job, ...]:
    """All work that has ended, in the order in which it ended."""
    found = (_job(entry.machine, entry.value) for entry in library.decisions if entry.value)
    return tuple(sorted((job for job in found if job), key=lambda job: (job.ended, job.decision)))


def sides(done: Sequence[Job]) -> tuple[Side, ...]:
    """The jobs by where they were done, in the order of the words; empty sides left out."""
    found = ((where, [job for job in done if job.done_by is where]) for where in DoneBy)
    return tuple(_side(where, mine) for where, mine in found if mine)


def lessons(library: Library, decision: Decision, *, machine: str) -> tuple[Lesson, ...]:
    """What earlier jobs have to say to a decision: departures, overruns, and what came of them."""
    found = []
    for job in jobs(library):
        other = library.by_id[job.decision].value
        tie = _tie(decision, machine, job, other) if other else None
        if tie:
            found.append(Lesson(job, tie, tuple(_says(job))))
    return tuple(sorted(found, key=lambda one: (list(Tie).index(one.tie), one.job.ended)))


def _job(machine: str, decision: Decision) -> Job | None:
    work = decision.work
    if work is None or work.ended is None or decision.state not in {State.DONE, State.REPLACED}:
        return None
    effort = decision.chosen.effort if decision.chosen else None
    departures = work.departures if isinstance(work.departures, tuple) else (work.departures,)
    return Job(
        decision=decision.id,
        machine=machine,
        title=decision.title,
        started=work.started,
        ended=work.ended,
        done_by=work.done_by or (effort.done_by if effort else None),
        hours=work.hours,
        cost=work.cost,
        hours_taken=_taken(work.hours, effort.hours if effort else None),
        cost_taken=_taken(work.cost, effort.cost if effort else None),
        departures=tuple(text for text in departures if text != "none"),
        looks=tuple(_look(outcome) for outcome in decision.outcomes),
    )


def _taken(done: Fraction | None, thought: tuple[Fraction, Fraction] | None) -> Taken | None:
    return None if done is None or thought is None else Taken(done, min(thought), max(thought))


def _look(outcome: Outcome) -> SecondLook:
    return SecondLook(
        outcome.date, outcome.what, outcome.measured, outcome.expected, _of_sizes(outcome)
    )


def _of_sizes(outcome: Outcome) -> Against | None:
    """How a measured size lies to what was expected; None where either cannot be read."""
    if outcome.measured is None or outcome.expected is None:
        return None
    try:
        measured = parse_quantity(outcome.measured)
        ends = [convert(parse_quantity(end), measured.unit) for end in outcome.expected]
        return _against(convert(measured, measured.unit), min(ends), max(ends))
    except QuantityFault:
        return None


def _against(done: Fraction, least: Fraction, most: Fraction) -> Against:
    if done < least:
        return Against.LESS
    return Against.MORE if done > most else Against.WITHIN


def _side(where: DoneBy, mine: Sequence[Job]) -> Side:
    hours = [job.hours_taken for job in mine if job.hours_taken]
    cost = [job.cost_taken for job in mine if job.cost_taken]
    return Side(
        done_by=where,
        jobs=len(mine),
        departed=sum(bool(job.departures) for job in mine),
        hours_known=len(hours),
        hours_over=sum(taken.against is Against.MORE for taken in hours),
        hours_ratio=_median(hours),
        cost_known=len(cost),
        cost_over=sum(taken.against is Against.MORE for taken in cost),
        cost_ratio=_median(cost),
    )


def _median(taken: Sequence[Taken]) -> Fraction | None:
    ratios = [one.ratio for one in taken if one.ratio is not None]
    return median(ratios) if ratios else None


def _tie(decision: Decision, machine: str, job: Job, other: Decision) -> Tie | None:
    if job.decision == decision.id or job.ended >= decision.reference_day:
        return None
    if job.decision in decision.follows:
        return Tie.FOLLOWED
    if job.decision in {one.decision for one in decision.departs_from}:
        return Tie.DEPARTED
    if job.decision == decision.replaces:
        return Tie.REPLACED
    is_same = machine == job.machine and not set(decision.about).isdisjoint(other.about)
    return Tie.SAME_PART if is_same else None


def _says(job: Job) -> Iterator[str]:
    """What happened that was not thought of, and what the last look found."""
    yield from job.departures
    for name, taken in (("hours", job.hours_taken), ("cost", job.cost_taken)):
        if taken and taken.against is not Against.WITHIN:
            thought = f"{float(taken.least):g} to {float(taken.most):g}"
            yield f"The {name} came to {float(taken.done):g}; {thought} was thought."
    for look in job.looks[-1:]:
        if look.against and look.expected:
            ends = " to ".join(look.expected)
            yield f"Measured {look.measured}; {ends} was expected."
        yield look.says
