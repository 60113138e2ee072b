"""Work done, for a terminal and for programs; hours and money are for the house alone."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import Any

from witnessmark.exchange.escapes import one_line
from witnessmark.exchange.text_table import folded, render_table
from witnessmark.model.words import DoneBy
from witnessmark.rules.work_done import Against, Job, Lesson, SecondLook, Side, Taken

NONE = "-"
NUMBERS = frozenset({2, 4, 6})


def render_work(done: Sequence[Job], compared: Sequence[Side], *, currency: str) -> str:
    """The jobs in a table, the places they were done in side by side, and what came of them."""
    if not done:
        return "No work has ended yet."
    return "\n".join(
        [
            *_table(done, currency),
            "",
            *(line for side in compared for line in folded(_side(side))),
            *_not_told(done),
            "",
            *(line for job in done for line in _after(job)),
        ]
    ).rstrip()


def _table(done: Sequence[Job], currency: str) -> list[str]:
    heading = ("decision", "ended", "days", "where", "hours", "thought", currency, "thought")
    rows = [
        (
            job.decision,
            str(job.ended),
            str(job.days),
            job.done_by.value if job.done_by else NONE,
            _number(job.hours),
            _thought(job.hours_taken),
            _number(job.cost),
            _thought(job.cost_taken),
        )
        for job in done
    ]
    return render_table(heading, rows, numbers=NUMBERS)


def _number(value: Fraction | None) -> str:
    return NONE if value is None else f"{float(value):g}"


def _thought(taken: Taken | None) -> str:
    """The range that was thought, with a word where what it took lies outside it."""
    if taken is None:
        return NONE
    thought = f"{_number(taken.least)} to {_number(taken.most)}"
    return thought if taken.against is Against.WITHIN else f"{thought}, {taken.against.value}"


def _side(side: Side) -> str:
    told = [f"{side.done_by.value}: {side.jobs} done, {side.departed} otherwise than planned"]
    for name, known, over, ratio in (
        ("hours", side.hours_known, side.hours_over, side.hours_ratio),
        ("cost", side.cost_known, side.cost_over, side.cost_ratio),
    ):
        if ratio is not None:
            times = f"{float(ratio):.2f} times the middle of its estimate"
            told.append(f"{name} over the estimate in {over} of {known}, the middle job {times}")
    return "; ".join(told) + "."


def _not_told(done: Sequence[Job]) -> Iterator[str]:
    """How many jobs tell too little to be compared."""
    blank = [job.decision for job in done if job.hours_taken is None]
    if blank:
        text = f"No hours to compare in {len(blank)} of {len(done)}: {', '.join(blank)}."
        yield from folded(text)
    places = {job.done_by for job in done}
    if not {DoneBy.IN_HOUSE, DoneBy.SENT_OUT} <= places:
        yield "In-house and sent-out work cannot be compared yet: one of them has no job."


def _after(job: Job) -> Iterator[str]:
    """What was done otherwise, and what each second look found."""
    if not job.departures and not job.looks:
        return
    yield from folded(one_line(f"{job.decision} {job.title}"))
    for text in job.departures:
        yield from folded(one_line(f"done otherwise: {text}"), indent="  ", rest="    ")
    for look in job.looks:
        yield from folded(one_line(_look(look)), indent="  ", rest="    ")


def _look(look: SecondLook) -> str:
    told = f"{look.day}: {look.says}"
    if look.against is None or look.expected is None:
        return told
    ends = " to ".join(look.expected)
    words = (
        "as expected" if look.against is Against.WITHIN else f"{look.against.value} than expected"
    )
    return f"{told} Measured {look.measured}, {words} ({ends})."


def render_lessons(decision: str, found: Sequence[Lesson]) -> str:
    """What earlier jobs have to say to one decision."""
    if not found:
        return f"No earlier work has anything to say to {decision}."
    return "\n".join(line for one in found for line in _lesson(one))


def _lesson(one: Lesson) -> Iterator[str]:
    yield from folded(one_line(f"{one.job.decision} ({one.tie.value}) {one.job.title}"))
    for text in one.says or ("It went as planned, and nobody has looked again.",):
        yield from folded(one_line(text), indent="  ", rest="    ")


def work_as_json(done: Sequence[Job], compared: Sequence[Side], *, currency: str) -> dict[str, Any]:
    """The jobs and the places they were done in as plain data; exact numbers as text."""
    return {
        "currency": currency,
        "jobs": [_job_data(job) for job in done],
        "places": [_side_data(side) for side in compared],
    }


def lessons_as_json(decision: str, found: Sequence[Lesson]) -> dict[str, Any]:
    """The lessons for one decision as plain data."""
    return {
        "decision": decision,
        "lessons": [
            {"decision": one.job.decision, "tie": one.tie.value, "says": list(one.says)}
            for one in found
        ],
    }


def _job_data(job: Job) -> dict[str, Any]:
    return {
        "decision": job.decision,
        "machine": job.machine,
        "started": job.started.isoformat(),
        "ended": job.ended.isoformat(),
        "days": job.days,
        "done_by": job.done_by.value if job.done_by else None,
        "hours": _taken_data(job.hours, job.hours_taken),
        "cost": _taken_data(job.cost, job.cost_taken),
        "departures": list(job.departures),
        "outcomes": [
            {
                "date": look.day.isoformat(),
                "what": look.says,
                "measured": look.measured,
                "expected": list(look.expected) if look.expected else None,
                "against": look.against.value if look.against else None,
            }
            for look in job.looks
        ],
    }


def _taken_data(done: Fraction | None, taken: Taken | None) -> dict[str, Any]:
    return {
        "done": _exact(done),
        "thought": [_exact(taken.least), _exact(taken.most)] if taken else None,
        "against": taken.against.value if taken else None,
    }


def _side_data(side: Side) -> dict[str, Any]:
    return {
        "done_by": side.done_by.value,
        "jobs": side.jobs,
        "departed": side.departed,
        "hours": {
            "known": side.hours_known,
            "over": side.hours_over,
            "median_ratio": _exact(side.hours_ratio),
        },
        "cost": {
            "known": side.cost_known,
            "over": side.cost_over,
            "median_ratio": _exact(side.cost_ratio),
        },
    }


def _exact(value: Fraction | None) -> str | None:
    return None if value is None else str(value)
