"""What `new` has to know for a decision: given as flags, looked up, or asked for."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date

import click

from witnessmark.cli.asking import given_or_asked, one_of
from witnessmark.cli.new_shown import render_known, render_precedents
from witnessmark.cli.opening import Opened
from witnessmark.cli.printing import visible
from witnessmark.errors import UnknownNameError
from witnessmark.model.library import Library
from witnessmark.model.machine import Machine
from witnessmark.model.meant import machine_names, meant, part_names
from witnessmark.model.question_sorts import SORTS, sort_of
from witnessmark.model.words import Basis, Grade, Kept, Kind, Role
from witnessmark.rules.answered import open_findings


@dataclass(frozen=True)
class Wanted:
    """A decision that is wanted, as far as it is known; None and nothing where it is not."""

    machine: str | None
    parts: tuple[str, ...]
    findings: tuple[str, ...]
    question: str | None
    aim: str | None
    aim_because: str | None
    title: str | None
    by: str | None
    sort: str | None
    options: tuple[str, ...]
    found: str | None
    basis: str | None
    grade: str | None
    kinds: tuple[tuple[Kind, str], ...] = ()


def ask_all(opened: Opened, wanted: Wanted, *, today: date, talks: bool) -> Wanted:
    """The same with every blank that somebody could fill filled, and every name resolved.

    Raises:
        UnknownNameError: a name leads nowhere, or what is needed is neither given nor asked.
    """
    library = opened.library
    machine = _machine(library, wanted.machine)
    whole = library.machines[machine]
    if talks:
        click.echo(visible(render_known(library, machine, on=today)))
    parts = _parts(whole, wanted.parts)
    wanted = replace(wanted, machine=machine, parts=parts)
    wanted = _with_findings(library, wanted, today=today, talks=talks)
    question = given_or_asked(
        wanted.question, "What has to be decided?", flag="--question", default=None
    )
    wanted = replace(wanted, question=question)
    wanted = _with_words(library, wanted, today)
    click.echo(visible(render_precedents(library, machine, wanted.parts, _kinds_of(wanted), today)))
    return replace(wanted, kinds=tuple(_with_options(wanted, whole, today, talks=talks)))


def _machine(library: Library, given: str | None) -> str:
    names = machine_names(library)
    only = next(iter(names)) if len(names) == 1 else None
    asked = given_or_asked(
        given, f"Which machine ({', '.join(names)})?", flag="--machine", default=only,
        fault_of=lambda answer: machine_fault(answer, names),
    )  # fmt: skip
    return meant(asked, names) or asked


def machine_fault(answer: str, names: dict[str, str]) -> str | None:
    """What is wrong with a machine's name, if anything."""
    if meant(answer, names):
        return None
    return f'There is no machine "{answer}" here. There are: {", ".join(names)}.'


def part_fault(answer: str, names: dict[str, str]) -> str | None:
    """What is wrong with a part's name, if anything."""
    if meant(answer, names):
        return None
    return (
        f'It is not clear which part "{answer}" is. There are: '
        f"{'; '.join(f'{name} ({address})' for address, name in names.items())}."
    )


def _parts(machine: Machine, given: Sequence[str]) -> tuple[str, ...]:
    names = part_names(machine)
    asked = [
        given_or_asked(one, "", flag="--part", fault_of=lambda answer: part_fault(answer, names))
        for one in given
    ]
    if not asked:
        said = given_or_asked(
            None, "Which part or parts (names or addresses, commas between)?", flag="--part",
            fault_of=lambda answer: next(_faults(answer, names), None),
        )  # fmt: skip
        asked = _split(said)
    return tuple(dict.fromkeys(meant(one, names) or one for one in asked))


def _faults(answer: str, names: dict[str, str]) -> Iterator[str]:
    for one in _split(answer):
        if fault := part_fault(one, names):
            yield fault


def _split(answer: str) -> list[str]:
    return [one.strip() for one in answer.split(",") if one.strip()]


def _with_findings(library: Library, wanted: Wanted, *, today: date, talks: bool) -> Wanted:
    """The findings it rests on: those given, else the open ones of its parts, else a new one."""
    machine = wanted.machine or ""
    log = [finding.id for finding in library.findings_of(machine)]
    for name in wanted.findings:
        if fault := one_of(log, what=f"finding of {machine}")(name):
            raise UnknownNameError(fault, remedy="Leave --finding out to take the open ones.")
    if wanted.findings or wanted.found:
        return wanted
    still = open_findings(library, machine, on=today)
    found = [one.finding.id for one in still if one.finding.part in wanted.parts]
    if found or not talks:
        return replace(wanted, findings=tuple(found))
    click.echo("No finding is open on that. A decision rests on what was found.")
    text = given_or_asked(None, "What was found (blank: none)?", flag="--found", default="")
    if not text:
        return wanted
    bases, grades = [w.value for w in Basis], [w.value for w in Grade]
    basis = given_or_asked(
        None, f"How is it known ({', '.join(bases)})?", flag="--basis", default="seen",
        fault_of=one_of(bases, what="such word as"),
    )  # fmt: skip
    grade = given_or_asked(
        None, f"How much does it press ({', '.join(grades)})?", flag="--grade", default="act",
        fault_of=one_of(grades, what="such word as"),
    )  # fmt: skip
    return replace(wanted, found=text, basis=basis, grade=grade)


def _with_words(library: Library, wanted: Wanted, today: date) -> Wanted:
    """Aim, proposer and sort."""
    aim = given_or_asked(
        wanted.aim, "What should it be able to do afterwards?", flag="--aim", default=""
    )
    why = given_or_asked(
        wanted.aim_because, "Why is that wanted?", flag="--aim-because", default=""
    )
    people = sorted(library.people)
    by = given_or_asked(
        wanted.by, f"Who proposes it ({', '.join(people)})?", flag="--by",
        default=_usual_proposer(library, today), fault_of=one_of(people, what="person"),
    )  # fmt: skip
    names = list(SORTS)
    guess = sort_of([wanted.question or "", *wanted.parts])
    sort = given_or_asked(
        wanted.sort, f"What sort of question ({', '.join(names)})?", flag="--sort", default=guess,
        fault_of=one_of(names, what="sort"),
    )  # fmt: skip
    return replace(wanted, aim=aim, aim_because=why, by=by, sort=sort)


def _usual_proposer(library: Library, today: date) -> str | None:
    """Whoever holds the workshop on that day, so that curator and engineer stay free to sign."""
    for role in (Role.WORKSHOP, Role.VOLUNTEER_LEAD, Role.ENGINEERING, Role.COLLECTIONS):
        for name, person in library.people.items():
            if person.holds(role, on=today):
                return name
    return None


def _kinds_of(wanted: Wanted) -> tuple[Kind, ...]:
    return SORTS[wanted.sort or "other"].kinds


def _with_options(
    wanted: Wanted, machine: Machine, today: date, *, talks: bool
) -> Iterator[tuple[Kind, str]]:
    """Leaving as found, then what was given or is usual, then standing still where it runs."""
    yield Kind.LEAVE_AS_FOUND, "Leave it as it is"
    given = [_kind_and_title(one) for one in wanted.options]
    if talks and not given:
        given = list(_asked_options(wanted))
    yield from given or [(kind, "") for kind in _kinds_of(wanted)]
    kinds = {kind for kind, _ in given}
    runs = machine.kept_on(today) is Kept.RUNNING
    if runs and not kinds & {Kind.STOP_RUNNING, Kind.RESTRICT_USE}:
        yield Kind.STOP_RUNNING, "Stop running it until something better is known"


def _asked_options(wanted: Wanted) -> Iterator[tuple[Kind, str]]:
    usual = ", ".join(kind.value for kind in _kinds_of(wanted))
    click.echo(f"What could be done, beside leaving it as it is? Usual here: {usual}.")
    click.echo(f"All kinds: {', '.join(kind.value for kind in Kind)}.")
    while True:
        said = given_or_asked(
            None, "Kind and a few words, as in `repair: Scrape it in` (blank: no more)",
            flag="--option", default="", fault_of=_option_fault,
        )  # fmt: skip
        if not said:
            return
        yield _kind_and_title(said)


def kind_meant(text: str) -> Kind | None:
    """The kind that is meant by a word or two."""
    found = meant(text, {kind.value: kind.value.replace("-", " ") for kind in Kind})
    return Kind.named(found) if found else None


def _option_fault(answer: str) -> str | None:
    kind = answer.partition(":")[0]
    if kind_meant(kind):
        return None
    return f'"{kind.strip()}" is no kind of option. The kinds are: {", ".join(Kind)}.'


def _kind_and_title(said: str) -> tuple[Kind, str]:
    kind = kind_meant(said.partition(":")[0])
    if kind is None:
        raise UnknownNameError(
            _option_fault(said) or "", remedy="Write --option 'KIND: a few words'."
        )
    return kind, said.partition(":")[2].strip()
